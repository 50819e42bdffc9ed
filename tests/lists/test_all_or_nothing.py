"""A list is added whole or not at all: faults at every step, kills, and two processes at once."""

from __future__ import annotations

import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from namekeeper.evidence.statements import Edition
from namekeeper.files import file_layer
from namekeeper.outside import Outside
from namekeeper.sources.lists import linking
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.index_writer import IndexWriter
from namekeeper.sources.lists.store import ListStore
from namekeeper.tasks.lists import list_states
from namekeeper.words.errors import FileError
from tests.lists.making import bare, written

MakeIndex = Callable[..., IndexList]
EDITION = Edition("list", "A list", "list")
OLD = bare("Brachypelma smithi")
NEW = [UsageRow(2, "", "Grammostola rosea"), UsageRow(3, "", "Grammostola pulchra")]


class BrokenError(Exception):
    """Stands for anything that goes wrong on the way."""


def breaking(error: BaseException) -> Iterator[UsageRow]:
    yield from NEW
    raise error


def build(place: Path, rows: Iterator[UsageRow]) -> None:
    with IndexWriter(place) as writer:
        writer.usages(rows)
        writer.finish(EDITION)


def leftovers(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if path.name.startswith("."))


@pytest.mark.parametrize("error", [BrokenError(), KeyboardInterrupt(), MemoryError(), SystemExit(1)])
def test_a_source_that_breaks_leaves_the_old_edition(error: BaseException, tmp_path: Path) -> None:
    written(tmp_path / "i", *OLD)
    before = (tmp_path / "i").read_bytes()
    with pytest.raises(type(error)):
        build(tmp_path / "i", breaking(error))
    assert (tmp_path / "i").read_bytes() == before
    assert leftovers(tmp_path) == []


