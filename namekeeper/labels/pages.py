"""Where labels stand on pages, and what is printed around them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from namekeeper.labels.drawing import Box
from namekeeper.labels.fitted import Fitted
from namekeeper.labels.sheets import StickerSheet

FOOTER_SIZE = 6.0  # pt
FOOTER_COLOUR = "#333333"
# Asks the print dialog for actual size (ISO 32000-2, table 147); the person at the dialog may still change it.
VIEWER_WISHES = {"PrintScaling": "/None", "PickTrayByPDFSize": "true", "Duplex": "/Simplex", "DisplayDocTitle": "true"}


@dataclass(frozen=True, slots=True)
class Correction:
    """What a printer does to a page, undone: offset in mm and scale of positions, from the top left corner."""

    offset_x: Fraction = Fraction(0)
    offset_y: Fraction = Fraction(0)
    scale_x: Fraction = Fraction(1)
    scale_y: Fraction = Fraction(1)

    def apply(self, corner: tuple[Fraction, Fraction]) -> tuple[Fraction, Fraction]:
        return corner[0] * self.scale_x + self.offset_x, corner[1] * self.scale_y + self.offset_y


def pushed_off(sheet: StickerSheet, correction: Correction, pads: tuple[Fraction, Fraction]) -> Fraction:
    """How far, in mm, the correction pushes what stands within the padding of a label off the paper; 0 if it does not.

    The empty rim of a label may leave the paper, nothing printed may.
    """
    first, last = correction.apply(sheet.corner(0)), correction.apply(sheet.corner(sheet.places - 1))
    ends = (last[0] + sheet.width, last[1] + sheet.height)
    before = (-first[axis] - pads[axis] for axis in (0, 1))
    beyond = (ends[axis] - pads[axis] - sheet.paper[axis] for axis in (0, 1))
    return max(Fraction(0), *before, *beyond)


@dataclass(frozen=True, slots=True)
class Placed:
    """A fitted label on its place: page and place from 0."""

    fitted: Fitted
    page: int
    place: int


@dataclass(frozen=True, slots=True)
class Markings:
    """What is printed around the labels, and what the document says of itself."""

    title: str
    footer: str = ""
    language: str = "en"
    page: str = "page {page} of {pages}"

    def footer_of(self, page: int, pages: int) -> str:
        """The line below the labels of a page, from 1; of several pages it says which."""
        if not self.footer or pages < 2:
            return self.footer
        return f"{self.footer} · {self.page.format(page=page, pages=pages)}"


def footer_corner(sheet: StickerSheet) -> tuple[Fraction, Fraction] | None:
    """Left and top of a line below the last row; None where the paper leaves no room for it outside the labels."""
    if sheet.bottom < sheet.edge + 4:
        return None
    return max(sheet.left, sheet.edge), sheet.paper[1] - sheet.bottom + 2


def cut_marks(sheet: StickerSheet, correction: Correction) -> tuple[Box, ...]:
    """Short lines to cut along, outside the labels where there is room, else small crosses at the corners."""
    if not sheet.marks:
        return ()
    xs = sorted({sheet.left + c * sheet.pitch_x + side for c in range(sheet.columns) for side in (0, sheet.width)})
    ys = sorted({sheet.top + r * sheet.pitch_y + side for r in range(sheet.rows) for side in (0, sheet.height)})
    return tuple(_bars(xs, ys, sheet, correction))


def _bars(xs: Sequence[Fraction], ys: Sequence[Fraction], sheet: StickerSheet, correction: Correction) -> Iterator[Box]:
    thin, half = 0.1, 2.0
    for x in xs:
        for y in ys:
            if not (0 < x < sheet.paper[0] or 0 < y < sheet.paper[1]):
                continue
            left, top = (float(side) for side in correction.apply((x, y)))
            yield Box(left - half, top - thin / 2, 2 * half, thin)
            yield Box(left - thin / 2, top - half, thin, 2 * half)
