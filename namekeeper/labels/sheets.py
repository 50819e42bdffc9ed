"""A sticker sheet as a value: exact lengths, the arithmetic that must close, and the places on it that are free."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from namekeeper.words.errors import InputError

SAFE_EDGE = Fraction(5)  # common practice, no source: text is safe this far from the paper's edge
LONGEST = Fraction(2000)

_RANGE = re.compile(r"(\d{1,4})(?:-(\d{1,4}))?", re.ASCII)


@dataclass(frozen=True, slots=True)
class StickerSheet:
    """One sheet of labels; all lengths in mm from the top left corner of the paper, exact."""

    usual_edge: ClassVar[Fraction] = Fraction(43, 10)  # common practice, no source: laser printers leave 4 to 4.3 white

    key: str
    paper: tuple[Fraction, Fraction]
    columns: int
    rows: int
    width: Fraction
    height: Fraction
    left: Fraction
    top: Fraction
    pitch_x: Fraction
    pitch_y: Fraction
    marks: bool = False
    edge: Fraction = SAFE_EDGE

    @property
    def places(self) -> int:
        return self.columns * self.rows

    @property
    def right(self) -> Fraction:
        """What remains between the last column and the paper's edge."""
        return self.paper[0] - self.left - (self.columns - 1) * self.pitch_x - self.width

    @property
    def bottom(self) -> Fraction:
        """What remains between the last row and the paper's edge."""
        return self.paper[1] - self.top - (self.rows - 1) * self.pitch_y - self.height

    @property
    def is_roll(self) -> bool:
        """Whether the paper is one label, as on a roll."""
        return self.places == 1 and self.paper == (self.width, self.height)

    @property
    def measures(self) -> str:
        """Width and height of a label as a person reads them, in mm."""
        return f"{shown(self.width)} x {shown(self.height)}"

    def corner(self, place: int) -> tuple[Fraction, Fraction]:
        """Top left corner of a place; places count from 0, row by row."""
        row, column = divmod(place, self.columns)
        return self.left + column * self.pitch_x, self.top + row * self.pitch_y

    def inset(self, across: Fraction, down: Fraction) -> tuple[Fraction, Fraction]:
        """Padding in x and y that also keeps every label's text out of the unprintable edge of the paper.

        One inset for all places: a label looks the same wherever on the sheet it was printed.
        """
        return (
            max(across, self.edge - min(self.left, self.right)),
            max(down, self.edge - min(self.top, self.bottom)),
        )

    def faults(self) -> tuple[str, ...]:
        """What does not close in the arithmetic; empty for a good sheet."""
        checks = (
            (self.columns < 1 or self.rows < 1, "it has no labels"),
            (self.width <= 0 or self.height <= 0, "its labels have no size"),
            (max(self.paper) > LONGEST, f"the paper is longer than {LONGEST} mm"),
            (self.columns > 1 and self.pitch_x < self.width, "the columns overlap: the pitch is below the width"),
            (self.rows > 1 and self.pitch_y < self.height, "the rows overlap: the pitch is below the height"),
            (self.left < 0 or self.top < 0, "the first label begins outside the paper"),
            (self.right < 0, f"the columns are {shown(-self.right)} mm wider than the paper"),
            (self.bottom < 0, f"the rows are {shown(-self.bottom)} mm longer than the paper"),
        )
        return tuple(text for wrong, text in checks if wrong)

    def near_edges(self) -> tuple[str, ...]:
        """Edges of the paper (``left``, ``right``, ``top``, ``bottom``) where labels reach into what stays white."""
        margins = {"left": self.left, "right": self.right, "top": self.top, "bottom": self.bottom}
        near = tuple(name for name, margin in margins.items() if margin < min(self.edge, self.usual_edge))
        return near if self.places > 1 else ()


def shown(length: Fraction) -> str:
    """A length as a person reads it: at most three decimals, no trailing noughts."""
    return f"{float(length):.3f}".rstrip("0").rstrip(".")


def used_places(text: str, sheet: StickerSheet) -> frozenset[int]:
    """Places counted from 0 of a text such as ``1-4,7``, which counts from 1.

    :raises InputError: for anything else, or a place the sheet does not have.
    """
    found: set[int] = set()
    for part in text.split(","):
        match = _RANGE.fullmatch(part.strip())
        first, last = (int(match[1]), int(match[2] or match[1])) if match else (0, 0)
        if not 1 <= first <= last <= sheet.places:
            what = f"'{part.strip()}' names no places of {sheet.key}"
            raise InputError(what, remedy=f"write places from 1 to {sheet.places}, such as 1-4,7")
        found.update(range(first - 1, last))
    return frozenset(found)


def before(start: int, sheet: StickerSheet) -> frozenset[int]:
    """Places used up when printing starts at place ``start``, counted from 1.

    :raises InputError: if the sheet has no such place.
    """
    if not 1 <= start <= sheet.places:
        what = f"{sheet.key} has no place {start}"
        raise InputError(what, remedy=f"places count from 1 to {sheet.places}, row by row")
    return frozenset(range(start - 1))


def free_places(sheet: StickerSheet, used: Collection[int]) -> Iterator[tuple[int, int]]:
    """Page and place, from 0, of every free place without end; ``used`` are holes of the first page only.

    :raises InputError: if the first sheet is full.
    """
    if len(set(used)) >= sheet.places:
        what = f"the sheet in use has no free place ({sheet.key})"
        raise InputError(what, remedy="put in a new sheet and leave out --start, --used and --drawer")
    page = 0
    while True:
        for place in range(sheet.places):
            if page or place not in used:
                yield page, place
        page += 1
