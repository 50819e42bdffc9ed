"""iNaturalist: a recorded page of taxa, the first of them found by the name that is asked if none has it."""

from __future__ import annotations

from typing import Any

from tests.services.conftest import recorded
from tests.services.local_server import Asked


def reply(asked: Asked) -> Any:
    document = recorded("inat-taxa-search")
    asked_for = asked.query.get("q", "")
    if asked_for.isprintable() and asked_for not in ["", *(one["name"] for one in document["results"])]:
        document["results"][0]["matched_term"] = asked_for
    return document


def accepting(asked: Asked) -> Any:
    name = asked.query["q"]
    rank = {1: "genus", 2: "species"}.get(len(name.split()), "subspecies")
    return {"results": [{"id": 1, "name": name, "rank": rank, "is_active": True, "ancestor_ids": [1]}]}
