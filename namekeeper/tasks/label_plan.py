"""What labels are to be printed: which, where on the sheets and how large; decided before anything is drawn."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import islice

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Failure
from namekeeper.labels.content import LabelWishes, SpeciesFacts, label_name, make_content
from namekeeper.labels.drawing import PageDrawing, Symbol
from namekeeper.labels.drawn_text import meant_labels
from namekeeper.labels.fitted import Fitted, Misfit
from namekeeper.labels.markup import document
from namekeeper.labels.pages import Correction, Markings, Placed, pushed_off
from namekeeper.labels.pdf_pages import pages_to_pdf
from namekeeper.labels.placing import Frame, pages_of
from namekeeper.labels.qr import squares
from namekeeper.labels.render import RenderJob, frugal_collection, render_pdf
from namekeeper.labels.settings import PLACE, LabelSettings
from namekeeper.labels.sheets import StickerSheet, before, free_places, used_places
from namekeeper.labels.templates import MARKUP, LabelTemplate
from namekeeper.outside import Outside, Progress, Work, unwatched
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.tasks.desk import find_all
from namekeeper.tasks.label_bench import FittingBench, Workshop, pads_of
from namekeeper.tasks.label_facts import gather_facts
from namekeeper.tasks.label_memory import status_of, used_in_drawer
from namekeeper.words.errors import InputError, Place
from namekeeper.words.terms import DrawingEngine, LabelOrder, MisfitReason

SMALL_NAME = 6.5  # pt; the letter x of the name is 1.2 mm high there, EU Regulation 1169/2011 Art. 13(2)


@dataclass(frozen=True, slots=True)
class Choices:
    """What was asked for on this occasion; None or empty: the collection's settings decide.

    ``start`` counts the places of the first sheet from 1, ``used`` is a text such as ``1-4,7``; with ``drawer`` the
    partly used sheet that was printed on last is gone on with. At most one of the three is given.
    """

    sheet: str | None = None
    template: str | None = None
    only: tuple[str, ...] = ()
    stale: bool = False
    copies: int | None = None
    order: LabelOrder | None = None
    square: str | None = None
    printer: str | None = None
    start: int | None = None
    used: str | None = None
    drawer: bool = False
    engine: DrawingEngine = DrawingEngine.DIRECT


@dataclass(frozen=True, slots=True)
class Refused:
    """A label that cannot be printed, and the sheet with the smallest label that would do, None if none would."""

    specimen: Specimen
    misfit: Misfit
    larger: StickerSheet | None


@dataclass(frozen=True, slots=True)
class Cutback:
    """A field left out (``dropped``) or put in a shorter form for want of room, and the specimens concerned."""

    field: str
    dropped: bool
    specimens: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WaitingSheet:
    """A kind of sheet, and how many places are free on the partly used one in the keeper's drawer."""

    key: str
    free: int


