"""A draft is made anew: what stands in its place, a link to elsewhere above all, is not written through."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.files import file_layer
from namekeeper.files.file_layer import NEW, DiskFiles, replace_whole, write_own
from namekeeper.words.errors import FileError
from tests.conftest import Outcome


@pytest.fixture
def other(tmp_path: Path) -> Path:
    """A file that is none of this command's business."""
    made = tmp_path / "elsewhere" / "other.txt"
    made.parent.mkdir()
    made.write_text("mine")
    return made


@pytest.mark.parametrize("lay", [os.symlink, os.link])
def test_a_draft_that_is_a_link_is_not_followed(lay: Callable[[Path, Path], None], other: Path, tmp_path: Path) -> None:
    place = tmp_path / "out.txt"
    lay(other, tmp_path / f".out.txt{NEW}")
    replace_whole(DiskFiles(), place, b"new")
    assert (other.read_text(encoding="utf-8"), place.read_text(encoding="utf-8"), place.is_symlink()) == (
        "mine",
        "new",
        False,
    )
    assert [path.name for path in tmp_path.iterdir() if path.name.endswith(NEW)] == []


def test_an_output_that_is_a_link_is_replaced_itself(other: Path, tmp_path: Path) -> None:
    place = tmp_path / "out.txt"
    place.symlink_to(other)
    replace_whole(DiskFiles(), place, b"new")
    assert (other.read_text(encoding="utf-8"), place.read_text(encoding="utf-8"), place.is_symlink()) == (
        "mine",
        "new",
        False,
    )


def test_a_link_laid_in_the_last_moment_is_an_error(
    other: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between the look and the writing: nothing is there any more, and then the link."""

    def laid(path: Path) -> None:
        path.symlink_to(other)

    monkeypatch.setattr(file_layer, "remove_own", laid)
    with pytest.raises(FileError, match="cannot be written: File exists"):
        replace_whole(DiskFiles(), tmp_path / "out.txt", b"new")
    monkeypatch.setattr(file_layer, "part_of", lambda place: place.with_name("part"))
    with pytest.raises(FileExistsError):
        write_own(tmp_path / "own.txt", b"new")
    assert other.read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / "out.txt").exists()


def test_a_folder_in_the_place_of_a_draft_is_told(tmp_path: Path) -> None:
    (tmp_path / f".out.txt{NEW}").mkdir()
    with pytest.raises(FileError, match="cannot be written"):
        replace_whole(DiskFiles(), tmp_path / "out.txt", b"new")


def test_a_command_beside_such_a_link(command: Callable[..., Outcome], other: Path, tmp_path: Path) -> None:
    (tmp_path / "c" / "specimens").mkdir(parents=True)
    (tmp_path / "c" / "specimens" / "A1.yaml").write_text("names:\n- name: Brachypelma smithi\n")
    (tmp_path / f".e.csv{NEW}").symlink_to(other)
    done = command("collection", "export", "c", "-o", "e.csv", "--as", "csv")
    assert (done.code, other.read_text(encoding="utf-8")) == (0, "mine"), done.err
    assert "Brachypelma smithi" in (tmp_path / "e.csv").read_text(encoding="utf-8")
