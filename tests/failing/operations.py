"""File operations that are counted, and of which one fails: Python's own, from ``open`` to ``flock``, below one folder.

What lies elsewhere (Python's modules, fonts) is let alone. Files opened for writing are handed on with a raw file whose
every write is an operation; SQLite's own writes are not seen, its opening is.
"""

from __future__ import annotations

import builtins
import fcntl
import io
import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

#: By name; what they are given first is a path or the number of an open file.
_CALLS = (
    "open", "replace", "rename", "unlink", "remove", "mkdir", "rmdir", "listdir", "scandir", "stat", "lstat", "chmod",
    "fsync", "ftruncate", "write", "readlink", "utime",
)  # fmt: skip


@dataclass
class Operations:
    """Counts what is done below ``root``; the operation of number ``fails`` (from 1) is refused with ``code``."""

    root: str
    fails: int = 0
    code: int = 0
    done: list[str] = field(default_factory=list)

    def met(self, name: str, what: Any) -> None:
        """:raises OSError: if this is the operation that fails."""
        path = self._path(what)
        if path is None or not (path == self.root or path.startswith(self.root + os.sep)):
            return
        self.done.append(f"{name} {path.removeprefix(self.root)}")
        if len(self.done) == self.fails:
            if name == "connect":
                raise sqlite3.OperationalError("unable to open database file")
            told = (path,) if not isinstance(what, int) else ()
            raise OSError(self.code, os.strerror(self.code), *told)

    @staticmethod
    def _path(what: Any) -> str | None:
        if hasattr(what, "fileno"):
            what = what.fileno()
        if isinstance(what, int):
            try:
                return _READLINK(f"/proc/self/fd/{what}")
            except OSError:
                return None
        try:
            return os.path.abspath(os.fsdecode(what))  # noqa: PTH100 - a link is not followed
        except (TypeError, ValueError):
            return None


_READLINK = os.readlink
_OPEN = io.open


class _Raw(io.FileIO):
    """A file whose every write is an operation."""

    operations: Operations

    def write(self, content: Any) -> int:
        self.operations.met("write", self.fileno())
        return super().write(content) or 0


@contextmanager
def watched(operations: Operations) -> Iterator[Operations]:
    """Within, file operations are counted, and one may fail."""

    def counted(name: str, act: Callable[..., Any]) -> Callable[..., Any]:
        def call(*args: Any, **named: Any) -> Any:
            if args and named.get("dir_fd") is None:
                operations.met(name, args[0])
            return act(*args, **named)

        return call

    def opened(file: Any, mode: str = "r", buffering: int = -1, *rest: Any, **named: Any) -> Any:
        if not isinstance(file, int):
            operations.met("open", file)
        if not set(mode) & set("wax+") or buffering != -1 or named.get("opener"):
            return _OPEN(file, mode, buffering, *rest, **named)
        raw = _Raw(file, mode.replace("b", "").replace("t", ""), named.pop("closefd", True))
        raw.operations = operations
        buffered: Any = io.BufferedRandom(raw) if "+" in mode else io.BufferedWriter(raw)
        return buffered if "b" in mode else io.TextIOWrapper(buffered, *rest, **named)

    kept = {(os, name): getattr(os, name) for name in _CALLS}
    changed: dict[tuple[Any, str], Any] = {(os, name): counted(name, act) for (_, name), act in kept.items()}
    kept |= {(place, "open"): _OPEN for place in (io, builtins)}
    changed |= {(place, "open"): opened for place in (io, builtins)}
    for place, name in ((fcntl, "flock"), (sqlite3, "connect")):
        kept[place, name] = getattr(place, name)
        changed[place, name] = counted(name, getattr(place, name))
    for (place, name), act in changed.items():
        setattr(place, name, act)
    try:
        yield operations
    finally:
        for (place, name), act in kept.items():
            setattr(place, name, act)
