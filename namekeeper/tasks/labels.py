"""Labels drawn and written, test pages, and the record of what was printed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from namekeeper.labels.pages import Correction, Markings
from namekeeper.labels.pdf_pages import pages_to_pdf
from namekeeper.labels.ruler_page import instructions, ruler_pages
from namekeeper.labels.sheets import StickerSheet
from namekeeper.outside import Outside, Work
from namekeeper.records.differences import Outdated
from namekeeper.records.specimen import Collection
from namekeeper.sources.lists.registry import open_lists
from namekeeper.storage.wanted import Written
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_bench import Workshop, open_workshop
from namekeeper.tasks.label_choices import Choices, WaitingSheet, waiting_sheet
from namekeeper.tasks.label_memory import LabelStatus, status_of
from namekeeper.tasks.label_plan import LabelPlan, plan_labels
from namekeeper.tasks.label_run import LabelRun, remember_run
from namekeeper.tasks.output import Output, OutputKind
from namekeeper.words.errors import NamekeeperError, Problem


@dataclass(frozen=True, slots=True)
class PrintTo:
    """Where a run of labels goes: the PDF, a page of it (from 1) as a picture, and whether it is known to come out.

    ``drawer`` False: no sheet is left for the keeper to go on with; ``replace`` True: whatever stands there may go.
    """

    pdf: Path | None = None
    picture: Path | None = None
    page: int = 1
    record: bool = False
    drawer: bool = True
    replace: bool = False

    def outputs(self, outside: Outside) -> tuple[Output | None, Output | None]:
        """The places for the PDF and for the picture."""
        wanted = ((self.pdf, OutputKind.LABELS), (self.picture, OutputKind.PICTURE))
        pdf, picture = (Output(path, kind, outside, self.replace) if path else None for path, kind in wanted)
        return pdf, picture


@dataclass(frozen=True, slots=True)
class RulerSheet:
    """The test page of a sheet, and what to do with it."""

    sheet: str
    instructions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Printed:
    """What became of planned labels: where they were written (None: not at all), what could not be remembered.

    A PDF that is made is not yet a sheet that came out: ``recorded`` once it is remembered that it did.
    """

    plan: LabelPlan
    written: Path | None = None
    unremembered: tuple[Problem, ...] = ()
    outdated: tuple[Outdated, ...] = ()  # animals that are not what they were when their label was drawn
    recorded: bool = False

    @property
    def exit_code(self) -> int:
        """0 all is well, 1 printed without the refused, 2 refused, or not remembered."""
        if self.written is None:
            return 2 if self.plan.refused else 0
        return 2 if self.unremembered or self.outdated else 1 if self.plan.refused else 0


@dataclass(frozen=True, slots=True)
class LabelDesk:
    """A collection whose labels are looked at or printed."""

    desk: CollectionDesk
    collection: Collection

    @classmethod
    def open(cls, desk: CollectionDesk) -> LabelDesk:
        """Read the collection.

        :raises FileError: if there is no such folder.
        """
        return cls(desk, desk.open())

    @property
    def exit_code(self) -> int:
        """2 if files of the collection have problems; the labels of the others are printed all the same."""
        return 2 if self.collection.problems else 0

    def statuses(self) -> tuple[LabelStatus, ...]:
        """What the label on every enclosure says, of the animals that are still there."""
        return tuple(status_of(one) for one in self.collection.kept())

    def workshop(self) -> Workshop:
        """Sheets, templates and type; see :func:`namekeeper.tasks.label_bench.open_workshop`."""
        return open_workshop(self.collection)

    def waiting(self, workshop: Workshop, choices: Choices) -> WaitingSheet | None:
        """A partly used sheet to remind of; see :func:`namekeeper.tasks.label_choices.waiting_sheet`."""
        return waiting_sheet(workshop, choices, self.desk.outside)

    def plan(self, workshop: Workshop, choices: Choices) -> LabelPlan:
        """What is printed, where and how large; see :func:`namekeeper.tasks.label_plan.plan_labels`."""
        outside = self.desk.outside
        with open_lists(outside.places, outside.notice) as lists:
            return plan_labels(self.collection, workshop, choices, lists, outside)

    def print(self, plan: LabelPlan, to: PrintTo) -> Printed:
        """Draw the labels and write them; then remember what was printed, if it is known to come out.

        Only a PDF is a print; a picture alone is a look at it. What was written stays, whatever cannot be remembered.

        :raises NamekeeperError: if the labels cannot be drawn or written.
        """
        outside = self.desk.outside
        document, picture = to.outputs(outside)
        for output in filter(None, (document, picture)):
            output.check()
        with outside.progress(Work.DRAWING) as step:
            pdf = plan.pdf(step)
        if picture:
            from namekeeper.labels.preview import page_png

            picture.write(page_png(pdf, to.page))
        if not document:
            return Printed(plan, to.picture)
        document.write(pdf)
        done = Printed(plan, to.pdf)
        return self.record(done, drawer=to.drawer) if to.record else done

    def record(self, done: Printed, *, drawer: bool = True) -> Printed:
        """Remember that the sheet came out; the PDF is there, so nothing stops for what cannot be remembered."""
        try:
            written = _record_printing(done.plan, self.desk, self.collection, drawer=drawer)
        except NamekeeperError as fault:
            return replace(done, unremembered=(fault.as_problem(),))
        return replace(done, unremembered=written.refused, outdated=written.outdated, recorded=True)


def _record_printing(plan: LabelPlan, desk: CollectionDesk, collection: Collection, *, drawer: bool = True) -> Written:
    """Remember what stands on the enclosures now, and the sheet in the ``drawer``; what came of the former.

    :raises FileError: if the collection or the state folder cannot be written.
    """
    return remember_run(LabelRun.of(plan, collection), desk, drawer=drawer)


def ruler_sheet(workshop: Workshop, sheet: StickerSheet, target: Output, printer: str | None = None) -> RulerSheet:
    """Draw and write the test page of a sheet; once more with the correction of the printer in use, if it has one.

    :raises NamekeeperError: if it cannot be drawn or written.
    """
    target.check()
    target.write(ruler_pdf(workshop, sheet, workshop.settings.correction(printer, sheet)))
    return RulerSheet(sheet.key, instructions(sheet))


def ruler_pdf(workshop: Workshop, sheet: StickerSheet, correction: Correction) -> bytes:
    """The PDF of a sheet's test page."""
    pages = ruler_pages(sheet, correction, workshop.measure)
    return pages_to_pdf(pages, workshop.measure, Markings(f"Test page {sheet.key}"))
