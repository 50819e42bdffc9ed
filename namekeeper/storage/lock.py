"""One writer a collection: a lock in the user's state folder, keyed by the collection's real path.

The operating system's own lock on the file decides between processes of one machine and ends with the process that
held it. What stands in the file (host, process, its start) tells the keeper who holds it, and guards where the
system's lock does not reach (a state folder on a network).
"""

from __future__ import annotations

import hashlib
import json
import os
import socket
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from namekeeper.files.lenient_json import json_of, mapping_in
from namekeeper.files.places import Places
from namekeeper.files.processes import runs, start_of
from namekeeper.words.errors import FileError, Place

PATIENCE_SECONDS = 10.0
_PAUSE_SECONDS = 0.05


class BusyError(FileError):
    """Another process is writing to the collection; what it is said to be is in the text."""


@dataclass(frozen=True, slots=True)
class Holder:
    """Who holds a lock: machine, process, when that process started (as its system tells it), since when."""

    host: str
    pid: int
    started: str
    since: str

    @classmethod
    def myself(cls, now: datetime) -> Holder:
        return cls(socket.gethostname(), os.getpid(), start_of(os.getpid()), now.isoformat(timespec="seconds"))

    def is_gone(self) -> bool:
        """Whether the holder certainly runs no more; unknown on another machine, so False there."""
        if self.host != socket.gethostname():
            return False
        if sys.platform == "win32":  # the system's lock has already answered for processes of this machine
            return self.pid != os.getpid()
        return not runs(self.pid) or start_of(self.pid) != self.started


def lock_path(places: Places, folder: Path) -> Path:
    """The lock file of a collection; two ways to the same folder have the same one."""
    key = hashlib.sha256(os.path.realpath(folder).encode("utf-8", "surrogateescape")).hexdigest()[:32]
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
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    except OSError as error:
        what = f"the lock of the collection cannot be made: {error.strerror}"
        raise FileError(
            what, remedy="make the folder writable or set NAMEKEEPER_HOME", place=Place(str(path))
        ) from None
    try:
        waited = 0.0
        while not (_take(descriptor) and (messages := _claim(descriptor, now)) is not None):
            if waited >= patience:
                raise _busy(_read(descriptor), path)
            sleep(_PAUSE_SECONDS)
            waited += _PAUSE_SECONDS
        try:
            yield messages
        finally:
            os.ftruncate(descriptor, 0)
    finally:
        os.close(descriptor)  # which also gives the system's lock back


def _claim(descriptor: int, now: datetime) -> tuple[str, ...] | None:
    """Write our name into a lock whose holder is gone; None if the holder may still be at work."""
    holder = _read(descriptor)
    if holder is not None and not holder.is_gone():
        _give(descriptor)
        return None
    os.ftruncate(descriptor, 0)
    os.lseek(descriptor, 0, os.SEEK_SET)
    mine = Holder.myself(now)
    record = {"host": mine.host, "pid": mine.pid, "started": mine.started, "since": mine.since}
    os.write(descriptor, json.dumps(record).encode())
    if holder is None:
        return ()
    return (f"took over the lock of process {holder.pid}, which ended without giving it back ({holder.since})",)


def _read(descriptor: int) -> Holder | None:
    os.lseek(descriptor, 0, os.SEEK_SET)
    try:
        record = mapping_in(json_of(os.read(descriptor, 4096)))
        return Holder(str(record["host"]), int(record["pid"]), str(record["started"]), str(record["since"]))
    except (ValueError, KeyError, TypeError):
        return None  # empty, or cut short by a power cut: nobody's


def _busy(holder: Holder | None, path: Path) -> BusyError:
    if holder is None:
        return BusyError("another process is writing to this collection", remedy="try again when it is done")
    who = f"process {holder.pid} on {holder.host} since {holder.since}"
    remedy = "try again when it is done"
    if holder.host != socket.gethostname():
        remedy += f"; if that machine is off for good, delete {path}"
    return BusyError(f"another process is writing to this collection: {who}", remedy=remedy)


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
