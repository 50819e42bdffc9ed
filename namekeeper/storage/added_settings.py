"""Settings that a command learnt from the keeper, written below those that are there; every other byte stays."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.reading import LARGEST_TEXT
from namekeeper.storage.collection_folder import SETTINGS
from namekeeper.storage.emit import scalar
from namekeeper.storage.specimen_file import read_settings
from namekeeper.storage.yaml_text import TextFault, decode
from namekeeper.words.errors import FileError, InputError, Place


def add_settings(folder: Path, settings: Mapping[str, str]) -> None:
    """Append keys to ``collection.yaml`` that are not there yet.

    :raises InputError: if the file is written so that a line cannot just be added, or has such a key.
    :raises FileError: if it cannot be read or written.
    """
    path = folder / SETTINGS
    try:
        content = DiskFiles().read(path, LARGEST_TEXT) or b""
        text = decode(content)[1]
    except (OSError, TextFault) as error:
        what = f"the settings cannot be read: {error}"
        raise FileError(what, remedy=_by_hand(settings), place=Place(str(path))) from None
    end = "\r\n" if "\r\n" in text else "\n"
    added = "".join(f"{key}: {scalar(value)}{end}" for key, value in settings.items())
    gap = "" if not text or text.endswith("\n") else end
    read, problems = read_settings(text + gap + added, SETTINGS)
    before, old_problems = read_settings(text, SETTINGS)
    if len(problems) > len(old_problems) or any(read.raw.get(key) != value for key, value in settings.items()):
        raise InputError("the settings cannot be added to", remedy=_by_hand(settings), place=Place(str(path)))
    if any(key in before.raw for key in settings):
        raise InputError("the settings have such a key already", remedy=_by_hand(settings), place=Place(str(path)))
    replace_whole(DiskFiles(), path, content + (gap + added).encode())


def _by_hand(settings: Mapping[str, str]) -> str:
    return "write into it: " + ", ".join(f"{key}: {value}" for key, value in settings.items())
