"""Written names that no list has, asked of the services by the lookup command."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from tests.services.local_server import Canned, LocalServer
from tests.services.local_services import accepting, everywhere

Command = Callable[..., Any]


def result(outcome: Any) -> Any:
    (found,) = json.loads(outcome.out)["results"]
    return found


def test_a_name_that_services_have_is_found_and_names_them(command: Command, server: LocalServer) -> None:
    server.answer = accepting
    outcome = command("lookup", "--json", "Ursus maritimus 0.1", environ=everywhere(server))
    found = result(outcome)
    assert [candidate["name"] for candidate in found["candidates"]] == ["Ursus maritimus"]
    assert {"checklistbank", "gbif"} & set(found["candidates"][0]["sources"])
    assert (found["answer"], outcome.code) == ("one", 0)


def test_services_that_fail_leave_the_name_unasked(command: Command, server: LocalServer) -> None:
    server.answer = lambda asked: Canned(status=500)
    outcome = command("lookup", "--json", "Ursus maritimus", environ=everywhere(server))
    assert (result(outcome)["answer"], outcome.code) == ("unasked", 3)
    assert "could not be asked" in outcome.err


def test_offline_asks_nobody(command: Command, server: LocalServer) -> None:
    outcome = command("lookup", "--offline", "--json", "Ursus maritimus", environ=everywhere(server))
    assert (result(outcome)["answer"], outcome.code, server.asked) == ("unasked", 1, [])
