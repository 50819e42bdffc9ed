"""Zip files read where they lie, with limits: nothing is unpacked to disk, and no bomb goes off in memory."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import IO, NoReturn, Self

from namekeeper.files.packing import METHODS
from namekeeper.files.reading import unreadable

_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, RuntimeError, ValueError, OSError)


@dataclass(frozen=True, slots=True)
class ZipLimits:
    """What is refused as unreasonable: members, bytes of all unpacked, and how many times a large one may grow.

    Text packs to about a tenth; a member that grows far more is a bomb. Small ones may do as they like.
    """

    members: int = 10_000
    whole: int = 40 * 1024**3
    growth: int = 200
    small: int = 32 * 1024 * 1024


class ZipReader:
    """An open zip file; what is wrong with it goes to ``refuse``, which raises.

    :raises FileError: if a file cannot be read.
    """

    def __init__(
        self,
        source: Path | bytes,
        refuse: Callable[[str, Exception | None], NoReturn],
        limits: ZipLimits | None = None,
    ) -> None:
        self._refuse = refuse
        try:
            self.zip = zipfile.ZipFile(io.BytesIO(source) if isinstance(source, bytes) else source)
        except OSError as error:
            if isinstance(source, Path):
                raise unreadable(source, error) from error
            refuse(f"it is no whole zip archive: {error}", error)
        except _BROKEN as error:
            refuse(f"it is no whole zip archive: {error}", error)
        try:
            self._check(limits or ZipLimits())
        except BaseException:
            self.zip.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.zip.close()

    def _check(self, limits: ZipLimits) -> None:
        members = self.zip.infolist()
        if len(members) > limits.members:
            self._refuse(f"it holds {len(members)} files, far more than such a file has", None)
        if sum(member.file_size for member in members) > limits.whole:
            self._refuse("unpacked it would be larger than any such file", None)
        for member in members:
            if member.file_size > limits.small and member.file_size > limits.growth * max(member.compress_size, 1):
                self._refuse(f"{member.filename} grows {limits.growth} times and more when unpacked", None)

    @property
    def members(self) -> tuple[str, ...]:
        """Names of the files in it, folders left out."""
        return tuple(name for name in self.zip.namelist() if not name.endswith("/"))

    def read(self, member: str, most: int) -> bytes | None:
        """A member at once; None if it unpacks to more than ``most`` bytes, whatever the file says of its size."""
        with self.open(member) as stream:
            content = stream.read(most + 1)
        return None if len(content) > most else content

    @contextmanager
    def open(self, member: str) -> Iterator[IO[bytes]]:
        """A member as a stream of bytes; damage met while reading is refused."""
        try:
            with self.zip.open(member) as stream:
                yield stream
        except (zipfile.BadZipFile, zlib.error, EOFError, RuntimeError, OSError) as error:
            method = METHODS.get(self.zip.getinfo(member).compress_type)
            if method and isinstance(error, RuntimeError):  # no library for it is installed
                self._refuse(
                    f"{member} is packed by {method}, which is not unpacked here: pack it anew as an ordinary zip",
                    error,
                )
            self._refuse(f"{member} is damaged or locked: {error}", error)
