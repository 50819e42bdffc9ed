"""Whether what a service found is what was asked: its own word, spelling, rank and group, compared in one place."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType

from namekeeper.evidence.statements import Edition, Match, NameStatus, Statement, TaxonName
from namekeeper.words.spelling import match_of

#: The catalogue that most others copy for spiders: such copies share its vote.
SPIDER_CATALOGUE = "world spider catalog"
_SPIDERS = "Araneae"
_RANK_OF_WORDS = MappingProxyType({1: "genus", 2: "species", 3: "subspecies"})


@dataclass(frozen=True, slots=True)
class Group:
    """The animals that are kept: an answer outside is about a name that is spelt alike, never about the animal."""

    kingdom: str = "Animalia"
    without: tuple[str, ...] = ("Chordata",)

    def objection(self, found: Found) -> str | None:
        """Why the taxon is none of this group, or None."""
        if found.subject.kingdom:
            if found.subject.kingdom != self.kingdom:
                return f"this is a name of the kingdom {found.subject.kingdom}"
        elif found.code != "zoological":
            return "its kingdom is not told"
        return next((f"this belongs to the {taxon}" for taxon in self.without if taxon in found.lineage), None)


@dataclass(frozen=True, slots=True)
class Found:
    """One taxon of a reply. ``certain`` is the service's own word that this is the very name asked."""

    subject: TaxonName
    status: NameStatus
    targets: tuple[TaxonName, ...]
    certain: bool
    lineage: frozenset[str] = frozenset()
    code: str = ""
    link: str | None = None
    note: str | None = None
    fault: str | None = None


def weigh(found: Found, asked: str, group: Group, edition: Edition) -> Statement:
    """The statement of ``found``; its match tells whether it speaks.

    Beside the service's own word the spelling, the rank and the group are compared with what was asked. Letter classes
    (contract section 1, row 3) never speak here: that they need a look into all lists, a service cannot give.
    """
    match = Match(match_of(asked, found.subject.name).value)
    words = len(asked.split())
    doubts = [found.note] if found.note else []
    if not found.certain or match is Match.LETTERS:
        match = Match.SIMILAR
    if found.subject.rank != _RANK_OF_WORDS.get(words):
        match = Match.HIGHER_RANK if len(found.subject.name.split()) < words else Match.SIMILAR
    if objection := group.objection(found):
        match = Match.SIMILAR
        doubts.append(objection)
    if _SPIDERS in found.lineage:
        edition = replace(edition, upstream=SPIDER_CATALOGUE)
    return Statement(
        edition=edition,
        asked=asked,
        match=match,
        subject=found.subject,
        status=found.status,
        targets=found.targets,
        link=found.link,
        note="; ".join(doubts) or None,
        fault=found.fault,
    )


def rank_group(rank: str) -> str:
    """Synonyms stay within their group of ranks (ICZN Art. 23): the species group, the genus group, the rest."""
    groups = {"subspecies": "species", "subgenus": "genus"}
    return groups.get(rank, rank)
