"""A collection as version 0.1 left it opens unchanged, and goes on from there.

``data/version-0.1`` was made with that version: taken, undone, kept, postponed, printed, divided, counted, left.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.storage.collection_folder import load_collection
from tests.conftest import NOW, Outcome

Command = Callable[..., Outcome]

FROZEN = Path(__file__).parent / "data" / "version-0.1"


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    return Path(shutil.copytree(FROZEN, tmp_path / "animals"))


def contents(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def test_looking_at_it_changes_nothing(command: Command, animals: Path) -> None:
    assert load_collection(animals, NOW.date()).problems == ()
    for words in (
        ("collection", "verify", "animals"),
        ("check", "animals", "--offline"),
        ("history", "animals"),
        ("labels", "animals", "--status"),
        ("settle", "animals", "--offline", "--take-safe"),
    ):
        done = command(*words)
        assert done.code in (0, 1), done.err
    assert contents(animals) == contents(FROZEN)


def test_it_says_what_it_said(command: Command, animals: Path) -> None:
    status = json.loads(command("labels", "animals", "--status", "--json").out)["status"]
    assert {one["specimen"]: (one["printed"], one["in_force"], one["stale"]) for one in status} == {
        "A1": ("Tliltocatl vagans", "Tliltocatl vagans", False),
        "INV-0001": (None, "“GBB 0.1”", False),
        "INV-0002": (None, "“Mex red knee”", False),
        "INV-0003": (None, "Tliltocatl vagans", True),
    }
    checked = json.loads(command("check", "animals", "--offline", "--json").out)
    assert checked["summary"] == {"current": 2, "unnamed": 2}
    (history,) = json.loads(command("history", "animals", "INV-0002", "--json").out)["specimens"]
    assert [(entry["standing"], entry["undone"]) for entry in history["entries"]] == [
        ("chosen", True),
        ("undone", False),
    ]


def test_it_goes_on_from_there(command: Command, animals: Path) -> None:
    before = contents(animals)
    assert command("settle", "animals", "--offline", "--undo", "INV-0001", "--undo-print", "A1", "--write").code == 1
    assert command("settle", "animals", "--offline", "--correct", "INV-0003=Brachypelma boehmei", "--write").code == 1
    after = contents(animals)
    for name in ("A1", "INV-0001", "INV-0003"):
        file = f"specimens/{name}.yaml"
        assert set(before[file].splitlines()) < set(after[file].splitlines())
    assert command("collection", "verify", "animals").code == 0
