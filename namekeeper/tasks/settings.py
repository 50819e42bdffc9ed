"""The settings of a collection that a keeper changes: title, language and printer of its labels, name services."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.reading import read_file, remedy_for
from namekeeper.labels.settings import label_settings
from namekeeper.records.specimen import Settings
from namekeeper.sources.services import registry
from namekeeper.storage.collection_folder import SETTINGS
from namekeeper.storage.lock import writing
from namekeeper.storage.settings_text import settings_in, with_section, with_setting
from namekeeper.storage.yaml_text import TextFault, decode
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.online import NO_SERVICE
from namekeeper.words.errors import FileError, InputError, Place

#: Mail or web; what cannot stand in the comment of a user agent (RFC 9110, 5.6.5) is no part of it.
_ADDRESS = re.compile(r"(?=[^@:]+[@:])[!#-'*-:=?-\[\]-~]{5,100}")


@dataclass(frozen=True, slots=True)
class SettingsNow:
    """What is set; ``offset`` is the printer's, in mm to the right and down. ``revision`` tells this state of the file.

    ``several`` if more than one printer is described: then their offsets are changed in the file. ``contact`` is the
    address at which name services reach the keeper.
    """

    title: str
    language: str
    offset: tuple[str, str]
    several: bool
    contact: str
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
        str(raw.get("title", "")),
        labels.language,
        _offset(raw),
        set(labels.printers) - {""} != set(),
        registry.contact_of(desk.settings(), {}),
        _digest(content),
    )


def write_settings(desk: CollectionDesk, title: str, language: str, offset: tuple[str, str], revision: str) -> bool:
    """Write what is other than it stands there, if the file is still in the state that was seen; whether anything was.

    :raises InputError: for a value that cannot be one, or a file that was changed meanwhile; nothing is written then.
    :raises FileError: if it cannot be written.
    """

    def changed(text: str, now: SettingsNow) -> str:
        wanted = (
            (("title",), now.title, title.strip()),
            (("labels", "language"), now.language, language.strip()),
            (("printer", "offset"), now.offset, tuple(part.strip().replace(",", ".") for part in offset)),
        )
        for path, old, new in wanted:
            text = with_setting(text, path, new) if new != old else text
        if not label_settings(settings_in(text)).language:
            raise InputError("the language of the labels is empty", remedy="write two letters such as en, de or fr")
        return text

    return _rewritten(desk, revision, changed)


def write_services(desk: CollectionDesk, asked: Collection[str], contact: str, revision: str) -> bool:
    """Write which services are asked, and the keeper's address for their questions; as :func:`write_settings`.

    :raises InputError: for a service that there is not, or what cannot be an address; likewise.
    :raises FileError: if it cannot be written.
    """
    contact = contact.strip()
    if contact and not _ADDRESS.fullmatch(contact):
        what = f"'{contact}' is no address at which you could be reached"
        raise InputError(what, remedy="write a mail address or that of a web page, or leave it empty")
    keys = tuple(kind.profile.key for kind in registry.chosen((*asked, NO_SERVICE), Settings(), {}))

    def changed(text: str, now: SettingsNow) -> str:
        on = {kind.profile.key for kind in registry.chosen((), desk.settings(), desk.outside.environ)}
        listed = not isinstance(settings_in(text).get("services", {}), dict)
        values: dict[str, str | tuple[str, ...]] = {}
        if set(keys) != on or (listed and contact != now.contact):
            values["ask"] = keys or (NO_SERVICE,)
        if contact != now.contact:
            values["contact"] = contact
        return with_section(text, "services", values)

    return _rewritten(desk, revision, changed)


def write_texts(desk: CollectionDesk, texts: Mapping[str, str]) -> None:
    """Write what the keeper was asked for once, each text under a key of its own.

    :raises InputError: if the file is written so that this cannot be done safely; nothing is written then.
    :raises FileError: if it cannot be written.
    """

    def changed(text: str, _now: SettingsNow) -> str:
        try:
            for key, value in texts.items():
                text = with_setting(text, (key,), value)
        except TextFault:
            remedy = "write into it: " + ", ".join(f"{key}: {value}" for key, value in texts.items())
            raise InputError("the settings cannot be added to", remedy=remedy, place=Place(SETTINGS)) from None
        return text

    _rewritten(desk, read_settings(desk).revision, changed)


def _rewritten(desk: CollectionDesk, revision: str, change: Callable[[str, SettingsNow], str]) -> bool:
    """Let the text of the settings be changed under the lock, if it is still the one that was seen."""
    root = Path(os.path.realpath(desk.folder))
    with writing(desk.outside.places, root, desk.outside.clock()):
        now = read_settings(desk)
        if now.revision != revision:
            raise InputError("collection.yaml was edited meanwhile", remedy="look at it again, then write")
        mark, before = decode(_content(desk))
        try:
            text = change(before, now)
        except TextFault as fault:
            raise _refused(fault) from None
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
