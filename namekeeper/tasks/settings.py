"""The settings of a collection that a keeper changes: its title, the language of its labels, the printer's offset."""

from __future__ import annotations

import hashlib
import os
from dataclasses import dataclass
from pathlib import Path

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.reading import read_file, remedy_for
from namekeeper.labels.settings import LabelSettings, label_settings
from namekeeper.storage.collection_folder import SETTINGS
from namekeeper.storage.lock import writing
from namekeeper.storage.settings_text import settings_in, with_setting
from namekeeper.storage.yaml_text import TextFault, decode
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.words.errors import FileError, InputError, Place


@dataclass(frozen=True, slots=True)
class SettingsNow:
    """What is set; ``offset`` is the printer's, in mm to the right and down. ``revision`` tells this state of the file.

    ``several`` if more than one printer is described: then their offsets are changed in the file.
    """

    title: str
    language: str
    offset: tuple[str, str]
    several: bool
    revision: str


def read_settings(desk: CollectionDesk) -> SettingsNow:
    """What is set now.

    :raises FileError: if the file cannot be read.
    :raises InputError: if what stands there for labels or printers cannot be.
    """
    content = _content(desk)
    try:
        raw = settings_in(decode(content)[1])
    except TextFault as fault:
        raise _refused(fault) from None
    labels = label_settings(raw)
    return SettingsNow(
        str(raw.get("title", "")), labels.language, _offset(raw), set(labels.printers) - {""} != set(), _digest(content)
    )


def write_settings(desk: CollectionDesk, title: str, language: str, offset: tuple[str, str], revision: str) -> bool:
    """Write what is other than it stands there, if the file is still in the state that was seen; whether anything was.

    :raises InputError: for a value that cannot be one, or a file that was changed meanwhile; nothing is written then.
    :raises FileError: if it cannot be written.
    """
    root = Path(os.path.realpath(desk.folder))
    with writing(desk.outside.places, root, desk.outside.clock()):
        now = read_settings(desk)
        if now.revision != revision:
            raise InputError("collection.yaml was edited meanwhile", remedy="look at it again, then write")
        wanted = (
            (("title",), now.title, title.strip()),
            (("labels", "language"), now.language, language.strip()),
            (("printer", "offset"), now.offset, tuple(part.strip().replace(",", ".") for part in offset)),
        )
        mark, text = decode(_content(desk))
        before = text
        try:
            for path, old, new in wanted:
                text = with_setting(text, path, new) if new != old else text
            checked: LabelSettings = label_settings(settings_in(text))
        except TextFault as fault:
            raise _refused(fault) from None
        if not checked.language:
            raise InputError("the language of the labels is empty", remedy="write two letters such as en, de or fr")
        if text != before:
            replace_whole(DiskFiles(), root / SETTINGS, (mark + text).encode())
        return text != before


def _content(desk: CollectionDesk) -> bytes:
    path = desk.folder / SETTINGS
    try:
        return read_file(path)
    except FileNotFoundError:
        return b""
    except OSError as fault:
        what = f"the settings cannot be read: {fault.strerror}"
        raise FileError(what, remedy=remedy_for(fault, "see whether you may read it"), place=Place(str(path))) from None


def _offset(raw: object) -> tuple[str, str]:
    printer = raw.get("printer") if isinstance(raw, dict) else None
    offset = printer.get("offset") if isinstance(printer, dict) else None
    return (str(offset[0]), str(offset[1])) if isinstance(offset, list) and len(offset) == 2 else ("0", "0")


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _refused(fault: TextFault) -> InputError:
    return InputError(fault.what, remedy=fault.remedy, place=Place(SETTINGS, fault.line))
