"""One right reply a service for any question, so that every fault is tried on a service that otherwise works."""

from __future__ import annotations

from typing import Any

from tests.services.conftest import constructed, recorded
from tests.services.local_server import Asked, Canned

# Constructed after the fields of the server's own Dataset model; alias and licence as seen in public quotations.
CLB_DATASET = {
    "key": 315557,
    "alias": "COL26.6 XR",
    "issued": "2026-06-15",
    "version": "2026-06-15 XR",
    "license": "cc by",
}
# Constructed after the model of the matching server (gbif/matching-ws, IndexMetadata) as quoted in public tests.
GBIF_METADATA = {
    "created": "2026-08-01T00:00:00Z",
    "mainIndex": {"clbDatasetKey": "315557", "datasetAlias": "COL26.6 XR"},
}
# Constructed: fields as public callers of getFullHierarchyFromTSN read them; ranks and names from memory.
ITIS_HIERARCHY = {
    "hierarchyList": [
        {"rankName": "Kingdom", "taxonName": "Animalia", "tsn": "202423"},
        {"rankName": "Phylum", "taxonName": "Arthropoda", "tsn": "82696"},
        {"rankName": "Class", "taxonName": "Arachnida", "tsn": "82708"},
        {"rankName": "Species", "taxonName": "Exemplum vulgare", "tsn": "1"},
        None,
    ]
}


def gbif(name: str = "Agra schwarzeneggeri") -> Any:
    """The recorded match of a beetle, under another name if wished."""
    document = recorded("gbif-v2-match-exact-authorship-atomised")
    document["usage"]["canonicalName"] = name
    return document


def good(key: str, asked: Asked) -> Canned:
    """A reply to this question that its reader accepts."""
    path = asked.path
    table: dict[str, Any] = {
        "checklistbank": lambda: _checklistbank(path),
        "inaturalist": lambda: recorded("inat-taxa-search"),
        "gbif": lambda: _gbif(asked),
        "itis": lambda: _itis(path),
        "wikidata": lambda: constructed("wikidata-sparql-taxon"),
        "spidercatalog": lambda: constructed("wsc-lsid-valid"),
    }
    return Canned.json(table[key](), "iso-8859-1" if key == "itis" else "utf-8")


def _checklistbank(path: str) -> Any:
    if path == "/dataset/3LXR":
        return CLB_DATASET
    if path.endswith("/match/nameusage"):
        return recorded("clb-match-synonym-genus-transfer")
    return {"offset": 0, "limit": 50, "total": 0, "result": []}


def _gbif(asked: Asked) -> Any:
    if asked.path.endswith("/metadata"):
        return GBIF_METADATA
    if isinstance(asked.body, list):
        return [gbif(item["scientificName"]) for item in asked.body]
    return gbif(asked.query.get("scientificName", "Agra schwarzeneggeri"))


def _itis(path: str) -> Any:
    if path.endswith("getFullHierarchyFromTSN"):
        return ITIS_HIERARCHY
    return recorded("itis-search-common-none")
