"""Common names that the lists do not know, asked of the services and merged with what the lists have."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from tests.services.conftest import recorded
from tests.services.good_replies import good
from tests.services.local_server import Asked, Canned, LocalServer
from tests.services.local_services import everywhere, service_of

Command = Callable[..., Any]
TAG = "Colt's-foot Bell 2cm"  # a moth with that name on record, in no list of ours


def moth(asked: Asked) -> Canned:
    key, own = service_of(asked)
    return Canned.json(recorded("inat-taxa-preferred-place")) if key == "inaturalist" else good(key, own)


def results(outcome: Any) -> Any:
    (result,) = json.loads(outcome.out)["results"]
    return result


def test_a_common_name_of_a_service_is_a_candidate_and_never_one(command: Command, server: LocalServer) -> None:
    server.answer = moth
    outcome = command("lookup", "--json", TAG, environ=everywhere(server))
    result = results(outcome)
    assert [(c["name"], c["how"], c["sources"]) for c in result["candidates"]] == [
        ("Epiblema sticticana", "common", ["inaturalist"])
    ]
    assert result["answer"] != "one"
    assert outcome.code == 1


def test_kept_answers_serve_offline(command: Command, server: LocalServer) -> None:
    server.answer = moth
    command("lookup", TAG, environ=everywhere(server))
    asked = len(server.asked)
    outcome = command("lookup", "--offline", "--json", TAG, environ=everywhere(server))
    assert [c["name"] for c in results(outcome)["candidates"]] == ["Epiblema sticticana"]
    assert len(server.asked) == asked


def test_what_the_lists_know_is_not_asked(command: Command, server: LocalServer) -> None:
    outcome = command("lookup", "--json", "Brachypelma hamorii", environ=everywhere(server))
    assert results(outcome)["answer"] == "one"
    assert server.asked == []


def test_services_that_fail_are_named_and_the_tag_stays_unasked(command: Command, server: LocalServer) -> None:
    server.answer = lambda asked: Canned(status=500)
    outcome = command("lookup", "--json", TAG, environ=everywhere(server))
    assert results(outcome)["answer"] == "unasked"
    assert outcome.code == 3
    assert "iNaturalist could not be asked: it has a fault of its own (HTTP 500)" in outcome.err


def test_words_of_no_known_shape_that_could_not_be_asked_are_unasked_too(command: Command, server: LocalServer) -> None:
    """Contract section 0: a login page of a hotel never makes a "not found"."""
    server.answer = lambda asked: Canned(body=b"<html><form>login</form></html>")
    outcome = command("lookup", "--json", "Quuxia neverheard", environ=everywhere(server))
    assert results(outcome)["answer"] == "unasked"
    assert outcome.code == 3
    nothing = command("lookup", "--json", "0.1 5cm £30", environ=everywhere(server))
    assert (results(nothing)["answer"], nothing.code) == ("none", 1)


def test_offline_is_a_choice_and_no_failure(command: Command, server: LocalServer) -> None:
    outcome = command("lookup", "--offline", "--json", TAG, environ=everywhere(server))
    assert (outcome.code, outcome.err, server.asked) == (1, "", [])


def test_each_name_is_asked_once_in_a_run(command: Command, server: LocalServer) -> None:
    server.answer = moth
    command("lookup", TAG, TAG, TAG, environ=everywhere(server))
    assert sum("autocomplete" in asked.path for asked in server.asked) == 1
