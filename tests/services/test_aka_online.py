"""``namekeeper aka --online``: names of a species that no list on this machine has, by the services alone."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from tests.services.conftest import constructed, recorded
from tests.services.local_server import Asked, Canned, LocalServer
from tests.services.local_services import everywhere, service_of

Command = Callable[..., Any]


def ant(asked: Asked) -> Canned:
    """The recorded ant at ChecklistBank, with constructed details; the other services know nothing."""
    key, own = service_of(asked)
    if key != "checklistbank":
        return Canned(status=404)
    bodies = {
        "nameusage": recorded("clb-match-synonym-genus-transfer"),
        "synonyms": constructed("clb-taxon-synonyms"),
        "vernacular": [{"name": "hormiga de ejemplo", "language": "spa"}],
        "distribution": constructed("clb-taxon-distribution"),
    }
    body = bodies.get(own.path.rpartition("/")[2])
    return Canned(status=404) if body is None else Canned.json(body)


def test_a_species_of_the_services(command: Command, server: LocalServer) -> None:
    server.answer = ant
    outcome = command("aka", "--online", "--json", "Anergates", "atratulus", environ=everywhere(server))
    document = json.loads(outcome.out)
    assert (outcome.code, document["name"], document["led"]) == (
        0,
        "Tetramorium atratulum",
        "Anergates atratulus is now Tetramorium atratulum",
    )
    assert "Priorgenus exemplaris" in {old["name"] for old in document["former"]}
    assert document["common"] == [{"name": "hormiga de ejemplo", "language": "es", "kind": "common"}]
    assert document["range"] == ["Mexico", "Panama to Colombia"]
    assert "iNaturalist could not be asked: it does not know this address (HTTP 404)" in outcome.err


def test_without_the_option_nobody_is_asked(command: Command, server: LocalServer) -> None:
    outcome = command("aka", "Anergates", "atratulus", environ=everywhere(server))
    assert (outcome.code, server.asked) == (2, [])


def test_the_lists_lead_and_services_add(command: Command, server: LocalServer) -> None:
    server.answer = lambda asked: Canned(status=404)
    alone = json.loads(command("aka", "--json", "Tliltocatl", "vagans").out)
    both = command("aka", "--online", "--json", "Tliltocatl", "vagans", environ=everywhere(server))
    asked = json.loads(both.out)
    assert {one["reason"] for one in asked.pop("failures")} == {"bad-reply"}
    assert alone.pop("failures") == []
    assert asked == alone
    assert both.code == 0
