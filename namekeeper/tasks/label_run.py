"""A run of labels beyond the drawing of it: what to remember once it came out, and a look at one of its pages."""

from __future__ import annotations

from dataclasses import dataclass, replace

from namekeeper.labels.preview import page_png
from namekeeper.records.specimen import Collection, Decision, Specimen
from namekeeper.storage.wanted import Insertion, MadeFor, Written
from namekeeper.tasks.desk import CollectionDesk, find
from namekeeper.tasks.label_memory import PRINTED, remember_sheet
from namekeeper.tasks.label_plan import LabelPlan
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError


@dataclass(frozen=True, slots=True)
class LabelRun:
    """What is remembered of printed labels; plain values, so that it can wait until the keeper looked at the paper.

    ``printed`` holds each animal as it was when its label was drawn, and the name on that label; none for labels that
    stand on no enclosure. ``gone`` are the places, from 0, that the last sheet has lost.
    """

    printed: tuple[tuple[Specimen, str], ...]
    note: str
    sheet: str
    places: int
    gone: frozenset[int]

    @classmethod
    def of(cls, plan: LabelPlan, collection: Collection) -> LabelRun:
        """What this plan comes to when it is printed."""
        contents = {one.fitted.content.specimen: one.fitted.content for one in plan.placed}
        printed = tuple((find(collection, name), content.printed_name) for name, content in contents.items())
        last = plan.pages - 1
        gone = {one.place for one in plan.placed if one.page == last} | (plan.used if last == 0 else frozenset())
        return cls(
            printed if plan.template.layout.on_enclosure else (),
            f"{plan.template.key} on {plan.sheet.key}",
            plan.sheet.key,
            plan.sheet.places,
            frozenset(gone),
        )


def remember_run(run: LabelRun, desk: CollectionDesk, *, drawer: bool = True) -> Written:
    """Remember what stands on the enclosures now, and the sheet in the ``drawer``; what came of the former.

    :raises FileError: if the collection or the state folder cannot be written.
    """
    day = PartialDate.of(desk.today)
    written = desk.apply(
        [
            Insertion(one.id, "decisions", Decision(PRINTED, day, name=name, note=run.note), MadeFor(one))
            for one, name in run.printed
        ]
    )
    if drawer and run.places > 1:
        remember_sheet(desk.outside.places, run.sheet, run.gone, run.places)
    return written


def page_picture(plan: LabelPlan, page: int, dpi: int, colours: int) -> bytes:
    """One page of a plan, counted from 1, as a small PNG: exactly what the PDF will show.

    :raises InputError: if there is no such page.
    :raises MissingLibraryError: if a library that draws is missing.
    """
    placed = tuple(replace(one, page=0) for one in plan.placed if one.page == page - 1)
    return page_png(replace(plan, placed=placed).pdf(), 1, dpi, colours)


def label_picture(plan: LabelPlan, dpi: int, colours: int) -> bytes:
    """The first label of a plan as a small PNG, without the sheet around it.

    :raises InputError: if there is none.
    :raises MissingLibraryError: if a library that draws is missing.
    """
    if not plan.placed:
        raise InputError("there is no such label", remedy="see on the page of the labels why it cannot be printed")
    sheet, one = plan.sheet, plan.placed[0]
    x, y = sheet.corner(one.place)
    sides = (x, sheet.paper[1] - y - sheet.height, sheet.paper[0] - x - sheet.width, y)
    alone = replace(plan, placed=(replace(one, page=0),), used=frozenset())
    return page_png(alone.pdf(), 1, dpi, colours, tuple(map(float, sides)))
