"""The replies of ChecklistBank as values: status words, accepted names, synonyms, common names, areas."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from namekeeper.evidence.statements import NameStatus, TaxonName
from namekeeper.judging.change import same_author
from namekeeper.sources.services.service import Vernacular
from namekeeper.sources.services.weighing import Found, rank_group, usable
from namekeeper.sources.shapes import Node, rows
from namekeeper.words.spelling import plain_key

_STATUS = MappingProxyType(
    {
        "accepted": NameStatus.ACCEPTED,
        "provisionally accepted": NameStatus.DOUBTFUL,
        "synonym": NameStatus.SYNONYM,
        "ambiguous synonym": NameStatus.AMBIGUOUS,
        "misapplied": NameStatus.MISAPPLIED,
        "bare name": NameStatus.UNAVAILABLE,
    }
)
# The nomenclatural status of a name weighs more than the status of its use.
_NAME_STATUS = MappingProxyType(
    {
        "doubtful": NameStatus.DOUBTFUL,
        "not established": NameStatus.UNAVAILABLE,
        "manuscript": NameStatus.UNAVAILABLE,
    }
)
_IN_FORCE = frozenset({"accepted", "provisionally accepted"})
# ``exact`` is said where whole labels are equal, author included, ``variant`` of every other match, so also where only
# the author was not asked (``UsageMatcher.match``): what they are worth shows by comparing the spelling.
_CERTAIN = frozenset({"exact", "canonical", "variant"})
_EXACT = frozenset({"exact", "canonical"})
_NO_USE = frozenset({"bare name", "misapplied"})
_POINTING = frozenset({NameStatus.SYNONYM, NameStatus.AMBIGUOUS, NameStatus.MISAPPLIED})
_HIGHER = ("family", "order", "class")
_PAGE = "https://www.checklistbank.org/dataset/3LXR/nameusage/"


@dataclass(frozen=True, slots=True)
class UsageMatch:
    """What a match found; ``passed_over`` where the service has such names and took none of them."""

    found: tuple[Found, ...]
    passed_over: bool = False


def read_match(document: object, asked: str, *, by_author: bool = False) -> UsageMatch:
    """A reply of ``match/nameusage``: nothing, one usage, or several where the service is undecided.

    ``by_author`` if an author was asked, by which the service tells homonyms apart; else it picks one of them silently.
    """
    node = Node.of(document)
    kind = node.needed("type")
    others = node.nodes("alternatives")
    if not node.flag("match"):
        return UsageMatch((), passed_over=bool(others))
    usage = node.needed_node("usage")
    note = None
    if kind not in _CERTAIN:
        note = f"the service calls this match '{kind}'"
        others = others if kind == "ambiguous" else ()
    elif others := () if by_author else tuple(one for one in others if _rival(one, usage)):
        note = "the service has several names spelt so, by different authors"
    found = (replace(_found(one, note is None, note), exact=kind in _EXACT) for one in (usage, *others))
    return UsageMatch(usable(found, asked))


def _rival(other: Node, usage: Node) -> bool:
    """Whether ``other`` is spelt like ``usage`` and is another name, with another end."""
    return (
        plain_key(other.text("name")) == plain_key(usage.text("name"))
        and other.text("rank") == usage.text("rank")
        and other.text("status") not in _NO_USE
        and same_author(other.text("authorship"), usage.text("authorship")) is False
        and _end_of(other) != _end_of(usage)
    )


def _end_of(usage: Node) -> str:
    return usage.text("id") if usage.text("status") in _IN_FORCE else usage.text("parent")


def _found(usage: Node, certain: bool, note: str | None) -> Found:
    line = usage.nodes("classification")  # leaf first here: a synonym's accepted name, then the higher taxa
    word = usage.needed("status")
    status = _NAME_STATUS.get(usage.text("nomStatus").casefold()) or _status(word, usage)
    subject = _taxon(usage, line)
    if word == "provisionally accepted":
        note = note or "only provisionally accepted there"
    targets: tuple[TaxonName, ...] = ()
    fault = None
    if status is NameStatus.ACCEPTED:
        targets = (subject,)
    elif status in _POINTING:
        end = _accepted(line, subject.rank)
        targets = () if end is None else (_taxon(end, line),)
        fault = None if targets else "its own data do not lead to an accepted name"
    return Found(
        subject,
        status,
        targets,
        certain,
        lineage=frozenset(above.text("name") for above in line),
        code=usage.text("code"),
        link=_PAGE + usage.text("id"),
        note=note,
        fault=fault,
    )


def _accepted(line: Sequence[Node], rank: str) -> Node | None:
    """The first name in force of the same rank group: a synonym may point to a synonym, which points on."""
    for above in line:
        if rank_group(above.text("rank")) != rank_group(rank):
            return None
        if above.text("status") in _IN_FORCE:
            return above
    return None


def _status(word: str, node: Node) -> NameStatus:
    try:
        return _STATUS[word.casefold()]
    except KeyError:
        expected = f"a status we know ('{word[:40]}')"
        raise node.wrong("status", expected) from None


def _taxon(usage: Node, line: Sequence[Node]) -> TaxonName:
    by_rank = {above.text("rank"): above.text("name") for above in line}
    return TaxonName(
        name=usage.needed("name"),
        authorship=usage.text("authorship"),
        rank=usage.text("rank") or "unranked",
        identifier=usage.text("id") or None,
        kingdom=by_rank.get("kingdom"),
        higher=tuple(by_rank[rank] for rank in _HIGHER if rank in by_rank),
    )


def read_search(document: object) -> tuple[tuple[Found, tuple[Vernacular, ...]], ...]:
    """A reply of ``nameusage/search``: taxa with their common names; the classification is root first here."""
    return tuple(_hit(hit) for hit in Node.of(document).nodes("result", needed=True))


def _hit(hit: Node) -> tuple[Found, tuple[Vernacular, ...]]:
    line = hit.nodes("classification")
    usage = hit.needed_node("usage")
    name = usage.needed_node("name")
    taxon = _nested_taxon(usage, line)
    status = _status(usage.needed("status"), usage)
    found = Found(
        taxon, status, (), certain=True, lineage=frozenset(a.text("name") for a in line), code=name.text("code")
    )
    names = hit.nodes("vernacularNames") if status is NameStatus.ACCEPTED else ()
    return found, tuple(Vernacular(one.needed("name"), one.text("language"), taxon) for one in names)


def _nested_taxon(usage: Node, line: Sequence[Node]) -> TaxonName:
    name = usage.needed_node("name")
    by_rank = {above.text("rank"): above.text("name") for above in line}
    return TaxonName(
        name=name.needed("scientificName"),
        authorship=name.text("authorship"),
        rank=name.text("rank") or "unranked",
        identifier=usage.text("id") or None,
        kingdom=by_rank.get("kingdom"),
        higher=tuple(by_rank[rank] for rank in _HIGHER if rank in by_rank),
    )


def read_synonyms(document: object, accepted: TaxonName) -> Iterator[Found]:
    """A reply of ``taxon/{id}/synonyms``; only here the service tells homotypic (objective) from heterotypic."""
    node = Node.of(document)
    for key, status in (
        ("homotypic", NameStatus.OBJECTIVE_SYNONYM),
        ("heterotypic", NameStatus.SYNONYM),
        ("misapplied", NameStatus.MISAPPLIED),
    ):
        for usage in node.nodes(key):
            taxon = _nested_taxon(usage, ())
            yield Found(
                taxon, status, (accepted,), certain=True, code="zoological", note=usage.text("accordingTo") or None
            )


def read_vernacular(document: object, taxon: TaxonName) -> tuple[Vernacular, ...]:
    """A reply of ``taxon/{id}/vernacular``."""
    found = rows(document, "result")
    return tuple(Vernacular(one.needed("name"), one.text("language"), taxon) for one in found)


def read_distribution(document: object) -> tuple[str, ...]:
    """A reply of ``taxon/{id}/distribution``: native areas and those of unknown standing, in the order given."""
    areas: list[str] = []
    for one in rows(document, "result"):
        if one.text("establishmentMeans") in ("", "native", "native endemic", "endemic"):
            area = one.needed_node("area")
            areas.append(area.text("name") or area.text("id"))
    return tuple(dict.fromkeys(area for area in areas if area))
