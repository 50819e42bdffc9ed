"""How the face of sex signs was drawn: run as a module it writes ``label_templates/fonts/signs.ttf`` anew.

The signs are those of U+2640, U+2642 and U+26A5, primes (U+2032, U+2033) and the warning sign (U+26A0), drawn to the
stem weight and vertical metrics of the text face: signs are as high as capitals, and a line with one is as high as
a line without.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib.tables._g_l_y_f import Glyph

ASCENT, DESCENT = 935, -265
CAPITAL = 688  # height of the H of the text face
STROKE, RADIUS, WIDTH, SIDE = 74, 176, 530, 265
MALE = 205  # radius of the male sign's ring
WIDTHS = {"male": 740, "prime": 200, "doubleprime": 340, "warning": 800}
Draw = Callable[[TTGlyphPen], None]


def circle(pen: TTGlyphPen, x: float, y: float, radius: float, *, clockwise: bool) -> None:
    """Eight quadratic arcs."""
    turns = range(8) if clockwise else range(8, 0, -1)
    step = math.pi / 4 * (-1 if clockwise else 1)
    start = turns[0] * -math.pi / 4 if clockwise else turns[0] * math.pi / 4
    pen.moveTo((round(x + radius * math.cos(start)), round(y + radius * math.sin(start))))
    far = radius / math.cos(math.pi / 8)
    for number in range(8):
        angle = start + number * step
        pen.qCurveTo(
            (round(x + far * math.cos(angle + step / 2)), round(y + far * math.sin(angle + step / 2))),
            (round(x + radius * math.cos(angle + step)), round(y + radius * math.sin(angle + step))),
        )
    pen.closePath()


def ring(pen: TTGlyphPen, x: float, y: float, radius: float = RADIUS) -> None:
    circle(pen, x, y, radius, clockwise=True)
    circle(pen, x, y, radius - STROKE, clockwise=False)


def stroke(pen: TTGlyphPen, start: tuple[float, float], end: tuple[float, float]) -> None:
    """A straight bar of the stroke's width with square ends."""
    length = math.dist(start, end)
    over_x, over_y = (STROKE / 2 * (b - a) / length for a, b in zip(start, end, strict=True))
    corners = [
        (start[0] - over_y, start[1] + over_x),
        (end[0] - over_y, end[1] + over_x),
        (end[0] + over_y, end[1] - over_x),
        (start[0] + over_y, start[1] - over_x),
    ]
    pen.moveTo((round(corners[0][0]), round(corners[0][1])))
    for corner in corners[1:]:
        pen.lineTo((round(corner[0]), round(corner[1])))
    pen.closePath()


def cross(pen: TTGlyphPen, x: float, y: float, length: float = 235) -> None:
    stroke(pen, (x, y - RADIUS + STROKE / 2), (x, y - RADIUS - length))
    stroke(pen, (x - 125, y - RADIUS - length / 2), (x + 125, y - RADIUS - length / 2))


def arrow(pen: TTGlyphPen, x: float, y: float, radius: float = RADIUS, length: float = 265) -> None:
    near, far = radius - STROKE / 2, radius + length
    diagonal = math.sqrt(0.5)
    tip = (x + far * diagonal, y + far * diagonal)
    stroke(pen, (x + near * diagonal, y + near * diagonal), (tip[0] - STROKE / 3, tip[1] - STROKE / 3))
    stroke(pen, (tip[0] - 190, tip[1] - STROKE / 2), (tip[0], tip[1] - STROKE / 2))
    stroke(pen, (tip[0] - STROKE / 2, tip[1]), (tip[0] - STROKE / 2, tip[1] - 190))


def female(pen: TTGlyphPen) -> None:
    middle = CAPITAL - RADIUS
    ring(pen, SIDE, middle)
    cross(pen, SIDE, middle, middle - RADIUS)


def male(pen: TTGlyphPen) -> None:
    ring(pen, MALE + 27, MALE, MALE)
    arrow(pen, MALE + 27, MALE, MALE, (CAPITAL - MALE) * math.sqrt(2) - MALE)


def both(pen: TTGlyphPen) -> None:
    ring(pen, SIDE - 62, 400)
    cross(pen, SIDE - 62, 400)
    arrow(pen, SIDE - 62, 400)


def prime(pen: TTGlyphPen, x: float = 60) -> None:
    """As high as an apostrophe, leaning like the strokes of coordinates."""
    pen.moveTo((round(x), CAPITAL - 235))
    pen.lineTo((round(x + 45), CAPITAL + 20))
    pen.lineTo((round(x + 120), CAPITAL + 20))
    pen.lineTo((round(x + 55), CAPITAL - 235))
    pen.closePath()


def double_prime(pen: TTGlyphPen) -> None:
    prime(pen)
    prime(pen, 200)


def warning(pen: TTGlyphPen) -> None:
    """A triangle with a mark of exclamation in it."""
    for left, right, foot, top in ((20, 780, 0, CAPITAL), (640, 160, STROKE, CAPITAL - 165)):
        pen.moveTo((left, foot))
        pen.lineTo((400, top))
        pen.lineTo((right, foot))
        pen.closePath()
    stroke(pen, (400, 430), (400, 230))
    stroke(pen, (400, 185), (400, 115))


SIGNS: dict[str, tuple[int, Draw]] = {
    "female": (0x2640, female),
    "male": (0x2642, male),
    "maleandfemale": (0x26A5, both),
    "prime": (0x2032, prime),
    "doubleprime": (0x2033, double_prime),
    "warning": (0x26A0, warning),
}


def drawn(draw: Draw | None) -> Glyph:
    pen = TTGlyphPen(None)
    if draw is not None:
        draw(pen)
    return pen.glyph()


def font() -> bytes:
    """The whole face as TrueType; the same bytes every time."""
    builder = FontBuilder(1000, isTTF=True)
    # A blank as well: layout engines measure a line by it, and would ask another font.
    builder.setupGlyphOrder([".notdef", "space", *SIGNS])
    builder.setupCharacterMap({0x20: "space", **{code: name for name, (code, _) in SIGNS.items()}})
    glyphs = {".notdef": drawn(None), "space": drawn(None)} | {name: drawn(draw) for name, (_, draw) in SIGNS.items()}
    builder.setupGlyf(glyphs)
    table = builder.font["glyf"]
    metrics = {name: (WIDTHS.get(name, WIDTH), getattr(table[name], "xMin", 0)) for name in glyphs}
    builder.setupHorizontalMetrics(metrics)
    builder.setupHorizontalHeader(ascent=ASCENT, descent=DESCENT)
    names = {"familyName": "Namekeeper Signs", "styleName": "Regular", "psName": "NamekeeperSigns-Regular"}
    builder.setupNameTable(names)
    builder.setupOS2(
        sTypoAscender=ASCENT, sTypoDescender=DESCENT, sTypoLineGap=0, usWinAscent=ASCENT, usWinDescent=-DESCENT
    )
    builder.setupPost()
    builder.font["head"].created = builder.font["head"].modified = 0
    builder.font.recalcTimestamp = False
    target = BytesIO()
    builder.save(target)
    return target.getvalue()


if __name__ == "__main__":
    Path(__file__).parents[2].joinpath("label_templates/fonts/signs.ttf").write_bytes(font())
