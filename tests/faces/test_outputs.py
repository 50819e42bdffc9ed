"""Nothing is overwritten: a file that a command is told to write goes only where its own earlier output stands."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from tests.conftest import NOWHERE, Outcome, Typed, run_here

Command = Callable[..., Outcome]
Words = Sequence[str]

OUTPUTS: dict[str, Words] = {
    "labels": ("labels", "animals", "-o", "out.pdf", "--no-record"),
    "preview": ("labels", "animals", "--preview", "out.png"),
    "test page": ("labels", "--test-page", "a4-3x8-70x37", "-o", "out.pdf"),
    "check": ("check", "animals", "--offline", "-o", "out.html"),
    "export": ("collection", "export", "animals", "-o", "out.csv"),
    "compare": ("lists", "compare", "mine.csv", "other.csv", "-o", "out.html"),
}


@pytest.fixture(autouse=True)
def animals(command: Command, tmp_path: Path) -> None:
    command("collection", "new", "animals")
    command("collection", "add", "animals", "--tag", "GBB")
    (tmp_path / "mine.csv").write_text("name\nTliltocatl vagans\n")
    (tmp_path / "other.csv").write_text("name\nTliltocatl vagans\nTliltocatl kahlenbergi\n")


def output_of(words: Words, folder: Path) -> Path:
    return folder / next(word for word in words if word.startswith("out."))


@pytest.mark.parametrize("what", OUTPUTS)
def test_a_file_that_is_there_is_left_alone(command: Command, tmp_path: Path, what: str) -> None:
    words = OUTPUTS[what]
    path = output_of(words, tmp_path)
    path.write_bytes(b"mine")
    done = command(*words)
    assert (done.code, path.read_bytes()) == (2, b"mine")
    assert done.err.splitlines()[-1] == (
        f"namekeeper: {path.name}: there is a file already, which was not written by this command"
        " (give another name, or --replace)"
    )
    replaced = command(*words, "--replace")
    assert replaced.code < 2, replaced.err
    assert path.read_bytes() != b"mine"


@pytest.mark.parametrize("what", OUTPUTS)
def test_an_own_earlier_output_is_replaced_unless_it_was_changed_since(
    command: Command, tmp_path: Path, what: str
) -> None:
    words = OUTPUTS[what]
    path = output_of(words, tmp_path)
    assert command(*words).code < 2
    first = path.read_bytes()
    assert command(*words).code < 2, "its own output of a moment ago"
    path.write_bytes(first + b" ")
    done = command(*words)
    assert (done.code, path.read_bytes()) == (2, first + b" ")
    assert "this was written by this command, and changed since" in done.err
    path.unlink()
    assert command(*words).code < 2


def test_another_command_does_not_replace_it(command: Command, tmp_path: Path) -> None:
    assert command(*OUTPUTS["labels"]).code == 0
    before = (tmp_path / "out.pdf").read_bytes()
    assert command(*OUTPUTS["test page"]).code == 2
    assert (tmp_path / "out.pdf").read_bytes() == before


def test_a_folder_and_a_link_into_nothing_are_left_alone(command: Command, tmp_path: Path) -> None:
    (tmp_path / "out.pdf").mkdir()
    done = command(*OUTPUTS["labels"])
    assert done.code == 2
    assert "this is a folder" in done.err
    (tmp_path / "out.html").symlink_to(tmp_path / "nowhere")
    assert command(*OUTPUTS["check"]).code == 2
    assert (tmp_path / "out.html").is_symlink()


def test_several_exports_are_all_written_or_none(command: Command, tmp_path: Path) -> None:
    (tmp_path / "all.json").write_text("mine")
    done = command("collection", "export", "animals", "-o", "all", "--as", "csv,json,dwca")
    assert done.code == 2
    assert sorted(path.name for path in tmp_path.glob("all*")) == ["all.json"]


@pytest.mark.parametrize("memory", ["{", "[]", '{"x": 1}', '{"x": ["labels"]}'])
def test_a_damaged_memory_leaves_files_alone(command: Command, tmp_path: Path, home: Path, memory: str) -> None:
    assert command(*OUTPUTS["labels"]).code == 0
    (home / "state" / "outputs.json").write_text(memory)
    assert command(*OUTPUTS["labels"]).code == 2
    assert command(*OUTPUTS["labels"], "--replace").code == 0
    assert command(*OUTPUTS["labels"]).code == 0


def test_a_memory_that_cannot_be_written_is_told(command: Command, tmp_path: Path, home: Path) -> None:
    (home / "state").mkdir(parents=True, exist_ok=True)
    (home / "state" / "outputs.json").mkdir()
    done = command(*OUTPUTS["export"])
    assert done.code == 0
    assert "--replace is needed then" in done.err
    assert (tmp_path / "out.csv").exists()


def test_labels_are_a_pdf(command: Command, tmp_path: Path) -> None:
    done = command("labels", "animals", "-o", "labels.txt")
    assert done.code == 2
    assert "'labels.txt' does not end in .pdf (give a name such as labels.pdf)" in done.err
    assert not (tmp_path / "labels.txt").exists()


class TestRemoving:
    @pytest.fixture(autouse=True)
    def added(self, command: Command) -> None:
        command("lists", "add", "mine.csv", "--as", "mine", "--edition", "1")

    def test_a_script_says_yes(self, command: Command) -> None:
        done = command("lists", "remove", "mine")
        assert (done.code, done.err) == (
            2, "namekeeper: Remove mine 1 from this machine was not confirmed (add --yes)\n",
        )  # fmt: skip
        assert command("lists", "remove", "mine", "--yes").code == 0
        assert "there is no list 'mine'" in command("lists", "remove", "mine").err

    @pytest.mark.parametrize(("typed", "code"), [("y\n", 0), ("n\n", 2), ("", 2)])
    def test_a_keeper_is_asked(self, tmp_path: Path, home: Path, typed: str, code: int) -> None:
        environ = {"NAMEKEEPER_HOME": str(home), **NOWHERE}
        done = run_here(["lists", "remove", "mine"], tmp_path, environ, Typed(typed), Typed())
        assert done.code == code
        assert "Remove mine 1 from this machine? y (yes), anything else leaves it:" in done.out


class TestDue:
    def test_labels_for_animals_that_never_had_one(self, command: Command, tmp_path: Path) -> None:
        """After an import all of it, after a print nothing, and what was settled since."""
        (tmp_path / "t.csv").write_text("id,tag\n" + "".join(f"T{n},GBB\n" for n in range(40)))
        command("collection", "import", "animals", "t.csv", "--write")
        assert "41 labels" in command("labels", "animals", "--due", "-o", "out.pdf", "--no-record").out
        assert command("labels", "animals", "--stale", "-o", "out.pdf", "--no-record").err == (
            "every enclosure says the name in force\n"
        )
        status = command("labels", "animals", "--status").out
        assert "41 more were never printed; --due prints both." in status
        command("labels", "animals", "--due", "-o", "out.pdf", "--printed")
        done = command("labels", "animals", "--due", "-o", "out.pdf", "--printed")
        assert (done.code, done.err.splitlines()[-1]) == (0, "every enclosure says the name in force")
        command("settle", "animals", "--take", "T7=Chromatopelma cyanopubescens", "--write")
        assert "1 label on" in command("labels", "animals", "--due", "-o", "out.pdf", "--no-record").out

    def test_due_and_stale_are_two_questions(self, command: Command) -> None:
        assert command("labels", "animals", "--due", "--stale", "-o", "out.pdf").code == 2


class TestDrawer:
    def test_a_sheet_is_in_the_drawer_only_after_a_real_print(self, command: Command) -> None:
        command("demo")
        command(*OUTPUTS["labels"])
        told = [command("labels", "animals", "-o", "out.pdf", *more).err for more in (("--no-record",), ("--printed",))]
        assert [text.count("drawer") for text in told] == [0, 0]
        assert command(*OUTPUTS["labels"]).err.count("should lie in your drawer") == 1


@pytest.mark.parametrize("folder", ["", " "])
def test_a_folder_without_a_name_is_none(command: Command, folder: str) -> None:
    done = command("collection", "new", folder)
    assert done.code == 2
    assert "a folder has a name" in done.err
