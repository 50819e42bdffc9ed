"""A check compared with the last one: quiet when nothing changed, and never a reason to stop."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from namekeeper.files.places import Places
from namekeeper.tasks.since_last import SinceLast, remember_and_compare


def row(specimen: str, standing: str = "current", proposed: str | None = None, **more: Any) -> dict[str, Any]:
    target = {"name": proposed, "authorship": ""} if proposed else None
    return {"specimen": specimen, "label": "L", "standing": standing, "proposed": target, "choices": [], **more}


@pytest.fixture
def places(tmp_path: Path) -> Places:
    return Places(tmp_path / "cache", tmp_path / "state", tmp_path / "data")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "my-animals"


def compare(folder: Path, places: Places, *rows: dict[str, Any], partial: bool = False) -> SinceLast:
    report = {"version": 1, "checked_on": "2026-11-25", "results": list(rows), "summary": {}}
    return remember_and_compare(report, folder, places, partial=partial)


def told(since: SinceLast) -> list[str]:
    return [str(changed["specimen"]) for changed in since.changed]


def test_the_first_check_tells_everything(folder: Path, places: Places) -> None:
    since = compare(folder, places, row("A"), row("B", "moved", "N n"))
    assert (since.first, told(since), since.quiet) == (True, ["A", "B"], False)


def test_nothing_new_is_quiet(folder: Path, places: Places) -> None:
    compare(folder, places, row("A", checked="yesterday"), row("B", "moved", "N n", statements=[{"stale": False}]))
    since = compare(folder, places, row("B", "moved", "N n", statements=[{"stale": True}]), row("A", checked="today"))
    assert (since.first, since.quiet) == (False, True)


@pytest.mark.parametrize(
    "after", [row("A", "merged", "N n"), row("A", "moved", "O o"), row("A", "moved", "N n") | {"label": "new"}]
)
def test_what_changed_is_told(folder: Path, places: Places, after: dict[str, Any]) -> None:
    compare(folder, places, row("A", "moved", "N n"), row("B"))
    assert told(compare(folder, places, after, row("B"))) == ["A"]


def test_new_and_gone_specimens(folder: Path, places: Places) -> None:
    compare(folder, places, row("A"), row("B"))
    since = compare(folder, places, row("B"), row("C"))
    assert (told(since), since.gone) == (["C"], ("A",))
    assert compare(folder, places, row("B"), row("C")).quiet


def test_an_outage_is_no_news_and_is_forgotten(folder: Path, places: Places) -> None:
    compare(folder, places, row("A", "moved", "N n"))
    assert compare(folder, places, row("A", "unasked")).quiet
    assert compare(folder, places, row("A", "moved", "N n")).quiet
    assert told(compare(folder, places, row("A", "merged", "N n"))) == ["A"]


def test_a_part_of_the_collection_loses_nothing(folder: Path, places: Places) -> None:
    compare(folder, places, row("A"), row("B"))
    assert compare(folder, places, row("A"), partial=True).quiet
    assert compare(folder, places, row("A"), row("B")).quiet


def test_two_collections_are_kept_apart(folder: Path, places: Places, tmp_path: Path) -> None:
    compare(folder, places, row("A"))
    assert compare(tmp_path / "other", places, row("A")).first


@pytest.mark.parametrize("damage", [b"", b"{", b"[]", b'{"version": 1, "results": [1]}', b'{"version": 9}', b"\xff"])
def test_a_damaged_memory_is_told_and_written_anew(folder: Path, places: Places, damage: bytes) -> None:
    compare(folder, places, row("A"))
    (memory,) = places.state.rglob("*.json")
    memory.write_bytes(damage)
    since = compare(folder, places, row("A"))
    assert since.first
    assert since.problem is not None
    assert since.problem.remedy == "everything counts as new this time"
    assert compare(folder, places, row("A")).quiet


def test_a_memory_that_cannot_be_written_is_told(folder: Path, places: Places) -> None:
    places.state.parent.mkdir(exist_ok=True)
    places.state.write_text("a file in the way", encoding="utf-8")
    since = compare(folder, places, row("A"))
    assert told(since) == ["A"]
    assert since.problem is not None
    assert not since.quiet
