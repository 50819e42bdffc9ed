"""Writing whole files: what a careful writer does, behind one interface, so that every way to fail can be tried.

A file of the keeper's is written through a draft of a fixed name beside it, which the next writing replaces. A file of
our own (cache, lists) may have two writers at once: each has a part of its own name, swept when its process is gone.
"""

from __future__ import annotations

import errno
import os
import time
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import partial
from pathlib import Path

from namekeeper.files.processes import runs
from namekeeper.files.reading import LARGEST_OWN, read_file
from namekeeper.words.errors import FileError, Place

#: Ending of a draft beside a keeper's file, and of a part beside a file of ours.
NEW = ".namekeeper-new"
_PART = ".part"
_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
#: A file that is not there yet, or an error; no link is followed, whatever it leads to.
_ANEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_LINK | getattr(os, "O_BINARY", 0)
_A_DAY = 24 * 60 * 60  # seconds
#: Refusals of Windows while a scanner or a program that syncs holds a file open (access denied, sharing violation, lock
#: violation: learn.microsoft.com, System Error Codes 0-499; stated from memory), and of file systems that do so.
_HELD_WINDOWS = frozenset({5, 32, 33})
_HELD = frozenset({errno.EBUSY, errno.ETXTBSY})
#: What file systems answer that cannot sync a folder (some shares on a network): they order names themselves.
_NO_SYNC = frozenset({errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EBADF})
#: Seconds between the attempts: about one in all, longer than a scanner looks at a small file.
_PAUSES = (0.01, 0.02, 0.05, 0.1, 0.2, 0.3, 0.4)


def patiently(act: Callable[[], object], sleep: Callable[[float], None] = time.sleep) -> None:
    """Replace or remove a file, again for about a second while another program holds it for a moment.

    :raises OSError: the last refusal, which is then true.
    """
    for pause in _PAUSES:
        try:
            act()
        except OSError as error:
            if getattr(error, "winerror", None) not in _HELD_WINDOWS and error.errno not in _HELD:
                raise
            sleep(pause)
        else:
            return
    act()


def remove_own(path: Path) -> None:
    """Remove a file of ours, patiently; nothing happens if it is not there.

    :raises OSError: if it cannot be removed.
    """
    patiently(partial(path.unlink, missing_ok=True))


class FileLayer(ABC):
    """What a careful writer needs of a file system. Every method may raise ``OSError``."""

    @abstractmethod
    def read(self, path: Path, largest: int = LARGEST_OWN) -> bytes | None:
        """The content, or None if there is no such file; what is no regular file or larger cannot be read."""

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
    def sync_folder(self, folder: Path) -> bool:
        """Return when the names in the folder are on the medium; False where the file system cannot say so."""

    @abstractmethod
    def replace(self, source: Path, target: Path) -> None:
        """Give ``source`` the name ``target`` in one step, in place of what stood there."""

    @abstractmethod
    def remove(self, path: Path) -> None:
        """Remove a file; nothing happens if it is not there."""


class DiskFiles(FileLayer):
    """The real file system."""

    def read(self, path: Path, largest: int = LARGEST_OWN) -> bytes | None:
        try:
            return read_file(path, largest)
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
        remove_own(path)  # what a killed run left, or a link that somebody laid there: neither is written into
        with os.fdopen(os.open(path, _ANEW, 0o666), "wb") as file:
            file.write(content)
        if like is not None and like.exists():
            path.chmod(like.stat().st_mode & 0o7777)

    def sync(self, path: Path) -> None:
        descriptor = os.open(path, os.O_RDWR | _NO_LINK)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)

    def sync_folder(self, folder: Path) -> bool:
        if os.name == "nt":  # Windows has no such call and orders names itself
            return True
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        except OSError as error:
            if error.errno not in _NO_SYNC:
                raise
            return False
        finally:
            os.close(descriptor)
        return True

    def replace(self, source: Path, target: Path) -> None:
        patiently(partial(source.replace, target))

    def remove(self, path: Path) -> None:
        remove_own(path)


_DISK = DiskFiles()


def replace_whole(files: FileLayer, path: Path, content: bytes) -> None:
    """Write one file so that after a kill or power cut it holds the old content or the new one, whole.

    :raises FileError: if it cannot be written; the old content is then still there.
    """
    draft = path.parent / f".{path.name}{NEW}"
    try:
        with _removed_on_failure(files, draft):
            files.write(draft, content, like=path)
            _give_place(files, draft, path)
    except OSError as error:
        what = f"cannot be written: {error.strerror or error}"
        remedy = "choose another place, free some space or make it writable"
        raise FileError(what, remedy=remedy, place=Place(str(path))) from None


def write_own(place: Path, content: bytes, *, lasting: bool = True) -> None:
    """Write a file of our own, whole or not at all, in a folder that is there.

    :param lasting: False spares waiting for the medium: a power cut may lose the file, and it can be had again.
    :raises OSError: with the old content still there.
    """
    part = part_of(place)
    with _removed_on_failure(_DISK, part):
        _DISK.write(part, content)
        if lasting:
            _give_place(_DISK, part, place)
        else:
            _DISK.replace(part, place)


def part_of(place: Path) -> Path:
    """A file beside ``place`` in which this process may build it up; no other process has the same."""
    return place.with_name(f".{place.name}.{os.getpid()}.{os.urandom(4).hex()}{_PART}")


def put_in_place(part: Path, place: Path) -> None:
    """Replace ``place`` by a finished ``part`` so that a kill or a power cut leaves the old or the new file, whole.

    :raises OSError: with the old content still there.
    """
    _give_place(_DISK, part, place)


def abandoned_parts(folder: Path) -> list[Path]:
    """Parts in a folder whose process is gone."""
    return [part for part in folder.glob(f".*{_PART}") if not _is_at_work(part)]


def _give_place(files: FileLayer, draft: Path, place: Path) -> None:
    files.sync(draft)
    files.replace(draft, place)
    files.sync_folder(place.parent)


@contextmanager
def _removed_on_failure(files: FileLayer, draft: Path) -> Iterator[None]:
    try:
        yield
    except OSError:
        with suppress(OSError):
            files.remove(draft)
        raise


def _is_at_work(part: Path) -> bool:
    """Whether the process that a part is named after still runs, or may: by the part's age where none can be asked."""
    try:
        process = int(part.name.split(".")[-3])
        if os.name != "posix":
            return time.time() - part.stat().st_mtime < _A_DAY
        return runs(process)
    except (ValueError, IndexError, OSError):
        return False
