"""Which edition of each added list is in use: a file beside the editions names it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

POINTER = "current"
SUFFIX = ".sqlite"


def indexes_in_use(data: Path) -> Iterator[tuple[str, Path]]:
    """Key and index of every added list, by key."""
    folder = data / "lists"
    if folder.is_dir():
        for own in sorted(folder.iterdir()):
            slug = slug_in_use(own)
            if slug:
                yield own.name, own / f"{slug}{SUFFIX}"


def slug_in_use(folder: Path) -> str | None:
    """The edition that the pointer in a list's folder names; None if there is none."""
    try:
        return (folder / POINTER).read_text(encoding="utf-8").strip() or None
    except (OSError, UnicodeError):
        return None
