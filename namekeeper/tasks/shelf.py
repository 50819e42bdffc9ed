"""The collections that this machine knows, and where a new one goes: among the keeper's documents, by a name alone."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from namekeeper.files.memory import recall, remember
from namekeeper.files.places import documents
from namekeeper.outside import Outside
from namekeeper.records.identifiers import is_device_name
from namekeeper.storage.collection_folder import SETTINGS, load_settings
from namekeeper.storage.journal import SPECIMENS
from namekeeper.tasks.collection import new_collection
from namekeeper.tasks.demo import DEMO_FOLDER, new_sample
from namekeeper.words.errors import FileError, InputError

_MEMORY = "collections.json"  # in the state folder: folders, the last opened first
_MOST = 20
# What every system allows in the name of a folder: no separator, colon, wildcard, quote or control character.
_NAME = re.compile(r"\w[\w .,&'()-]{0,59}")


class KnownCollection(NamedTuple):
    """A collection that was opened here before; ``key`` stands for its folder where no path may be given."""

    key: str
    folder: Path
    title: str


def known_collections(outside: Outside) -> tuple[KnownCollection, ...]:
    """Collections that were opened on this machine and are still there, the last one first."""
    return tuple(_known(folder) for folder in _remembered(outside) if _is_collection(folder))


def remember_collection(folder: Path, outside: Outside) -> None:
    """Offer this collection next time; what cannot be remembered is not offered, and nothing else comes of it."""
    whole = Path(os.path.realpath(folder))
    others = [one for one in _remembered(outside) if one != whole]
    try:
        remember(outside.places.state / _MEMORY, [str(one) for one in (whole, *others)][:_MOST])
    except FileError as fault:
        outside.notice(str(fault))


def find_collection(key: str, outside: Outside) -> Path:
    """The folder of a known collection.

    :raises InputError: for any other key.
    """
    found = next((one.folder for one in known_collections(outside) if one.key == key), None)
    if found is None:
        raise InputError("that collection is not there any more", remedy="choose another, or begin a new one")
    return found


def begin_collection(name: str, outside: Outside) -> Path:
    """Make an empty collection of that name among the keeper's documents; returns its folder.

    :raises InputError: for a name that cannot be a folder's, or if there is something of that name.
    :raises FileError: if it cannot be made.
    """
    wanted = " ".join(name.split())
    if not _NAME.fullmatch(wanted) or wanted.endswith(".") or is_device_name(wanted):
        what = f"'{wanted}' cannot be the name of a folder" if wanted else "the collection has no name yet"
        raise InputError(what, remedy="write letters, digits and blanks, such as: My animals")
    folder = documents(outside.environ) / wanted
    if os.path.lexists(folder):
        what = f"there is something of the name '{wanted}' already"
        raise InputError(what, remedy="write another name, or open it below if it is a collection")
    new_collection(folder)
    return folder


def begin_sample(outside: Outside) -> Path:
    """Copy the sample collection among the keeper's documents; returns its folder.

    :raises FileError: if it cannot be written.
    """
    return new_sample(documents(outside.environ) / DEMO_FOLDER)


def _known(folder: Path) -> KnownCollection:
    key = hashlib.sha256(os.fsencode(folder)).hexdigest()[:16]
    return KnownCollection(key, folder, load_settings(folder).title or folder.name)


def _is_collection(folder: Path) -> bool:
    return os.path.isdir(folder / SPECIMENS) and os.path.exists(folder / SETTINGS)  # noqa: PTH110, PTH112 - never raise


def _remembered(outside: Outside) -> Iterator[Path]:
    try:
        known = recall(outside.places.state / _MEMORY)
    except FileError:
        return
    yield from (Path(text) for text in (known if isinstance(known, list) else ()) if isinstance(text, str))
