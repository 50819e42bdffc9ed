"""What version 0.1 left on a keeper's machine opens, stays as it is, and what cannot be used is said with its remedy.

``version_0_1`` holds a collection, state, an added list and kept answers as that version wrote them; see its README.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from namekeeper.files.places import Places
from namekeeper.sources.lists import schema
from namekeeper.sources.services.registry import SERVICES
from namekeeper.tasks.label_memory import used_in_drawer
from tests.conftest import Outcome

FROZEN = Path(__file__).parent / "version_0_1"
#: Services at their own addresses, under which version 0.1 kept the answers; asked with --offline only.
OWN_ADDRESSES = {service.profile.address_variable: "" for service in SERVICES}
#: Every command that reads, or shows what it would write.
LOOKING = (
    "check animals --offline --json",
    "collection verify animals",
    "collection export animals -o out.csv",
    "collection count animals A-3 0.1.0",
    "history animals",
    "labels animals --status",
    "settle animals --take-safe --offline",
    "settle animals --keep A-3 --offline",
    "lookup --offline Aphonopelma",
    "aka Tliltocatl",
    "lists",
    "lists compare mine starter --collection animals",
    "services",
)
#: What is said of a list that was added in another format of the index.
TO_ADD_AGAIN = "add the list again: namekeeper lists add"
Command = Callable[..., Outcome]


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """Where the folders of version 0.1 will stand, and nothing else."""
    return tmp_path / "namekeeper-home"


@pytest.fixture
def old(tmp_path: Path, home: Path, command: Command) -> Command:
    """Runs a command, given as one text, where version 0.1 has been at work."""
    shutil.copytree(FROZEN / "animals", tmp_path / "animals")
    shutil.copytree(FROZEN / "home", home)
    shutil.copy(FROZEN / "list.csv", tmp_path)
    # What is remembered of a collection stands under its real path.
    key = hashlib.sha256(os.fsencode(os.path.realpath(tmp_path / "animals"))).hexdigest()[:32]
    for kind in ("checks", "locks"):
        (memory,) = (home / "state" / kind).iterdir()
        memory.rename(memory.with_stem(key))

    def run(line: str, environ: Mapping[str, str] | None = None) -> Outcome:
        return command(*line.split(), environ=dict(environ or {}))

    return run


def content_of(*folders: Path) -> dict[str, bytes]:
    """Every file below these folders but the starter list, which is compiled anew, and the verdicts that are kept."""
    files = [path for folder in folders for path in folder.rglob("*") if path.is_file()]
    own = [path for path in files if not path.name.startswith("starter-") and path.parent.name != "verdicts"]
    return {str(path): path.read_bytes() for path in own}


def beside_the_list(done: Outcome) -> list[str]:
    """What was said but for the list that must be added again."""
    return [line for line in done.err.splitlines() if TO_ADD_AGAIN not in line]


def results(done: Outcome, key: str = "results") -> dict[str, Any]:
    return {row["specimen"]: row for row in json.loads(done.out)[key]}


def test_the_history_is_what_version_0_1_told(old: Command) -> None:
    # history.json is what that version printed of this collection.
    told = json.loads((FROZEN / "history.json").read_text(encoding="utf-8"))["specimens"]
    now = results(old("history animals --on 2026-11-20 --json"), "specimens")
    assert list(now) == [one["specimen"] for one in told]
    for before in told:
        after = now[before["specimen"]]
        assert before["on"].items() <= after["on"].items()
        assert len(after["entries"]) == len(before["entries"])
        for was, is_now in zip(before["entries"], after["entries"], strict=True):
            assert was.items() <= is_now.items(), "fields may be added, never changed"


def test_nothing_is_changed_unasked(old: Command, tmp_path: Path, home: Path) -> None:
    kept = (tmp_path / "animals", home / "data", home / "state", home / "cache" / "services")
    before = content_of(*kept)
    for line in LOOKING:
        done = old(line)
        told = done.code == 2 and TO_ADD_AGAIN in done.err and "mine" in line
        assert done.code in (0, 1) or told, (line, done.err)
    after = content_of(*kept)
    assert after.pop(str(home / "state" / "outputs.json"), b""), "what was written for the keeper is remembered as ours"
    new = [path for path in after.keys() - before.keys() if Path(path).parent != home / "state" / "locks"]
    assert new == [], "but for empty files that are locked while a file is read"
    assert {path: after[path] for path in before} == before


def test_what_is_written_leaves_every_line_that_was_there(old: Command, tmp_path: Path) -> None:
    folder = tmp_path / "animals" / "specimens"
    before = content_of(folder)
    assert beside_the_list(old("settle animals --keep B-2 --keep A-3 --offline --write")) == []
    after = content_of(folder)
    assert after.keys() == before.keys()
    for path, content in before.items():
        lines = iter(after[path].splitlines(keepends=True))
        assert all(line in lines for line in content.splitlines(keepends=True)), path
    assert sum(after[path] != content for path, content in before.items()) == 2


def test_the_files_have_no_problems_and_invented_days_are_asked_about(old: Command) -> None:
    # Version 0.1 wrote the day of adding as acquired, B-1 and B-2 were given their own.
    done = old("collection verify animals --json")
    document = json.loads(done.out)
    assert (done.code, document["problems"]) == (0, [])
    asked = {row["file"]: row for row in document["questions"]}
    assert list(asked) == [f"specimens/{one}.yaml" for one in ("A-1", "INV-0001", "INV-0002")]
    assert asked["specimens/A-1.yaml"]["line"] == 4
    shown = old("collection verify animals").out
    assert "8 animals, no problems." in shown
    assert "specimens/A-1.yaml:4: acquired 2026-11-20 is the day of the first entry: did the animal come that" in shown


def test_the_last_check_is_remembered(old: Command) -> None:
    # Without that memory all eight would be news.
    assert not {"A-1", "A-2", "INV-0001"} & results(old("check animals --since-last --offline --json")).keys()


def test_the_partly_used_sheet_is_remembered(old: Command, home: Path) -> None:
    assert used_in_drawer(Places.from_environ({"NAMEKEEPER_HOME": str(home)}), "a4-3x8-70x37") == {0, 1, 2}
    assert "A-1" in old("labels animals --status").out


def test_a_list_of_another_format_is_told_and_can_be_added_again(old: Command, tmp_path: Path, home: Path) -> None:
    assert schema.FORMAT > 4  # that of version 0.1
    before = content_of(tmp_path / "animals", home / "data")
    done = old("check animals --offline")
    assert "mine" in done.err
    assert TO_ADD_AGAIN in done.err
    assert "A-3" in done.out, "the other lists go on"
    assert old("aka Aphonopelma inventum").code == 2
    assert content_of(tmp_path / "animals", home / "data") == before
    assert old("lists add list.csv --as mine --edition 2026.1").code == 0
    assert old("aka Aphonopelma inventum").code == 0


def test_kept_answers_are_taken_over(old: Command, home: Path) -> None:
    before = content_of(home / "cache" / "services")
    done = old("check animals --offline --services gbif --json --only A-1", OWN_ADDRESSES)
    assert beside_the_list(done) == []
    said = {one["source"]: one for one in results(done)["A-1"]["statements"]}
    assert said["gbif"]["asked"].startswith("2026-11-20")
    assert content_of(home / "cache" / "services") == before
