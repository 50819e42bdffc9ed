"""``namekeeper check`` against services on this machine: cold, warm, offline, one dead, all dead."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from namekeeper import resources
from tests.contract.schemas import problems
from tests.services.conftest import SECRET
from tests.services.local_server import Asked, Canned, LocalServer
from tests.services.local_services import accepting, everywhere, is_about_a_name, service_of

Command = Callable[..., Any]


@pytest.fixture
def sample(tmp_path: Path) -> str:
    return str(shutil.copytree(resources.sample_collection(), tmp_path / "animals"))


@pytest.fixture
def world(server: LocalServer) -> dict[str, str]:
    server.answer = accepting
    return everywhere(server)


def document(outcome: Any) -> Any:
    return json.loads(outcome.out)


def sources(rows: Any) -> set[tuple[str, bool]]:
    return {(one["source"], one["stale"]) for row in rows["results"] for one in row["statements"]}


ONLINE = {("checklistbank", False), ("inaturalist", False), ("gbif", False)}


def test_cold_and_warm(command: Command, sample: str, server: LocalServer, world: dict[str, str]) -> None:
    cold = command("check", sample, "--json", environ=world)
    rows = document(cold)
    assert problems("check", rows) == []
    assert sources(rows) >= ONLINE
    about_names = [service_of(asked) for asked in server.asked if is_about_a_name(asked)]
    names = [own.query["q"] for key, own in about_names if key == "inaturalist"]
    assert len(names) == len(set(names))
    assert len([key for key, _ in about_names if key == "checklistbank"]) == len(names)
    before = len(server.asked)
    assert document(command("check", sample, "--json", environ=world)) == rows
    assert len(server.asked) == before


def test_offline_after_online_uses_what_is_kept(
    command: Command, sample: str, server: LocalServer, world: dict[str, str]
) -> None:
    online = document(command("check", sample, "--json", environ=world))
    before = len(server.asked)
    offline = document(command("check", sample, "--offline", "--json", environ=world))
    assert (offline["results"], len(server.asked)) == (online["results"], before)


def test_only_the_services_that_are_wished(
    command: Command, sample: str, server: LocalServer, world: dict[str, str]
) -> None:
    rows = document(command("check", sample, "--services", "gbif", "--json", environ=world))
    assert {source for source, _ in sources(rows)} == {"starter", "gbif"}
    command("check", sample, "--services", "none", environ=world)
    assert {service_of(asked)[0] for asked in server.asked} == {"gbif"}


def test_refresh_asks_again_and_max_age_too(
    command: Command, sample: str, server: LocalServer, world: dict[str, str]
) -> None:
    def count(*more: str) -> int:
        before = len(server.asked)
        command("check", sample, "--services", "inaturalist", *more, environ=world)
        return len(server.asked) - before

    cold = count()
    assert (count(), count("--max-age", "1"), count("--refresh")) == (0, 0, cold)


def test_one_dead_service_spoils_nothing(
    command: Command, sample: str, server: LocalServer, world: dict[str, str]
) -> None:
    server.answer = lambda asked: Canned(status=403) if "/inaturalist/" in asked.path else accepting(asked)
    outcome = command("check", sample, "--json", environ=world)
    rows = document(outcome)
    assert ("checklistbank", False) in sources(rows)
    assert len([asked for asked in server.asked if "/inaturalist/" in asked.path]) == 1


def unlisted(tmp_path: Path) -> str:
    """A collection of one animal whose name no list has."""
    folder = tmp_path / "one"
    (folder / "specimens").mkdir(parents=True)
    text = (
        "acquired: 2020-01-01\nnames:\n  - name: Ignotus exemplaris\n    since: 2020-01-01\n    standing: as-labelled\n"
    )
    (folder / "specimens" / "A.yaml").write_text(text, encoding="utf-8")
    return str(folder)


def test_all_dead_is_unasked_and_exit_3_never_unknown(
    command: Command, tmp_path: Path, server: LocalServer, world: dict[str, str]
) -> None:
    server.answer = lambda asked: Canned(status=403)
    outcome = command("check", unlisted(tmp_path), "--json", environ=world)
    (row,) = document(outcome)["results"]
    assert (outcome.code, row["standing"]) == (3, "unasked")
    assert "HTTP 403" in " ".join(row["why"]) + json.dumps(row["statements"])


def test_an_outage_is_quiet_since_last(
    command: Command, tmp_path: Path, server: LocalServer, world: dict[str, str], home: Path
) -> None:
    folder = unlisted(tmp_path)
    first = command("check", folder, "--since-last", environ=world)
    assert "1 in force" in first.out
    server.answer = lambda asked: Canned(status=403)
    stale = command("check", folder, "--since-last", "--refresh", environ=world)
    assert (stale.code, stale.out) == (0, "")
    shutil.rmtree(home / "cache")
    unasked = command("check", folder, "--since-last", environ=world)
    assert unasked.out == ""
    server.answer = accepting
    again = command("check", folder, "--since-last", environ=world)
    assert (again.code, again.out) == (0, "")


def test_a_name_that_only_a_service_knows_is_no_longer_unasked(
    command: Command, tmp_path: Path, world: dict[str, str]
) -> None:
    outcome = command("check", unlisted(tmp_path), "--json", environ=world)
    (row,) = document(outcome)["results"]
    assert (outcome.code, row["standing"]) == (0, "current")


def test_a_decision_on_answers_that_cannot_be_kept_is_refused_and_told(
    command: Command, tmp_path: Path, world: dict[str, str], home: Path
) -> None:
    """It could not be compared again before it is written; by the lists alone it can."""
    folder = unlisted(tmp_path)
    before = (tmp_path / "one" / "specimens" / "A.yaml").read_text()
    (home / "cache" / "services").write_text("in the way")
    words = ("settle", folder, "--take", "A=Tliltocatl vagans", "--write")
    done = command(*words, environ=world)
    assert (done.code, (tmp_path / "one" / "specimens" / "A.yaml").read_text()) == (2, before)
    assert f"answers cannot be kept in {home / 'cache' / 'services'}" in done.err
    assert done.err.splitlines()[-1] == (
        "A: not written: what a service said of it is not kept here, so it cannot be looked at once more"
        " (make room for kept answers, or decide by the lists alone: --offline)"
    )
    assert command(*words, "--offline", environ=world).code == 0
    (home / "cache" / "services").unlink()
    assert "name: Tliltocatl vagans" in (tmp_path / "one" / "specimens" / "A.yaml").read_text()


def test_no_key_in_any_text(
    command: Command, tmp_path: Path, sample: str, server: LocalServer, world: dict[str, str], home: Path
) -> None:
    def well_or_ill(asked: Asked) -> Canned:
        return Canned(status=500) if "/spidercatalog/" in asked.path else accepting(asked)

    server.answer = well_or_ill
    outcome = command("check", sample, "--json", environ=world | {"NAMEKEEPER_SPIDERCATALOG_KEY": SECRET})
    files = "".join(path.read_text(encoding="utf-8", errors="replace") for path in home.rglob("*.json"))
    assert SECRET not in outcome.out + outcome.err + files
