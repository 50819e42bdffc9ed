"""What a newer edition may have instead of a name that it no longer lists, by the earlier edition that had it.

Without a statement of the source this is a proposal: by the identifier where the list has some, else by the epithet
(but for its ending) of a species of the same family that is new in the edition.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Protocol

from namekeeper.evidence.interfaces import NameSearch, ScientificNames
from namekeeper.evidence.statements import Answer, Edition, Match, NameStatus, Successor, TaxonName
from namekeeper.judging.ballot import Superseded
from namekeeper.judging.change import same_author
from namekeeper.words.spelling import plain_key

_MOST_OF_A_GENUS = 2000  # names of one genus that are compared one by one


class EditionList(ScientificNames, NameSearch, Protocol):
    """What an edition on this machine is asked to follow a name."""


def successors(outdated: Sequence[Superseded], lists: Mapping[Edition, EditionList]) -> tuple[Successor, ...]:
    """What the newer editions may have instead; by identifier if that finds anything."""
    found: list[Successor] = []
    for vote, silent in outdated:
        earlier, newer = lists.get(vote.edition), lists.get(silent)
        if earlier is None or newer is None:
            continue
        subject = vote.first.subject
        by_key = _by_identifier(subject, newer)
        taxa = by_key or tuple(of_same_epithet(subject, earlier, newer))
        found += [Successor(taxon, vote.edition, silent, bool(by_key)) for taxon in taxa]
    return tuple(dict.fromkeys(found))


def _by_identifier(subject: TaxonName, newer: EditionList) -> tuple[TaxonName, ...]:
    said = newer.keyed(subject.identifier) if subject.identifier else None
    return said.targets if said is not None else ()


def of_same_epithet(subject: TaxonName, earlier: EditionList, newer: EditionList) -> Iterator[TaxonName]:
    """Species in force of the same epithet and family that are new in the newer edition.

    Where there is none: of the same genus and last word, for a subspecies raised or a species lowered.
    """
    found = tuple(_in_family(subject, earlier, newer))
    yield from found or of_other_rank(subject, earlier, newer)


def of_other_rank(subject: TaxonName, earlier: EditionList, newer: EditionList) -> Iterator[TaxonName]:
    """Names in force of the same genus and last word that are new in the newer edition."""
    genus, last = subject.name.partition(" ")[0], subject.name.rpartition(" ")[2]
    for said in newer.prefixed(f"{genus} ", _MOST_OF_A_GENUS):
        taxon = said.subject
        other = taxon.name.count(" ") != subject.name.count(" ") and taxon.name.rpartition(" ")[2] == last
        if other and said.status is NameStatus.ACCEPTED and _may_be(subject, taxon) and not _had(earlier, taxon.name):
            yield taxon


def _may_be(subject: TaxonName, taxon: TaxonName) -> bool:
    """Whether both may be one nominal taxon: not of different authors."""
    return same_author(subject.authorship, taxon.authorship) is not False


def _in_family(subject: TaxonName, earlier: EditionList, newer: EditionList) -> Iterator[TaxonName]:
    family = family_of(subject)
    words = subject.name.count(" ")
    for said in newer.with_epithet(subject.name.partition(" ")[2]):
        taxon = said.subject
        if (
            taxon.name.count(" ") != words
            or said.status is not NameStatus.ACCEPTED
            or said.match not in (Match.SAME, Match.ENDING)
        ):
            continue
        if family and family_of(taxon) == family and _may_be(subject, taxon) and not _had(earlier, taxon.name):
            yield taxon


def family_of(taxon: TaxonName) -> str:
    """The family as far as the list tells it, "" if it does not."""
    return next((name for name in taxon.higher if name.endswith("idae")), "")


def _had(earlier: EditionList, name: str) -> bool:
    return any(plain_key(said.subject.name) == plain_key(name) for said in earlier.named(name))


def is_silent(answers: Sequence[Answer]) -> bool:
    """Whether none of the answers says anything of the name."""
    return not any(said.match.speaks for answer in answers for said in answer.statements)
