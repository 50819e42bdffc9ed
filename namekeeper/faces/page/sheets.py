"""Sheets of labels as a page shows them: what they come to, pictures, and the PDF with what to remember of it."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from namekeeper.faces.telling.labels import notices, problem
from namekeeper.outside import Outside, Progress, Work
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import LabelPlan
from namekeeper.tasks.label_run import LabelRun, label_picture, page_picture
from namekeeper.tasks.labels import LabelDesk

DPI, COLOURS = 100, 12  # sharp on a screen at the size of the page, and below 100 kB
_LABEL_DPI = 160
_MOST_PLANS = 2


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


class Bench:
    """Plans and draws, in the process that does; the last plans are kept, so that a picture or the PDF needs no other.

    ``shown`` and ``stop_requested`` are those of :class:`~namekeeper.outside.Outside`.
    """

    def __init__(
        self, shown: Callable[[Work], AbstractContextManager[Progress]], stop_requested: Callable[[], bool]
    ) -> None:
        self._shown = shown
        self._stop_requested = stop_requested
        self._plans: OrderedDict[SheetWish, tuple[LabelDesk, LabelPlan]] = OrderedDict()

    def plan(self, wish: SheetWish) -> Sheets:
        """:raises NamekeeperError: if there can be no such labels."""
        return _told(self._planned(wish)[1])

    def picture(self, wish: SheetWish, page: int) -> bytes:
        """A page as PNG, from 1.

        :raises NamekeeperError: if there is no such page.
        """
        return page_picture(self._planned(wish)[1], page, DPI, COLOURS)

    def label(self, wish: SheetWish) -> bytes:
        """The first label as PNG.

        :raises NamekeeperError: if there is none.
        """
        return label_picture(self._planned(wish)[1], _LABEL_DPI, COLOURS)

    def print(self, wish: SheetWish) -> PrintedSheets:
        """:raises NamekeeperError: if there can be no such labels."""
        desk, plan = self._planned(wish)
        with self._outside(wish).progress(Work.DRAWING) as step:
            pdf = plan.pdf(step)
        return PrintedSheets(pdf, _told(plan), LabelRun.of(plan, desk.collection))

    def _planned(self, wish: SheetWish) -> tuple[LabelDesk, LabelPlan]:
        if wish not in self._plans:
            desk = LabelDesk.open(CollectionDesk(Path(wish.folder), self._outside(wish)))
            self._plans[wish] = desk, desk.plan(desk.workshop(), wish.choices)
            while len(self._plans) > _MOST_PLANS:
                self._plans.popitem(last=False)
        self._plans.move_to_end(wish)
        return self._plans[wish]

    def _outside(self, wish: SheetWish) -> Outside:
        return Outside.of(
            Path(wish.folder),
            dict(wish.environ),
            lambda: datetime.now(UTC),
            lambda _text: None,
            self._shown,
            stop_requested=self._stop_requested,
        )


def _told(plan: LabelPlan) -> Sheets:
    placed = tuple((one.fitted.content.specimen, one.page + 1, one.place + 1) for one in plan.placed)
    first = placed[0][2] if placed else 0
    refused = tuple(str(problem(one, plan)) for one in plan.refused)
    return Sheets(plan.pages, first, placed, refused, notices(plan))
