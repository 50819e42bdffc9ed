"""A past entry changed outside the tool is noticed and told, never repaired."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from namekeeper.files.places import Places
from namekeeper.records.specimen import NameEntry
from namekeeper.storage.changes import accept_history, apply_changes
from namekeeper.storage.collection_folder import load_collection
from namekeeper.storage.digests import read_digests, write_digests
from namekeeper.storage.journal import DIGESTS
from namekeeper.storage.wanted import Insertion
from namekeeper.words.dates import PartialDate

TODAY = date(2026, 11, 25)


def clock() -> datetime:
    return datetime(2026, 11, 25, 12, tzinfo=UTC)


@pytest.fixture
def places(tmp_path: Path) -> Places:
    return Places(tmp_path / "cache", tmp_path / "state", tmp_path / "data")


@pytest.fixture
def file(tmp_path: Path, places: Places) -> Path:
    """A specimen whose two entries the tool knows."""
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    file = folder / "specimens" / "A1.yaml"
    file.write_text("tag: x\nnames:\n  - name: Old name\n    since: 2014\n    note: |\n      two\n      lines")
    add(file, places, "New name")
    return file


def add(file: Path, places: Places, name: str) -> None:
    entry = NameEntry(name, since=PartialDate.parse("2020"), recorded=PartialDate.of(TODAY))
    assert apply_changes(file.parent.parent, [Insertion("A1", "names", entry)], places, clock).refused == ()


def problems(file: Path) -> list[str]:
    return [str(problem).split(" (")[0] for problem in load_collection(file.parent.parent, TODAY).problems]


def test_nothing_is_told_while_nothing_was_changed(file: Path) -> None:
    assert problems(file) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [("tag: x", "tag: y"), ("since: 2014", "since: '2014'"), ("  - name: Old name", "  - name: Old name  # as sold")],
)
def test_what_is_no_entry_or_says_the_same_may_change(file: Path, old: str, new: str) -> None:
    file.write_text(file.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")
    assert problems(file) == []


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("Old name", "Other name", "specimens/A1.yaml:3: past name entry 1 was changed outside namekeeper"),
        ("since: 2020", "since: 2019", "specimens/A1.yaml:8: past name entry 2 was changed outside namekeeper"),
        ("lines", "line", "specimens/A1.yaml:3: past name entry 1 was changed outside namekeeper"),
    ],
)
def test_a_changed_entry_is_told_with_its_line(file: Path, old: str, new: str, told: str) -> None:
    file.write_text(file.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")
    assert problems(file) == [told]
    collection = load_collection(file.parent.parent, TODAY)
    assert [specimen.id for specimen in collection.specimens] == ["A1"], "the specimen goes on"


def test_an_entry_that_is_gone_is_told(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    file.write_text(text[: text.index("  - name: New")], encoding="utf-8")
    assert problems(file) == ["specimens/A1.yaml:1: 1 past name entries are gone"]


def test_a_file_that_is_gone_is_told(file: Path) -> None:
    file.unlink()
    assert problems(file) == ["specimens/A1.yaml: the file of a specimen with a history is gone"]


def test_accepting_forgets_animals_whose_files_are_gone(file: Path, places: Places) -> None:
    folder = file.parent.parent
    file.rename(file.with_name("A2.yaml"))
    assert any("is gone" in text for text in problems(file))
    accept_history(folder, load_collection(folder, TODAY).specimens, places, clock)
    assert problems(file) == []


def test_of_two_lines_of_one_animal_the_longer_counts_in_any_order() -> None:
    short, long = b"A1 " + b"a" * 12, b"A1 " + b"a" * 12 + b" " + b"b" * 12
    for lines in ((short, long), (long, short)):
        known, faults = read_digests(b"\n".join(lines))
        assert faults == ()
        assert known == {"A1": ("a" * 12, "b" * 12)}


def test_an_entry_added_by_hand_is_fine_and_known_after_the_next_write(file: Path, places: Places) -> None:
    file.write_text(
        file.read_text(encoding="utf-8") + "\n  - name: By hand\n    recorded: 2026-11-25\n", encoding="utf-8"
    )
    assert problems(file) == []
    add(file, places, "Fourth name")
    file.write_text(file.read_text(encoding="utf-8").replace("By hand", "By foot"), encoding="utf-8")
    assert problems(file) == ["specimens/A1.yaml:12: past name entry 3 was changed outside namekeeper"]


def test_a_change_goes_on_being_told_after_later_writes_until_it_is_accepted(file: Path, places: Places) -> None:
    file.write_text(file.read_text(encoding="utf-8").replace("Old name", "Other name"), encoding="utf-8")
    add(file, places, "Third name")
    assert len(problems(file)) == 1
    folder = file.parent.parent
    accept_history(folder, load_collection(folder, TODAY).specimens, places, clock)
    assert problems(file) == []
    file.write_text(file.read_text(encoding="utf-8").replace("Third name", "Fourth name"), encoding="utf-8")
    assert len(problems(file)) == 1


def test_the_side_file_merges_and_survives_damage(file: Path) -> None:
    side = file.parent.parent / DIGESTS
    line = side.read_text().splitlines()[-1]
    shorter = " ".join(line.split()[:2])
    side.write_text(f"<<<<<<< mine\n{shorter}\n=======\n{line}\n>>>>>>> theirs\n")
    told = problems(file)
    assert [text.split(":")[1] for text in told] == ["1", "3", "5"]
    known, _ = read_digests(side.read_bytes())
    assert len(known["A1"]) == 2
    assert read_digests(write_digests(known))[0] == known
