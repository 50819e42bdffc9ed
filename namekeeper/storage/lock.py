"""One writer a collection: a lock in the user's state folder, keyed by the folder itself, however its path is written.

The operating system's own lock on the file decides between processes of one machine and ends with the process that
held it. What stands in the file (machine and when it was started, process and its start) tells the keeper who holds
it, and guards where the system's lock does not reach (a state folder on a network).
"""

from __future__ import annotations

import hashlib
import json
import os
import socket
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path

from namekeeper.files.lenient_json import json_of, mapping_in
from namekeeper.files.places import Places
from namekeeper.files.processes import boot, machine, runs, start_of
from namekeeper.files.reading import open_regular, remedy_for
from namekeeper.words.errors import FileError, Place

PATIENCE_SECONDS = 10.0
_PAUSE_SECONDS = 0.05


class BusyError(FileError):
    """Another process is writing to the collection; what it is said to be is in the text."""


@dataclass(frozen=True, slots=True)
class Holder:
    """Who holds a lock: host, process, when that process started (as its system tells it), since when.

    ``machine`` and ``boot`` tell machines of one name apart, and their starts; empty where the system does not tell.
    """

    host: str
    pid: int
    started: str
    since: str
    machine: str = ""
    boot: str = ""

    @classmethod
    def myself(cls, now: datetime) -> Holder:
        since = now.isoformat(timespec="seconds")
        return cls(socket.gethostname(), os.getpid(), start_of(os.getpid()), since, machine(), boot())

    @property
    def is_here(self) -> bool:
        """Whether it runs, or ran, on this machine, which may have been renamed."""
        here = machine()
        return self.machine == here if self.machine and here else self.host == socket.gethostname()

    def is_gone(self) -> bool:
        """Whether the holder certainly runs no more; unknown on another machine, so False there."""
        if not self.is_here:
            return False
        now = boot()
        if self.boot and now and self.boot != now:
            return True
        if sys.platform == "win32":  # the system's lock has already answered for processes of this machine
            return self.pid != os.getpid()
        return not runs(self.pid) or start_of(self.pid) != self.started


def lock_path(places: Places, folder: Path) -> Path:
    """The lock file of a collection; two ways to the same folder have the same one, also by another spelling of it."""
    try:
        found = os.stat(folder)  # noqa: PTH116 - any way to the folder
        told = f"{found.st_dev}:{found.st_ino}" if found.st_ino else ""
    except OSError:
        told = ""
    key = hashlib.sha256((told or os.path.realpath(folder)).encode("utf-8", "surrogateescape")).hexdigest()[:32]
    return places.state / "locks" / f"{key}.lock"


@contextmanager
def writing(
    places: Places,
    folder: Path,
    now: datetime,
    patience: float = PATIENCE_SECONDS,
    sleep: Callable[[float], None] = time.sleep,
) -> Iterator[tuple[str, ...]]:
    """Hold the collection's lock; yields messages about a stale one taken over.

    :raises BusyError: if another process holds it for longer than ``patience`` seconds.
    :raises FileError: if the state folder cannot be written.
    """
    path = lock_path(places, folder)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        descriptor = open_regular(path, os.O_RDWR | os.O_CREAT)
    except OSError as error:
        raise _unmade(error, path) from None
    try:
        waited = 0.0
        while not (_taken(descriptor, path) and (messages := _claim(descriptor, path, now)) is not None):
            if waited >= patience:
                raise _busy(_read(descriptor), path)
            sleep(_PAUSE_SECONDS)
            waited += _PAUSE_SECONDS
        try:
            yield messages
        finally:
            with suppress(OSError):  # a name that stays is passed over by the next, since the system's lock is gone
                os.ftruncate(descriptor, 0)
    finally:
        os.close(descriptor)  # which also gives the system's lock back


def _taken(descriptor: int, path: Path) -> bool:
    """Whether the system gives us the lock.

    :raises FileError: if the file system here has no locks.
    """
    try:
        return _take(descriptor)
    except OSError as error:
        what = f"the file system refuses to lock: {error.strerror or error}"
        remedy = "set NAMEKEEPER_HOME to a folder on a disk of this machine"
        raise FileError(what, remedy=remedy, place=Place(str(path))) from None


def _claim(descriptor: int, path: Path, now: datetime) -> tuple[str, ...] | None:
    """Write our name into a lock whose holder is gone; None if the holder may still be at work."""
    holder = _read(descriptor)
    if holder is not None and not holder.is_gone():
        _give(descriptor)
        return None
    mine = Holder.myself(now)
    try:
        os.ftruncate(descriptor, 0)
        os.lseek(descriptor, 0, os.SEEK_SET)
        os.write(descriptor, json.dumps(asdict(mine)).encode())
    except OSError as error:
        raise _unmade(error, path) from None
    if holder is None:
        return ()
    told = f"took over the lock of process {holder.pid}, which ended without giving it back ({holder.since}; {path})"
    return (told,)


def _read(descriptor: int) -> Holder | None:
    os.lseek(descriptor, 0, os.SEEK_SET)
    try:
        record = mapping_in(json_of(os.read(descriptor, 4096)))
        texts = (str(record.get(key, "")) for key in ("machine", "boot"))
        return Holder(str(record["host"]), int(record["pid"]), str(record["started"]), str(record["since"]), *texts)
    except (ValueError, KeyError, TypeError):
        return None  # empty, or cut short by a power cut: nobody's


def _unmade(error: OSError, path: Path) -> FileError:
    what = f"the lock of the collection cannot be made: {error.strerror or error}"
    remedy = remedy_for(error, "make the folder writable or set NAMEKEEPER_HOME")
    return FileError(what, remedy=remedy, place=Place(str(path)))


def _busy(holder: Holder | None, path: Path) -> BusyError:
    if holder is None:
        what = f"another process is writing to this collection ({path})"
        return BusyError(what, remedy="try again when it is done")
    who = f"process {holder.pid} on {holder.host} since {holder.since}"
    remedy = "try again when it is done"
    if not holder.is_here:
        remedy += f"; if that machine is off for good, delete {path}"
    return BusyError(f"another process is writing to this collection: {who} ({path})", remedy=remedy)


if sys.platform == "win32":
    import msvcrt

    # A byte far behind the record, so that others can still read who holds the lock.
    _GUARD = 1 << 20

    def _take(descriptor: int) -> bool:
        os.lseek(descriptor, _GUARD, os.SEEK_SET)
        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

    def _give(descriptor: int) -> None:
        os.lseek(descriptor, _GUARD, os.SEEK_SET)
        msvcrt.locking(descriptor, msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _take(descriptor: int) -> bool:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

    def _give(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_UN)
