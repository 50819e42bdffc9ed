"""Labels drawn and written, test pages, and the record of what was printed."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from namekeeper.labels.render import RenderJob, render_pdf
from namekeeper.labels.ruler_page import instructions, ruler_page
from namekeeper.labels.sheets import StickerSheet
from namekeeper.outside import Outside
from namekeeper.records.specimen import Collection, Decision
from namekeeper.storage.changes import Insertion, apply_changes
from namekeeper.storage.collection_folder import write_output
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_memory import PRINTED, LabelStatus, remember_sheet, status_of
from namekeeper.tasks.label_plan import LabelPlan
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NamekeeperError, Problem


@dataclass(frozen=True, slots=True)
class PrintTo:
    """Where a run of labels goes: the PDF, a page of it (from 1) as a picture, and whether the print is remembered."""

    pdf: Path | None = None
    picture: Path | None = None
    page: int = 1
    record: bool = True


@dataclass(frozen=True, slots=True)
class RulerSheet:
    """The test page of a sheet, and what to do with it."""

    sheet: str
    instructions: tuple[str, ...]


def print_labels(plan: LabelPlan, collection: Collection, to: PrintTo, outside: Outside) -> tuple[Problem, ...]:
    """Draw the labels and write them; then remember what was printed. Returns what could not be remembered.

    Only a PDF is a print; a picture alone is a look at it. What was written stays, whatever cannot be remembered.

    :raises NamekeeperError: if the labels cannot be drawn or written.
    """
    pdf = plan.pdf()
    if to.picture:
        from namekeeper.labels.preview import page_png

        write_output(outside.folder / to.picture, page_png(pdf, to.page))
    if not to.pdf:
        return ()
    write_output(outside.folder / to.pdf, pdf)
    if not to.record:
        return ()
    try:
        return record_printing(plan, collection, outside)
    except NamekeeperError as fault:
        return (fault.as_problem(),)


def record_printing(plan: LabelPlan, collection: Collection, outside: Outside) -> tuple[Problem, ...]:
    """Remember what stands on the enclosures now, and the sheet in the drawer; returns what could not be recorded.

    :raises FileError: if the collection or the state folder cannot be written.
    """
    problems: tuple[Problem, ...] = ()
    if plan.template.layout.on_enclosure:
        day = PartialDate.of(outside.today)
        note = f"{plan.template.key} on {plan.sheet.key}"
        contents = {one.fitted.content.specimen: one.fitted.content for one in plan.placed}
        changes = [
            Insertion(name, "decisions", Decision(PRINTED, day, name=content.printed_name, note=note))
            for name, content in contents.items()
        ]
        problems = apply_changes(Path(collection.folder), changes, outside.places, outside.clock).refused
    last = plan.pages - 1
    gone = {one.place for one in plan.placed if one.page == last} | (plan.used if last == 0 else frozenset())
    if plan.sheet.places > 1:
        remember_sheet(outside.places, plan.sheet.key, gone, plan.sheet.places)
    return problems


def statuses(collection: Collection) -> tuple[LabelStatus, ...]:
    """What the label on every enclosure says, of the animals that are still there."""
    return tuple(status_of(one) for one in collection.kept())


def ruler_sheet(workshop: Workshop, sheet: StickerSheet, target: Path, outside: Outside) -> RulerSheet:
    """Draw and write the test page of a sheet.

    :raises NamekeeperError: if it cannot be drawn or written.
    """
    write_output(outside.folder / target, ruler_pdf(workshop, sheet))
    return RulerSheet(sheet.key, instructions(sheet))


def ruler_pdf(workshop: Workshop, sheet: StickerSheet) -> bytes:
    """The PDF of a sheet's test page."""
    html, css = ruler_page(sheet)
    return render_pdf(RenderJob((html,), css, workshop.fonts))
