"""``lists fetch`` in a process of its own against a server on this machine: kills, and a catalogue that moves on.

The server answers as :class:`tests.lists.test_fetch.Catalogue`, which says where its shapes are from.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from tests.lists.test_fetch import SUBTREE, Catalogue, many
from tests.services.local_server import Asked, Canned, serving

NAMES = many(1250)


class Moving:
    """A catalogue over HTTP: at offset ``at`` the asking process is killed; all but the newest release may be gone."""

    def __init__(self, results: Sequence[dict[str, Any]] = NAMES) -> None:
        self.catalogue = Catalogue(results)
        self.release, self.gone = 4242, False
        self.at = ""
        self.process: subprocess.Popen[str] | None = None
        self.repeated = False

    def __call__(self, asked: Asked) -> Canned:
        path, query = asked.path.removeprefix("/"), dict(asked.query)
        offset = query.get("offset", "")
        if self.at and offset == self.at and self.process is not None:
            os.kill(self.process.pid, signal.SIGKILL)
        if path == "dataset/3LXR":
            release = self.catalogue(path, ())
            assert isinstance(release, dict)
            return Canned.json(release | {"key": self.release, "alias": f"COL {self.release}"})
        if self.gone and path != f"dataset/{self.release}/nameusage/search":
            return Canned(status=404)
        if self.repeated and offset:
            query["offset"] = "0"
        named = path.replace(f"dataset/{self.release}/", "dataset/4242/")
        return Canned.json(self.catalogue(named, tuple(query.items())))


def fetched(server: Moving, base: str, home: Path) -> tuple[int, str, str]:
    """Run the command; -9 if it was killed."""
    environ = {**os.environ, "NAMEKEEPER_HOME": str(home), "NAMEKEEPER_URL_CHECKLISTBANK": base}
    words = [sys.executable, "-m", "namekeeper", "lists", "fetch", "Theraphosidae", "--as", "col", "--json"]
    pipe = subprocess.PIPE
    with subprocess.Popen(words, stdout=pipe, stderr=pipe, env=environ, encoding="utf-8") as running:
        server.process = running
        out, err = running.communicate(timeout=120)
    return running.returncode, out, err


def offsets(asked: Sequence[Asked]) -> list[tuple[str, str]]:
    return [(one.path.split("/")[2], one.query["offset"]) for one in asked if "offset" in one.query]


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="processes are ended otherwise there")
def test_a_fetch_that_is_killed_goes_on_in_the_release_it_began_with(tmp_path: Path) -> None:
    """Killed while the second page comes; meanwhile there is a newer release, and the list is of the first."""
    server = Moving()
    server.at = "500"
    with serving(server) as wire:
        assert fetched(server, wire.base, tmp_path)[0] == -signal.SIGKILL
        assert not list(tmp_path.rglob("col/*.sqlite"))
        server.at, server.release, before = "", 4343, len(wire.asked)
        code, out, err = fetched(server, wire.base, tmp_path)
        assert code == 0, err
        assert offsets(wire.asked[before:]) == [("4242", "500"), ("4242", "1000")]
    document = json.loads(out)
    assert (document["names"], document["edition"], document["missing"]) == (1250, "COL-4242", 0)


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="processes are ended otherwise there")
def test_a_release_that_is_gone_is_not_asked_for_ever(tmp_path: Path) -> None:
    server = Moving()
    server.at = "500"
    with serving(server) as wire:
        fetched(server, wire.base, tmp_path)
        server.at, server.release, server.gone, before = "", 4343, True, len(wire.asked)
        code, out, err = fetched(server, wire.base, tmp_path)
        assert code == 0, err
        assert offsets(wire.asked[before:]) == [("4242", "500"), *(("4343", at) for at in ("0", "500", "1000"))]
    assert (json.loads(out)["names"], json.loads(out)["edition"]) == (1250, "COL-4343")


def test_a_page_that_comes_again_and_again_adds_nothing(tmp_path: Path) -> None:
    """What is missing is told, and the list says of no group that it is complete for it."""
    server = Moving(many(1500))
    server.repeated = True
    with serving(server) as wire:
        code, out, err = fetched(server, wire.base, tmp_path)
        asked = offsets(wire.asked)
    assert code == 0, err
    document = json.loads(out)
    assert (document["names"], document["missing"]) == (500, 1000)
    assert len(asked) <= 5, "three pages and their edges, each once"


def test_a_catalogue_that_shrinks_between_two_pages_is_begun_anew(tmp_path: Path) -> None:
    """The same release counts fewer names than when the fetch began: told, and the next fetch does not stay stuck."""
    server = Moving()
    with serving(server) as wire:
        whole = server.catalogue.results

        def shrinking(asked: Asked) -> Canned:
            if asked.query.get("offset") == "500":
                server.catalogue.results = whole[:900]
            return server(asked)

        wire.answer = shrinking
        wire_code, _, err = fetched(server, wire.base, tmp_path)
        assert (wire_code, "gave 400 names where 500 were due" in err) == (2, True)
        code, out, err = fetched(server, wire.base, tmp_path)
        assert code == 0, err
    assert json.loads(out)["names"] == 900
    assert SUBTREE[0] in whole
    with suppress(FileNotFoundError):
        assert not list((tmp_path / "cache" / "fetched").iterdir())
