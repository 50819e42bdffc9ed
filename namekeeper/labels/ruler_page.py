"""The test page of a printer: rulers, crosses, edge combs, and which numbers to type into the settings."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from namekeeper.labels.markup import FONT_SCHEME
from namekeeper.labels.sheets import StickerSheet
from namekeeper.labels.text import Face

CROSS = 20  # mm from the left and top edge of the paper
RULER = 100  # mm
_COMB = range(1, 9)  # mm from the edge


def ruler_page(sheet: StickerSheet) -> tuple[str, str]:
    """HTML and CSS of the page, drawn without any correction; papers too small for a ruler get a shorter one."""
    width, height = (float(side) for side in sheet.paper)
    css = (
        f'@font-face {{ font-family: fr; src: url("{FONT_SCHEME}{Face.REGULAR}") }}'
        f"@page {{ size: {width}mm {height}mm; margin: 0 }} body {{ margin: 0; font-family: fr }}"
        f"svg {{ position: absolute; left: 0; top: 0; width: {width}mm; height: {height}mm }}"
        f".say {{ position: absolute; left: {CROSS + 16}mm; top: {CROSS + 30}mm; width: {width - 2 * CROSS - 32}mm; "
        "font-size: 9pt; line-height: 1.35; background: #fff }"
        "p { margin: 0 0 1.5mm }"
    )
    drawn = "".join((*_outlines(sheet), *_combs(width, height), *_rulers(width, height), *_cross()))
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}">{drawn}</svg>'
    say = f'<div class="say">{"".join(f"<p>{escape(line)}</p>" for line in instructions(sheet))}</div>'
    roomy = min(width, height) >= 150
    html = f'<!DOCTYPE html><html lang="en"><head><title>Test page {sheet.key}</title></head><body>{svg}'
    return html + (say if roomy else "") + "</body></html>", css


def instructions(sheet: StickerSheet) -> tuple[str, ...]:
    """What to measure on the page, and which numbers to type in; printed on it where the paper is large enough."""
    size = f"{sheet.columns} x {sheet.rows} labels of {sheet.measures} mm"
    light = "Hold it against the light with a sheet of labels behind it: every outline should lie on a label."
    scale = f"If one measures c instead, its scale is {RULER} / c (half a millimetre is 0.5 %); else the scale is 1."
    offset = f"Both should be {CROSS}. The offsets are {CROSS} - a and {CROSS} - b; with a scale, {CROSS} - a x scale."
    return (
        f"Test page for {sheet.key}: {size}. Print it at actual size (100 %, no fitting), on plain paper. {light}",
        f"1. Measure both rulers. Both are {RULER} mm long when the printer keeps the size. {scale}",
        f"2. Measure from the paper's left edge to the cross: a = ____ mm; from the top edge: b = ____ mm. {offset}",
        "3. Type the numbers into collection.yaml:   printer: {offset: [x, y], scale: [1, 1]}",
        "The combs at the four edges show what the printer leaves white: the first line you can see tells how many mm.",
    )


def _outlines(sheet: StickerSheet) -> Iterator[str]:
    for place in range(sheet.places):
        left, top = (float(side) for side in sheet.corner(place))
        wide, high = float(sheet.width), float(sheet.height)
        yield (
            f'<rect x="{left:.4f}" y="{top:.4f}" width="{wide:.4f}" height="{high:.4f}" fill="none" '
            'stroke="#999" stroke-width="0.1"/>'
        )
        corner = f'x="{left + wide - 1.5:.3f}" y="{top + high - 1.5:.3f}"'
        yield f'<text {corner} {_type(2.2)} text-anchor="end">{place + 1}</text>'


def _combs(width: float, height: float) -> Iterator[str]:
    for number in _COMB:
        at = 30 + 3 * number
        yield _stroke(number, at, number, at + 3)
        yield _stroke(width - number, at, width - number, at + 3)
        yield _stroke(at, number, at + 3, number)
        yield _stroke(at, height - number, at + 3, height - number)


def _rulers(width: float, height: float) -> Iterator[str]:
    """One along the lower part, one along the right part, with a tick every millimetre."""
    long_x, long_y = min(RULER, int(width) - 2 * CROSS), min(RULER, int(height) - 2 * CROSS)
    across, down = height - CROSS, width - CROSS
    yield _stroke(CROSS, across, CROSS + long_x, across)
    yield _stroke(down, CROSS, down, CROSS + long_y)
    for number in range(max(long_x, 0) + 1):
        yield _stroke(CROSS + number, across, CROSS + number, across - _tick(number))
    for number in range(max(long_y, 0) + 1):
        yield _stroke(down, CROSS + number, down - _tick(number), CROSS + number)
    for number in range(0, long_x + 1, 10):
        yield f'<text x="{CROSS + number}" y="{across + 3}" {_type(2.5)} text-anchor="middle">{number}</text>'
    for number in range(0, long_y + 1, 10):
        yield f'<text x="{down + 1}" y="{CROSS + number + 0.9}" {_type(2.5)}>{number}</text>'


def _tick(number: int) -> float:
    return 4.0 if number % 10 == 0 else 3.0 if number % 5 == 0 else 2.0


def _cross() -> Iterator[str]:
    yield _stroke(CROSS - 8, CROSS, CROSS + 8, CROSS)
    yield _stroke(CROSS, CROSS - 8, CROSS, CROSS + 8)
    yield f'<circle cx="{CROSS}" cy="{CROSS}" r="3" fill="none" stroke="#000" stroke-width="0.15"/>'


def _stroke(x1: float, y1: float, x2: float, y2: float) -> str:
    return f'<line x1="{x1:g}" y1="{y1:g}" x2="{x2:g}" y2="{y2:g}" stroke="#000" stroke-width="0.15"/>'


def _type(size: float) -> str:
    return f'font-family="fr" font-size="{size}"'
