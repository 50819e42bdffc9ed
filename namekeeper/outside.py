"""What a job may touch beyond its arguments, as one value that a face makes and hands down."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from datetime import date, datetime
from enum import StrEnum, unique
from pathlib import Path
from typing import NamedTuple, Protocol

from namekeeper.files.places import Places

_BREATH = 0.2  # seconds between two looks at whether the keeper wishes to stop


@unique
class Work(StrEnum):
    """Stretches of work that take their time, in the words in which their progress is shown."""

    CHECKING = "checking"
    ASKING = "asking"
    READING = "reading"
    WRITING = "writing"
    ADDING = "adding"
    FETCHING = "fetching"
    COMPARING = "comparing"
    GATHERING = "looking up"
    FITTING = "fitting labels"
    DRAWING = "drawing pages"
    ANSWERING = "reading every name once"


@unique
class RemarkKind(StrEnum):
    """What a job may have to say on its way; ``faces/telling/remarks.py`` has a sentence for each."""

    NOBODY_TO_REACH = "nobody to reach"  # the services asked can reach neither the project nor the keeper
    COMMON_NAMES_ONLY = "common names only"  # a service that was chosen in vain; about its title
    BEING_WRITTEN = "being written"  # the collection is read amid another's change; about what is known of that
    NOT_KEPT_AS_OURS = "not kept as ours"  # a file of ours will be taken for the keeper's; about the fault


class Remark(NamedTuple):
    """One thing that a job says on its way, and what it is about."""

    kind: RemarkKind
    about: tuple[str, ...] = ()


class StoppedError(KeyboardInterrupt):
    """The keeper stopped a stretch of work: by Ctrl-C, or by the button of a face that has one.

    It is what Ctrl-C raises, so that no job takes it for a fault that it could get over. ``work`` is None before the
    first stretch; ``done`` of ``total`` steps were done, ``total`` None where it is not known.
    """

    def __init__(self, work: Work | None = None, done: int = 0, total: int | None = None) -> None:
        super().__init__()
        self.work = work
        self.done = done
        self.total = total


class Progress(Protocol):
    """Told after each step how far a job is; ``total`` None where it is not known.

    :raises StoppedError: if the keeper wishes the job to end.
    """

    def __call__(self, done: int, total: int | None, note: str = "") -> None: ...


def unwatched(done: int, total: int | None, note: str = "") -> None:
    """Progress that nobody watches."""


@contextmanager
def no_progress(_work: Work) -> Iterator[Progress]:
    """A stretch of work that nobody watches."""
    yield unwatched


def _never() -> bool:
    return False


class Outside(NamedTuple):
    """The world as a face sees it.

    ``folder`` is where relative paths count from; ``clock`` gives the time with its zone; ``notice`` tells the keeper,
    while a job goes on, what it has to remark, or the line of an error. ``shown(work)`` opens a stretch of work on the
    face's own display, and ``stop_requested`` tells whether the keeper wishes it to end: jobs use both through
    :meth:`progress`.
    """

    folder: Path
    places: Places
    environ: Mapping[str, str]
    clock: Callable[[], datetime]
    notice: Callable[[str | Remark], None]
    shown: Callable[[Work], AbstractContextManager[Progress]] = no_progress
    stop_requested: Callable[[], bool] = _never

    @classmethod
    def of(
        cls,
        folder: Path,
        environ: Mapping[str, str],
        clock: Callable[[], datetime],
        notice: Callable[[str | Remark], None],
        shown: Callable[[Work], AbstractContextManager[Progress]] = no_progress,
        *,
        stop_requested: Callable[[], bool] = _never,
    ) -> Outside:
        """The world with the places that ``environ`` gives (``NAMEKEEPER_HOME``, else this user's own)."""
        return cls(folder, Places.from_environ(environ), environ, clock, notice, shown, stop_requested)

    @property
    def today(self) -> date:
        """The keeper's calendar day."""
        return self.clock().astimezone().date()

    @contextmanager
    def progress(self, work: Work) -> Iterator[Progress]:
        """A stretch of work whose steps are shown, and which can be stopped between them.

        :raises StoppedError: with how far it came.
        """
        came: tuple[int, int | None] = 0, None
        with self.shown(work) as show:

            def step(done: int, total: int | None, note: str = "") -> None:
                nonlocal came
                came = done, total
                show(done, total, note)
                self.breathe()

            try:
                self.breathe()
                yield step
            except KeyboardInterrupt as stop:
                if isinstance(stop, StoppedError) and stop.work:
                    raise
                raise StoppedError(work, *came) from stop

    def breathe(self) -> None:
        """To be called often where nothing moves on, as between two looks at a socket.

        :raises StoppedError: if the keeper wishes the work to end.
        """
        if self.stop_requested():
            raise StoppedError

    def pause(self, seconds: float) -> None:
        """Wait so long.

        :raises StoppedError: as :meth:`breathe`, soon after the wish.
        """
        end = time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0:
            self.breathe()
            time.sleep(min(left, _BREATH))
