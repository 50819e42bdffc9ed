"""``namekeeper services`` and the opening of services."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from namekeeper.files.places import Places
from namekeeper.records.specimen import Settings
from namekeeper.sources.services.registry import KEYS, SERVICES, common_name_services, open_services, switched_on
from namekeeper.words.errors import InputError
from tests.contract.schemas import problems
from tests.services.conftest import SECRET, FakeTime
from tests.services.good_replies import good
from tests.services.local_server import Asked, Canned, LocalServer
from tests.services.local_services import everywhere, service_of

Command = Callable[..., Any]


def dispatch(asked: Asked) -> Canned:
    return good(*service_of(asked))


def test_services_without_asking(command: Command) -> None:
    outcome = command("services", "--json")
    document = json.loads(outcome.out)
    assert (outcome.code, document["version"], problems("services", document)) == (0, 1, [])
    assert [service["key"] for service in document["services"]] == list(KEYS)
    for service in document["services"]:
        assert set(service) >= {"key", "on", "for", "licence", "reachable", "last_answer", "cache_bytes"}
        assert (service["reachable"], service["last_answer"], service["cache_bytes"]) == (None, None, 0)
    assert [s["key"] for s in document["services"] if not s["on"]] == ["spidercatalog"]


def test_live_asks_each_service_that_is_on_one_question(command: Command, server: LocalServer) -> None:
    server.answer = dispatch
    outcome = command("services", "--live", "--json", environ=everywhere(server))
    services = json.loads(outcome.out)["services"]
    assert outcome.code == 0
    assert {s["key"]: s["reachable"] for s in services} == dict.fromkeys(KEYS, True) | {"spidercatalog": None}
    assert [s["why"] for s in services if s["why"]] == ["it needs a key of your own"]
    assert len(server.asked) == 5
    assert all(s["cache_bytes"] > 0 and s["last_answer"] for s in services if s["on"])
    command("services", "--live", environ=everywhere(server))
    assert len(server.asked) == 10  # a probe never takes a kept answer


def test_with_the_key_the_spider_catalogue_is_on(command: Command, server: LocalServer, home: Path) -> None:
    server.answer = dispatch
    outcome = command(
        "services", "--live", "--json", environ=everywhere(server) | {"NAMEKEEPER_SPIDERCATALOG_KEY": SECRET}
    )
    assert all(service["reachable"] for service in json.loads(outcome.out)["services"])
    files = "".join(path.read_text(encoding="utf-8") for path in home.rglob("*") if path.is_file())
    assert SECRET not in outcome.out + outcome.err + files


def test_a_service_that_does_not_answer_is_exit_3(command: Command, server: LocalServer) -> None:
    server.answer = lambda asked: Canned(status=404) if "/gbif/" in asked.path else dispatch(asked)
    outcome = command("services", "--live", environ=everywhere(server))
    assert outcome.code == 3
    assert "gbif: it does not know this address (HTTP 404)" in outcome.err


def test_a_kept_answer_does_not_make_a_service_reachable(command: Command, server: LocalServer) -> None:
    server.answer = dispatch
    command("services", "--live", environ=everywhere(server))
    server.answer = lambda asked: Canned(status=403)
    outcome = command("services", "--live", "--json", environ=everywhere(server))
    assert [s["reachable"] for s in json.loads(outcome.out)["services"] if s["on"]] == [False] * 5


def test_the_table(command: Command) -> None:
    outcome = command("services")
    assert outcome.out.splitlines()[0].split() == [
        "service",
        "on",
        "for",
        "licence",
        "answers",
        "last",
        "answer",
        "kept",
    ]
    assert all(key in outcome.out for key in KEYS)


def test_an_unsafe_address_is_a_clear_error(command: Command) -> None:
    outcome = command("services", environ={"NAMEKEEPER_URL_GBIF": "http://example.org"})
    assert outcome.code == 2
    assert "NAMEKEEPER_URL_GBIF must be https" in outcome.err


@pytest.fixture
def places(tmp_path: Path) -> Places:
    return Places(tmp_path, tmp_path, tmp_path)


def keys_of(opened: tuple[Any, ...]) -> list[str]:
    return [service.profile.key for service in opened]


def test_which_services_are_opened(places: Places, fake_time: FakeTime) -> None:
    notices: list[str] = []

    def names(keys: list[str], settings: Settings, environ: dict[str, str]) -> list[str]:
        return keys_of(open_services(keys, settings, places, environ, notices.append, fake_time.clock))

    key = {"NAMEKEEPER_SPIDERCATALOG_KEY": "x"}
    assert names([], Settings(), {}) == ["checklistbank", "inaturalist", "gbif"]
    assert names([], Settings(), key) == ["checklistbank", "inaturalist", "gbif", "spidercatalog"]
    assert names([], Settings(raw={"services": {"spidercatalog_key": "x"}}), {})[-1] == "spidercatalog"
    assert names([], Settings(services=("gbif",)), {}) == ["gbif"]
    assert names([], Settings(raw={"services": {"ask": ["gbif"], "contact": "me"}}), {}) == ["gbif"]
    assert names(["inaturalist", "Checklistbank"], Settings(services=("gbif",)), {}) == ["checklistbank", "inaturalist"]
    assert names(["none"], Settings(), key) == []
    assert notices == []
    assert names(["itis", "gbif"], Settings(), {}) == ["gbif"]
    assert notices == ["ITIS knows common names only and is not asked here"]
    common = common_name_services([], Settings(), places, key, notices.append, fake_time.clock)
    assert keys_of(common) == ["checklistbank", "inaturalist", "itis", "wikidata"]
    assert switched_on(Settings(), {}) == ("checklistbank", "inaturalist", "gbif", "itis", "wikidata")


def test_an_unknown_service_is_named_with_the_known_ones(places: Places, fake_time: FakeTime) -> None:
    with pytest.raises(InputError, match="no service 'gbiff'") as caught:
        open_services(["gbiff"], Settings(), places, {}, print, fake_time.clock)
    assert all(key in caught.value.remedy for key in KEYS)


def test_the_contact_of_the_keeper_goes_out_with_every_question(
    places: Places, fake_time: FakeTime, server: LocalServer
) -> None:
    server.answer = lambda asked: good("inaturalist", asked)
    for settings, environ in (
        (Settings(raw={"services": {"contact": "keeper@example.org"}}), {}),
        (Settings(), {"NAMEKEEPER_CONTACT": "keeper@example.org"}),
    ):
        where = {"NAMEKEEPER_URL_INATURALIST": server.base, **environ}
        (service,) = open_services(["inaturalist"], settings, places, where, print, fake_time.clock)
        list(service.ask([f"Exemplum {len(server.asked)}"]))
    assert {asked.headers["User-Agent"].partition(" ")[2] for asked in server.asked} == {"(keeper@example.org)"}
    assert len(server.asked) == 2


def test_no_service_claims_to_be_complete_and_each_names_its_upstream() -> None:
    for service in SERVICES:
        edition = service.profile.edition()
        assert edition.complete_for == ()
        assert edition.upstream
        assert edition.dated is None  # the time of asking is no edition
        assert service.profile.jobs


def test_the_network_library_is_loaded_by_the_first_question_only() -> None:
    """Commands that work from lists and kept answers start without it."""
    code = (
        "import sys, namekeeper.tasks.ask_services, namekeeper.faces.cli.services;"
        "print(sorted({'requests', 'urllib3'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
