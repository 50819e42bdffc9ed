"""ITIS: a recorded search without a hit."""

from __future__ import annotations

from typing import Any

from tests.services.conftest import recorded
from tests.services.local_server import Asked

# Constructed: fields as public callers of getFullHierarchyFromTSN read them; ranks and names from memory.
HIERARCHY = {
    "hierarchyList": [
        {"rankName": "Kingdom", "taxonName": "Animalia", "tsn": "202423"},
        {"rankName": "Phylum", "taxonName": "Arthropoda", "tsn": "82696"},
        {"rankName": "Class", "taxonName": "Arachnida", "tsn": "82708"},
        {"rankName": "Species", "taxonName": "Exemplum vulgare", "tsn": "1"},
        None,
    ]
}


def reply(asked: Asked) -> Any:
    return HIERARCHY if asked.path.endswith("getFullHierarchyFromTSN") else recorded("itis-search-common-none")
