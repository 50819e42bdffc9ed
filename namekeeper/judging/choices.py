"""What the keeper may choose from, and what tells the choices apart: ranges and trade history, no identification."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from namekeeper.evidence.statements import Answer, Division, GenusRecord, Misuse, NameStatus, TaxonName, TradeForm
from namekeeper.evidence.verdicts import Choice, Ground, GroundCode
from namekeeper.judging.change import genus_of, name_key, same_author
from namekeeper.judging.question import Question, moved_whole
from namekeeper.judging.windows import may_be_before
from namekeeper.words.dates import PartialDate
from namekeeper.words.spelling import plain_key


def choice(taxon: TaxonName, ground: Ground) -> Choice:
    return Choice(taxon.name, taxon.authorship, (ground,), taxon.range)


def of_misuse(misuse: Misuse) -> tuple[Choice, ...]:
    """The species the trade meant."""
    return tuple(choice(taxon, Ground(GroundCode.SOLD_AS, about=misuse)) for taxon in misuse.meant)


def of_division(division: Division) -> tuple[Choice, ...]:
    """The species that a divided name may mean."""
    return tuple(choice(taxon, Ground(GroundCode.COVERED, about=division)) for taxon in division.into)


def genus_choices(question: Question, answers: Sequence[Answer]) -> tuple[Choice, ...]:
    """Genera that the animal may be in, where its genus moved in part, and genera that services send it to."""
    found: list[Choice] = []
    genus = genus_of(question.name)
    for record in question.genus_records:
        if name_key(record.genus) != name_key(genus) or moved_whole(record) or _settled(record, question.label_date):
            continue
        part = Ground(GroundCode.GENUS_PART, about=record)
        found += [choice(TaxonName(to, rank="genus"), part) for to in record.moved_to]
        if record.moved_to and record.accepted:
            found.append(choice(TaxonName(record.genus, rank="genus"), Ground(GroundCode.GENUS_REST)))
    for answer in answers:
        for said in answer.statements:
            if answer.asked == genus and said.match.speaks and said.status is not NameStatus.ACCEPTED:
                sunk = Ground(GroundCode.GENUS_SUNK, (genus,), answer.edition)
                found += [choice(target, sunk) for target in said.targets]
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
        (form, choice(form.described_as, Ground(GroundCode.DESCRIBED_FORM, about=form)))
        for form in question.trade_forms
        if form.described_as is not None
    )


def merged(choices: Iterable[Choice], locality: str = "", form: str = "") -> tuple[Choice, ...]:
    """One choice a nominal taxon, grounds joined, ranges said; narrowed by locality, the kept line's name first.

    Locality drops a choice only if the range of another one names the place and its own known range does not. What is
    left are still choices: a locality never decides alone.
    """
    kept: list[Choice] = []
    for one in choices:
        same = next((place for place, before in enumerate(kept) if _is_one_taxon(before, one)), None)
        if same is None:
            kept.append(one)
        else:
            kept[same] = _joined(kept[same], one)
    places = [place for part in re.split("[(),]", locality) if (place := _words(part)).strip()]
    there = [one for one in kept if any(place in _words(", ".join(one.range)) for place in places)]
    told = [_with_range(one) for one in kept if not there or one in there or not one.range]
    return tuple(sorted(told, key=lambda one: (not _named_by(one, form), one.name)))


def _is_one_taxon(one: Choice, other: Choice) -> bool:
    """Names of one spelling by different authors are homonyms: two choices."""
    alike = name_key(one.name) == name_key(other.name)
    return alike and same_author(one.authorship, other.authorship) is not False


def _joined(before: Choice, one: Choice) -> Choice:
    grounds = tuple(dict.fromkeys((*before.grounds, *one.grounds)))
    return Choice(before.name, before.authorship or one.authorship, grounds, before.range or one.range)


def _with_range(one: Choice) -> Choice:
    if not one.range:
        return one
    return one._replace(grounds=(*one.grounds, Ground(GroundCode.NATIVE_RANGE, one.range)))


def _named_by(one: Choice, form: str) -> bool:
    """Whether a line kept as "ex bara" carries the epithet of this choice."""
    return bool(form) and _words(one.name.split(" ")[-1]) in _words(form)


def _words(text: str) -> str:
    """The words of a text, folded, each between blanks, so that words are found in words and not within them."""
    return f" {' '.join(''.join(c if c.isalnum() else ' ' for c in plain_key(text)).split())} "
