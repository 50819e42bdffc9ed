"""Common names and the species they should bring: how many do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.interfaces import NameList
from namekeeper.tasks.lookup import look_up
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import AnswerKind


@dataclass
class CommonFigures:
    """Counts over names of which a list has at least one species."""

    asked: int = 0
    complete: int = 0  # every listed species is among the candidates
    ambiguous: int = 0  # more than one listed species
    several: int = 0  # of these, answered so
    missed: list[str] = field(default_factory=list)


def by_name(pairs: Iterable[tuple[str, str]]) -> dict[str, set[str]]:
    """Taxa of every common name."""
    found: dict[str, set[str]] = {}
    for name, taxon in pairs:
        found.setdefault(name, set()).add(taxon)
    return found


def measure_common(taxa: Mapping[str, set[str]], lists: Sequence[NameList]) -> CommonFigures:
    """Look up every name; the listed species are those whose written name the lists lead to one name in force."""
    figures = CommonFigures()
    for name, looked in zip(taxa, look_up(taxa, lists), strict=True):
        wanted = {key for taxon in taxa[name] if (key := in_force(taxon, lists))}
        if not wanted:
            continue
        figures.asked += 1
        got = {candidate.key for candidate in looked.lookup.candidates}
        figures.complete += wanted <= got
        if not wanted <= got:
            figures.missed.append(f"{name}: {sorted(wanted - got)} not among {sorted(got)}")
        if len(wanted) > 1:
            figures.ambiguous += 1
            figures.several += looked.lookup.answer is AnswerKind.SEVERAL
            if looked.lookup.answer is not AnswerKind.SEVERAL:
                figures.missed.append(f"{name}: {looked.lookup.answer.value}, not several")
    return figures


def in_force(taxon: str, lists: Sequence[NameList]) -> str:
    """Key of the one species in force for a written species name; "" for other taxa and where there is none."""
    if len(taxon.split()) < 2:
        return ""
    found = [s for origin in lists for s in origin.named(taxon) if s.match.speaks][:1]
    targets = {plain_key(target.name) for s in found for target in s.targets}
    return targets.pop() if len(targets) == 1 else ""
