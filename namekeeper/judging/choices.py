"""What the keeper may choose from, and what tells the choices apart: ranges and trade history, no identification."""

from __future__ import annotations

from collections.abc import Iterable

from namekeeper.evidence.statements import Division, Misuse, TaxonName
from namekeeper.evidence.verdicts import Choice
from namekeeper.judging.change import name_key, same_author
from namekeeper.words.citations import short_citation
from namekeeper.words.spelling import plain_key


def choice(taxon: TaxonName, why: str) -> Choice:
    return Choice(taxon.name, taxon.authorship, why, taxon.range)


def of_misuse(misuse: Misuse) -> tuple[Choice, ...]:
    """The species the trade meant, with the dates of the misuse."""
    dates = (("from", misuse.start), ("cleared up", misuse.cleared), ("ended", misuse.ended))
    told = ", ".join(
        (*(f"{word} {day}" for word, day in dates if day), *filter(None, [short_citation(misuse.citation)]))
    )
    why = f"sold as {misuse.name}" + (f" ({told})" if told else "")
    return tuple(choice(taxon, why) for taxon in misuse.meant)


def of_division(division: Division) -> tuple[Choice, ...]:
    """The species that a divided name may mean."""
    since = f" since {division.since}" if division.since else ""
    why = f"{division.name} covered it before the {division.kind.value}{since} ({short_citation(division.citation)})"
    return tuple(choice(taxon, why) for taxon in division.into)


def merged(choices: Iterable[Choice], locality: str = "", form: str = "") -> tuple[Choice, ...]:
    """One choice a nominal taxon, reasons joined, ranges said; narrowed by locality, the kept line's name first.

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
    told = [_with_range(one) for one in kept]
    if locality and any(_lives_at(one, locality) for one in told):
        told = [one for one in told if _lives_at(one, locality) or not one.range]
    return tuple(sorted(told, key=lambda one: (not _named_by(one, form), one.name)))


def _is_one_taxon(one: Choice, other: Choice) -> bool:
    """Names of one spelling by different authors are homonyms: two choices."""
    alike = name_key(one.name) == name_key(other.name)
    return alike and same_author(one.authorship, other.authorship) is not False


def _joined(before: Choice, one: Choice) -> Choice:
    why = before.why if one.why in before.why else f"{before.why}; {one.why}"
    return Choice(before.name, before.authorship or one.authorship, why, before.range or one.range)


def _with_range(one: Choice) -> Choice:
    if not one.range:
        return one
    return Choice(one.name, one.authorship, f"{one.why}; native range: {', '.join(one.range)}", one.range)


def _lives_at(one: Choice, locality: str) -> bool:
    places = [plain_key(part) for part in locality.replace("(", ",").replace(")", ",").split(",") if part.strip()]
    ranges = plain_key(", ".join(one.range))
    return any(f" {place} " in f" {_words(ranges)} " for place in map(_words, places) if place)


def _words(text: str) -> str:
    return " ".join("".join(c if c.isalnum() else " " for c in text).split())


def _named_by(one: Choice, form: str) -> bool:
    """Whether a line kept as "ex bara" carries the epithet of this choice."""
    return bool(form) and plain_key(one.name).split(" ")[-1] in _words(plain_key(form)).split(" ")
