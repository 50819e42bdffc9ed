"""ChecklistBank: a recorded ant whose genus changed; nothing for other names and questions."""

from __future__ import annotations

from typing import Any

from tests.services.conftest import constructed, recorded
from tests.services.local_server import Asked

# Constructed after the fields of the server's own Dataset model; alias and licence as seen in public quotations.
DATASET = {
    "key": 315557,
    "alias": "COL26.6 XR",
    "issued": "2026-06-15",
    "version": "2026-06-15 XR",
    "license": "cc by",
}


def reply(asked: Asked) -> Any:
    if asked.path.endswith("/dataset/3LXR"):
        return DATASET
    if asked.path.endswith("/match/nameusage"):
        known = asked.query.get("scientificName") == "Anergates atratulus"
        return recorded("clb-match-synonym-genus-transfer") if known else constructed("clb-match-none")
    return {"offset": 0, "limit": 50, "total": 0, "result": []}


def accepting(asked: Asked) -> Any:
    if not asked.path.endswith("/match/nameusage"):
        return reply(asked)
    document = recorded("clb-match-synonym-genus-transfer")
    document["usage"] |= {"name": asked.query["scientificName"], "authorship": "", "status": "accepted"}
    return document
