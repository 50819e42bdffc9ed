"""Names in open nomenclature: sp., spp., aff., nr. and trade forms follow only their genus (contract section 4)."""

from __future__ import annotations

import re
from collections.abc import Sequence

from namekeeper.evidence.statements import Answer, GenusRecord, NameStatus, TaxonName, TradeForm
from namekeeper.evidence.verdicts import Choice
from namekeeper.judging.change import genus_of, last_epithet, name_key, same_stem
from namekeeper.judging.choices import choice
from namekeeper.judging.values import Question
from namekeeper.judging.windows import may_be_before
from namekeeper.words.citations import short_citation
from namekeeper.words.dates import PartialDate
from namekeeper.words.gender import WordClass, agree, word_class_of

_UNDETERMINED = re.compile(r"\b(?:sp|spp|aff|nr|near|indet|stet|affinis)\b", re.IGNORECASE)


def is_open(question: Question) -> bool:
    """Whether the label names no species: a genus alone, or a sign that the animal is not the species named."""
    return " " not in question.name.strip() or bool(_UNDETERMINED.search(question.qualifier))


def genus_path(genus: str, records: Sequence[GenusRecord]) -> tuple[GenusRecord, ...]:
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
    path = genus_path(genus, records)
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


def genus_choices(question: Question, answers: Sequence[Answer]) -> tuple[Choice, ...]:
    """Genera that the animal may be in, where its genus moved in part, and genera that services send it to."""
    found: list[Choice] = []
    genus = genus_of(question.name)
    for record in question.genus_records:
        if name_key(record.genus) != name_key(genus) or moved_whole(record) or _settled(record, question.label_date):
            continue
        cited = f" ({short_citation(record.citation)})" if record.citation else ""
        found += [
            choice(TaxonName(to, rank="genus"), f"part of {record.genus} moved here{cited}") for to in record.moved_to
        ]
        if record.moved_to and record.accepted:
            found.append(choice(TaxonName(record.genus, rank="genus"), "the rest of the genus stays"))
    for answer in answers:
        for said in answer.statements:
            if answer.asked == genus and said.match.speaks and said.status is not NameStatus.ACCEPTED:
                found += [choice(target, f"{answer.edition.source} sinks {genus} in it") for target in said.targets]
    return tuple(found)


def _settled(record: GenusRecord, label: PartialDate | None) -> bool:
    """Whether the label is younger than every move out of a genus that still stands: it means the rest of it."""
    if label is None or not record.accepted or not record.moved_year:
        return False
    try:
        return not may_be_before(label, PartialDate.parse(record.moved_year))
    except ValueError:
        return False


def described_forms(question: Question) -> tuple[tuple[TradeForm, Choice], ...]:
    """Forms of that name that were described since: offered, never taken."""
    return tuple(
        (
            form,
            choice(
                form.described_as,
                f'given as the described species behind "{form.form}" ({short_citation(form.citation)})',
            ),
        )
        for form in question.trade_forms
        if form.described_as is not None
    )
