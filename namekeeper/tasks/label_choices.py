"""What is asked for when labels are printed: which animals, on which sheet, in which order, from which place on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from namekeeper.labels.content import LabelWishes, label_name
from namekeeper.labels.settings import LabelSettings
from namekeeper.labels.sheets import StickerSheet, before, used_places
from namekeeper.outside import Outside
from namekeeper.records.identifiers import counting_key
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.tasks.desk import find_all
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_memory import status_of, used_in_drawer
from namekeeper.words.errors import InputError
from namekeeper.words.terms import DrawingEngine, LabelOrder


@dataclass(frozen=True, slots=True)
class Choices:
    """What was asked for on this occasion; None or empty: the collection's settings decide.

    ``start`` counts the places of the first sheet from 1, ``used`` is a text such as ``1-4,7``; with ``drawer`` the
    partly used sheet that was printed on last is gone on with. At most one of the three is given. The labels of a run
    share their sizes, unless each is to be as large as it can be.
    """

    sheet: str | None = None
    template: str | None = None
    only: tuple[str, ...] = ()
    stale: bool = False
    due: bool = False
    copies: int | None = None
    order: LabelOrder | None = None
    square: str | None = None
    printer: str | None = None
    start: int | None = None
    used: str | None = None
    drawer: bool = False
    engine: DrawingEngine = DrawingEngine.DIRECT
    each_largest: bool = False
    price: bool = False


@dataclass(frozen=True, slots=True)
class WaitingSheet:
    """A kind of sheet, and how many places are free on the partly used one in the keeper's drawer."""

    key: str
    free: int


def sheet_of(workshop: Workshop, choices: Choices) -> StickerSheet:
    """The sheet asked for, else the one that the template is made for, else the collection's.

    :raises InputError: for an unknown sheet or template.
    """
    template = workshop.template(choices.template or workshop.settings.template)
    return workshop.sheet(choices.sheet or template.layout.sheet or workshop.settings.sheet)


def waiting_sheet(workshop: Workshop, choices: Choices, outside: Outside) -> WaitingSheet | None:
    """A partly used sheet of this kind that should be in the keeper's drawer, if nothing was said of places used.

    :raises InputError: for an unknown sheet or template.
    """
    sheet = sheet_of(workshop, choices)
    if choices.drawer or choices.start is not None or choices.used is not None:
        return None
    used = used_in_drawer(outside.places, sheet.key)
    return WaitingSheet(sheet.key, sheet.places - len(used)) if used else None


def used_of(choices: Choices, sheet: StickerSheet, outside: Outside) -> frozenset[int]:
    """Places of the first sheet that are used up.

    :raises InputError: for a place the sheet does not have.
    """
    if choices.start is not None:
        return before(choices.start, sheet)
    if choices.used is not None:
        return used_places(choices.used, sheet)
    return used_in_drawer(outside.places, sheet.key) if choices.drawer else frozenset()


def chosen_of(collection: Collection, choices: Choices) -> tuple[Specimen, ...]:
    """The animals whose labels are wanted.

    :raises InputError: for an unknown id.
    """
    chosen = find_all(collection, choices.only) if choices.only else collection.kept()
    if choices.due:
        return tuple(one for one in chosen if status_of(one).due)
    return tuple(one for one in chosen if status_of(one).stale) if choices.stale else chosen


def ordered(specimens: Sequence[Specimen], order: LabelOrder) -> list[Specimen]:
    """The animals in the order of their labels."""
    words: dict[LabelOrder, Callable[[Specimen], str]] = {
        LabelOrder.ID: lambda one: "",
        LabelOrder.NAME: lambda one: label_name(one).casefold(),
        LabelOrder.PLACE: lambda one: one.stands_at,
    }
    return sorted(specimens, key=lambda one: (counting_key(words[order](one)), counting_key(one.id)))


def wishes_of(collection: Collection, settings: LabelSettings, choices: Choices) -> LabelWishes:
    """What the keeper wants on every label.

    :raises InputError: for a link pattern without a place for the id.
    """
    square = choices.square
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
        price=choices.price,
    )
