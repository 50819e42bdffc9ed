"""A zip archive read where it lies: nothing is unpacked, so no member can be written anywhere."""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from types import TracebackType
from typing import IO, NoReturn, Self

from namekeeper.words.errors import FileError, InputError, Place

#: Text packs to about a tenth; a member that grows far more is a bomb. Small ones may do as they like.
_GROWTH = 200
_SMALL = 32 * 1024 * 1024
_WHOLE = 40 * 1024**3
_MEMBERS = 10_000
#: For members that are read at once (descriptions, not tables).
_DESCRIPTION = 4 * 1024 * 1024


class Archive:
    """An open zip archive; all errors of the file are :class:`InputError` with the archive as place."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def __enter__(self) -> Self:
        try:
            self._zip = zipfile.ZipFile(self.path)
        except OSError as error:
            message = f"the file cannot be read: {error.strerror or error}"
            raise FileError(message, place=Place(str(self.path))) from error
        except (zipfile.BadZipFile, ValueError, RuntimeError) as error:
            self.refuse(f"it is no whole zip archive: {error}", error)
        try:
            self._check()
        except BaseException:
            self._zip.close()
            raise
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._zip.close()

    def _check(self) -> None:
        members = self._zip.infolist()
        if len(members) > _MEMBERS:
            self.refuse(f"it holds {len(members)} files, far more than a list has")
        if sum(member.file_size for member in members) > _WHOLE:
            self.refuse("unpacked it would be larger than any list")
        for member in members:
            if member.file_size > _SMALL and member.file_size > _GROWTH * max(member.compress_size, 1):
                self.refuse(f"{member.filename} grows {_GROWTH} times and more when unpacked")

    @property
    def members(self) -> tuple[str, ...]:
        """Names of the files in it."""
        return tuple(name for name in self._zip.namelist() if not name.endswith("/"))

    def find(self, name: str) -> str | None:
        """The member of that file name, at the top or in the one folder that holds all."""
        fitting = [member for member in self.members if PurePosixPath(member).name == name]
        return min(fitting, key=lambda member: member.count("/"), default=None)

    def beside(self, member: str, location: str) -> str:
        """The member that ``member`` names by a relative location.

        :raises InputError: if it is missing or the location leads out of the archive.
        """
        parts = PurePosixPath(location.replace("\\", "/")).parts
        if not parts or parts[0] == "/" or ".." in parts or ":" in parts[0]:
            self.refuse(f"{member} names a file outside of the archive: {location!r}")
        wanted = str(PurePosixPath(member).parent.joinpath(*parts))
        if wanted not in self.members:
            self.refuse(f"{member} names {location!r}, which is not in the archive")
        return wanted

    def read(self, member: str) -> bytes:
        """A small member at once.

        :raises InputError: if it is larger than a description may be.
        """
        with self.open(member) as stream:
            content = stream.read(_DESCRIPTION + 1)
        if len(content) > _DESCRIPTION:
            self.refuse(f"{member} is too large for a description")
        return content

    @contextmanager
    def open(self, member: str) -> Iterator[IO[bytes]]:
        """A member as a stream of bytes; damage met while reading becomes an :class:`InputError`."""
        try:
            with self._zip.open(member) as stream:
                yield stream
        except (zipfile.BadZipFile, zlib.error, EOFError, RuntimeError, OSError) as error:
            self.refuse(f"{member} is damaged or locked: {error}", error)

    def refuse(self, what: str, cause: Exception | None = None) -> NoReturn:
        """Give the archive up.

        :raises InputError: always, with the archive as place.
        """
        remedy = "ask where the archive came from for a sound one"
        raise InputError(what, remedy=remedy, place=Place(str(self.path))) from cause
