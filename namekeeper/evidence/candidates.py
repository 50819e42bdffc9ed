"""What a tag may mean, as values (contract section 2)."""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple

from namekeeper.evidence.statements import TaxonName
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import AnswerKind, How

HOW_ORDER = tuple(How)
MAY_BE_REAL = "the written name may be a real one that no list here has"
# How sure a way of finding is by itself; an order, no probability.
WEIGHT = MappingProxyType(
    {
        How.ACCEPTED: 1.0, How.FORMER: 0.99, How.EQUIVALENT: 0.98, How.ABBREVIATED: 0.97, How.COMMON: 0.95,
        How.MISAPPLIED: 0.9, How.DOUBTFUL: 0.8, How.GENUS: 0.6, How.SIMILAR: 0.6,
    }
)  # fmt: skip
SPECIES_RANKS = frozenset({"species", "subspecies", "variety", "form"})


class Candidate(NamedTuple):
    """A taxon that a tag may mean: how it was found, what on the tag matched, and who says so.

    ``score`` is 0 to 1 and only orders; ``clues`` counts the clues of the tag that agree on this taxon.
    """

    name: str
    authorship: str
    rank: str
    how: How
    matched: str
    score: float
    range: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    note: str | None = None
    clues: int = 1
    family: str | None = None
    rival: bool = False  # another meaning of the written name, behind the written one

    @property
    def key(self) -> str:
        return plain_key(self.name)

    @property
    def firm(self) -> bool:
        """Whether the spelling alone says so (contract section 1), not a guess."""
        return self.how is not How.SIMILAR

    @property
    def is_species(self) -> bool:
        return self.rank in SPECIES_RANKS

    @classmethod
    def of(  # noqa: PLR0917 - what every finding says
        cls, taxon: TaxonName, how: How, matched: str, source: str, note: str | None = None, score: float | None = None
    ) -> Candidate:
        family = next((higher for higher in taxon.higher if higher.endswith("idae")), None)
        return cls(
            taxon.name, taxon.authorship, taxon.rank, how, matched, WEIGHT[how] if score is None else score,
            taxon.range, (source,), note or None, 1, family,
        )  # fmt: skip

    def merged(self, other: Candidate) -> Candidate:
        """One candidate of two findings of the same taxon by the same clue: the firmer, with the sources of both."""
        first, second = sorted(
            (self, other), key=lambda found: (not found.firm, HOW_ORDER.index(found.how), -found.score)
        )
        notes = dict.fromkeys(note for found in (first, second) if found.note for note in found.note.split("; "))
        return first._replace(
            sources=tuple(dict.fromkeys((*first.sources, *second.sources))),
            range=first.range or second.range,
            authorship=first.authorship or second.authorship,
            note="; ".join(notes) or None,
        )


def merge(candidates: list[Candidate]) -> list[Candidate]:
    """Candidates by taxon, in the order of their first finding."""
    found: dict[str, Candidate] = {}
    for candidate in candidates:
        known = found.get(candidate.key)
        found[candidate.key] = candidate if known is None else known.merged(candidate)
    return list(found.values())


class Lookup(NamedTuple):
    """The answer to a tag: how far it could be read, and every taxon it may mean, best first."""

    answer: AnswerKind
    candidates: tuple[Candidate, ...] = ()
