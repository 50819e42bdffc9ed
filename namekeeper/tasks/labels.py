"""Labels from a collection: what to print, where, how large; then the PDF, and the record of what was printed."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from itertools import islice
from pathlib import Path

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Failure
from namekeeper.files.places import Places
from namekeeper.labels.content import LabelWishes, SpeciesFacts, label_name, make_content
from namekeeper.labels.fitted import Fitted, Misfit
from namekeeper.labels.glyphs import CANNOT_DRAW
from namekeeper.labels.markup import Correction, Markings, Placed, document
from namekeeper.labels.places_on_sheets import free_places
from namekeeper.labels.qr import Symbol
from namekeeper.labels.render import RenderJob, render_pdf, squares
from namekeeper.labels.ruler_page import ruler_page
from namekeeper.labels.settings import LabelSettings
from namekeeper.labels.sheets import StickerSheet, choose_sheet
from namekeeper.labels.status import PRINTED, status_of
from namekeeper.labels.templates import LabelTemplate
from namekeeper.records.specimen import Collection, Decision, Specimen
from namekeeper.tasks.label_bench import FittingBench, Workshop, pads_of
from namekeeper.tasks.label_drawer import remember_sheet
from namekeeper.tasks.label_facts import gather_facts
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError, Problem


@dataclass(frozen=True, slots=True)
class Choices:
    """What was asked for on this occasion; None or empty: the collection's settings decide."""

    sheet: str | None = None
    template: str | None = None
    only: tuple[str, ...] = ()
    stale: bool = False
    copies: int | None = None
    order: str | None = None
    square: str | None = None
    printer: str | None = None


@dataclass(frozen=True, slots=True)
class Refused:
    """A label that cannot be printed, and why."""

    specimen: Specimen
    why: str

    def problem(self, template: str) -> Problem:
        remedy = "take a larger sheet or another template, or correct what the specimen says"
        if self.why.endswith(CANNOT_DRAW):
            remedy = "settle a name where only the tag is known, or write that field in other letters"
        return Problem(f"no label from template {template}: {self.why}", remedy, self.specimen.place)


@dataclass(frozen=True, slots=True)
class LabelPlan:
    """Everything decided before anything is drawn."""

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

    @property
    def pages(self) -> int:
        return max((one.page for one in self.placed), default=-1) + 1

    def notices(self) -> tuple[str, ...]:
        """What was left out or shortened for want of room, one line a field."""
        found: dict[str, list[str]] = defaultdict(list)
        for one in {placed.fitted.content.specimen: placed.fitted for placed in self.placed}.values():
            for name in one.left_out:
                found[f"no room for {name}"].append(one.content.specimen)
            for name in one.shortened:
                found[f"shorter {name}"].append(one.content.specimen)
        warning = self.sheet.warning()
        lines = [f"{what}: {_few(ids)}" for what, ids in found.items()]
        unasked = {
            f"cautions may be missing, a list could not be asked: {one.edition.title}: {one.why}"
            for one in self.failures
        }
        return (*([f"{self.sheet.key}: {warning}"] if warning else ()), *lines, *sorted(unasked))

    def job(self) -> RenderJob:
        """What the layout engine needs."""
        footer = f"{self.sheet.key} · {self.template.key} · {self.today.isoformat()}"
        markings = Markings(self.title or "Labels", footer)
        parts, css = document(self.placed, self.sheet, self.template, self.correction, markings)
        pads = tuple(float(pad) for pad in pads_of(self.sheet, self.template))
        marks = squares(self.placed, self.sheet, (pads[0], pads[1]), self.correction, self.symbols)
        return RenderJob(parts, css, self.workshop.fonts, marks)

    def pdf(self) -> bytes:
        return render_pdf(self.job())


def plan_labels(
    collection: Collection,
    workshop: Workshop,
    choices: Choices,
    lists: Sequence[NameList],
    today: date,
    *,
    used: Callable[[StickerSheet], frozenset[int]],
) -> LabelPlan:
    """Choose, fill, fit and place the labels; ``used`` tells which places of the first sheet are gone.

    :raises InputError: for an unknown sheet, template, id, printer, or a full sheet.
    """
    settings = workshop.settings
    taken = used(choose_sheet(choices.sheet or settings.sheet, workshop.sheets))
    specimens = _ordered(_chosen(collection, choices), choices.order or settings.order)
    facts = gather_facts(specimens, lists, collection.specimens)
    animals = [(specimen, facts.known[specimen.id]) for specimen in specimens]
    wishes = _wishes(collection, settings, choices.square)
    plan = plan_of(animals, workshop, choices, wishes, today, used=taken)
    return replace(plan, failures=facts.failures)


