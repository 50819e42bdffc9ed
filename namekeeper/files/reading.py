"""Guarded reading: a regular file of a reasonable size, never a pipe or device, and errors that say what to do.

Nothing else opens a file of a keeper's, of ours, or one that somebody gave (tests/files/test_guarded_reading.py).
"""

from __future__ import annotations

import errno
import io
import os
import stat
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from namekeeper.words.errors import FileError, Place

if TYPE_CHECKING:
    from _typeshed import WriteableBuffer

#: Bytes; a keeper's table or page that is larger is another file than was meant, and must not fill memory.
LARGEST = 512 * 1024 * 1024
#: Bytes; a text that is written by hand: a specimen, settings, a part of a template.
LARGEST_TEXT = 1024 * 1024
#: Bytes; a file of ours that grows with a collection: enough for 100,000 animals, and small beside any memory.
LARGEST_OWN = 32 * 1024 * 1024
_BLOCK = 1 << 16
# Not waited for: a named pipe that nobody fills (POSIX); not translated: line ends (Windows).
_FLAGS = os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NONBLOCK", 0)


class UnfitFileError(OSError):
    """A file that is not read: no regular file, or larger than any of its kind; ``remedy`` says what to do."""

    def __init__(self, path: str | Path, why: str, remedy: str) -> None:
        super().__init__(errno.EINVAL, why, str(path))  # with its name, or it would look like a closed pipe of Windows
        self.remedy = remedy


def read_file(path: str | Path, largest: int = LARGEST_TEXT) -> bytes:
    """A regular file of at most ``largest`` bytes, whole, and as it stood at one time.

    :raises UnfitFileError: if it is another, or changes meanwhile; its ``strerror`` has the reason.
    :raises OSError: if it cannot be read.
    """
    descriptor = open_regular(path)
    try:
        blocks, size = [], 0
        before = os.fstat(descriptor)
        if before.st_size > largest:
            raise _too_large(path, largest)
        while block := os.read(descriptor, _BLOCK):  # a file object of Python's would take twice the time
            blocks.append(block)
            size += len(block)
            if size > largest:  # it grows while it is read
                raise _too_large(path, largest)
        if size < before.st_size or (len(blocks) > 1 and os.fstat(descriptor).st_mtime_ns != before.st_mtime_ns):
            why = "it was changed while it was read"
            raise UnfitFileError(path, why, "run the command again once nothing else writes it")
        return blocks[0] if len(blocks) == 1 else b"".join(blocks)
    except OSError as error:
        error.filename = str(path)
        raise
    finally:
        os.close(descriptor)


def read_named(path: Path, largest: int = LARGEST) -> bytes:
    """Content of a file the keeper named.

    :raises FileError: if it cannot be read, is no regular file, or holds more than ``largest`` bytes.
    """
    try:
        return read_file(path, largest)
    except (OSError, ValueError) as error:
        raise unreadable(path, error) from None


def open_named(path: Path) -> BinaryIO:
    """A file the keeper named, open for reading its bytes.

    :raises FileError: if it cannot be read or is no regular file.
    """
    try:
        return io.BufferedReader(_NamedFile(open_regular(path), path), _BLOCK)
    except (OSError, ValueError) as error:
        raise unreadable(path, error) from None


class _NamedFile(io.FileIO):
    """A file whose errors carry its name: a stick that fails under a list is no fault of our output."""

    def __init__(self, descriptor: int, path: Path) -> None:
        super().__init__(descriptor)
        self._path = path

    def readinto(self, buffer: WriteableBuffer, /) -> int:
        try:
            return super().readinto(buffer) or 0
        except OSError as error:
            error.filename = str(self._path)
            raise


def refused_stat(path: Path) -> str:
    """Why the system does not tell what stands at a path (no right to look into a folder above it, a name too long).

    Empty where it does, and where nothing stands there.
    """
    try:
        os.stat(path)  # noqa: PTH116 - the path as it was given
    except (FileNotFoundError, NotADirectoryError):
        return ""
    except (OSError, ValueError) as error:
        return getattr(error, "strerror", None) or str(error)
    return ""


def refuse_unseen(path: Path) -> None:
    """Never say that nothing stands at a path where the system only refuses to tell.

    :raises FileError: if so.
    """
    if why := refused_stat(path):
        what = f"the system does not tell what is here: {why}"
        raise FileError(what, remedy="check the path, and the rights of the folders above it", place=Place(str(path)))


def remedy_for(error: OSError | ValueError, usual: str = "check the path") -> str:
    """What to do about a file that cannot be read."""
    return error.remedy if isinstance(error, UnfitFileError) else usual


def unreadable(path: Path, error: OSError | ValueError) -> FileError:
    """The error for a file that the system does not let us read."""
    why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return FileError(f"cannot be read: {why}", remedy=remedy_for(error), place=Place(str(path)))


def open_regular(path: str | Path, flags: int = _FLAGS, mode: int = 0o600) -> int:
    """A descriptor of a regular file; ``flags`` and ``mode`` as of :func:`os.open`.

    :raises UnfitFileError: if it is a pipe or device.
    :raises OSError: if it cannot be opened.
    """
    descriptor = os.open(path, flags, mode)
    kind = os.fstat(descriptor).st_mode
    if stat.S_ISREG(kind):
        return descriptor
    os.close(descriptor)
    if stat.S_ISDIR(kind):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
    why = "it is a pipe or device"
    raise UnfitFileError(path, why, "put a file in its place")


def _too_large(path: str | Path, largest: int) -> UnfitFileError:
    size = f"{largest >> 20} MB" if largest >= 1 << 20 else f"{largest // 1000} kB"
    why = f"it is larger than {size}"
    return UnfitFileError(path, why, "split it, or keep it elsewhere")
