"""Ids are chosen under the lock: whoever adds at the same time gets one of his own."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.storage.changes import apply_changes
from namekeeper.storage.wanted import NewSpecimen
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.transfer import ImportWishes, plan_import, write_import
from tests.conftest import NOW, Outcome, world

Command = Callable[..., Outcome]


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    (tmp_path / "animals" / "specimens").mkdir(parents=True)
    return tmp_path / "animals"


def ids(animals: Path) -> list[str]:
    return sorted(path.stem for path in (animals / "specimens").glob("*.yaml"))


def test_four_processes_that_add_at_once_add_four_animals(animals: Path, home: Path) -> None:
    environ = {"NAMEKEEPER_HOME": str(home), "PATH": "", "PYTHONPATH": ":".join(sys.path)}
    words = [sys.executable, "-m", "namekeeper", "collection", "add", "animals", "--tag", "GBB 0.1"]
    running = [subprocess.Popen(words, cwd=animals.parent, env=environ, stdout=subprocess.PIPE) for _ in range(4)]
    assert [process.communicate()[0] is not None and process.returncode for process in running] == [0] * 4
    assert ids(animals) == ["INV-0001", "INV-0002", "INV-0003", "INV-0004"]


def test_an_import_takes_other_numbers_where_its_own_are_gone_meanwhile(
    animals: Path, home: Path, command: Command
) -> None:
    (animals.parent / "table.csv").write_text("id,tag\n,GBB\nMINE,B. vagans\n,H. lividum\n")
    desk = CollectionDesk.at(animals, world(animals.parent, home))
    plan = plan_import(desk, Path("table.csv"), ImportWishes({"id": "id", "tag": "tag"}))
    assert [specimen.id for _, specimen in plan.specimens] == ["INV-0001", "MINE", "INV-0002"]
    assert command("collection", "add", "animals", "--tag", "first").code == 0
    done = write_import(desk, plan)
    assert [specimen.id for _, specimen in done.plan.specimens] == ["INV-0003", "MINE", "INV-0002"]
    assert 'tag: "first"' in (animals / "specimens" / "INV-0001.yaml").read_text()
    assert ids(animals) == ["INV-0001", "INV-0002", "INV-0003", "MINE"]


def test_what_is_chosen_under_the_lock_sees_what_is_there(animals: Path, home: Path) -> None:
    seen: list[frozenset[str]] = []

    def chosen(taken: frozenset[str]) -> list[NewSpecimen]:
        seen.append(taken)
        return [NewSpecimen(f"N{len(taken)}", "tag: x\n")]

    places = world(animals.parent, home).places
    for _ in range(2):
        assert apply_changes(animals, chosen, places, lambda: NOW).refused == ()
    assert seen == [frozenset(), frozenset({"N0"})]
