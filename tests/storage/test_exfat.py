"""The life of a collection on exFAT, the file system of sticks and cards: no rights, no links, capitals do not count.

Needs a kernel or FUSE driver, the program that makes such a file system, and the right to mount; skipped elsewhere.
"""

from __future__ import annotations

import io
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.conftest import NOWHERE, Outcome, run_here

_NEEDED = ("mkfs.exfat", "losetup", "umount")


def _ran(*words: str) -> str | None:
    """What a program of the system prints; None if it fails."""
    done = subprocess.run(words, capture_output=True, check=False, text=True, encoding="utf-8")
    return done.stdout.strip() if done.returncode == 0 else None


def _mounted(device: str, folder: Path) -> bool:
    return _ran("mount", "-t", "exfat", device, str(folder)) is not None or (
        shutil.which("mount.exfat-fuse") is not None and _ran("mount.exfat-fuse", device, str(folder)) is not None
    )


@pytest.fixture
def stick(tmp_path: Path) -> Iterator[Path]:
    """The folder of an empty exFAT."""
    if any(shutil.which(program) is None for program in _NEEDED):
        pytest.skip(f"no exFAT here: it takes {', '.join(_NEEDED)} and a driver (exfatprogs, exfat-fuse)")
    image, folder = tmp_path / "image", tmp_path / "stick"
    folder.mkdir()
    with image.open("wb") as file:
        file.truncate(32 * 1024 * 1024)
    assert _ran("mkfs.exfat", str(image)) is not None
    device = _ran("losetup", "--find", "--show", str(image))
    if device is None:
        pytest.skip("no exFAT here: this user may not set up a loop device")
    try:
        if not _mounted(device, folder):
            pytest.skip("no exFAT here: neither the kernel nor FUSE mounts one")
        try:
            yield folder
        finally:
            assert _ran("umount", str(folder)) is not None
    finally:
        _ran("losetup", "--detach", device)


def test_a_collection_lives_on_a_stick(stick: Path) -> None:
    """With all of our own folders there, too."""

    def run(*words: str) -> Outcome:
        return run_here(words, stick, {"NAMEKEEPER_HOME": str(stick / "home"), **NOWHERE}, io.StringIO(""))

    (stick / "stock.csv").write_text("Name,Place\nBrachypelma vagans,Añejo\n", encoding="utf-8")
    (stick / "food.csv").write_text("animal,fed\nBrachypelma vagans,2026-01-01\n", encoding="utf-8")
    jobs = (
        ("collection", "new", "animals"),
        ("collection", "add", "animals", "--tag", "GBB 0.1", "--id", "b-1"),
        ("collection", "import", "animals", "stock.csv", "--write"),
        ("collection", "set", "animals", "b-1", "place=shelf 2", "--write"),
        ("settle", "animals", "--take-safe", "--write", "--offline"),
        ("labels", "animals", "-o", "labels.pdf", "--printed"),
        ("tables", "animals", "food.csv", "--write"),
        ("collection", "export", "animals", "-o", "out.zip", "--as", "dwca", "--licence", "CC0-1.0"),
        ("lists", "add", "stock.csv", "--as", "mine"),
        ("lists", "remove", "mine", "--yes"),
        ("collection", "verify", "animals"),
    )
    for words in jobs:
        done = run(*words)
        assert done.code == (1 if words[0] == "settle" else 0), (words, done)
    twice = run("collection", "add", "animals", "--tag", "x", "--id", "B-1")
    assert (twice.code, "B-1" in twice.err) == (2, True), "one file there, whatever the capitals"
    assert "Tliltocatl vagans" in (stick / "animals/specimens/INV-0001.yaml").read_text(encoding="utf-8")
    assert "Tliltocatl vagans" in (stick / "food-new-names.csv").read_text(encoding="utf-8")
    assert not [path.name for path in stick.rglob("*") if path.name.endswith((".namekeeper-new", ".part"))]
