"""From a label to a question: which names to ask the sources, and what the lists here know of the genus.

Names in open nomenclature (sp., spp., aff., nr., trade forms) follow only their genus (contract section 4).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from namekeeper.evidence.interfaces import CommonNames, ScientificNames, UsageNotes
from namekeeper.evidence.statements import (
    Answer,
    Caution,
    CommonName,
    GenusRecord,
    Match,
    Reply,
    Successor,
    TaxonName,
    TradeForm,
)
from namekeeper.judging.change import genus_of, last_epithet, name_key, same_stem
from namekeeper.judging.common_words import equal_names
from namekeeper.records.specimen import NameEntry
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError
from namekeeper.words.gender import WordClass, agree, word_class_of
from namekeeper.words.parsing import parse_name

_HYBRID = re.compile(r"\s+hybrids?\b", re.IGNORECASE)
_NEW_SPECIES = re.compile(r"n\.|nov\.?|n\. ?sp\.", re.IGNORECASE)
_UNDETERMINED = re.compile(r"\b(?:sp|spp|aff|nr|near|indet|stet|affinis)\b", re.IGNORECASE)
_MOST_GENERA = 8  # a genus that was replaced more often is bad data


class LabelList(ScientificNames, UsageNotes, Protocol):
    """What a label needs of a list."""


@dataclass(frozen=True, slots=True)
class Question:
    """A name on a label, with all that may change its meaning.

    ``name`` is canonical ("Genus epithet", "Genus epithet subspecies"; only "Genus" where no species was given).
    ``parents`` are the canonical names of a hybrid's parents. ``genus_records`` holds the genus as the lists on this
    machine know it and every genus it leads to (see :func:`genera_of`); ``trade_forms`` the
    recorded forms of that name; ``cautions`` those of the taxon, for the name that a permit carries.
    ``namesakes``: names that lists have where the whole genus would take this one (see ``LabelFacts.taken_by``).
    ``successors``: what newer editions may have instead of the name, by an earlier edition on this machine.
    ``common``: what the lists here have the name for as a common name, where nobody has such a taxon in force.
    ``decided_once``: the keeper has kept or chosen this very name after its misuse was cleared up.
    """

    name: str
    authorship: str = ""
    label_date: PartialDate | None = None
    qualifier: str = ""
    trade_form: str = ""
    form: str = ""
    locality: str = ""
    decided_once: bool = False
    parents: tuple[str, ...] = ()
    genus_records: tuple[GenusRecord, ...] = ()
    trade_forms: tuple[TradeForm, ...] = ()
    cautions: tuple[Caution, ...] = ()
    word_class: WordClass = WordClass.UNDECIDED
    namesakes: tuple[TaxonName, ...] = ()
    successors: tuple[Successor, ...] = ()
    common: tuple[CommonName, ...] = ()


def known_here(plain: Question, lists: Sequence[LabelList]) -> Question:
    """The question with what the lists on this machine know of its genus, form and papers, whoever the author is."""
    genera = genera_of(plain, lambda genus: _known(found.genus(genus) for found in lists))
    words = _parts(plain.trade_form)
    forms = [form for found in lists for part in words for form in found.forms(genus_of(plain.name), part)]
    taxa = plain.parents or (plain.name,)
    cautions: list[Caution] = [caution for found in lists for caution in found.cautions((*taxa, *_led_to(taxa, found)))]
    question = replace(
        plain,
        genus_records=genera,
        trade_forms=tuple(dict.fromkeys(forms)),
        cautions=tuple(dict.fromkeys(cautions)),
        word_class=_word_class(plain.name, genera, lists),
    )
    namesakes = _namesakes(question, lists)
    return replace(question, namesakes=namesakes) if namesakes else question


def question_of(entry: NameEntry) -> Question:
    """The name on a label as a question of no date; what its text itself holds (cf., sp. "x", ×) counts too.

    A text that is no scientific name is asked as it stands: no source will know it.
    """
    text = _HYBRID.sub(" ", entry.name)
    try:
        read = parse_name(text)
    except InputError:
        return Question(" ".join(entry.name.split()), entry.authorship, qualifier=entry.qualifier, form=entry.form)
    crossed = read.hybrid or text != entry.name
    return Question(
        name=read.canonical,
        authorship=entry.authorship or str(read.authorship or ""),
        qualifier=entry.qualifier or read.qualifier or ("hybrid" if crossed else ""),
        trade_form=entry.trade_form or read.trade_form or ("" if _NEW_SPECIES.fullmatch(read.phrase) else read.phrase),
        form=entry.form,
        parents=tuple(_written_out(parent.canonical, read.parents[0].genus) for parent in read.parents),
    )


def _written_out(name: str, genus: str) -> str:
    """The second parent of a hybrid with its genus written out, where it is abbreviated to that of the first."""
    first, _, rest = name.partition(" ")
    return f"{genus} {rest}" if first.endswith(".") and genus.startswith(first[:-1]) else name


def what_to_ask(question: Question) -> tuple[str, ...]:
    """Canonical names to ask every source: the name; in open nomenclature also the genus; of a hybrid both parents."""
    if question.parents:
        return tuple(dict.fromkeys(question.parents))
    if is_open(question):
        return tuple(dict.fromkeys((question.name, genus_of(question.name))))
    return (question.name,)


def with_common_names(question: Question, heard: Sequence[Reply], lists: Sequence[CommonNames]) -> Question:
    """The question with what its name is as a common one, where no source leads from it to a name in force.

    A keeper's table may give "Rose hair" as the name. A sign of open nomenclature says that the word is a genus.
    """
    answers = (reply for reply in heard if isinstance(reply, Answer) and reply.asked == question.name)
    followed = any(said.match.speaks and said.targets for answer in answers for said in answer.statements)
    if followed or question.qualifier or question.trade_form or question.parents:
        return question
    common = (one for found in lists for one in equal_names(question.name, found))
    return replace(question, common=tuple(dict.fromkeys(common)))


def follow_up(name: str, replies: Sequence[Reply]) -> tuple[str, ...]:
    """Names in force that answers on ``name`` led to: asked too, they tell who rejects the new name."""
    asked = {reply.asked for reply in replies}
    targets = (
        target.name
        for reply in replies
        if isinstance(reply, Answer)
        for said in reply.statements
        if said.match.speaks
        for target in said.targets
    )
    return tuple(sorted({found for found in targets if found not in asked and name_key(found) != name_key(name)}))


def genera_of(question: Question, find: Callable[[str], Iterable[GenusRecord]]) -> tuple[GenusRecord, ...]:
    """The records of the genus (of each parent's genus) and of all genera it leads to as a whole."""
    waiting = [genus_of(name) for name in (question.parents or (question.name,))]
    found: dict[str, tuple[GenusRecord, ...]] = {}
    while waiting and len(found) < _MOST_GENERA:
        genus = waiting.pop(0)
        if genus not in found:
            found[genus] = tuple(find(genus))
            waiting += [to for record in found[genus] if record.moved_whole for to in record.moved_to]
    return tuple(record for records in found.values() for record in records)


def _parts(trade_form: str) -> tuple[str, ...]:
    """The names in a trade form: "Red" ("Chile Flame") holds two."""
    return tuple(part.strip() for part in re.split(r'["()“”/]', trade_form) if part.strip())


def _led_to(names: Sequence[str], known: LabelList) -> tuple[str, ...]:
    """Names in force of these names: papers and cautions may be recorded under either."""
    return tuple(target.name for name in names for said in known.named(name) for target in said.targets)


def _word_class(name: str, genera: Sequence[GenusRecord], lists: Sequence[LabelList]) -> WordClass:
    """The class of the epithet, asked only where a combination may have to be computed."""
    epithet = last_epithet(name)
    if not epithet or not any(record.moved_whole for record in genera):
        return WordClass.UNDECIDED
    told = next((known for found in lists if (known := found.word_class(epithet))), None)
    return WordClass(told) if told in set(WordClass) else WordClass.UNDECIDED


def _namesakes(question: Question, lists: Sequence[LabelList]) -> tuple[TaxonName, ...]:
    """Listed names equal to the combination that may have to be computed."""
    genus = genus_in_force(genus_of(question.name), question.genus_records)
    if not genus or is_open(question):
        return ()
    name = computed_name(question, genus).name
    told = (said for found in lists for said in found.named(name) if said.match in (Match.SAME, Match.ENDING))
    return tuple(dict.fromkeys(said.subject for said in told))


def _known(records: Iterable[GenusRecord | None]) -> Iterable[GenusRecord]:
    return (record for record in records if record is not None)


def is_open(question: Question) -> bool:
    """Whether the label names no species: a genus alone, or a sign that the animal is not the species named."""
    return " " not in question.name.strip() or bool(_UNDETERMINED.search(question.qualifier))


def _genus_path(genus: str, records: Sequence[GenusRecord]) -> tuple[GenusRecord, ...]:
    """The records from ``genus`` on, as long as each moved as a whole to one genus; the last one is where it ends."""
    by_genus = {name_key(record.genus): record for record in records}
    path: list[GenusRecord] = []
    record = by_genus.get(name_key(genus))
    while record is not None and record not in path:
        path.append(record)
        record = by_genus.get(name_key(record.moved_to[0])) if moved_whole(record) else None
    return tuple(path)


def moved_whole(record: GenusRecord) -> bool:
    return record.moved_whole and len(record.moved_to) == 1


def genus_in_force(genus: str, records: Sequence[GenusRecord]) -> str | None:
    """Where the whole genus went; None if it stands, moved only in part, or goes round in a circle."""
    path = _genus_path(genus, records)
    if not path or not moved_whole(path[0]):
        return None
    last = path[-1]
    if not moved_whole(last):
        return last.genus
    return None if any(record.genus == last.moved_to[0] for record in path) else last.moved_to[0]


def moved_name(question: Question, genus: str, answers: Sequence[Answer]) -> TaxonName:
    """The name on the label under its new genus; the compared species of aff. in the ending of that genus."""
    words = question.name.split(" ")
    if len(words) == 1:
        return TaxonName(genus, rank="genus")
    for answer in answers:
        for said in answer.statements:
            for target in said.targets if said.match.speaks else ():
                if genus_of(target.name) == genus and same_stem(last_epithet(target.name), words[-1]):
                    return target
    return computed_name(question, genus)


def computed_name(question: Question, genus: str) -> TaxonName:
    """A combination no source gives: the epithet agrees with the gender of the genus, if its class is known."""
    gender = next((r.gender or "" for r in question.genus_records if name_key(r.genus) == name_key(genus)), "")
    genus_word, *epithets = question.name.split(" ")
    last = len(epithets) - 1
    endings = [agree(epithet, gender, _class_of(epithet, question, at == last)) for at, epithet in enumerate(epithets)]
    name = " ".join((genus, *endings))
    authorship = question.authorship.strip()
    if authorship and genus_word != genus and not authorship.startswith("("):
        authorship = f"({authorship})"
    return TaxonName(name, authorship)


def _class_of(epithet: str, question: Question, last: bool) -> WordClass:
    known = question.word_class if last else WordClass.UNDECIDED
    return known if known is not WordClass.UNDECIDED else word_class_of(epithet)