def plan_of(
    animals: Sequence[tuple[Specimen, SpeciesFacts]],
    workshop: Workshop,
    choices: Choices,
    wishes: LabelWishes,
    today: date,
    *,
    used: frozenset[int] = frozenset(),
) -> LabelPlan:
    """Fill, fit and place the labels of animals of whom all is known; ``used`` are places of the first sheet.

    :raises InputError: for an unknown sheet, template or printer, or a full sheet.
    """
    settings = workshop.settings
    sheet = choose_sheet(choices.sheet or settings.sheet, workshop.sheets)
    template = workshop.template(choices.template or settings.template)
    bench = FittingBench(workshop, template, sheet)
    fitted: list[Fitted] = []
    refused: list[Refused] = []
    for specimen, known in animals:
        found = bench.fit(make_content(specimen, known, wishes))
        if isinstance(found, Misfit):
            refused.append(Refused(specimen, found.why))
        else:
            fitted.extend([found] * (choices.copies or settings.copies))
    spots = islice(free_places(sheet, used), len(fitted))
    placed = tuple(Placed(one, page, place) for one, (page, place) in zip(fitted, spots, strict=True))
    correction = settings.correction(choices.printer)
    return LabelPlan(
        workshop, sheet, template, correction, placed, tuple(refused), used, bench.symbols, wishes.title, today
    )


def record_printing(
    plan: LabelPlan, collection: Collection, places: Places, clock: Callable[[], datetime]
) -> tuple[Problem, ...]:
    """Remember what stands on the enclosures now, and the sheet in the drawer; returns what could not be recorded.

    :raises FileError: if the collection or the state folder cannot be written.
    """
    from namekeeper.storage.changes import Insertion, apply_changes

    problems: tuple[Problem, ...] = ()
    if plan.template.layout.on_enclosure:
        day = PartialDate.of(clock().astimezone().date())
        note = f"{plan.template.key} on {plan.sheet.key}"
        contents = {one.fitted.content.specimen: one.fitted.content for one in plan.placed}
        changes = [
            Insertion(name, "decisions", Decision(PRINTED, day, name=content.printed_name, note=note))
            for name, content in contents.items()
        ]
        problems = apply_changes(Path(collection.folder), changes, places, clock).refused
    last = plan.pages - 1
    gone = {one.place for one in plan.placed if one.page == last} | (plan.used if last == 0 else frozenset())
    if plan.sheet.places > 1:
        remember_sheet(places, plan.sheet.key, gone, plan.sheet.places)
    return problems


def ruler_pdf(workshop: Workshop, sheet: StickerSheet) -> bytes:
    """The PDF of a sheet's test page."""
    html, css = ruler_page(sheet)
    return render_pdf(RenderJob((html,), css, workshop.fonts))


def _chosen(collection: Collection, choices: Choices) -> tuple[Specimen, ...]:
    if choices.only:
        known = {specimen.id.casefold(): specimen for specimen in collection.specimens}
        missing = [name for name in choices.only if name.casefold() not in known]
        if missing:
            what = f"no specimen '{missing[0]}' in {collection.folder}"
            raise InputError(what, remedy="ids are the file names in specimens/ without .yaml")
        chosen = tuple(known[name.casefold()] for name in dict.fromkeys(choices.only))
    else:
        chosen = collection.kept()
    return tuple(one for one in chosen if status_of(one).stale) if choices.stale else chosen


def _ordered(specimens: Sequence[Specimen], order: str) -> list[Specimen]:
    keys: dict[str, Callable[[Specimen], str]] = {
        "id": lambda one: "",
        "name": lambda one: label_name(one).casefold(),
        "place": lambda one: one.stands_at.casefold(),
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


def _few(ids: Sequence[str]) -> str:
    counted = Counter(ids)
    first = ", ".join(list(counted)[:5])
    return first if len(counted) <= 5 else f"{first} and {len(counted) - 5} more"