@dataclass(frozen=True, slots=True)
class LabelPlan:
    """Everything decided before anything is drawn; ``used`` are the places, from 0, that the first sheet lacks."""

    workshop: Workshop
    sheet: StickerSheet
    template: LabelTemplate
    correction: Correction
    placed: tuple[Placed, ...]
    refused: tuple[Refused, ...]
    used: frozenset[int]
    symbols: Mapping[str, Symbol] = field(default_factory=dict)
    title: str = ""
    today: date = date.min
    failures: tuple[Failure, ...] = ()  # lists that could not be asked for cautions
    language: str = "en"
    html: bool = False  # drawn by way of HTML, although the layout alone would do

    @property
    def pages(self) -> int:
        return max((one.page for one in self.placed), default=-1) + 1

    def prints(self, *, without_refused: bool) -> bool:
        """Whether there is something to print: with labels refused only if the keeper wishes the others."""
        return bool(self.placed) and (without_refused or not self.refused)

    def cutbacks(self) -> tuple[Cutback, ...]:
        """What gave way for want of room, in the order in which it is met on the labels."""
        found: dict[tuple[str, bool], list[str]] = defaultdict(list)
        for one in {placed.fitted.content.specimen: placed.fitted for placed in self.placed}.values():
            for name in one.left_out:
                found[name, True].append(one.content.specimen)
            for name in one.shortened:
                found[name, False].append(one.content.specimen)
        return tuple(Cutback(name, dropped, tuple(ids)) for (name, dropped), ids in found.items())

    def small_names(self) -> tuple[str, ...]:
        """Specimens whose name is set smaller than is good to read."""
        fitted = {one.fitted.content.specimen: one.fitted.size_of("name") for one in self.placed}
        return tuple(specimen for specimen, size in fitted.items() if size < SMALL_NAME)

    def pdf(self, step: Progress = unwatched) -> bytes:
        """The PDF: drawn directly, or by way of HTML where the template has its own or that was asked for."""
        if self.html or self.template.markup is not None:
            return render_pdf(self.job(), step)
        return pages_to_pdf(self._watched(step), self.workshop.measure, self._markings())

    def drawn(self) -> tuple[PageDrawing, ...]:
        """The pages as they are drawn directly."""
        return pages_of(
            self.placed,
            self.sheet,
            self.correction,
            self._markings(),
            layout=self.template.layout,
            frame=self._frame(),
            symbols=self.symbols,
            drop=self.workshop.measure.drop,
        )

    def _watched(self, step: Progress) -> Iterator[PageDrawing]:
        """The pages, each told when the one before it is in the PDF."""
        for number, page in enumerate(self.drawn()):
            step(number, self.pages)
            yield page

    def job(self) -> RenderJob:
        """The pages as HTML, with what the layout engine needs."""
        parts, css = document(self.placed, self.sheet, self.template, self.correction, self._markings())
        frame = self._frame()
        codes = squares(self.placed, self.sheet, (frame.pad_x, frame.pad_y), self.correction, self.symbols)
        meant = meant_labels(self.placed)
        place = Place(str(self.template.folder / MARKUP))
        return RenderJob(parts, css, self.workshop.fonts, tuple(code for code in codes if code), meant, place)

    def _markings(self) -> Markings:
        footer = f"{self.sheet.key} · {self.template.key} · {self.today.isoformat()}"
        return Markings(self.title or "Labels", footer, self.language)

    def _frame(self) -> Frame:
        pads = pads_of(self.sheet, self.template)
        width, height, pad_x, pad_y = (float(side) for side in (self.sheet.width, self.sheet.height, *pads))
        return Frame(width, height, pad_x, pad_y)


def waiting_sheet(workshop: Workshop, choices: Choices, outside: Outside) -> WaitingSheet | None:
    """A partly used sheet of this kind that should be in the keeper's drawer, if nothing was said of places used.

    :raises InputError: for an unknown sheet.
    """
    sheet = workshop.sheet(choices.sheet or workshop.settings.sheet)
    if choices.drawer or choices.start is not None or choices.used is not None:
        return None
    used = used_in_drawer(outside.places, sheet.key)
    return WaitingSheet(sheet.key, sheet.places - len(used)) if used else None


def plan_labels(
    collection: Collection, workshop: Workshop, choices: Choices, lists: Sequence[NameList], outside: Outside
) -> LabelPlan:
    """Choose, fill, fit and place the labels.

    :raises InputError: for an unknown sheet, template, id, printer or place, or a full sheet.
    """
    settings = workshop.settings
    used = _used(choices, workshop.sheet(choices.sheet or settings.sheet), outside)
    specimens = _ordered(_chosen(collection, choices), choices.order or settings.order)
    wishes = _wishes(collection, settings, choices.square)
    with frugal_collection():
        with outside.progress(Work.GATHERING) as step:
            facts = gather_facts(specimens, lists, collection.specimens, step)
        animals = [(specimen, facts.known[specimen.id]) for specimen in specimens]
        with outside.progress(Work.FITTING) as step:
            plan = plan_of(animals, workshop, choices, wishes, outside.today, used=used, step=step)
    return replace(plan, failures=facts.failures)


