"""File layers that fail on purpose: at the n-th step by kill or error, or as a power cut does."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from random import Random

from namekeeper.files.file_layer import DiskFiles, FileLayer
from namekeeper.files.reading import LARGEST_OWN


def kill_this_process() -> None:
    """End as a power cut or ``kill -9`` would: nothing of ours runs afterwards."""
    os.kill(os.getpid(), signal.SIGKILL)


class Steps(FileLayer):
    """Calls ``at_step`` before each step that changes something, counted; a write is two: half and whole."""

    def __init__(self, at_step: Callable[[int], None]) -> None:
        self.disk = DiskFiles()
        self.at_step = at_step
        self.count = 0

    def _step(self) -> None:
        self.count += 1
        self.at_step(self.count)

    def read(self, path: Path, largest: int = LARGEST_OWN) -> bytes | None:
        return self.disk.read(path, largest)

    def names(self, folder: Path) -> tuple[str, ...]:
        return self.disk.names(folder)

    def may_write(self, path: Path) -> bool:
        return self.disk.may_write(path)

    def make_folder(self, folder: Path) -> None:
        self.disk.make_folder(folder)

    def write(self, path: Path, content: bytes, like: Path | None = None) -> None:
        self._step()
        path.write_bytes(content[: len(content) // 2])
        self._step()
        self.disk.write(path, content, like)

    def sync(self, path: Path) -> None:
        self._step()
        # The medium is this test's memory of bytes: a real fsync would only wear out a disk.

    def sync_folder(self, folder: Path) -> bool:
        self._step()
        return True

    def replace(self, source: Path, target: Path) -> None:
        self._step()
        self.disk.replace(source, target)

    def remove(self, path: Path) -> None:
        self._step()
        self.disk.remove(path)


@dataclass(frozen=True)
class NameAct:
    """A change of names in a folder: ``source`` (if any) goes, ``target`` gets ``inode``, or goes if that is None."""

    source: Path | None
    target: Path
    inode: int | None


class PowerLost(BaseException):
    """The machine stops here; no ``except OSError`` may catch it."""


class PowerCut(FileLayer):
    """A disk in memory that promises only what was synced.

    Content that was not synced may survive whole, cut short or not at all; names given or removed in a folder that was
    not synced since may survive each on its own, in any combination (harsher than journalling file systems are).
    """

    def __init__(self) -> None:
        self.contents: dict[int, bytes] = {}  # inode -> content as programs see it
        self.safe: dict[int, bytes] = {}  # inode -> content on the medium
        self.seen: dict[Path, int] = {}  # path -> inode as programs see it
        self.named: dict[Path, int] = {}  # path -> inode on the medium
        self.pending: list[NameAct] = []
        self.countdown = -1  # steps until the power fails; negative: it does not

    def put(self, path: Path, content: bytes) -> None:
        """A file that is on the medium from the start."""
        inode = self._inode(content)
        self.safe[inode] = content
        self.seen[path] = self.named[path] = inode

    def read(self, path: Path, largest: int = LARGEST_OWN) -> bytes | None:
        return self.contents[self.seen[path]] if path in self.seen else None

    def names(self, folder: Path) -> tuple[str, ...]:
        return tuple(sorted(path.name for path in self.seen if path.parent == folder))

    def may_write(self, path: Path) -> bool:
        return True

    def make_folder(self, folder: Path) -> None:
        """Folders are always there."""

    def write(self, path: Path, content: bytes, like: Path | None = None) -> None:
        self._tick()
        self.seen[path] = self._inode(content)
        self.pending.append(NameAct(None, path, self.seen[path]))

    def sync(self, path: Path) -> None:
        self._tick()
        self.safe[self.seen[path]] = self.contents[self.seen[path]]

    def sync_folder(self, folder: Path) -> bool:
        self._tick()
        for act in [act for act in self.pending if act.target.parent == folder]:
            self._persist(act)
            self.pending.remove(act)
        return True

    def replace(self, source: Path, target: Path) -> None:
        self._tick()
        self.seen[target] = self.seen.pop(source)
        self.pending.append(NameAct(source, target, self.seen[target]))

    def remove(self, path: Path) -> None:
        self._tick()
        if self.seen.pop(path, None) is not None:
            self.pending.append(NameAct(None, path, None))

    def cut(self, random: Random) -> None:
        """The power fails and comes back."""
        for act in self.pending:
            if random.random() < 0.5:
                self._persist(act)
        self.pending.clear()
        self.seen = dict(self.named)
        for inode in self.seen.values():
            whole = self.contents[inode]
            if inode not in self.safe:
                self.safe[inode] = random.choice([b"", whole[: len(whole) // 2], whole])
            self.contents[inode] = self.safe[inode]
        self.countdown = -1

    def _persist(self, act: NameAct) -> None:
        if act.source is not None:
            self.named.pop(act.source, None)
        if act.inode is None:
            self.named.pop(act.target, None)
        else:
            self.named[act.target] = act.inode

    def _inode(self, content: bytes) -> int:
        inode = len(self.contents) + 1
        self.contents[inode] = content
        return inode

    def _tick(self) -> None:
        self.countdown -= 1
        if self.countdown == 0:
            raise PowerLost
