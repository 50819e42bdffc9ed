"""iNaturalist: a recorded page of taxa."""

from __future__ import annotations

from typing import Any

from tests.services.conftest import recorded
from tests.services.local_server import Asked


def reply(asked: Asked) -> Any:
    return recorded("inat-taxa-search")


def accepting(asked: Asked) -> Any:
    name = asked.query["q"]
    rank = {1: "genus", 2: "species"}.get(len(name.split()), "subspecies")
    return {"results": [{"id": 1, "name": name, "rank": rank, "is_active": True, "ancestor_ids": [1]}]}
