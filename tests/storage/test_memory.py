"""What is remembered from one command to the next: whole or not at all, and never a reason to crash."""

from __future__ import annotations

from pathlib import Path

import pytest

from namekeeper.files.memory import recall, remember
from namekeeper.words.errors import FileError


def test_what_is_remembered_comes_back(tmp_path: Path) -> None:
    path = tmp_path / "new" / "memory.json"
    assert recall(path) is None
    remember(path, {"é": [1, None]})
    assert recall(path) == {"é": [1, None]}
    assert list(path.parent.iterdir()) == [path]


@pytest.mark.parametrize("content", [b"{", b"\xff", b"[" * 100_000], ids=["cut off", "no text", "deep"])
def test_a_damaged_memory_says_so(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "m").write_bytes(content)
    with pytest.raises(FileError, match="what was remembered cannot be read"):
        recall(tmp_path / "m")


def test_what_cannot_be_written_leaves_what_was_there(tmp_path: Path) -> None:
    remember(tmp_path / "m", 1)
    for path, document in ((tmp_path / "m" / "below-a-file", 2), (tmp_path / "m", "\ud800")):
        with pytest.raises(FileError):
            remember(path, document)
    assert recall(tmp_path / "m") == 1
