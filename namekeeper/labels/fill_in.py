"""What is left to be filled in by hand: lines to write on, a grid, a box to tick; lengths in mm, arithmetic only."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from namekeeper.labels.drawing import Box, Letters
from namekeeper.labels.text import Face
from namekeeper.labels.yaml_texts import LayoutError, check_keys, line_of, list_of, mapping, number, yes_or_no

_PT = 25.4 / 72
_INK = "#333333"  # of words beside lines; 12.6 to 1 on white (WCAG 2.2)
_LINE = "#777777"
_HAIR = 0.15
_AIR = 1.2  # between what is printed and what is to be filled in
_BELOW = 0.6  # a word stands so far below the line above it
_ROWS = 3  # a grid with fewer is none
_STRETCH = 2.0  # lines stand no farther apart than so many times what was asked for


@dataclass(frozen=True, slots=True)
class Area:
    """A part of a label: left, top, width and bottom in mm."""

    left: float
    top: float
    width: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Blanks:
    """Lines to write on, each with words above its left end; ``row`` is the least distance, ``size`` in pt."""

    words: tuple[str, ...]
    row: float
    size: float

    @property
    def least(self) -> float:
        """The height they take at least."""
        return len(self.words) * self.row + _AIR

    def drawn(self, area: Area, drop: float) -> Iterator[Box | Letters]:
        row = min((area.bottom - area.top - _AIR) / len(self.words), self.row * _STRETCH)
        for line, words in enumerate(self.words):
            top = area.top + _AIR + line * row
            yield _words(words, area.left, top + _BELOW, self.size, drop)
            yield Box(area.left, top + row - _HAIR, area.width, _HAIR, _LINE)


@dataclass(frozen=True, slots=True)
class WriteGrid:
    """Rows to write in, as many as there is room for; columns are words with their share of the width."""

    columns: tuple[tuple[str, float], ...]
    row: float
    size: float

    @property
    def least(self) -> float:
        """The height of its head and a few rows."""
        return (_ROWS + 1) * self.row + _AIR

    def drawn(self, area: Area, drop: float) -> Iterator[Box | Letters]:
        top = area.top + _AIR
        rows = int((area.bottom - top) / self.row)
        row = (area.bottom - top) / rows
        whole = sum(share for _, share in self.columns)
        left = area.left
        for number_, (word, share) in enumerate(self.columns):
            yield _words(word, left + (0.8 if number_ else 0.0), top + row - 0.5 - self.size * _PT, self.size, drop)
            if number_:
                yield Box(left - _HAIR / 2, top, _HAIR, area.bottom - top, _LINE)
            left += area.width * share / whole
        for line in range(1, rows + 1):
            yield Box(area.left, top + line * row - _HAIR, area.width, _HAIR, _LINE)


@dataclass(frozen=True, slots=True)
class FillIn:
    """All of it; ``tick`` is the side of a box at the left, in the padding, ``floor`` a line along the lower edge."""

    part: Blanks | WriteGrid | None = None
    tick: float = 0.0
    floor: bool = False

    @property
    def least(self) -> float:
        """The height it takes between body and foot at least."""
        return self.part.least if self.part else 0.0

    @property
    def words(self) -> tuple[str, ...]:
        """All words printed beside lines, in reading order."""
        if isinstance(self.part, Blanks):
            return self.part.words
        return tuple(word for word, _ in self.part.columns) if self.part else ()

    def drawn(self, area: Area, label: Area, drop: float) -> tuple[Box | Letters, ...]:
        """Lines and words in the ``area`` left free on a ``label``; ``drop`` as in the type's measure."""
        found: list[Box | Letters] = list(self.part.drawn(area, drop)) if self.part else []
        if self.tick:
            middle = (label.top + label.bottom) / 2
            found.extend(_frame(area.left - 1.5 * self.tick, middle - self.tick / 2, self.tick))
        if self.floor:
            left = area.left - 1.5 * self.tick
            found.append(Box(left, label.bottom - _HAIR, area.left + area.width - left, _HAIR, _LINE))
        return tuple(found)


NOTHING_TO_FILL_IN = FillIn()


def _words(text: str, left: float, top: float, size: float, drop: float) -> Letters:
    return Letters(left, top + (0.5 + drop) * size * _PT, size, ((text, Face.REGULAR),), _INK)


def _frame(left: float, top: float, side: float) -> Iterator[Box]:
    yield Box(left, top, side, 2 * _HAIR, _INK)
    yield Box(left, top + side - 2 * _HAIR, side, 2 * _HAIR, _INK)
    yield Box(left, top, 2 * _HAIR, side, _INK)
    yield Box(left + side - 2 * _HAIR, top, 2 * _HAIR, side, _INK)


def read_fill_in(document: Mapping[str, object], padding: float) -> FillIn:
    """The keys ``blanks``, ``grid``, ``tick`` and ``floor`` of a layout.

    :raises LayoutError: naming the key that cannot be read.
    """
    blanks, grid = document.get("blanks"), document.get("grid")
    if blanks is not None and grid is not None:
        message = "blanks and grid do not stand on one label"
        raise LayoutError(message, line_of(grid))
    tick = number(document.get("tick", "0"), "tick", 0, 20)
    if 1.5 * tick > padding:
        message = f"the box to tick stands in the padding, which is only {padding:g} mm wide"
        raise LayoutError(message, line_of(document["tick"]))
    part = _blanks(blanks) if blanks is not None else _grid(grid) if grid is not None else None
    return FillIn(part, tick, yes_or_no(document.get("floor", "no"), "floor"))


def _blanks(value: object) -> Blanks:
    fields = mapping(value, "blanks")
    check_keys(fields, {"words", "row", "size"}, "blanks")
    words = tuple(str(word) for word in list_of(fields.get("words"), "words of blanks", filled=True))
    return Blanks(words, *_row_and_size(fields, "blanks"))


def _grid(value: object) -> WriteGrid:
    fields = mapping(value, "grid")
    check_keys(fields, {"columns", "row", "size"}, "grid")
    columns = mapping(fields.get("columns"), "columns of grid")
    shares = tuple((str(word), number(share, f"column '{word}'", 0.1, 100)) for word, share in columns.items())
    if not shares:
        message = "columns of grid should be words with their share of the width"
        raise LayoutError(message, line_of(columns))
    return WriteGrid(shares, *_row_and_size(fields, "grid"))


def _row_and_size(fields: Mapping[str, object], what: str) -> tuple[float, float]:
    row = number(fields.get("row", "6"), f"row of {what}", 3, 50)
    size = number(fields.get("size", "6.5"), f"size of {what}", 5, 20)
    if size * _PT + _BELOW > row:
        message = f"the words of {what} are higher than its rows"
        raise LayoutError(message, line_of(fields))
    return row, size
