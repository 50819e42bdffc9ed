"""Whether what a service found is what was asked: its own word, spelling, rank and group, compared in one place."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from namekeeper.evidence.statements import Edition, Match, NameStatus, Statement, TaxonName
from namekeeper.words.spelling import match_of
from namekeeper.words.terms import Verification

#: The catalogue that most others copy for spiders: such copies share its vote.
SPIDER_CATALOGUE = "world spider catalog"
_SPIDERS = "Araneae"
_RANK_OF_WORDS = MappingProxyType({1: "genus", 2: "species", 3: "subspecies"})


@dataclass(frozen=True, slots=True)
class Group:
    """The animals that are kept: an answer outside is about a name that is spelt alike, never about the animal."""

    kingdom: str = "Animalia"
    without: tuple[str, ...] = ("Chordata",)

    def excludes(self, found: Found) -> bool:
        """Whether the taxon is told to be none of this group: then it is not even a hint."""
        other = found.subject.kingdom not in (None, "", self.kingdom)
        return other or any(taxon in found.lineage for taxon in self.without)

    def includes(self, found: Found) -> bool:
        """Whether the taxon is told to be of this group, by its kingdom or by the code that governs its name."""
        return not self.excludes(found) and bool(found.subject.kingdom or found.code == "zoological")


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
    verification: Verification = Verification.VERIFIED


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
    if found.subject.rank != rank_of(asked):
        match = Match.HIGHER_RANK if len(found.subject.name.split()) < words else Match.SIMILAR
    if not group.includes(found):
        match = Match.SIMILAR
        doubts.append("it is not told to be an animal of the group")
    if found.status is NameStatus.AMBIGUOUS and len(found.targets) < 2:
        match = Match.SIMILAR
        doubts.append("it stands for several taxa, not all of which are told")
    if _SPIDERS in found.lineage:
        edition = edition._replace(upstream=SPIDER_CATALOGUE)
    return Statement(
        edition=edition,
        asked=asked,
        match=match,
        subject=found.subject,
        status=found.status,
        targets=found.targets,
        verification=found.verification,
        link=found.link,
        note="; ".join(doubts) or None,
        fault=found.fault,
    )


def rank_of(name: str) -> str:
    """The rank that a canonical name has by the number of its words (ICZN Art. 4, 5), "" for none of these."""
    return _RANK_OF_WORDS.get(len(name.split()), "")


def rank_group(rank: str) -> str:
    """Synonyms stay within their group of ranks (ICZN Art. 23): the species group, the genus group, the rest."""
    groups = {"subspecies": "species", "subgenus": "genus"}
    return groups.get(rank, rank)
