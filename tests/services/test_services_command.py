"""``namekeeper services`` and the opening of services."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from namekeeper.records.specimen import Settings
from namekeeper.sources.kept_answers import Freshness
from namekeeper.sources.services.registry import KEYS, SERVICES, open_services
from namekeeper.sources.services.service import CommonNameService, NameService, OwnKey
from namekeeper.tasks.online import ServiceWishes, ask_online
from namekeeper.words.errors import InputError
from tests.contract.schemas import problems
from tests.services.conftest import SECRET, Bench
from tests.services.good_replies import good
from tests.services.local_server import Canned, LocalServer
from tests.services.local_services import everywhere, well

Command = Callable[..., Any]
#: What the registry says; that it says so of the services we have is tested below.
OPEN = [kind.profile.key for kind in SERVICES if kind.profile.own_key is None]
KEYED = [kind.profile.own_key for kind in SERVICES if kind.profile.own_key]


def test_services_without_asking(command: Command) -> None:
    outcome = command("services", "--json")
    document = json.loads(outcome.out)
    assert (outcome.code, document["version"], problems("services", document)) == (0, 1, [])
    assert [service["key"] for service in document["services"]] == list(KEYS)
    for service in document["services"]:
        assert set(service) >= {"key", "on", "for", "licence", "reachable", "last_answer", "cache_bytes"}
        assert (service["reachable"], service["last_answer"], service["cache_bytes"]) == (None, None, 0)
    assert [s["key"] for s in document["services"] if s["on"]] == OPEN


def test_live_asks_each_service_that_is_on_one_question(command: Command, server: LocalServer) -> None:
    server.answer = well
    outcome = command("services", "--live", "--json", environ=everywhere(server))
    services = json.loads(outcome.out)["services"]
    assert outcome.code == 0
    assert {s["key"]: s["reachable"] for s in services} == dict.fromkeys(KEYS) | dict.fromkeys(OPEN, True)
    assert [s["why"] for s in services if s["why"]] == ["it needs a key of your own"] * len(KEYED)
    assert len(server.asked) == len(OPEN)
    assert all(s["cache_bytes"] > 0 and s["last_answer"] for s in services if s["on"])
    command("services", "--live", environ=everywhere(server))
    assert len(server.asked) == 2 * len(OPEN)  # a probe never takes a kept answer


def test_with_its_key_a_keyed_service_is_on(command: Command, server: LocalServer, home: Path) -> None:
    server.answer = well
    keys = {own.variable: SECRET for own in KEYED}
    outcome = command("services", "--live", "--json", environ=everywhere(server) | keys)
    assert all(service["reachable"] for service in json.loads(outcome.out)["services"])
    files = b"".join(path.read_bytes() for path in home.rglob("*") if path.is_file())
    assert SECRET.encode() not in (outcome.out + outcome.err).encode() + files


def test_a_service_that_does_not_answer_is_exit_3(command: Command, server: LocalServer) -> None:
    server.answer = lambda asked: Canned(status=404) if "/gbif/" in asked.path else well(asked)
    outcome = command("services", "--live", environ=everywhere(server))
    assert outcome.code == 3
    assert "gbif: it does not know this address (HTTP 404)" in outcome.err


def test_a_kept_answer_does_not_make_a_service_reachable(command: Command, server: LocalServer) -> None:
    server.answer = well
    command("services", "--live", environ=everywhere(server))
    server.answer = lambda asked: Canned(status=403)
    outcome = command("services", "--live", "--json", environ=everywhere(server))
    assert [s["reachable"] for s in json.loads(outcome.out)["services"] if s["on"]] == [False] * len(OPEN)


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


def opened(bench: Bench, keys: list[str], settings: Settings, environ: dict[str, str]) -> list[str]:
    services = open_services(bench.outside(environ), settings, keys, Freshness())
    return [service.profile.key for service in services]


def test_the_key_of_the_spider_catalogue() -> None:
    """These names are in keepers' files: they stay."""
    assert {kind.profile.key: kind.profile.own_key for kind in SERVICES}["spidercatalog"] == OwnKey(
        variable="NAMEKEEPER_SPIDERCATALOG_KEY", setting="spidercatalog_key", parameter="apiKey"
    )


