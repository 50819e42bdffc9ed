"""Fireflies of Nowhere: one species, invented."""

from __future__ import annotations

from typing import Any

from tests.services.local_server import Asked


def reply(asked: Asked) -> Any:
    return {"taxa": [{"name": asked.query.get("name", "Exemplum lucens"), "common": "example firefly"}]}
