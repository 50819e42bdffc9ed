"""What labels are to be printed: which, where on the sheets and how large; decided before anything is drawn."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import islice

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Failure
from namekeeper.labels.content import LabelWishes, SpeciesFacts, make_content
from namekeeper.labels.drawing import PageDrawing, Symbol
from namekeeper.labels.drawn_text import meant_labels
from namekeeper.labels.fit import LabelDraft
from namekeeper.labels.fitted import Fitted, Misfit
from namekeeper.labels.label_words import words_in
from namekeeper.labels.layout import Layout
from namekeeper.labels.markup import document
from namekeeper.labels.pages import Correction, Markings, Placed, pushed_off
from namekeeper.labels.pdf_pages import pages_to_pdf
from namekeeper.labels.placing import frame_of, pages_of
from namekeeper.labels.qr import squares
from namekeeper.labels.render import RenderJob, frugal_collection, render_pdf
from namekeeper.labels.settings import PLACE, LabelSettings
from namekeeper.labels.sheets import StickerSheet, free_places
from namekeeper.labels.templates import LAYOUT, MARKUP, STYLE, LabelTemplate
from namekeeper.outside import Outside, Progress, Work, unwatched
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.tasks.label_bench import FittingBench, Workshop
from namekeeper.tasks.label_choices import Choices, chosen_of, ordered, sheet_of, used_of, wishes_of
from namekeeper.tasks.label_facts import gather_facts
from namekeeper.words.errors import InputError, Place
from namekeeper.words.terms import DrawingEngine, MisfitReason

SMALL_NAME = 6.5  # pt; the letter x of the name is 1.2 mm high there, EU Regulation 1169/2011 Art. 13(2)


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

    def undrawn(self) -> tuple[tuple[str, str, str], ...]:
        """Fields left out for a character that no shipped type has: specimen, field, character."""
        contents = {one.fitted.content.specimen: one.fitted.content for one in self.placed}
        return tuple((who, name, sign) for who, content in contents.items() for name, sign in content.undrawn.items())

    def small_names(self) -> tuple[str, ...]:
        """Specimens whose name is set smaller than is good to read."""
        fitted = {one.fitted.content.specimen: one.fitted.size_of("name") for one in self.placed}
        return tuple(specimen for specimen, size in fitted.items() if size < SMALL_NAME)

    def pdf(self, step: Progress = unwatched) -> bytes:
        """The PDF: drawn directly, or by way of HTML where the template has its own or that was asked for."""
        if self.html or self.template.by_html:
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
            frame=frame_of(self.sheet, self.template.layout),
            symbols=self.symbols,
            drop=self.workshop.measure.drop,
            dots=self.template.dots,
        )

    def _watched(self, step: Progress) -> Iterator[PageDrawing]:
        """The pages, each told when the one before it is in the PDF."""
        for number, page in enumerate(self.drawn()):
            step(number, self.pages)
            yield page

    def job(self) -> RenderJob:
        """The pages as HTML, with what the layout engine needs."""
        parts, css = document(
            self.placed,
            self.sheet,
            self.template,
            self.correction,
            self._markings(),
            drop=self.workshop.measure.drop,
        )
        frame = frame_of(self.sheet, self.template.layout)
        codes = squares(self.placed, self.sheet, (frame.pad_x, frame.pad_y), self.correction, self.symbols)
        meant = meant_labels(self.placed)
        place = Place(str(self.template.folder / (MARKUP if self.template.markup else LAYOUT)))
        style = Place(str(self.template.folder / STYLE), css.count("\n") - self.template.style.count("\n") + 1)
        found = tuple(code for code in codes if code)
        return RenderJob(parts, css, self.workshop.fonts, found, meant, place, style, self.template.folder)

    def _markings(self) -> Markings:
        footer = f"{self.sheet.key} · {self.template.key} · {self.today.isoformat()}"
        return Markings(self.title or "Labels", footer, self.language, words_in(self.language).page)


def plan_labels(
    collection: Collection, workshop: Workshop, choices: Choices, lists: Sequence[NameList], outside: Outside
) -> LabelPlan:
    """Choose, fill, fit and place the labels.

    :raises InputError: for an unknown sheet, template, id, printer or place, or a full sheet.
    """
    settings = workshop.settings
    layout = workshop.template(choices.template or settings.template).layout
    used = used_of(choices, sheet_of(workshop, choices), outside)
    specimens = ordered(chosen_of(collection, choices), choices.order or layout.order or settings.order)
    wishes = wishes_of(collection, settings, choices)
    with frugal_collection():
        with outside.progress(Work.GATHERING) as step:
            facts = gather_facts(specimens, lists, collection.specimens, layout.fields, step)
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
    sheet = sheet_of(workshop, choices)
    template = workshop.template(choices.template or settings.template)
    bench = FittingBench(workshop, template, sheet)
    drafts: list[LabelDraft] = []
    refused: list[Refused] = []
    for number, (specimen, known) in enumerate(animals, 1):
        found = bench.draft(make_content(specimen, known, wishes))
        if isinstance(found, LabelDraft):
            drafts.append(found)
        else:
            refused.append(_refused(specimen, found, bench))
        step(number, len(animals), specimen.id)
    made = bench.fit_all(drafts, alike=not choices.each_largest)
    placed = _placed([one for one in made for _ in range(choices.copies or settings.copies)], sheet, used)
    correction = _correction(choices, settings, sheet, bench.layout)
    return LabelPlan(
        workshop,
        sheet,
        replace(template, layout=bench.layout),
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


def _placed(fitted: Sequence[Fitted], sheet: StickerSheet, used: frozenset[int]) -> tuple[Placed, ...]:
    spots = islice(free_places(sheet, used), len(fitted))
    return tuple(Placed(one, page, place) for one, (page, place) in zip(fitted, spots, strict=True))


def _correction(choices: Choices, settings: LabelSettings, sheet: StickerSheet, layout: Layout) -> Correction:
    """Of the printer in use, which must leave all that is printed on the paper."""
    found = settings.correction(choices.printer, sheet)
    if off := pushed_off(sheet, found, layout.ink_pads(sheet.inset(*layout.pads))):
        what = f"the printer's offset and scale would push labels {float(off):.1f} mm off the paper of {sheet.key}"
        raise InputError(
            what, remedy="correct printer: in collection.yaml; the test page tells the numbers", place=PLACE
        )
    return found


def _refused(specimen: Specimen, misfit: Misfit, bench: FittingBench) -> Refused:
    # No label is large enough for a character that no type has.
    larger = None if misfit.reason is MisfitReason.CHARACTER else bench.larger(misfit.content)
    return Refused(specimen, misfit, larger)
