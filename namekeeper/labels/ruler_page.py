"""The test page of a printer: rulers, crosses, edge combs, and which numbers to type into the settings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from namekeeper.labels.drawing import Box, LabelDrawing, Letters, PageDrawing
from namekeeper.labels.fitted import em
from namekeeper.labels.fonts import Measure
from namekeeper.labels.layout import PT, STEP
from namekeeper.labels.pages import Correction
from namekeeper.labels.sheets import StickerSheet
from namekeeper.labels.text import Face, Run, Weight, words_of
from namekeeper.labels.wrap import Paragraph

_COMB = range(1, 9)  # mm from the edge
_THIN = 0.15
_GREY = "#777777"
_SIZE = 9 * STEP
_LEADING = 1.35


@dataclass(frozen=True, slots=True)
class RulerMeasures:
    """What a sheet's test page shows: the cross so far from left and top, rulers so long across and down, in mm."""

    cross: int
    across: int
    down: int
    roomy: bool  # whether what to do is printed on the page itself


def _measures_of(sheet: StickerSheet) -> RulerMeasures:
    """Rulers of 100 mm where the paper takes them, else as many whole centimetres as it does."""
    width, height = (float(side) for side in sheet.paper)
    roomy = min(width, height) >= 150
    cross = 20 if min(width, height) >= 60 else 5
    across, down = (max(0, min(100, int(side - 2 * cross) // 10 * 10)) for side in (width, height))
    return RulerMeasures(cross, across, down, roomy)


def instructions(sheet: StickerSheet) -> tuple[str, ...]:
    """What to measure on the page, and which numbers to type in; printed on it where the paper is large enough."""
    shown = _measures_of(sheet)
    size = f"{sheet.columns} x {sheet.rows} labels of {sheet.measures} mm"
    light = "Hold it against the light with a sheet of labels behind it: every outline should lie on a label."
    if shown.across == shown.down:
        rulers = f"Both are {shown.across} mm long when the printer keeps the size."
        scale = f"If one measures c instead, its scale is {shown.across} / c (half a millimetre is 0.5 %)"
    else:
        rulers = f"They are {shown.across} mm and {shown.down} mm long when the printer keeps the size."
        scale = f"If one measures c instead, its scale is {shown.across} / c across, {shown.down} / c down"
    cross = shown.cross
    offset = f"Both should be {cross}. The offsets are {cross} - a and {cross} - b; with a scale, {cross} - a x scale."
    return (
        f"Test page for {sheet.key}: {size}. Print it at actual size (100 %, no fitting), on plain paper. {light}",
        f"1. Measure both rulers. {rulers} {scale}; else the scale is 1.",
        f"2. Measure from the paper's left edge to the cross: a = ____ mm; from the top edge: b = ____ mm. {offset}",
        "3. Type the numbers into collection.yaml:   printer: {offset: [x, y], scale: [1, 1]}",
        "The combs at the four edges show what the printer leaves white: the first line you can see tells how many mm.",
    )


def ruler_pages(sheet: StickerSheet, correction: Correction, measure: Measure) -> tuple[PageDrawing, ...]:
    """The page without any correction, and once more with the one in use, if there is one."""
    plain = _Page(sheet, Correction(), measure).drawn(instructions(sheet))
    if correction == Correction():
        return (plain,)
    cross = _measures_of(sheet).cross
    again = f"The same with the printer's correction applied: now a and b should be {cross} mm, and the rulers right."
    return plain, _Page(sheet, correction, measure).drawn((again,))


class _Page:
    """One test page; everything but the combs, which belong to the paper's edges, is moved by the correction."""

    def __init__(self, sheet: StickerSheet, correction: Correction, measure: Measure) -> None:
        self._sheet = sheet
        self._correction = correction
        self._measure = measure
        self._shown = _measures_of(sheet)
        self._width, self._height = (float(side) for side in sheet.paper)

    def drawn(self, said: tuple[str, ...]) -> PageDrawing:
        boxes = (*self._outlines(), *self._combs(), *self._rulers(), *self._cross())
        blocks = tuple(self._said(said)) if self._shown.roomy else ()
        return PageDrawing(
            self._width, self._height, (LabelDrawing((), blocks),) if blocks else (), boxes, tuple(self._numbers())
        )

    def _at(self, x: float, y: float) -> tuple[float, float]:
        exact = Fraction(x).limit_denominator(10000), Fraction(y).limit_denominator(10000)
        left, top = self._correction.apply(exact)
        return float(left), float(top)

    def _line(self, x1: float, y1: float, x2: float, y2: float, colour: str = "#000000") -> Box:
        """A line along one of the axes."""
        (left, top), (right, bottom) = self._at(x1, y1), self._at(x2, y2)
        half = _THIN / 2
        return Box(
            left - (half if x1 == x2 else 0),
            top - (half if y1 == y2 else 0),
            max(right - left, _THIN),
            max(bottom - top, _THIN),
            colour,
        )

    def _outlines(self) -> Iterator[Box]:
        sheet = self._sheet
        for place in range(sheet.places):
            left, top = (float(side) for side in sheet.corner(place))
            right, bottom = left + float(sheet.width), top + float(sheet.height)
            yield self._line(left, top, right, top, _GREY)
            yield self._line(left, bottom, right, bottom, _GREY)
            yield self._line(left, top, left, bottom, _GREY)
            yield self._line(right, top, right, bottom, _GREY)

    def _combs(self) -> Iterator[Box]:
        start = 30 if self._shown.roomy else 8
        for number in _COMB:
            at = start + (3 if self._shown.roomy else 1.5) * number
            yield Box(number - _THIN / 2, at, _THIN, 3)
            yield Box(self._width - number - _THIN / 2, at, _THIN, 3)
            yield Box(at, number - _THIN / 2, 3, _THIN)
            yield Box(at, self._height - number - _THIN / 2, 3, _THIN)

    def _rulers(self) -> Iterator[Box]:
        """One along the lower part, one along the right part, with a tick every millimetre."""
        shown, cross = self._shown, self._shown.cross
        across, down = self._height - cross, self._width - cross
        yield self._line(cross, across, cross + shown.across, across)
        yield self._line(down, cross, down, cross + shown.down)
        for number in range(shown.across + 1):
            yield self._line(cross + number, across - _tick(number), cross + number, across)
        for number in range(shown.down + 1):
            yield self._line(down - _tick(number), cross + number, down, cross + number)

    def _cross(self) -> Iterator[Box]:
        at, arm = self._shown.cross, 8 if self._shown.roomy else 4
        yield self._line(at - arm, at, at + arm, at)
        yield self._line(at, at - arm, at, at + arm)

    def _numbers(self) -> Iterator[Letters]:
        shown, cross, sheet = self._shown, self._shown.cross, self._sheet
        for number in range(0, shown.across + 1, 10):
            yield self._number(str(number), cross + number, self._height - cross + 3, centred=True)
        for number in range(0, shown.down + 1, 10):
            yield self._number(str(number), self._width - cross + 1, cross + number + 0.9)
        for place in range(sheet.places if sheet.places > 1 else 0):
            left, top = (float(side) for side in sheet.corner(place))
            yield self._number(str(place + 1), left + float(sheet.width) - 4, top + float(sheet.height) - 1.5)

    def _number(self, text: str, x: float, y: float, *, centred: bool = False) -> Letters:
        size = 7.0
        left, baseline = self._at(x, y)
        wide = self._measure.width(text, Face.REGULAR) * size * PT
        return Letters(left - wide / 2 if centred else left, baseline, size, ((text, Face.REGULAR),))

    def _said(self, said: tuple[str, ...]) -> Iterator[tuple[Letters, ...]]:
        left, width = self._shown.cross + 16.0, self._width - 2 * self._shown.cross - 32
        y = self._shown.cross + 30.0
        size = _SIZE / STEP
        for text in said:
            paragraph = Paragraph(words_of(((Run(text),),), Weight.REGULAR), self._measure)
            lines = []
            for line in paragraph.lines(em(width, _SIZE)):
                y += size * PT * _LEADING
                lines.append(Letters(left, y, size, line.parts))
            yield tuple(lines)
            y += 1.5


def _tick(number: int) -> float:
    return 4.0 if number % 10 == 0 else 3.0 if number % 5 == 0 else 2.0
