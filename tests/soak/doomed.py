"""A process that is killed, or stands still, at a certain step of its writing: no kill from outside aims so well.

``python -m tests.soak.doomed STEPS WORDS...`` is the installed program with that fate (:class:`Doom`).
"""

from __future__ import annotations

import os
import signal
import sys
import time
from dataclasses import dataclass
from pathlib import Path

from namekeeper.files.file_layer import NEW, DiskFiles
from namekeeper.storage import lock
from namekeeper.storage.journal import JOURNAL

#: Files beside the output of a command by which it tells what happened to it.
HOLDS, WAITED = "holds", "waited"


@dataclass(frozen=True)
class Doom:
    """What happens to a process that writes.

    Once the journal is in its place it is killed ``steps`` file operations later, or it stands still for ``seconds``
    with the lock in its hand; ``stopped``: Ctrl-C comes when its first draft is written.
    """

    steps: int | None = None
    seconds: float = 0.0
    stopped: bool = False


def watch_the_lock(place: Path) -> None:
    """Have it noted in ``place`` whenever this process finds the lock of a collection taken."""
    taken = lock._taken

    def noticed(descriptor: int, path: Path) -> bool:
        free = taken(descriptor, path)
        if not free:
            (place / WAITED).touch()
        return free

    setattr(lock, "_taken", noticed)  # noqa: B010 - the checker allows no other way


def doom(fate: Doom, place: Path | None = None) -> None:
    """Lay this fate on this process; that it stands still is noted in ``place``."""
    replace, remove, sync, left = DiskFiles.replace, DiskFiles.remove, DiskFiles.sync, [fate.steps]
    begun: list[bool] = []

    def step() -> None:
        if not begun or left[0] is None:
            return
        if left[0] == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        left[0] -= 1

    def replacing(self: DiskFiles, source: Path, target: Path) -> None:
        step()
        replace(self, source, target)
        if target.name == JOURNAL and not begun:
            begun.append(True)
            if fate.seconds and place is not None:
                (place / HOLDS).touch()
                time.sleep(fate.seconds)

    def removing(self: DiskFiles, path: Path) -> None:
        step()
        remove(self, path)

    def syncing(self: DiskFiles, path: Path) -> None:
        if fate.stopped and path.name.endswith(NEW) and not begun:
            begun.append(True)
            os.kill(os.getpid(), signal.SIGINT)
        sync(self, path)

    setattr(DiskFiles, "sync", syncing)  # noqa: B010
    setattr(DiskFiles, "replace", replacing)  # noqa: B010
    setattr(DiskFiles, "remove", removing)  # noqa: B010


if __name__ == "__main__":
    from namekeeper.__main__ import main

    doom(Doom(steps=int(sys.argv[1])))
    sys.argv = ["namekeeper", *sys.argv[2:]]
    sys.exit(main())
