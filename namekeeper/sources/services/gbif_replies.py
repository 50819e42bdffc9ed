"""The replies of the GBIF species API as values: match v2. Its words are those of the matching server's own code."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from types import MappingProxyType

from namekeeper.evidence.statements import NameStatus, TaxonName
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.services.weighing import Found, usable
from namekeeper.sources.shapes import Node

#: The server's own threshold for a match; below it an answer is a hint (for higher ranks it asks for more).
_LEAST_CONFIDENCE = 80
_STATUS = MappingProxyType(
    {
        "ACCEPTED": NameStatus.ACCEPTED,
        "PROVISIONALLY_ACCEPTED": NameStatus.DOUBTFUL,
        "SYNONYM": NameStatus.SYNONYM,
        "AMBIGUOUS_SYNONYM": NameStatus.AMBIGUOUS,
        "MISAPPLIED": NameStatus.MISAPPLIED,
        "BARE_NAME": NameStatus.UNAVAILABLE,
    }
)
_POINTING = frozenset({NameStatus.SYNONYM, NameStatus.AMBIGUOUS, NameStatus.MISAPPLIED})
_HIGHER = ("FAMILY", "ORDER", "CLASS")
_EXACT = ("EXACT", "CANONICAL")
_EQUAL = "Multiple equal matches for "
_PAGE = "https://www.gbif.org/taxon/"


@dataclass(frozen=True, slots=True)
class Matched:
    """What a match found; ``undecided`` where the service has several names that fit equally well."""

    found: tuple[Found, ...]
    undecided: bool = False


def read_match(document: object, asked: str) -> Matched:
    """A reply of ``v2/species/match``: one usage, or the alternatives that are spelt the same, as hints."""
    matched = _matched(document)
    return replace(matched, found=usable(matched.found, asked))


def _matched(document: object) -> Matched:
    node = Node.of(document)
    diagnostics = node.needed_node("diagnostics")
    kind = diagnostics.needed("matchType")
    usage = node.node("usage")
    if usage is None:
        undecided = diagnostics.text("note").startswith(_EQUAL)
        equals = _equals(diagnostics) if undecided else ()
        return Matched(tuple(_found(one, "one of several that fit equally well") for one in equals), undecided)
    note = None
    if kind not in _EXACT and not _bare_genus(kind, usage):
        note = f"the service calls this match {kind}"
    elif diagnostics.number("confidence") < _LEAST_CONFIDENCE:
        note = "the service has little confidence in this match"
    return Matched((replace(_found(node, note), exact=kind in _EXACT and note is None),))


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
    link = _PAGE + subject.identifier if subject.identifier else None
    return Found(subject, status, targets, certain, frozenset(line.values()), code, link, note, fault)


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


def spelt_in(document: object) -> str:
    """The name that was asked as far as a match tells it, "" if it does not, such as one of nothing or of a genus."""
    try:
        node = Node.of(document)
        usage, diagnostics = node.node("usage"), node.needed_node("diagnostics")
        note = diagnostics.text("note")
        if usage is not None:
            return usage.text("canonicalName") if diagnostics.text("matchType") == "EXACT" else ""
    except UnansweredError:
        return ""
    return note.removeprefix(_EQUAL).strip() if note.startswith(_EQUAL) else ""


def hinted_in(document: object) -> str:
    """The name of whatever a match came upon, "" if it found nothing."""
    try:
        usage = Node.of(document).node("usage")
        return usage.text("canonicalName") if usage else ""
    except UnansweredError:
        return ""


def read_release(document: object) -> str:
    """The release that ``v2/species/match/metadata`` names, such as ``COL26.6 XR``; older servers give no alias."""
    index = Node.of(document).needed_node("mainIndex")
    return index.text("datasetAlias") or index.needed("datasetTitle")
