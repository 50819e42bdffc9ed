"""Which names to ask the sources for one label, and how a label becomes a question."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Protocol

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Answer, Caution, GenusRecord, Match, Reply, TaxonName, TradeForm
from namekeeper.judging.change import genus_of, last_epithet, name_key
from namekeeper.judging.open_names import computed_name, genus_in_force, is_open
from namekeeper.judging.values import Question
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError
from namekeeper.words.gender import WordClass
from namekeeper.words.parsing import parse_name

_HYBRID = re.compile(r"\s+hybrids?\b", re.IGNORECASE)
_NEW_SPECIES = re.compile(r"n\.|nov\.?|n\. ?sp\.", re.IGNORECASE)
_MOST_GENERA = 8  # a genus that was replaced more often is bad data


class Labelled(Protocol):
    """The name on a label as a record holds it; see ``records.specimen.NameEntry``."""

    @property
    def name(self) -> str: ...
    @property
    def authorship(self) -> str: ...
    @property
    def qualifier(self) -> str: ...
    @property
    def trade_form(self) -> str: ...
    @property
    def form(self) -> str: ...
    @property
    def decided_by(self) -> str: ...


class Decided(Protocol):
    """A decision as a record holds it."""

    @property
    def kind(self) -> str: ...
    @property
    def name(self) -> str: ...


class Kept(Protocol):
    """An animal as a record holds it; see ``records.specimen.Specimen``."""

    @property
    def locality(self) -> str: ...
    @property
    def decisions(self) -> Sequence[Decided]: ...
    def label_date(self) -> PartialDate | None: ...


def question_for(specimen: Kept, entry: Labelled, lists: Sequence[NameList]) -> Question:
    """The question for one label, with what the lists on this machine know of its genus, form and papers."""
    plain = question_of(entry)
    genera = genera_of(plain, lambda genus: _known(found.genus(genus) for found in lists))
    words = _parts(plain.trade_form)
    forms = [form for found in lists for part in words for form in found.forms(genus_of(plain.name), part)]
    taxa = plain.parents or (plain.name,)
    cautions: list[Caution] = [caution for found in lists for caution in found.cautions((*taxa, *_led_to(taxa, found)))]
    question = Question(
        plain.name,
        plain.authorship,
        specimen.label_date(),
        plain.qualifier,
        plain.trade_form,
        plain.form,
        specimen.locality,
        decided_once(specimen, entry),
        plain.parents,
        genera,
        _distinct(forms),
        tuple(dict.fromkeys(cautions)),
        _word_class(plain.name, genera, lists),
    )
    return replace(question, namesakes=_namesakes(question, lists))


def question_of(entry: Labelled) -> Question:
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


def what_to_ask(entry: Labelled) -> tuple[str, ...]:
    """Canonical names to ask every source: the name; in open nomenclature also the genus; of a hybrid both parents."""
    question = question_of(entry)
    if question.parents:
        return tuple(dict.fromkeys(question.parents))
    if is_open(question):
        return tuple(dict.fromkeys((question.name, genus_of(question.name))))
    return (question.name,)


def decided_once(specimen: Kept, entry: Labelled) -> bool:
    """Whether the keeper has chosen just this name, or kept it in sight of a warning."""
    about = [d.kind for d in specimen.decisions if d.kind in ("kept", "undone") and d.name == entry.name]
    return bool(entry.decided_by) or about[-1:] == ["kept"]


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


def _led_to(names: Sequence[str], known: NameList) -> tuple[str, ...]:
    """Names in force of these names: papers and cautions may be recorded under either."""
    return tuple(target.name for name in names for said in known.named(name) for target in said.targets)


def _word_class(name: str, genera: Sequence[GenusRecord], lists: Sequence[NameList]) -> WordClass:
    """The class of the epithet, asked only where a combination may have to be computed."""
    epithet = last_epithet(name)
    if not epithet or not any(record.moved_whole for record in genera):
        return WordClass.UNDECIDED
    told = next((known for found in lists if (known := found.word_class(epithet))), None)
    return WordClass(told) if told in set(WordClass) else WordClass.UNDECIDED


def _namesakes(question: Question, lists: Sequence[NameList]) -> tuple[TaxonName, ...]:
    """Listed names equal to the combination that may have to be computed."""
    genus = genus_in_force(genus_of(question.name), question.genus_records)
    if not genus or is_open(question):
        return ()
    name = computed_name(question, genus).name
    told = (said for found in lists for said in found.named(name) if said.match in (Match.SAME, Match.ENDING))
    return tuple(dict.fromkeys(said.subject for said in told))


def _known(records: Iterable[GenusRecord | None]) -> Iterable[GenusRecord]:
    return (record for record in records if record is not None)


def _distinct(forms: Iterable[TradeForm]) -> tuple[TradeForm, ...]:
    return tuple(dict.fromkeys(forms))
