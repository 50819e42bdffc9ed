"""Start the page without typing: an entry in the menu of a Linux desktop (freedesktop.org, Desktop Entry 1.5)."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.places import at_home
from namekeeper.outside import Outside
from namekeeper.words.errors import FileError, Place

_NAME = "namekeeper.desktop"


def write_desktop_entry(command: Sequence[str], outside: Outside) -> Path:
    """Write the entry that runs ``command``, in place of an earlier one; returns its file.

    :raises FileError: if it cannot be written.
    """
    folder = _applications(outside)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        what = f"the entry cannot be written: {fault.strerror}"
        raise FileError(what, remedy="make a shortcut by hand", place=Place(str(folder))) from None
    replace_whole(DiskFiles(), folder / _NAME, entry_text(command).encode())
    return folder / _NAME


def entry_text(command: Sequence[str]) -> str:
    """The text of the entry."""
    return (
        "[Desktop Entry]\nType=Application\nVersion=1.5\nName=Namekeeper\n"
        "Comment=Names and labels of the animals you keep\nCategories=Science;Education;Biology;\nTerminal=false\n"
        f"Exec={' '.join(map(_quoted, command))}\n"
    )


def _quoted(word: str) -> str:
    """A word of ``Exec`` by the rules of that key: in quotes, with four letters escaped, and ``%`` doubled.

    The value is itself a string in which a backslash is written as two.
    """
    inner = re.sub(r'(["`$\\])', r"\\\1", word).replace("\\", "\\\\")
    return f'"{inner}"'.replace("%", "%%")


def _applications(outside: Outside) -> Path:
    """The folder of the keeper's own entries (XDG Base Directory Specification)."""
    environ = outside.environ
    data = environ.get("XDG_DATA_HOME") or str(at_home(environ.get("HOME", "~")) / ".local" / "share")
    return Path(data) / "applications"
