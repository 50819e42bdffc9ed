"""A guard as other systems have it: a file that a process of ours holds open is neither replaced nor removed.

Windows refuses both (sharing violation; learn.microsoft.com, System Error Codes, 32; stated from memory); Linux allows
them, so that a test here would never notice. What is open is read from ``/proc`` (proc_pid_fd(5)); without it the guard
lets everything pass.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

_OPEN = Path("/proc/self/fd")


class HeldError(PermissionError):
    """What Windows says of a file that is open."""

    def __init__(self, path: str) -> None:
        super().__init__(13, "the file is open in this process", path)
        self.winerror = 32


def refuse_if_open(path: Any, among: str) -> None:
    """Raise where a file below ``among`` is open here; files elsewhere are nobody's business."""
    whole = os.path.realpath(os.fsdecode(path))
    if not whole.startswith(among) or not _OPEN.is_dir():
        return
    for number in _OPEN.iterdir():
        with suppress(FileNotFoundError):
            if str(number.readlink()) == whole:
                raise HeldError(whole)


@contextmanager
def guarded() -> Iterator[None]:
    """Within, ``os`` refuses to replace, rename and remove what is open."""
    among = os.path.realpath(tempfile.gettempdir())
    kept: dict[str, Callable[..., Any]] = {
        name: getattr(os, name) for name in ("replace", "rename", "unlink", "remove")
    }

    def guard(act: Callable[..., Any]) -> Callable[..., Any]:
        def watched(path: Any, *rest: Any, **named: Any) -> Any:
            if named.get("dir_fd") is None and named.get("src_dir_fd") is None and not isinstance(path, int):
                for one in (path, *rest[:1]):
                    refuse_if_open(one, among)
            return act(path, *rest, **named)

        return watched

    for name, act in kept.items():
        setattr(os, name, guard(act))
    try:
        yield
    finally:
        for name, act in kept.items():
            setattr(os, name, act)
