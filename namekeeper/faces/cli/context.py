"""What a command may touch: streams, clock, environment and folders, all handed in."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TextIO

from namekeeper.faces.console import Console
from namekeeper.files.places import Places
from namekeeper.outside import Outside


@dataclass(frozen=True, slots=True)
class Context:
    """The outside world as one value; tests hand in their own."""

    out: TextIO
    err: TextIO
    stdin: TextIO
    clock: Callable[[], datetime]
    environ: Mapping[str, str]
    folder: Path

    @classmethod
    def of_this_process(cls, environ: Mapping[str, str]) -> Context:
        for stream in (sys.stdout, sys.stderr):
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="backslashreplace")
        typed, out, err = sys.stdin or _nothing("r"), sys.stdout or _nothing("w"), sys.stderr or _nothing("w")
        return cls(out, err, typed, lambda: datetime.now(UTC), environ, Path.cwd())

    @property
    def today(self) -> date:
        """The keeper's calendar day."""
        return self.clock().astimezone().date()

    @property
    def console(self) -> Console:
        return Console.of(self.out, self.err, plain="NO_COLOR" in self.environ)

    @property
    def places(self) -> Places:
        return Places.from_environ(self.environ)

    @property
    def outside(self) -> Outside:
        """What the jobs behind a command may touch."""
        console = self.console
        return Outside(self.folder, self.places, self.environ, self.clock, console.say, console.progress)

    @property
    def interactive(self) -> bool:
        """Whether a person sits at both ends: only then may a command prompt."""
        return self.stdin.isatty() and self.out.isatty()


def _nothing(mode: str) -> TextIO:
    """In place of a stream that was closed before we began; takes its number, so that no file of ours gets it."""
    return io.TextIOWrapper(io.FileIO(os.open(os.devnull, os.O_RDWR), mode), encoding="utf-8")
