"""Paths that no one means: each command answers with one line and exit code 2, nothing is written, nothing breaks."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome

Command = Callable[..., Outcome]
ODD = ["x" * 5000, "/", "", "loop", "file", "missing/deeper"]


@pytest.fixture
def place(tmp_path: Path, command: Command) -> Path:
    (tmp_path / "loop").symlink_to("loop")
    (tmp_path / "file").write_text("tag: x\n")
    command("collection", "new", "animals")
    command("collection", "add", "animals", "--tag", "x")
    return tmp_path


@pytest.mark.usefixtures("place")
@pytest.mark.parametrize("path", ODD[0:1] + ODD[3:])
@pytest.mark.parametrize(
    "words",
    [
        ("collection", "verify", "?"),
        ("collection", "add", "?", "--tag", "x"),
        ("collection", "left", "?", "A", "--how", "sold", "--write"),
        ("collection", "import", "animals", "?", "--write"),
        ("collection", "export", "?", "-o", "out.csv"),
        ("history", "?"),
        ("settle", "?", "--offline", "--take-safe", "--write"),
        ("tables", "?", "file"),
        ("tables", "animals", "?", "--column", "name"),
    ],
)
def test_an_odd_place_to_read_is_one_line(command: Command, words: tuple[str, ...], path: str) -> None:
    done = command(*(path if word == "?" else word for word in words))
    assert done.code == 2
    assert done.err.startswith("namekeeper: ")
    assert done.err.count("\n") == 1


@pytest.mark.parametrize("path", ["x" * 5000, "/", "", "loop", "missing/deeper"])
def test_an_odd_place_to_write_is_one_line(place: Path, command: Command, path: str) -> None:
    before = {entry.name for entry in place.rglob("*")}
    done = command("collection", "export", "animals", "-o", path)
    assert done.code in (0, 2)
    assert done.code == 0 or done.err.startswith("namekeeper: ")
    made = {entry.name for entry in place.rglob("*")} - before
    assert not [name for name in made if "namekeeper-new" in name]


@pytest.mark.parametrize("path", ["x" * 5000, "loop", "file"])
def test_no_collection_is_made_where_none_can_be(place: Path, command: Command, path: str) -> None:
    done = command("collection", "new", path)
    assert done.code == 2
    assert done.err.startswith("namekeeper: ")
    assert (place / "file").read_text() == "tag: x\n"
