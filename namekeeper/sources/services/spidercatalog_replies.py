"""The replies of the World Spider Catalog as values: a species with its status, and the feed of changed ones."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from namekeeper.evidence.statements import NameStatus, TaxonName
from namekeeper.sources.shapes import Node, wrong_shape

#: How every identifier (LSID) of the catalogue begins.
LSID_PREFIX = "urn:lsid:nmbe.ch:"
_STATUS = MappingProxyType(
    {
        "VALID": NameStatus.ACCEPTED,
        "SYNONYM": NameStatus.SYNONYM,
        "HOMONYM_REPLACED": NameStatus.REPLACED,
        "NOMEN_DUBIUM": NameStatus.DOUBTFUL,
        "NOMEN_NUDUM": NameStatus.UNAVAILABLE,
    }
)


@dataclass(frozen=True, slots=True)
class Entry:
    """One species; ``valid`` is the identifier of the name in force for it, "" if it has none or is it itself."""

    taxon: TaxonName
    status: NameStatus
    valid: str


def read_entry(document: object) -> Entry:
    """A reply of ``api/lsid/{identifier}``."""
    node = Node.of(document)
    taxon = node.needed_node("taxon")
    word = taxon.needed("status")
    if word not in _STATUS:
        expected = f"a status we know ('{word[:40]}')"
        raise taxon.wrong("status", expected)
    parts = (taxon.needed("genus"), taxon.text("species"), taxon.text("subspecies"))
    valid = node.node("validTaxon")
    name = TaxonName(
        name=" ".join(part for part in parts if part),
        authorship=taxon.text("author"),
        rank=taxon.text("taxonRank").casefold() or "species",
        identifier=taxon.text("lsid") or None,
        kingdom="Animalia",
        higher=tuple(one for one in (taxon.text("family"), "Araneae", "Arachnida") if one),
        range=(taxon.text("distribution"),) if taxon.text("distribution") else (),
    )
    return Entry(name, _STATUS[word], _identifier(valid.needed("_href")) if valid else "")


def _identifier(address: str) -> str:
    """The identifier at the end of an address; the address itself, which may lead anywhere, is never followed."""
    found = address.partition("?")[0].rpartition("/")[2]
    if not found.startswith(LSID_PREFIX):
        raise wrong_shape("reply.validTaxon._href", address, "an identifier of the catalogue")
    return found


def read_updates(document: object) -> tuple[tuple[str, ...], bool]:
    """A page of ``api/updates``: identifiers, and whether another page follows."""
    node = Node.of(document)
    identifiers = node.texts("updates")
    links = node.node("_links")
    if "updates" not in node.record:
        raise node.wrong("updates", "there")
    return identifiers, links is not None and bool(links.text("next"))
