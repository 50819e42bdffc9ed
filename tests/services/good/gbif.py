"""GBIF: a recorded beetle, under the name that is asked."""

from __future__ import annotations

from typing import Any

from tests.services.conftest import recorded
from tests.services.local_server import Asked

# Constructed after the model of the matching server (gbif/matching-ws, IndexMetadata) as quoted in public tests.
METADATA = {
    "created": "2026-08-01T00:00:00Z",
    "mainIndex": {"clbDatasetKey": "315557", "datasetAlias": "COL26.6 XR"},
}


def match(name: str = "Agra schwarzeneggeri", **more: str) -> Any:
    """The recorded match of a beetle, under another name if wished."""
    document = recorded("gbif-v2-match-exact-authorship-atomised")
    document["usage"] |= {"canonicalName": name, **more}
    return document


def reply(asked: Asked) -> Any:
    if asked.path.endswith("/metadata"):
        return METADATA
    if isinstance(asked.body, list):
        return [match(item["scientificName"]) for item in asked.body]
    return match(asked.query.get("scientificName", "Agra schwarzeneggeri"))


def accepting(asked: Asked) -> Any:
    if asked.path.endswith("/metadata"):
        return METADATA
    if isinstance(asked.body, list):
        return [match(item["scientificName"], authorship="") for item in asked.body]
    return match(asked.query["scientificName"], authorship="")
