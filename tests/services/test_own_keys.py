"""The keeper's own key of a service goes to that service, and nowhere else."""

from __future__ import annotations

import json
import logging
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from namekeeper.evidence.statements import Failure
from namekeeper.records.specimen import Settings
from namekeeper.sources.kept_answers import Freshness
from namekeeper.sources.services import registry
from namekeeper.sources.services.gbif import Gbif
from namekeeper.sources.services.service import NameService, OwnKey
from tests.services.conftest import Bench
from tests.services.local_server import Canned, LocalServer
from tests.services.local_services import service_of
from tests.services.recipe import good_reply
from tests.services.recipe.fireflies import Fireflies

Command = Callable[..., Any]
KEYS = {"fireflies": "the-first-key", "glowworms": "another-key"}


class Glowworms(Fireflies):
    """A second service with a key of its own, which asks in batches of one POST like GBIF does."""

    __slots__ = ()
    profile = replace(
        Fireflies.profile,
        key="glowworms",
        own_key=OwnKey(variable="NAMEKEEPER_GLOWWORMS_KEY", setting="glowworms_key", parameter="apiKey"),
    )


class Batched(Gbif):
    """One that asks many names at once and needs a key."""

    __slots__ = ()
    profile = replace(Gbif.profile, key="batched", own_key=Glowworms.profile.own_key)


@pytest.fixture(autouse=True)
def two_keyed_services(monkeypatch: pytest.MonkeyPatch) -> None:
    services = (Fireflies, Glowworms, Batched)
    monkeypatch.setattr(registry, "SERVICES", services)
    monkeypatch.setattr(registry, "KEYS", tuple(service.profile.key for service in services))


def opened(bench: Bench, environ: dict[str, str], settings: Settings) -> list[NameService]:
    services = registry.open_services(bench.outside(environ), settings, (), Freshness())
    return [service for service in services if isinstance(service, NameService)]


def at(server: LocalServer) -> dict[str, str]:
    return {f"NAMEKEEPER_URL_{key.upper()}": f"{server.base}/{key}" for key in KEYS}


def from_environment() -> tuple[dict[str, str], Settings]:
    return {f"NAMEKEEPER_{key.upper()}_KEY": secret for key, secret in KEYS.items()}, Settings()


def from_collection() -> tuple[dict[str, str], Settings]:
    return {}, Settings(raw={"services": {f"{key}_key": secret for key, secret in KEYS.items()}})


@pytest.mark.parametrize("where", [from_environment, from_collection])
@pytest.mark.parametrize("status", [200, 403, 500])
def test_each_is_sent_its_own_key_and_none_is_kept_or_told(
    bench: Bench,
    server: LocalServer,
    caplog: pytest.LogCaptureFixture,
    where: Callable[[], tuple[dict[str, str], Settings]],
    status: int,
) -> None:
    server.answer = lambda asked: Canned.json(good_reply.reply(asked)) if status == 200 else Canned(status=status)
    environ, settings = where()
    caplog.set_level(logging.DEBUG)
    said = [
        list(service.ask(["Exemplum lucens"]))
        for service in opened(bench, at(server) | environ, settings)
        if service.profile.key in KEYS
    ]
    sent = {service_of(asked)[0]: asked.query for asked in server.asked}
    assert {key: query["token"] for key, query in sent.items() if "token" in query} == {"fireflies": KEYS["fireflies"]}
    assert {key: query["apiKey"] for key, query in sent.items() if "apiKey" in query} == {
        "glowworms": KEYS["glowworms"]
    }
    assert [isinstance(reply, Failure) for (reply,) in said] == [status != 200] * 2
    names = "".join(str(path) for path in bench.cache.rglob("*"))
    ours = "".join(record.getMessage() for record in caplog.records if record.name.startswith("name"))
    assert not any(secret in repr(said) + bench.all_texts() + names + ours for secret in KEYS.values())


def test_a_key_switches_on_its_own_service_only(bench: Bench) -> None:
    only = opened(bench, {"NAMEKEEPER_FIREFLIES_KEY": "x"}, Settings())
    assert [service.profile.key for service in only] == ["fireflies"]
    other = opened(bench, {}, Settings(raw={"services": {"fireflies_key": " ", "spidercatalog_key": "x"}}))
    assert other == []


@pytest.mark.parametrize("names", [["Exemplum lucens"], ["Exemplum lucens", "Exemplum rarum"]])
def test_without_its_key_a_chosen_service_is_not_asked(bench: Bench, server: LocalServer, names: list[str]) -> None:
    for key in registry.KEYS:
        outside = bench.outside({f"NAMEKEEPER_URL_{key.upper()}": server.base})
        (service,) = registry.open_services(outside, Settings(), [key], Freshness())
        assert isinstance(service, NameService)
        replies = list(service.ask(names))
        assert [reply.why for reply in replies if isinstance(reply, Failure)] == [
            "it needs the keeper's own free key"
        ] * len(names)
    assert server.asked == []


def test_no_key_in_what_a_command_prints_or_leaves(command: Command, server: LocalServer, home: Path) -> None:
    server.answer = lambda asked: Canned.json({"taxa": "text"})
    environ = at(server) | from_environment()[0] | {"NAMEKEEPER_URL_BATCHED": server.base}
    outcome = command("services", "--live", "--json", environ=environ)
    assert [one["reachable"] for one in json.loads(outcome.out)["services"]][:2] == [False, False]
    files = b"".join(path.read_bytes() for path in home.rglob("*") if path.is_file())
    left = (outcome.out + outcome.err).encode() + files
    assert not any(secret.encode() in left for secret in KEYS.values())
