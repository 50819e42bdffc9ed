"""What a job may touch beyond its arguments, as one value that a face makes and hands down."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from datetime import date, datetime
from pathlib import Path
from typing import NamedTuple, Protocol

from namekeeper.files.places import Places


class Progress(Protocol):
    """Told how far a job is; ``total`` None where it is not known."""

    def __call__(self, done: int, total: int | None, note: str = "") -> None: ...


def unwatched(done: int, total: int | None, note: str = "") -> None:
    """Progress that nobody watches."""


@contextmanager
def no_progress(_what: str) -> Iterator[Progress]:
    """A stretch of work that nobody watches."""
    yield unwatched


class Outside(NamedTuple):
    """The world as a face sees it.

    ``folder`` is where relative paths count from; ``clock`` gives the time with its zone; ``notice`` says one line to
    the keeper while a job goes on; ``progress("asking")`` opens a stretch of work whose steps are shown.
    """

    folder: Path
    places: Places
    environ: Mapping[str, str]
    clock: Callable[[], datetime]
    notice: Callable[[str], None]
    progress: Callable[[str], AbstractContextManager[Progress]] = no_progress

    @classmethod
    def of(
        cls,
        folder: Path,
        environ: Mapping[str, str],
        clock: Callable[[], datetime],
        notice: Callable[[str], None],
        progress: Callable[[str], AbstractContextManager[Progress]] = no_progress,
    ) -> Outside:
        """The world with the places that ``environ`` gives (``NAMEKEEPER_HOME``, else this user's own)."""
        return cls(folder, Places.from_environ(environ), environ, clock, notice, progress)

    @property
    def today(self) -> date:
        """The keeper's calendar day."""
        return self.clock().astimezone().date()
