"""The few things we do with files when we write, behind one interface, so that every way to fail can be tried."""

from __future__ import annotations

import os
from abc import ABC, abstractmethod
from contextlib import suppress
from pathlib import Path

from namekeeper.words.errors import FileError, Place


class FileLayer(ABC):
    """What a careful writer needs of a file system. Every method may raise ``OSError``."""

    @abstractmethod
    def read(self, path: Path) -> bytes | None:
        """The content, or None if there is no such file."""

    @abstractmethod
    def names(self, folder: Path) -> tuple[str, ...]:
        """Names in a folder, sorted; none if there is no such folder."""

    @abstractmethod
    def may_write(self, path: Path) -> bool:
        """Whether the keeper lets us change this file."""

    @abstractmethod
    def make_folder(self, folder: Path) -> None:
        """Make the folder and those above it where missing."""

    @abstractmethod
    def write(self, path: Path, content: bytes, like: Path | None = None) -> None:
        """Write a file whole, with the permissions of ``like``; it may be lost or short until :meth:`sync`."""

    @abstractmethod
    def sync(self, path: Path) -> None:
        """Return when the file's content is on the medium."""

    @abstractmethod
    def sync_folder(self, folder: Path) -> None:
        """Return when the names in the folder are on the medium."""

    @abstractmethod
    def replace(self, source: Path, target: Path) -> None:
        """Give ``source`` the name ``target`` in one step, in place of what stood there."""

    @abstractmethod
    def remove(self, path: Path) -> None:
        """Remove a file; nothing happens if it is not there."""


class DiskFiles(FileLayer):
    """The real file system."""

    def read(self, path: Path) -> bytes | None:
        try:
            return path.read_bytes()
        except FileNotFoundError:
            return None

    def names(self, folder: Path) -> tuple[str, ...]:
        try:
            return tuple(sorted(os.listdir(folder)))  # noqa: PTH208 - names only, no Path each
        except FileNotFoundError:
            return ()

    def may_write(self, path: Path) -> bool:
        return not path.exists() or os.access(path, os.W_OK)

    def make_folder(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)

    def write(self, path: Path, content: bytes, like: Path | None = None) -> None:
        path.write_bytes(content)
        if like is not None and like.exists():
            path.chmod(like.stat().st_mode & 0o7777)

    def sync(self, path: Path) -> None:
        with path.open("rb+") as file:
            os.fsync(file.fileno())

    def sync_folder(self, folder: Path) -> None:
        if os.name == "nt":  # Windows has no such call and orders names itself
            return
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)

    def replace(self, source: Path, target: Path) -> None:
        source.replace(target)

    def remove(self, path: Path) -> None:
        path.unlink(missing_ok=True)


def read_named(path: Path) -> bytes:
    """Content of a file the keeper named.

    :raises FileError: if it cannot be read.
    """
    try:
        return path.read_bytes()
    except OSError as error:
        what = f"cannot be read: {error.strerror}"
        raise FileError(what, remedy="check the path", place=Place(str(path))) from None


def replace_whole(files: FileLayer, path: Path, content: bytes) -> None:
    """Write one file so that after a kill or power cut it holds the old content or the new one, whole.

    :raises FileError: if it cannot be written; the old content is then still there.
    """
    draft = path.parent / f".{path.name}.namekeeper-new"
    try:
        files.write(draft, content, like=path)
        files.sync(draft)
        files.replace(draft, path)
        files.sync_folder(path.parent)
    except OSError as error:
        with suppress(OSError):
            files.remove(draft)
        what = f"cannot be written: {error.strerror or error}"
        remedy = "choose another place, free some space or make it writable"
        raise FileError(what, remedy=remedy, place=Place(str(path))) from None
