"""Who asks: the project's address and the keeper's contact in every question; what is said where there is neither."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from namekeeper import __version__
from namekeeper.faces.telling.remarks import remark_line
from namekeeper.sources import http_limits
from namekeeper.sources.http_limits import HttpSettings
from namekeeper.tasks import contact
from tests.services.faithful import faithful
from tests.services.local_server import LocalServer
from tests.services.local_services import everywhere

Command = Callable[..., Any]
NOBODY_TO_REACH = remark_line(contact.NOBODY_TO_REACH)
CONTACT = {"NAMEKEEPER_CONTACT": "keeper@example.org"}
ONE = "names:\n  - name: Ignotus exemplaris\n    since: 2020-01-01\n    standing: as-labelled\n"


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    (folder / "specimens/A.yaml").write_text(ONE, encoding="utf-8")
    return folder


def test_the_user_agent(monkeypatch: pytest.MonkeyPatch) -> None:
    """The form that Wikimedia asks for: client/version (contact)."""
    assert HttpSettings().user_agent == f"namekeeper/{__version__} (no contact set)"
    assert not HttpSettings(contact=" ()\n").reachable
    monkeypatch.setattr(http_limits, "PROJECT_ADDRESS", "https://project.example.org")
    assert HttpSettings().user_agent == f"namekeeper/{__version__} (https://project.example.org)"
    both = f"namekeeper/{__version__} (https://project.example.org; keeper@example.org)"
    assert HttpSettings(contact="keeper@example.org").user_agent == both


@pytest.mark.parametrize(
    "words",
    [
        ("check", "animals"),
        ("services", "--live"),
        ("lists", "fetch", "Tliltocatl", "--as", "col"),
        ("aka", "--online", "Tliltocatl vagans"),
        ("lookup", "Lanternfoot Example Tarantula"),
    ],
)
def test_the_contact_goes_out_with_every_question(
    command: Command, animals: Path, server: LocalServer, words: tuple[str, ...]
) -> None:
    server.answer = faithful
    done = command(*words, environ=everywhere(server) | CONTACT)
    assert server.asked
    assert {asked.headers["User-Agent"] for asked in server.asked} == {f"namekeeper/{__version__} (keeper@example.org)"}
    assert NOBODY_TO_REACH not in done.err


def test_it_is_said_once_what_it_means_to_give_none(command: Command, animals: Path, server: LocalServer) -> None:
    server.answer = faithful
    offline = command("check", "animals", "--offline", environ=everywhere(server))
    first = command("check", "animals", environ=everywhere(server))
    again = command("lists", "fetch", "Tliltocatl", "--as", "col", environ=everywhere(server))
    assert [one.err.count(NOBODY_TO_REACH) for one in (offline, first, again)] == [0, 1, 0]


def test_fetching_a_list_says_it_too(command: Command, server: LocalServer) -> None:
    server.answer = faithful
    done = command("lists", "fetch", "Tliltocatl", "--as", "col", environ=everywhere(server))
    assert (done.code, done.err.count(NOBODY_TO_REACH)) == (0, 1)


def test_the_list_of_services_says_it(command: Command) -> None:
    assert command("services").err.count(NOBODY_TO_REACH) == 1
    assert command("services", "--json").err.count(NOBODY_TO_REACH) == 1
    assert NOBODY_TO_REACH not in command("services", environ=CONTACT).err


def test_the_contact_of_a_collection_is_enough(command: Command, animals: Path, server: LocalServer) -> None:
    server.answer = faithful
    (animals / "collection.yaml").write_text("services: {contact: me@example.org}\n", encoding="utf-8")
    done = command("check", "animals", environ=everywhere(server))
    assert NOBODY_TO_REACH not in done.err
    assert {asked.headers["User-Agent"].partition(" ")[2] for asked in server.asked} == {"(me@example.org)"}


def test_a_state_folder_that_cannot_be_written_stops_nothing(
    command: Command, animals: Path, server: LocalServer, home: Path
) -> None:
    server.answer = faithful
    (home / "state").write_text("a file in the way", encoding="utf-8")
    for _ in range(2):
        done = command("check", "animals", environ=everywhere(server))
        assert done.err.count(NOBODY_TO_REACH) == 1