def test_which_services_are_opened(bench: Bench) -> None:
    key = {"NAMEKEEPER_SPIDERCATALOG_KEY": "x"}
    keyed = [one for one in KEYS if one in OPEN or one == "spidercatalog"]
    assert opened(bench, [], Settings(), {}) == OPEN
    assert opened(bench, [], Settings(), key) == keyed
    assert opened(bench, [], Settings(raw={"services": {"spidercatalog_key": "x"}}), {}) == keyed
    assert opened(bench, [], Settings(services=("gbif",)), {}) == ["gbif"]
    assert opened(bench, [], Settings(raw={"services": {"ask": ["gbif"], "contact": "me"}}), {}) == ["gbif"]
    wished = opened(bench, ["inaturalist", "Checklistbank"], Settings(services=("gbif",)), {})
    assert wished == ["checklistbank", "inaturalist"]
    assert opened(bench, ["none"], Settings(), key) == []
    assert bench.notices == []


def test_a_service_of_common_names_is_not_asked_scientific_ones(bench: Bench, server: LocalServer) -> None:
    server.answer = well
    outside = bench.outside(everywhere(server) | {"NAMEKEEPER_CONTACT": "keeper@example.org"})
    ask = ask_online(outside, Settings(), ServiceWishes(("itis", "gbif")))
    assert ask is not None
    assert bench.notices == ["ITIS knows common names only and is not asked here"]
    (replies,) = ask({"Exemplum vulgare": ""}).values()
    assert [reply.edition.source for reply in replies] == ["gbif"]


def test_services_of_scientific_and_of_common_names() -> None:
    def of(kind: type) -> set[str]:
        return {service.profile.key for service in SERVICES if issubclass(service, kind)}

    assert of(NameService) >= {"checklistbank", "inaturalist", "gbif", "spidercatalog"}
    assert of(CommonNameService) >= {"checklistbank", "inaturalist", "itis", "wikidata"}
    assert not of(NameService) & {"itis", "wikidata"}


def test_an_unknown_service_is_named_with_the_known_ones(bench: Bench) -> None:
    with pytest.raises(InputError, match="no service 'gbiff'") as caught:
        opened(bench, ["gbiff"], Settings(), {})
    assert all(key in caught.value.remedy for key in KEYS)


def test_more_days_than_there_are_is_a_clear_error(bench: Bench) -> None:
    with pytest.raises(InputError, match="more than can be reckoned with"):
        ask_online(bench.outside({}), Settings(), ServiceWishes(max_age=10**12))


def test_the_contact_of_the_keeper_goes_out_with_every_question(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: good("inaturalist", asked)
    for settings, environ in (
        (Settings(raw={"services": {"contact": "keeper@example.org"}}), {}),
        (Settings(), {"NAMEKEEPER_CONTACT": "keeper@example.org"}),
    ):
        where = bench.outside({"NAMEKEEPER_URL_INATURALIST": server.base, **environ})
        (service,) = open_services(where, settings, ["inaturalist"], Freshness())
        assert isinstance(service, NameService)
        list(service.ask([f"Exemplum {len(server.asked)}"]))
    assert {asked.headers["User-Agent"].partition(" ")[2] for asked in server.asked} == {"(keeper@example.org)"}
    assert len(server.asked) == 2


def test_the_network_library_is_loaded_by_the_first_question_only() -> None:
    """Commands that work from lists and kept answers start without it."""
    code = (
        "import sys, namekeeper.tasks.ask_services, namekeeper.faces.cli.services;"
        "print(sorted({'requests', 'urllib3'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
