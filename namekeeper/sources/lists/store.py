"""The keeper's lists on disk: one folder a list, one index an edition, and a pointer to the edition in use."""

from __future__ import annotations

import re
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path

from namekeeper.evidence.statements import Edition
from namekeeper.files.file_layer import abandoned_parts, remove_own, write_own
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.registry import POINTER, SUFFIX, slug_in_use
from namekeeper.words.errors import FileError, InputError, Place

_KEY = re.compile(r"[a-z0-9][a-z0-9_-]{0,39}")
#: Keys that other sources carry.
_TAKEN = frozenset({"starter"})


@dataclass(frozen=True, slots=True)
class Stored:
    """One edition of a list on disk; ``edition`` None if its index cannot be read."""

    key: str
    slug: str
    place: Path
    in_use: bool
    size: int
    edition: Edition | None
    names: int


class ListStore:
    """The folder ``lists`` below the keeper's data."""

    def __init__(self, data: Path) -> None:
        self._folder = data / "lists"

    def all(self) -> list[Stored]:
        """Every edition of every list."""
        if not self._folder.is_dir():
            return []
        keys = sorted(folder.name for folder in self._folder.iterdir() if folder.is_dir())
        return [stored for key in keys for stored in self._editions(key)]

    def place(self, key: str, slug: str) -> Path:
        """Where the index of an edition stands or will stand.

        :raises InputError: if the key cannot be one.
        """
        if not _KEY.fullmatch(key) or key in _TAKEN:
            message = f"'{key}' cannot be the key of a list"
            remedy = "up to 40 small letters, digits, - and _, and no name of a built-in list"
            raise InputError(message, remedy=remedy)
        return self._folder / key / f"{slug}{SUFFIX}"

    def use(self, key: str, slug: str) -> None:
        """Make an edition the one in use; a kill at any instant leaves the old or the new one in use."""
        place = self.place(key, slug)
        if not place.is_file():
            missing = f"{key}@{slug}"
            raise self._unknown(missing)
        pointer = place.parent / POINTER
        try:
            write_own(pointer, f"{slug}\n".encode())
        except OSError as error:
            raise _not_changed(pointer, error) from error

    def find(self, text: str) -> Path:
        """The index of ``KEY`` (the edition in use) or ``KEY@EDITION``.

        :raises InputError: if there is none.
        """
        key, at, slug = text.partition("@")
        if not _KEY.fullmatch(key):
            raise self._unknown(text)
        slug = slug_of(slug) if at else slug_in_use(self._folder / key) or ""
        place = self._folder / key / f"{slug}{SUFFIX}"
        if not slug or not place.is_file():
            raise self._unknown(text)
        return place

    def named(self, text: str) -> list[Path]:
        """Indexes of the list ``KEY``, or that of the edition ``KEY@EDITION``.

        :raises InputError: if there is none.
        """
        if "@" in text:
            return [self.find(text)]
        found = [stored.place for stored in self._editions(text)] if _KEY.fullmatch(text) else []
        if not found:
            raise self._unknown(text)
        return found

    def remove(self, text: str) -> list[Path]:
        """Remove one edition (``KEY@EDITION``) or a whole list (``KEY``); returns what is gone.

        :raises InputError: if there is none, or it is the edition in use and others are there.
        """
        key, at, _slug = text.partition("@")
        if not at:
            gone = self.named(text)
            self._delete([self._folder / key / POINTER, *gone, *abandoned_parts(self._folder / key)])
            with suppress(OSError):
                (self._folder / key).rmdir()
            return gone
        place = self.find(text)
        editions = self._editions(key)
        if len(editions) == 1:
            return self.remove(key)
        if any(stored.place == place and stored.in_use for stored in editions):
            message = f"{text} is the edition in use"
            raise InputError(message, remedy=f"first use another (namekeeper lists use {key}@EDITION)")
        self._delete([place])
        return [place]

    def sweep(self) -> None:
        """Delete what killed runs left half-built, of any list."""
        with suppress(OSError):
            for folder in self._folder.iterdir():
                for leftover in abandoned_parts(folder):
                    with suppress(OSError):
                        remove_own(leftover)

    def _editions(self, key: str) -> list[Stored]:
        current = None
        with suppress(OSError):  # then none is in use; who asks the lists is told why
            current = slug_in_use(self._folder / key)
        return [
            self._stored(key, place, in_use=place.stem == current)
            for place in sorted((self._folder / key).glob(f"*{SUFFIX}"))
            if not place.name.startswith(".")
        ]

    def _stored(self, key: str, place: Path, *, in_use: bool) -> Stored:
        edition, names = None, 0
        with suppress(FileError), closing(IndexList.open(place)) as index:
            edition, names = index.edition, index.size
        return Stored(key, place.stem, place, in_use, place.stat().st_size, edition, names)

    def _delete(self, places: list[Path]) -> None:
        for place in places:
            try:
                remove_own(place)
            except OSError as error:
                raise _not_changed(place, error) from error

    def _unknown(self, text: str) -> InputError:
        known = ", ".join(f"{stored.key}@{stored.slug}" for stored in self.all())
        message = f"there is no list '{text}'"
        return InputError(message, remedy=f"lists here: {known or 'none but the starter list'}")


def slug_of(edition: str) -> str:
    """An edition as part of a file name."""
    return re.sub(r"[^A-Za-z0-9._-]+", "-", edition).strip(".-")[:60] or "edition"


def _not_changed(place: Path, error: OSError) -> FileError:
    message = f"the list cannot be changed: {error.strerror or error}"
    return FileError(message, remedy="check the rights of the folder", place=Place(str(place)))
