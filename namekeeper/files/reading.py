"""Guarded reading: a regular file of a reasonable size, never a pipe or device, and errors that say what to do."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path
from typing import BinaryIO

from namekeeper.words.errors import FileError, Place

#: Bytes; a keeper's table or page that is larger is another file than was meant, and must not fill memory.
LARGEST = 512 * 1024 * 1024
_BLOCK = 1 << 16
# Not waited for: a named pipe that nobody fills (POSIX); not translated: line ends (Windows).
_FLAGS = os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NONBLOCK", 0)


def read_named(path: Path, largest: int = LARGEST) -> bytes:
    """Content of a file the keeper named.

    :raises FileError: if it cannot be read, is no regular file, or holds more than ``largest`` bytes.
    """
    with open_named(path) as file:
        if os.fstat(file.fileno()).st_size > largest:
            what = f"it is larger than {largest >> 20} MB"
            raise FileError(what, remedy="give a smaller file, or split it", place=Place(str(path)))
        try:
            return file.read()
        except OSError as error:
            raise unreadable(path, error) from None


def open_named(path: Path) -> BinaryIO:
    """A file the keeper named, open for reading its bytes.

    :raises FileError: if it cannot be read or is no regular file.
    """
    try:
        descriptor = os.open(path, _FLAGS)
    except (OSError, ValueError) as error:
        raise unreadable(path, error) from None
    kind = os.fstat(descriptor).st_mode
    if not stat.S_ISREG(kind):
        os.close(descriptor)
        if stat.S_ISDIR(kind):
            raise unreadable(path, OSError(errno.EISDIR, os.strerror(errno.EISDIR)))
        what = "cannot be read: it is a pipe or device"
        raise FileError(what, remedy="give a file", place=Place(str(path)))
    return os.fdopen(descriptor, "rb")


def read_at_once(path: str) -> bytes:
    """A small file of a collection; ten thousand times this takes half the time of an open file object.

    A named pipe that nobody fills is read as an empty file, not waited for.

    :raises OSError: if it cannot be read.
    """
    descriptor = os.open(path, _FLAGS)
    try:
        content = b""
        while block := os.read(descriptor, _BLOCK):
            content += block
        return content
    finally:
        os.close(descriptor)


def unreadable(path: Path, error: OSError | ValueError) -> FileError:
    """The error for a file that the system does not let us read."""
    why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return FileError(f"cannot be read: {why}", remedy="check the path", place=Place(str(path)))
