"""The replies of the GBIF species API as values: match v2, and v1 synonyms, common names and distributions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from types import MappingProxyType

from namekeeper.evidence.statements import NameStatus, TaxonName
from namekeeper.sources.services.service import Vernacular
from namekeeper.sources.services.weighing import Found
from namekeeper.sources.shapes import Node

#: The server's own threshold for a match; below it an answer is a hint (for higher ranks it asks for more).
_LEAST_CONFIDENCE = 80
_STATUS = MappingProxyType(
    {
        "ACCEPTED": NameStatus.ACCEPTED,
        "PROVISIONALLY_ACCEPTED": NameStatus.DOUBTFUL,
        "DOUBTFUL": NameStatus.DOUBTFUL,
        "SYNONYM": NameStatus.SYNONYM,
        "HOMOTYPIC_SYNONYM": NameStatus.OBJECTIVE_SYNONYM,
        # v1 also writes this for synonyms of several taxa: no more than "synonym" can be read from it.
        "HETEROTYPIC_SYNONYM": NameStatus.SYNONYM,
        "PROPARTE_SYNONYM": NameStatus.AMBIGUOUS,
        "AMBIGUOUS_SYNONYM": NameStatus.AMBIGUOUS,
        "MISAPPLIED": NameStatus.MISAPPLIED,
        "BARE_NAME": NameStatus.UNAVAILABLE,
    }
)
_POINTING = frozenset({NameStatus.SYNONYM, NameStatus.AMBIGUOUS, NameStatus.MISAPPLIED, NameStatus.OBJECTIVE_SYNONYM})
_HIGHER = ("FAMILY", "ORDER", "CLASS")


@dataclass(frozen=True, slots=True)
class Matched:
    """What a match found; ``undecided`` where the service has several names that fit equally well."""

    found: tuple[Found, ...]
    undecided: bool = False


def read_match(document: object) -> Matched:
    """A reply of ``v2/species/match``: one usage, or the alternatives that are spelt the same, as hints."""
    node = Node.of(document)
    diagnostics = node.needed_node("diagnostics")
    kind = diagnostics.needed("matchType")
    usage = node.node("usage")
    if usage is None:
        undecided = diagnostics.text("note").startswith("Multiple equal matches")
        equals = _equals(diagnostics) if undecided else ()
        return Matched(tuple(_found(one, "one of several that fit equally well") for one in equals), undecided)
    note = None
    if kind not in ("EXACT", "CANONICAL") and not _bare_genus(kind, usage):
        note = f"the service calls this match {kind}"
    elif diagnostics.number("confidence") < _LEAST_CONFIDENCE:
        note = "the service has little confidence in this match"
    return Matched((_found(node, note),))


def _equals(diagnostics: Node) -> Iterator[Node]:
    """The alternatives (told only to a verbose question) that are the very name."""
    for one in diagnostics.nodes("alternatives"):
        own = one.node("diagnostics")
        if own is not None and own.text("matchType") == "EXACT":
            yield one


def _bare_genus(kind: str, usage: Node) -> bool:
    """An exact genus or class is labelled ``HIGHERRANK``, too; spelling and rank are compared later in any case."""
    return kind == "HIGHERRANK" and usage.text("rank") in ("GENUS", "SUBGENUS")


def _found(node: Node, note: str | None) -> Found:
    usage = node.needed_node("usage")
    line = {above.text("rank"): above.text("name") for above in node.nodes("classification")}
    status = _status(usage.needed("status"), usage)
    subject = _taxon(usage, line)
    accepted = node.node("acceptedUsage")
    targets: tuple[TaxonName, ...] = ()
    if status is NameStatus.ACCEPTED:
        targets = (subject,)
    elif status in _POINTING and accepted is not None:
        targets = (_taxon(accepted, line),)
    fault = "its own data do not lead to an accepted name" if status in _POINTING and not targets else None
    certain = note is None
    if usage.text("status") == "PROVISIONALLY_ACCEPTED":
        note = note or "only provisionally accepted there"
    code = usage.text("code").casefold()
    return Found(subject, status, targets, certain, frozenset(line.values()), code, note=note, fault=fault)


def _status(word: str, node: Node) -> NameStatus:
    try:
        return _STATUS[word]
    except KeyError:
        expected = f"a status we know ('{word[:40]}')"
        raise node.wrong("status", expected) from None


def _taxon(usage: Node, line: dict[str, str]) -> TaxonName:
    return TaxonName(
        name=usage.text("canonicalName") or usage.needed("name"),
        authorship=usage.text("authorship"),
        rank=usage.text("rank").casefold() or "unranked",
        identifier=usage.text("key") or None,
        kingdom=line.get("KINGDOM"),
        higher=tuple(line[rank] for rank in _HIGHER if rank in line),
    )


def read_alias(document: object) -> str:
    """The release that ``v2/species/match/metadata`` names, such as ``COL26.6 XR``."""
    return Node.of(document).needed_node("mainIndex").needed("datasetAlias")


def read_usages(document: object) -> tuple[Found, ...]:
    """A page of v1 usages: ``species?name=`` or ``species/{key}/synonyms``."""
    return tuple(_flat(one) for one in Node.of(document).nodes("results", needed=True))


def _flat(usage: Node) -> Found:
    line = {rank.upper(): usage.text(rank) for rank in ("kingdom", "phylum", "class", "order", "family")}
    line = {rank: name for rank, name in line.items() if name}
    subject = _taxon(usage, line)
    status = _status(usage.needed("taxonomicStatus"), usage)
    accepted = usage.text("acceptedKey")
    # Only the key of the accepted name is needed: it is looked up under its own key.
    targets = (subject,) if status is NameStatus.ACCEPTED else ()
    if accepted:
        targets = (TaxonName(usage.text("species") or usage.text("accepted"), identifier=accepted),)
    return Found(subject, status, targets, certain=True, lineage=frozenset(line.values()))


def read_vernaculars(document: object, taxon: TaxonName) -> tuple[Vernacular, ...]:
    """A page of ``species/{key}/vernacularNames``."""
    page = Node.of(document).nodes("results", needed=True)
    return tuple(Vernacular(one.needed("vernacularName"), one.text("language"), taxon) for one in page)


def read_distributions(document: object) -> tuple[str, ...]:
    """A page of ``species/{key}/distributions``: areas called native; the rest is too mixed to be a range."""
    page = Node.of(document).nodes("results", needed=True)
    native = [one.text("locality") or one.text("locationId") for one in page if _is_native(one)]
    return tuple(dict.fromkeys(area for area in native if area))


def _is_native(node: Node) -> bool:
    return node.text("establishmentMeans").upper() in ("NATIVE", "ENDEMIC")
