"""Commands in processes of their own: let alone, killed while they write, stopped by Ctrl-C, or with a full disk."""

from __future__ import annotations

import multiprocessing
import os
import resource
import shutil
import signal
import sys
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from multiprocessing.process import BaseProcess
from pathlib import Path
from tempfile import mkdtemp

from namekeeper.files.file_layer import NEW
from tests.soak.doomed import HOLDS, WAITED, Doom, doom, watch_the_lock

#: Seconds after which the keeper presses Ctrl-C: services that never answer would be waited for longer.
PATIENCE = 8.0
_STUCK = 90.0
#: Loaded once, in a process without threads from which each command is a fork: starting costs more than most commands.
_LOADED = ("namekeeper.faces.cli.main", "namekeeper.faces.cli.collection", "namekeeper.faces.cli.check", "requests")


class Fate(StrEnum):
    """What becomes of a process."""

    ALONE = "let alone"
    KILLED = "killed at any time"
    KILLED_WRITING = "killed while it writes"
    KILLED_AT_JOURNAL = "killed with its journal written"
    STOPPED = "stopped by Ctrl-C while it writes"
    FULL = "disk full"


@dataclass(frozen=True)
class Ended:
    """What a command printed, its exit code (negative: the signal that killed it), and what happened to it.

    ``met`` if that was its fate, ``waited`` if it found another writer at work.
    """

    words: tuple[str, ...]
    code: int
    out: str
    err: str
    met: bool
    waited: bool

    @property
    def whole(self) -> str:
        return f"$ {' '.join(self.words)}\n[{self.code}] {self.out[-1500:]}\n{self.err[-3000:]}"


def _command(
    words: tuple[str, ...], place: str, environ: Mapping[str, str], folder: str, room: int | None, end: Doom | None
) -> None:
    """One command, as the installed program runs it: in a process of its own, with what it prints in files."""
    for number, name in ((0, os.devnull), (1, f"{place}/out"), (2, f"{place}/err")):
        os.dup2(os.open(name, os.O_RDWR | os.O_CREAT | os.O_APPEND), number)
    sys.stdin, sys.stdout, sys.stderr = (
        open(number, mode, encoding="utf-8", closefd=False)  # noqa: SIM115 - for the life of the process
        for number, mode in ((0, "r"), (1, "w"), (2, "w"))
    )
    signal.signal(signal.SIGINT, signal.default_int_handler)
    os.environ.clear()
    os.environ.update(environ)
    os.chdir(folder)
    sys.argv = ["namekeeper", *words]
    watch_the_lock(Path(place))
    if end is not None:
        doom(end, Path(place))
    if room is not None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (room, resource.RLIM_INFINITY))
    from namekeeper.__main__ import main

    code = main()
    resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
    sys.exit(code)


@dataclass
class Running:
    """One process; output goes to files, so that none waits for a reader."""

    words: tuple[str, ...]
    fate: Fate
    folder: Path
    process: BaseProcess
    place: Path
    doomed: float  # seconds after which it is killed
    patience: float = PATIENCE
    began: float = field(default_factory=time.monotonic)
    met: bool = False

    @classmethod
    def start(
        cls,
        words: tuple[str, ...],
        folder: Path,
        environ: Mapping[str, str],
        fate: Fate,
        doomed: float = 0.0,
        room: int = 0,
        end: Doom | None = None,
        patience: float = PATIENCE,
    ) -> Running:
        """``room``: bytes that a file may have on a full disk; ``end``: what happens once the journal is written."""
        place = Path(mkdtemp(dir=folder.parent))
        context = multiprocessing.get_context("forkserver")
        context.set_forkserver_preload(list(_LOADED))
        full = room if fate is Fate.FULL else None
        given = (words, str(place), dict(environ), str(folder.parent), full, end)
        process = context.Process(target=_command, args=given)
        process.start()
        return cls(words, fate, folder, process, place, doomed, patience)

    def holds(self) -> bool:
        """Whether it stands still now with the lock in its hand; False as well if it came to its end before."""
        while self.process.is_alive():
            if (self.place / HOLDS).exists():
                return True
            self.process.join(0.01)
        return False

    @property
    def over(self) -> bool:
        """Whether it came to its end, or to the end of its keeper's patience."""
        return not self.process.is_alive() or time.monotonic() - self.began > self.patience

    def wait(self) -> Ended:
        """Let its fate come, and its end."""
        while self.process.is_alive():
            self._act(time.monotonic() - self.began)
            self.process.join(0.002)
        code = self.process.exitcode
        assert code is not None
        out, err = (
            path.read_text(encoding="utf-8") if (path := self.place / name).exists() else "" for name in ("out", "err")
        )
        waited = (self.place / WAITED).exists()
        shutil.rmtree(self.place)
        self.process.close()
        aimed = (self.fate, code) in ((Fate.KILLED_AT_JOURNAL, -signal.SIGKILL), (Fate.STOPPED, 130))
        return Ended(self.words, code, out, err, self.met or aimed or self.fate is Fate.FULL, waited)

    def _act(self, age: float) -> None:
        if self.met:
            if age > _STUCK:
                self.process.kill()
                message = f"{' '.join(self.words)} did not end in {_STUCK} seconds"
                raise AssertionError(message)
            return
        too_late = self.fate is Fate.KILLED and age > self.doomed
        if too_late or (self.fate is Fate.KILLED_WRITING and self._writes()):
            self._meet(signal.SIGKILL)
        elif age > self.patience:
            self._meet(signal.SIGINT)

    def _meet(self, number: signal.Signals) -> None:
        self.met = True
        assert self.process.pid is not None
        os.kill(self.process.pid, number)

    def _writes(self) -> bool:
        """Whether a draft lies in the collection: somebody is at it."""
        for folder in (self.folder, self.folder / "specimens"):
            if any(name.endswith(NEW) for name in os.listdir(folder)):  # noqa: PTH208 - names only
                return True
        return False