def plan_of(
    animals: Sequence[tuple[Specimen, SpeciesFacts]],
    workshop: Workshop,
    choices: Choices,
    wishes: LabelWishes,
    today: date,
    *,
    used: frozenset[int] = frozenset(),
    step: Progress = unwatched,
) -> LabelPlan:
    """Fill, fit and place the labels of animals of whom all is known; ``used`` are places of the first sheet.

    :raises InputError: for an unknown sheet, template or printer, or a full sheet.
    """
    settings = workshop.settings
    sheet = workshop.sheet(choices.sheet or settings.sheet)
    template = workshop.template(choices.template or settings.template)
    bench = FittingBench(workshop, template, sheet)
    fitted: list[Fitted] = []
    refused: list[Refused] = []
    for number, (specimen, known) in enumerate(animals, 1):
        found = bench.fit(make_content(specimen, known, wishes))
        if isinstance(found, Fitted):
            fitted.extend([found] * (choices.copies or settings.copies))
        else:
            refused.append(_refused(specimen, found, bench))
        step(number, len(animals), specimen.id)
    spots = islice(free_places(sheet, used), len(fitted))
    placed = tuple(Placed(one, page, place) for one, (page, place) in zip(fitted, spots, strict=True))
    correction = _correction(choices, settings, sheet, template)
    return LabelPlan(
        workshop,
        sheet,
        template,
        correction,
        placed,
        tuple(refused),
        used,
        bench.symbols,
        wishes.title,
        today,
        language=wishes.language,
        html=choices.engine is DrawingEngine.HTML,
    )


def _correction(choices: Choices, settings: LabelSettings, sheet: StickerSheet, template: LabelTemplate) -> Correction:
    """Of the printer in use, which must leave all that is printed on the paper."""
    found = settings.correction(choices.printer, sheet)
    if off := pushed_off(sheet, found, template.layout.ink_pads(pads_of(sheet, template))):
        what = f"the printer's offset and scale would push labels {float(off):.1f} mm off the paper of {sheet.key}"
        raise InputError(
            what, remedy="correct printer: in collection.yaml; the test page tells the numbers", place=PLACE
        )
    return found


def _refused(specimen: Specimen, misfit: Misfit, bench: FittingBench) -> Refused:
    # No label is large enough for a character that no type has.
    larger = None if misfit.reason is MisfitReason.CHARACTER else bench.larger(misfit.content)
    return Refused(specimen, misfit, larger)


def _used(choices: Choices, sheet: StickerSheet, outside: Outside) -> frozenset[int]:
    if choices.start is not None:
        return before(choices.start, sheet)
    if choices.used is not None:
        return used_places(choices.used, sheet)
    return used_in_drawer(outside.places, sheet.key) if choices.drawer else frozenset()


def _chosen(collection: Collection, choices: Choices) -> tuple[Specimen, ...]:
    chosen = find_all(collection, choices.only) if choices.only else collection.kept()
    return tuple(one for one in chosen if status_of(one).stale) if choices.stale else chosen


def _ordered(specimens: Sequence[Specimen], order: LabelOrder) -> list[Specimen]:
    keys: dict[LabelOrder, Callable[[Specimen], str]] = {
        LabelOrder.ID: lambda one: "",
        LabelOrder.NAME: lambda one: label_name(one).casefold(),
        LabelOrder.PLACE: lambda one: one.stands_at.casefold(),
    }
    return sorted(specimens, key=lambda one: (keys[order](one), one.id.casefold()))


def _wishes(collection: Collection, settings: LabelSettings, square: str | None) -> LabelWishes:
    pattern = square if square is not None else settings.square
    if pattern not in ("auto", "no", "id") and "{id}" not in pattern:
        what = f"the link pattern of the QR code has no {{id}} in it: '{pattern}'"
        raise InputError(what, remedy="write no, id, auto or a pattern such as https://example.org/animals/{id}")
    return LabelWishes(
        title=collection.settings.title,
        former=settings.former,
        cautions=settings.cautions,
        language=settings.language,
        square={"auto": "", "no": "", "id": "{id}"}.get(pattern, pattern),
        square_off=pattern == "no",
    )