@pytest.mark.parametrize("step", ["fsync", "replace", "link"])
def test_a_fault_at_the_last_steps_leaves_the_old_edition(
    step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written(tmp_path / "i", *OLD)
    before = (tmp_path / "i").read_bytes()
    full = sqlite3.OperationalError("disk full") if step == "link" else OSError(28, "No space left on device")

    def fail(*_: object, **__: object) -> None:
        raise full

    if step == "fsync":
        monkeypatch.setattr(os, "fsync", fail)
    elif step == "replace":
        monkeypatch.setattr(Path, "replace", fail)
    else:
        monkeypatch.setattr(linking, "link", fail)
    with pytest.raises(FileError, match="cannot be written"):
        build(tmp_path / "i", iter(NEW))
    assert (tmp_path / "i").read_bytes() == before
    assert leftovers(tmp_path) == []


def test_a_stop_in_the_midst_of_computing_keys_is_a_stop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # SQLite turns what a function of ours raises into an error of its own.
    def stop(_epithet: str) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr(linking, "ending_of_folded", stop)
    with pytest.raises(KeyboardInterrupt):
        build(tmp_path / "i", iter(NEW))
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_written(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    with pytest.raises(FileError, match="cannot be written"), IndexWriter(tmp_path / "file" / "i"):
        pass


KILLED = """
import os, signal, sys
from pathlib import Path
from namekeeper.evidence.statements import Edition
from namekeeper.files import file_layer
from namekeeper.outside import Outside
from namekeeper.sources.lists import linking
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_writer import IndexWriter

def kill(*_, **__):
    os.kill(os.getpid(), signal.SIGKILL)

when = sys.argv[2]
if when == "linking":
    linking.link = kill
if when == "syncing":
    os.fsync = kill
with IndexWriter(Path(sys.argv[1])) as writer:
    writer.usages(UsageRow(n, '', 'Aus bus') for n in range(20_000) if when != 'rows' or n < 15_000 or kill())
    writer.finish(Edition("list", "A list", "list"))
"""


@pytest.mark.parametrize("when", ["rows", "linking", "syncing"])
def test_a_kill_leaves_the_old_edition_and_the_next_run_sweeps(when: str, tmp_path: Path) -> None:
    place = tmp_path / "lists" / "spiders" / "1.sqlite"
    place.parent.mkdir(parents=True)
    written(place, *OLD)
    before = place.read_bytes()
    done = subprocess.run([sys.executable, "-c", KILLED, str(place), when], check=False, capture_output=True)
    assert done.returncode == -signal.SIGKILL, done.stderr
    assert place.read_bytes() == before
    assert len(leftovers(place.parent)) == 1
    ListStore(tmp_path).sweep()
    assert leftovers(place.parent) == []


def test_looking_at_the_lists_sweeps_what_was_left_of_any(outside: Outside) -> None:
    folder = outside.places.data / "lists" / "spiders"
    folder.mkdir(parents=True)
    (folder / f".1.sqlite.{10**20}.0123abcd.part").touch()
    list_states(outside)
    assert leftovers(folder) == []


def test_a_system_that_cannot_be_asked_of_processes_sweeps_by_age(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old, new = (tmp_path / f".1.sqlite.{os.getppid()}.{number}.part" for number in ("0123abcd", "4567abcd"))
    for part in (old, new):
        part.touch()
    os.utime(old, (1, 1))
    monkeypatch.setattr(os, "name", "nt")
    assert file_layer.abandoned_parts(tmp_path) == [old]


def test_what_another_process_is_building_is_not_swept(tmp_path: Path) -> None:
    folder = tmp_path / "lists" / "spiders"
    folder.mkdir(parents=True)
    alive = folder / f".1.sqlite.{os.getppid()}.0123abcd.part"
    alive.touch()
    ListStore(tmp_path).sweep()
    assert alive.exists()


def test_what_a_number_names_that_no_process_can_have_is_swept(tmp_path: Path) -> None:
    folder = tmp_path / "lists" / "spiders"
    folder.mkdir(parents=True)
    (folder / f".1.sqlite.{10**20}.0123abcd.part").touch()
    ListStore(tmp_path).sweep()
    assert leftovers(folder) == []


@pytest.mark.holds_open
def test_readers_of_the_old_edition_go_on(tmp_path: Path, names: MakeIndex) -> None:
    old = names(tmp_path / "i", "Brachypelma smithi")
    new = names(tmp_path / "i", "Grammostola rosea")
    assert [s.subject.name for s in old.named("Brachypelma smithi")] == ["Brachypelma smithi"]
    assert [s.subject.name for s in new.named("Grammostola rosea")] == ["Grammostola rosea"]


def test_an_index_is_never_written_by_reading(tmp_path: Path, names: MakeIndex) -> None:
    index = names(tmp_path / "i", "Brachypelma smithi")
    (tmp_path / "i").chmod(0o444)
    before = (tmp_path / "i").read_bytes()
    list(index.ask(["Brachypelma smithi", "Brachypelma smihti", "Nullum nomen"]))
    with pytest.raises(sqlite3.OperationalError):
        index._database.execute("DELETE FROM name")
    assert (tmp_path / "i").read_bytes() == before


@pytest.mark.parametrize("damage", ["empty", "text", "other database", "other format", "cut"])
def test_a_damaged_index_is_an_error_not_an_answer(damage: str, tmp_path: Path) -> None:
    place = tmp_path / "i"
    written(place, *bare(*(f"Aphonopelma a{'b' * n}" for n in range(2, 200))))
    if damage == "empty":
        place.write_bytes(b"")
    elif damage == "text":
        place.write_text("no database", encoding="utf-8")
    elif damage == "cut":
        place.write_bytes(place.read_bytes()[:5000])
    else:
        database = sqlite3.connect(place)
        database.execute("PRAGMA user_version = 99" if damage == "other format" else "PRAGMA application_id = 7")
        database.close()
    with pytest.raises(FileError, match="cannot be read"):
        IndexList.open(place)
