"""Files that are changed by somebody else while a command is at work: what is promised, and what is told.

A file of a keeper's is read once, whole, as it stood at one time, or it is a problem and the others go on; what is
written was compared with what it was made for under the lock; a list that is open answers from one edition to the end.
Every change is made from within the reading itself, at the same instant each time.
"""

from __future__ import annotations

import json
import os
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.files.reading import UnfitFileError, read_file
from namekeeper.outside import Outside
from namekeeper.tasks.tags import TagAnswers, TagDesk
from namekeeper.words.terms import AnswerKind
from tests.conftest import Outcome

Command = Callable[..., Outcome]
VAGANS = (
    "names:\n- name: Brachypelma vagans\n  authorship: (Ausserer, 1875)\n  since: 2010-05\n  recorded: 2010-05-04\n"
)
LONG = VAGANS + "note: |\n" + "  a line of a long note\n" * 4000  # more than one block


class Meanwhile:
    """Does something once, right after the first block of a file was read, or right before it."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, file: Path, act: Callable[[], object], *, before: bool) -> None:
        self.done = 0
        real, inode = os.read, file.stat().st_ino

        def read(descriptor: int, size: int) -> bytes:
            if self.done or os.fstat(descriptor).st_ino != inode:
                return real(descriptor, size)
            self.done = 1
            if before:
                act()
            block = real(descriptor, size)
            if not before:
                act()
            return block

        monkeypatch.setattr(os, "read", read)


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    folder = tmp_path / "c"
    (folder / "specimens").mkdir(parents=True)
    for identifier in ("A1", "A2", "A3"):
        (folder / "specimens" / f"{identifier}.yaml").write_text(LONG, encoding="utf-8")
    return folder


def file(animals: Path) -> Path:
    return animals / "specimens" / "A2.yaml"


def swap(path: Path, text: str) -> None:
    """As editors and other machines do: a new file in its place, by another process (ours may not, on Windows)."""
    new = path.with_suffix(".new")
    new.write_text(text, encoding="utf-8")
    subprocess.run(["mv", "-f", new, path], check=True)


def cut(path: Path) -> None:
    os.truncate(path, 90_000)  # a line's end is as good as any


def rewrite(path: Path) -> None:
    """In place: the same file, with another text of the same length."""
    with path.open("r+b") as written:
        written.write(LONG.replace("vagans", "smithi").encode())
    os.utime(path, ns=(1, 1))  # clocks of files are coarse


OTHERS = LONG.replace("Brachypelma vagans", "Poecilotheria regalis")
COMMANDS = {
    "check": ("check", "c", "--offline", "--json"),
    "labels": ("labels", "c", "-o", "l.pdf", "--no-record", "--json"),
    "settle": ("settle", "c", "--take-safe", "--write", "--json"),
    "history": ("history", "c", "--json"),
}


@pytest.mark.parametrize("before", [True, False], ids=["before", "after"])
@pytest.mark.parametrize("change", [cut, rewrite])
@pytest.mark.parametrize("name", COMMANDS)
def test_a_specimen_that_is_written_over_while_it_is_read_is_a_problem_and_the_others_go_on(
    name: str, change: Callable[[Path], None], before: bool,
    animals: Path, command: Command, monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    meanwhile = Meanwhile(monkeypatch, file(animals), lambda: change(file(animals)), before=before)
    done = command(*COMMANDS[name])
    assert meanwhile.done == 1
    assert "specimens/A2.yaml: cannot be read: it was changed while it was read (run the command again" in done.err
    assert done.code == 2
    document = json.loads(done.out)
    rows = document["changes" if name == "settle" else {"check": "results", "labels": "labels"}.get(name, "specimens")]
    assert [row["specimen"] for row in rows] == ["A1", "A3"]
    assert "Tliltocatl" not in file(animals).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", COMMANDS)
def test_a_specimen_that_is_replaced_while_it_is_read_is_the_old_one_whole(
    name: str, animals: Path, command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    """And nothing is written over the new one."""
    meanwhile = Meanwhile(monkeypatch, file(animals), lambda: swap(file(animals), OTHERS), before=False)
    done = command(*COMMANDS[name])
    assert meanwhile.done == 1
    assert file(animals).read_text(encoding="utf-8") == OTHERS
    if name == "settle":
        assert (done.code, "A2" in done.err) == (2, True), done.err
        rows = {row["specimen"]: row["written"] for row in json.loads(done.out)["changes"]}
        assert (rows["A1"], rows["A3"], rows.get("A2", False)) == (True, True, False)
    else:
        assert "Poecilotheria" not in done.out


@pytest.mark.parametrize("name", COMMANDS)
def test_a_specimen_that_goes_while_the_others_are_read_is_a_problem(
    name: str, animals: Path, command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = animals / "specimens" / "A1.yaml"
    Meanwhile(monkeypatch, first, lambda: file(animals).unlink(), before=False)
    done = command(*COMMANDS[name])
    assert done.code == 2
    assert "specimens/A2.yaml: cannot be read: No such file or directory" in done.err
    assert not file(animals).exists(), "and it is not made anew"


def test_a_specimen_that_goes_after_the_check_is_told_and_the_others_are_written(
    animals: Path, command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    last = animals / "specimens" / "A3.yaml"
    Meanwhile(monkeypatch, last, lambda: file(animals).unlink(), before=False)
    done = command(*COMMANDS["settle"])
    assert done.code == 2
    rows = {row["specimen"]: row["written"] for row in json.loads(done.out)["changes"]}
    assert (rows["A1"], rows["A3"], rows.get("A2", False)) == (True, True, False)
    assert "A2" in done.err
    assert not file(animals).exists()


def test_a_table_is_carried_as_it_was_read(
    animals: Path, command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What somebody writes meanwhile stays: the new table stands beside it, and says what it was made of."""
    assert command(*COMMANDS["settle"]).code in (0, 1)
    table = tmp_path / "food.csv"
    rows = "".join(f"A1,Brachypelma vagans,{number}\n" for number in range(5000))
    table.write_text("id,name,meal\n" + rows, encoding="utf-8")
    later = "id,name,meal\nA1,Brachypelma vagans,cricket\n"
    meanwhile = Meanwhile(monkeypatch, table, lambda: swap(table, later), before=False)
    done = command("tables", "c", "food.csv", "--write", "--json")
    assert meanwhile.done == 1
    assert table.read_text(encoding="utf-8") == later
    made = (tmp_path / "food-new-names.csv").read_text(encoding="utf-8")
    assert made == "id,name,meal\n" + rows.replace("Brachypelma vagans", "Tliltocatl vagans")
    assert len(json.loads(done.out)["changes"]) == 5000


