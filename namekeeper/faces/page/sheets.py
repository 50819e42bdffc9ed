"""Sheets of labels planned and drawn in a process of their own: the libraries that draw know no threads."""

from __future__ import annotations

import multiprocessing
import threading
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple, TypeVar

from namekeeper.faces.telling.labels import notices, problem
from namekeeper.outside import Outside
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import LabelPlan
from namekeeper.tasks.label_run import LabelRun, label_picture, page_picture
from namekeeper.tasks.labels import LabelDesk
from namekeeper.words.errors import FileError, NamekeeperError, Problem

_DPI, _COLOURS = 100, 12  # sharp on a screen at the size of the page, and below 100 kB
_LABEL_DPI = 160
_LONGEST = 120  # seconds
_Made = TypeVar("_Made")


class SheetWish(NamedTuple):
    """Labels of a collection in one state; a wish that is equal comes to the same sheets."""

    folder: str
    environ: tuple[tuple[str, str], ...]
    state: str
    choices: Choices


class Sheets(NamedTuple):
    """What the labels come to, before anything is drawn."""

    pages: int
    first: int  # the place of the first label, from 1; 0 where there is none
    placed: tuple[tuple[str, int, int], ...]  # id, page and place, from 1
    refused: tuple[str, ...]
    notices: tuple[str, ...]


class PrintedSheets(NamedTuple):
    """The PDF, and what is to be remembered once it came out."""

    pdf: bytes
    sheets: Sheets
    run: LabelRun


@dataclass(slots=True)
class SheetMaker:
    """Hands wishes to the process that draws; it is begun at the first wish and once more if it died."""

    _pool: ProcessPoolExecutor | None = None
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def plan(self, wish: SheetWish) -> Sheets:
        """:raises NamekeeperError: if there can be no such labels."""
        return self._ask(_plan, wish)

    def picture(self, wish: SheetWish, page: int) -> bytes:
        """A page as PNG, from 1.

        :raises NamekeeperError: if there is no such page.
        """
        return self._ask(_picture, wish, page)

    def label(self, wish: SheetWish) -> bytes:
        """The first label as PNG.

        :raises NamekeeperError: if there is none.
        """
        return self._ask(_label, wish)

    def print(self, wish: SheetWish) -> PrintedSheets:
        """:raises NamekeeperError: if there can be no such labels."""
        return self._ask(_print, wish)

    def close(self) -> None:
        """End the process; a later wish begins another."""
        with self._lock:
            pool, self._pool = self._pool, None
        if pool is not None:
            pool.shutdown(wait=True, cancel_futures=True)

    def _ask(self, work: Callable[..., _Made | Problem], *what: object) -> _Made:
        with self._lock:
            pool = self._pool = self._pool or ProcessPoolExecutor(1, multiprocessing.get_context("spawn"))
        try:
            made: _Made | Problem = pool.submit(work, *what).result(_LONGEST)
        except (OSError, RuntimeError) as fault:  # the process died, or takes too long
            with self._lock:
                self._pool = None if self._pool is pool else self._pool
            pool.shutdown(wait=False, cancel_futures=True)
            remedy = "try it again, with fewer labels at a time"
            raise FileError("the sheet could not be drawn", remedy=remedy) from fault
        if isinstance(made, Problem):
            raise NamekeeperError(made.what, remedy=made.remedy, place=made.place)
        return made


def _plan(wish: SheetWish) -> Sheets | Problem:
    return _kept(lambda: _told(_planned(wish)[1]))


def _picture(wish: SheetWish, page: int) -> bytes | Problem:
    return _kept(lambda: page_picture(_planned(wish)[1], page, _DPI, _COLOURS))


def _label(wish: SheetWish) -> bytes | Problem:
    return _kept(lambda: label_picture(_planned(wish)[1], _LABEL_DPI, _COLOURS))


def _print(wish: SheetWish) -> PrintedSheets | Problem:
    def made() -> PrintedSheets:
        desk, plan = _planned(wish)
        return PrintedSheets(plan.pdf(), _told(plan), LabelRun.of(plan, desk.collection))

    return _kept(made)


def _kept(make: Callable[[], _Made]) -> _Made | Problem:
    """What was made, or the fault as a value: errors with places do not travel between processes."""
    try:
        return make()
    except NamekeeperError as fault:
        return fault.as_problem()


@lru_cache(maxsize=2)
def _planned(wish: SheetWish) -> tuple[LabelDesk, LabelPlan]:
    outside = Outside.of(Path(wish.folder), dict(wish.environ), lambda: datetime.now(UTC), lambda _text: None)
    desk = LabelDesk.open(CollectionDesk(Path(wish.folder), outside))
    return desk, desk.plan(desk.workshop(), wish.choices)


def _told(plan: LabelPlan) -> Sheets:
    placed = tuple((one.fitted.content.specimen, one.page + 1, one.place + 1) for one in plan.placed)
    first = placed[0][2] if placed else 0
    refused = tuple(str(problem(one, plan)) for one in plan.refused)
    return Sheets(plan.pages, first, placed, refused, notices(plan))
