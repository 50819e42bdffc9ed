"""The process in which sheets are planned and drawn: the libraries that draw know no threads.

It answers one question after another, tells every step of its work, and stops at the next one where that is wished.
"""

from __future__ import annotations

import multiprocessing
import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from functools import partial
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from multiprocessing.synchronize import Event
from typing import NamedTuple, TypeVar

from namekeeper.faces.page.sheets import Bench, PrintedSheets, Sheets, SheetWish
from namekeeper.outside import Outside, Progress, StoppedError, Work, unwatched
from namekeeper.words.errors import FileError, NamekeeperError, Problem

BEAT = 0.05  # seconds between two looks at whether the keeper wishes it to end
GRACE = 1.2  # seconds in which the process may come to its next step; then it is ended
_LONGEST = 120.0  # seconds without a step
_Made = TypeVar("_Made")


class _Step(NamedTuple):
    """How far the work is."""

    work: Work
    done: int
    total: int | None
    note: str


@dataclass(slots=True)
class SheetMaker:
    """Hands wishes to the process; it is begun at the first wish, and once more if it died or was stopped.

    ``outside`` of each shows how far the work is and may end it: ``StoppedError`` then.
    """

    _running: _SheetProcess | None = None
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def plan(self, wish: SheetWish, outside: Outside) -> Sheets:
        """:raises NamekeeperError: if there can be no such labels."""
        return self._ask(outside, Bench.plan, wish)

    def picture(self, wish: SheetWish, page: int, outside: Outside) -> bytes:
        """A page as PNG, from 1.

        :raises NamekeeperError: if there is no such page.
        """
        return self._ask(outside, Bench.picture, wish, page)

    def label(self, wish: SheetWish, outside: Outside) -> bytes:
        """The first label as PNG.

        :raises NamekeeperError: if there is none.
        """
        return self._ask(outside, Bench.label, wish)

    def print(self, wish: SheetWish, outside: Outside) -> PrintedSheets:
        """:raises NamekeeperError: if there can be no such labels."""
        return self._ask(outside, Bench.print, wish)

    def close(self) -> None:
        """End the process, whatever it does; a later wish begins another."""
        running = self._running
        if running is not None:
            running.end()

    def _ask(self, outside: Outside, job: Callable[..., _Made], *what: object) -> _Made:
        while not self._lock.acquire(timeout=BEAT):
            outside.breathe()
        try:
            if self._running is None or not self._running.process.is_alive():
                self._running = _SheetProcess.begun()
            made = self._running.ask(outside, job, *what)
        except (OSError, EOFError) as fault:  # the process died, or is silent
            self.close()
            remedy = "try it again, with fewer labels at a time"
            raise FileError("the sheet could not be drawn", remedy=remedy) from fault
        finally:
            self._lock.release()
        if isinstance(made, Problem):
            raise NamekeeperError(made.what, remedy=made.remedy, place=made.place)
        return made


@dataclass(slots=True)
class _SheetProcess:
    """One such process, with the line to it."""

    process: BaseProcess
    line: Connection
    stop: Event

    @classmethod
    def begun(cls) -> _SheetProcess:
        context = multiprocessing.get_context("spawn")
        (ours, theirs), stop = context.Pipe(), context.Event()
        process = context.Process(target=_answer, args=(theirs, stop), name="sheets", daemon=True)
        process.start()
        theirs.close()
        return cls(process, ours, stop)

    def end(self) -> None:
        self.process.kill()
        self.process.join()
        self.line.close()

    def ask(self, outside: Outside, job: Callable[..., _Made], *what: object) -> _Made | Problem:
        """What came of a job of the bench.

        :raises StoppedError: if it was stopped.
        :raises OSError: if the process is silent.
        :raises EOFError: if it died.
        """
        self.stop.clear()
        self.line.send((job, what))
        try:
            with ExitStack() as stretch:
                work, show = None, unwatched
                while isinstance(told := self._told(outside), _Step):
                    if told.work is not work:
                        stretch.close()
                        work, show = told.work, stretch.enter_context(outside.progress(told.work))
                    show(told.done, told.total, told.note)
                return told  # type: ignore[return-value]  # what the process sends is not known to the checker
        except StoppedError:
            self._halt()
            raise

    def _told(self, outside: Outside) -> object:
        """What the process tells next."""
        ends = time.monotonic() + _LONGEST
        while not self.line.poll(BEAT):
            outside.breathe()
            if time.monotonic() > ends:
                raise TimeoutError
        return self.line.recv()

    def _halt(self) -> None:
        """Let the process come to its next step and wait for the next question, or end it."""
        self.stop.set()
        ends = time.monotonic() + GRACE
        while (left := ends - time.monotonic()) > 0:
            if self.line.poll(left) and not isinstance(self.line.recv(), _Step):
                return
        self.end()


def _answer(line: Connection, stop: Event) -> None:
    """What the process does: a job after the other, until the line is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the server, which then ends this process
    bench = Bench(partial(_shown, line), stop.is_set)
    while True:
        try:
            job, what = line.recv()
        except (EOFError, OSError):
            return
        try:
            made = job(bench, *what)
        except NamekeeperError as fault:
            made = fault.as_problem()  # errors with places do not travel between processes
        except StoppedError:
            made = None
        line.send(made)


@contextmanager
def _shown(line: Connection, work: Work) -> Iterator[Progress]:
    def step(done: int, total: int | None, note: str = "") -> None:
        line.send(_Step(work, done, total, note))

    yield step