def test_a_table_that_is_cut_while_it_is_read_is_not_carried(
    animals: Path, command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    table = tmp_path / "food.csv"
    table.write_text("id,name\n" + "A1,Brachypelma vagans\n" * 9000, encoding="utf-8")
    Meanwhile(monkeypatch, table, lambda: os.truncate(table, 100_000), before=False)
    done = command("tables", "c", "food.csv", "--write")
    assert done.code == 2
    assert "it was changed while it was read" in done.err
    assert not (tmp_path / "food-new-names.csv").exists()


def test_a_file_that_grows_within_one_reading_is_read_as_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One block is taken at once: what was added before it was is part of it."""
    grows = tmp_path / "a"
    grows.write_bytes(b"one\n")
    Meanwhile(monkeypatch, grows, lambda: grows.write_bytes(b"one\ntwo\n"), before=True)
    assert read_file(grows) == b"one\ntwo\n"


def test_the_error_says_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cuts = tmp_path / "a"
    cuts.write_bytes(b"one\ntwo\n")
    Meanwhile(monkeypatch, cuts, lambda: os.truncate(cuts, 4), before=True)
    with pytest.raises(UnfitFileError) as told:
        read_file(cuts)
    assert (told.value.filename, told.value.remedy[:21]) == (str(cuts), "run the command again")


LIST = "id,name,status,accepted_id\n1,Tliltocatl vagans,accepted,\n2,Aus bus,{status},{accepted}\n"


def test_a_list_that_is_replaced_answers_from_one_edition_to_the_end(
    tmp_path: Path, command: Command, outside: Outside
) -> None:
    table = tmp_path / "mine.csv"
    for edition, status, accepted in (("1", "accepted", ""), ("2", "synonym", "1")):
        table.write_text(LIST.format(status=status, accepted=accepted), encoding="utf-8")
        if edition == "1":
            assert command("lists", "add", "mine.csv", "--as", "mine", "--edition", "1").code == 0
            continue
        with TagDesk.open(outside) as desk:
            before = desk.read_all(["Aus bus 0.1"])
            assert command("lists", "add", "mine.csv", "--as", "mine", "--edition", "2").code == 0
            after = desk.read_all(["Aus bus 0.1", "Aus bus"])
        with TagDesk.open(outside) as desk:
            anew = desk.read_all(["Aus bus 0.1"])
    assert names(before) == ["Aus bus"]
    assert names(after) == ["Aus bus"] * 2
    assert names(anew) == ["Tliltocatl vagans"]


@pytest.mark.parametrize("share", [0.0, 0.3, 0.7])
def test_a_list_that_is_cut_while_it_is_open_is_told_and_never_speaks_nonsense(
    share: float, tmp_path: Path, command: Command, outside: Outside
) -> None:
    table = tmp_path / "mine.csv"
    table.write_text("id,name\n" + "".join(f"{n},Aus b{'abcdefghij'[n % 10] * (n // 10 + 1)}us\n" for n in range(900)))
    assert command("lists", "add", "mine.csv", "--as", "mine", "--edition", "1").code == 0
    (index,) = (outside.places.data / "lists" / "mine").glob("*.sqlite")
    with TagDesk.open(outside) as desk:
        os.truncate(index, int(index.stat().st_size * share))
        (answer,) = desk.read_all(["Aus baus"]).looked
    assert answer.lookup.answer in (AnswerKind.UNASKED, AnswerKind.ONE)
    assert command("lookup", "--offline", "Aus baus").code in (1, 3)


def names(answers: TagAnswers) -> list[str]:
    return [candidate.name for one in answers.looked for candidate in one.lookup.candidates]
