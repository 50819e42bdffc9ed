"""Sheets of fitted labels as one HTML document with its style; pure text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape

from markupsafe import Markup

from namekeeper.labels.fitted import Fitted, Set
from namekeeper.labels.layout import STEP, Block, Layout, Zone
from namekeeper.labels.sheets import StickerSheet
from namekeeper.labels.templates import LabelTemplate
from namekeeper.labels.text import Face

FONT_SCHEME = "label-font:"
LABEL_CLASS = "label"
LABELS_AT_ONCE = 400  # laid out in one go: more take more memory and no less time


@dataclass(frozen=True, slots=True)
class Correction:
    """What a printer does to a page, undone: offset in mm and scale of positions, from the top left corner."""

    offset_x: Fraction = Fraction(0)
    offset_y: Fraction = Fraction(0)
    scale_x: Fraction = Fraction(1)
    scale_y: Fraction = Fraction(1)

    def apply(self, corner: tuple[Fraction, Fraction]) -> tuple[Fraction, Fraction]:
        return corner[0] * self.scale_x + self.offset_x, corner[1] * self.scale_y + self.offset_y


@dataclass(frozen=True, slots=True)
class Placed:
    """A fitted label on its place: page and place from 0."""

    fitted: Fitted
    page: int
    place: int


@dataclass(frozen=True, slots=True)
class Markings:
    """What is printed around the labels."""

    title: str
    footer: str = ""
    language: str = "en"


def document(
    placed: Sequence[Placed], sheet: StickerSheet, template: LabelTemplate, correction: Correction, markings: Markings
) -> tuple[tuple[str, ...], str]:
    """The HTML of all pages, in parts that are laid out one after the other, and the CSS; the same text every time."""
    outside = _marks(sheet, correction) + _footer(sheet, markings.footer)
    labels: dict[int, list[str]] = {}
    for one in placed:
        classes = " ".join((f"p{one.place}", *_shifts(one.fitted, template.layout)))
        inner = template.fill(values(one.fitted, sheet))
        labels.setdefault(one.page, []).append(f'<div class="{LABEL_CLASS} {classes}">{inner}</div>')
    pages = [f"<section>{''.join(inner)}{outside}</section>" for _, inner in sorted(labels.items())]
    step = max(1, LABELS_AT_ONCE // sheet.places)
    parts = tuple(_whole("".join(pages[at : at + step]), markings) for at in range(0, len(pages), step))
    return parts, stylesheet(placed, sheet, template, correction)


def _whole(body: str, markings: Markings) -> str:
    head = f'<meta charset="utf-8"><title>{escape(markings.title)}</title>'
    return f'<!DOCTYPE html><html lang="{escape(markings.language)}"><head>{head}</head><body>{body}</body></html>'


def values(fitted: Fitted, sheet: StickerSheet) -> dict[str, object]:
    """What a template may use."""

    def zone(name: str) -> Markup:
        """All blocks of a zone that are on the label."""
        return Markup("".join(_block(one) for one in fitted.sets if one.block.zone is Zone(name)))  # noqa: S704

    def block(name: str) -> Markup:
        """The block that shows a field, empty if it is not on the label."""
        return Markup("".join(_block(one) for one in fitted.sets if name in one.block.fields))  # noqa: S704

    def text(name: str) -> str:
        """The same without markup, escaped when printed."""
        lines = (line.text for one in fitted.sets if name in one.block.fields for line in one.lines)
        return " ".join(lines)

    return {
        "zone": zone,
        "block": block,
        "text": text,
        "id": fitted.content.specimen,
        "has_qr": fitted.square > 0,
        "width": float(sheet.width),
        "height": float(sheet.height),
    }


def _shifts(fitted: Fitted, layout: Layout) -> tuple[str, ...]:
    """Classes for what differs from label to label: the width of the left column, the height left over."""
    side = (f"w{_tenths(fitted.side_width)}",) if fitted.side_width else ()
    return (*side, f"h{_tenths(fitted.spare / 2)}") if layout.centred else side


def _tenths(length: float) -> int:
    return round(length * 10)


def _block(one: Set) -> str:
    """The lines of a block, one element each: boxes are what the engine's time goes into."""
    name = one.block.name
    start = f"b-{name} first s{one.size}"
    further = f"b-{name} s{one.size}"
    return "".join(_line(line.parts, further if number else start) for number, line in enumerate(one.lines))


def _line(parts: Sequence[tuple[str, Face]], classes: str) -> str:
    # The line's own class carries its first face, so most lines need no span at all; never the face of signs, which
    # has no letters to measure a line by, and the engine would ask a system font.
    own = next((face for _, face in parts if face is not Face.SIGNS), Face.REGULAR)
    inner = "".join(escape(text) if face is own else f'<i class="{face}">{escape(text)}</i>' for text, face in parts)
    return f'<p class="{classes} {own}">{inner}</p>'


def stylesheet(placed: Sequence[Placed], sheet: StickerSheet, template: LabelTemplate, correction: Correction) -> str:
    """Geometry and type as classes, so that every label shares its computed styles; then the template's own style."""
    layout = template.layout
    pad_x, pad_y = sheet.inset(Fraction(layout.padding).limit_denominator(1000))
    sizes = sorted({one.size for label in placed for one in label.fitted.sets})
    faces = {face for label in placed for one in label.fitted.sets for line in one.lines for _, face in line.parts}
    used = sorted({one.place for one in placed})
    rules = [
        *(_face(face) for face in sorted(faces | {Face.REGULAR})),
        f"@page {{ size: {_mm(sheet.paper[0])} {_mm(sheet.paper[1])}; margin: 0 }}",
        "html, body { margin: 0; padding: 0 }",
        f"body {{ font-family: {Face.REGULAR}; font-weight: 400; font-style: normal }}",
        f"section {{ position: relative; overflow: hidden; break-after: page; {_size(sheet.paper)} }}",
        "section:last-child { break-after: auto }",
        "p { margin: 0; white-space: nowrap }",
        "i { font-style: normal }",
        f".label {{ position: absolute; {_size((sheet.width, sheet.height))} }}",
        *(f".p{place} {{ {_at(correction.apply(sheet.corner(place)))} }}" for place in used),
        f".head {{ padding: {_mm(pad_y)} {_mm(pad_x)} 0 }}",
        f".body {{ margin: 0 {_mm(pad_x)}; padding-top: {layout.gap}mm }}",
        f".foot {{ position: absolute; left: {_mm(pad_x)}; right: {_mm(pad_x)}; bottom: {_mm(pad_y)} }}",
        *_shift_rules(placed, layout, pad_x, pad_y),
        *(f".s{size} {{ font-size: {size / STEP}pt }}" for size in sizes),
        *(f".{face} {{ font-family: {face} }}" for face in sorted(faces)),
        *(_block_rule(block) for block in layout.blocks),
        ".outside { position: absolute; font-size: 6pt; line-height: 1; color: #333 }",
        ".mark { position: absolute; background: #000 }",
    ]
    return "\n".join((*rules, template.style))


def _shift_rules(placed: Sequence[Placed], layout: Layout, pad_x: Fraction, pad_y: Fraction) -> Iterable[str]:
    """The left column and what stands beside it; both in the middle of the height where the layout asks for that."""
    yield f".side {{ position: absolute; left: {_mm(pad_x)}; top: {_mm(pad_y)}; width: 0 }}"
    for side in sorted({_tenths(one.fitted.side_width) for one in placed} - {0}):
        left = float(pad_x) + side / 10 + layout.side_gap / 2
        yield (
            f".w{side} .body {{ position: absolute; left: {left:.3f}mm; top: {_mm(pad_y)}; bottom: {_mm(pad_y)}; "
            f"right: 0; margin: 0; padding-left: {layout.side_gap / 2}mm }}"
        )
    if layout.centred:
        for spare in sorted({_tenths(one.fitted.spare / 2) for one in placed}):
            yield f".h{spare} > .side, .h{spare} > .body {{ padding-top: {spare / 10}mm }}"


def _block_rule(block: Block) -> str:
    rule = f".b-{block.name} {{ line-height: {block.leading}; height: {block.leading}em }}"
    return rule + (f" .b-{block.name}.first {{ margin-top: {block.before}mm }}" if block.before else "")


def _face(face: Face) -> str:
    return f'@font-face {{ font-family: {face}; src: url("{FONT_SCHEME}{face}") }}'


def _size(lengths: tuple[Fraction, Fraction]) -> str:
    return f"width: {_mm(lengths[0])}; height: {_mm(lengths[1])}"


def _at(corner: tuple[Fraction, Fraction]) -> str:
    return f"left: {_mm(corner[0])}; top: {_mm(corner[1])}"


def _mm(length: Fraction) -> str:
    return f"{float(length):.6f}".rstrip("0").rstrip(".") + "mm"


def _footer(sheet: StickerSheet, text: str) -> str:
    """A line below the last row, where the paper leaves room for it outside the labels and inside the printed area."""
    if not text or sheet.bottom < sheet.edge + 4:
        return ""
    from_top = sheet.paper[1] - sheet.bottom + 2
    return f'<div class="outside" style="{_at((max(sheet.left, sheet.edge), from_top))}">{escape(text)}</div>'


def _marks(sheet: StickerSheet, correction: Correction) -> str:
    """Short lines to cut along, outside the labels where there is room, else small crosses at the corners."""
    if not sheet.marks:
        return ""
    xs = sorted({sheet.left + c * sheet.pitch_x + side for c in range(sheet.columns) for side in (0, sheet.width)})
    ys = sorted({sheet.top + r * sheet.pitch_y + side for r in range(sheet.rows) for side in (0, sheet.height)})
    return "".join(_bars(xs, ys, sheet, correction))


def _bars(xs: Sequence[Fraction], ys: Sequence[Fraction], sheet: StickerSheet, correction: Correction) -> Iterable[str]:
    thin, half = Fraction(1, 10), Fraction(2)
    for x in xs:
        for y in ys:
            if not (0 < x < sheet.paper[0] or 0 < y < sheet.paper[1]):
                continue
            left, top = correction.apply((x, y))
            yield f'<div class="mark" style="{_at((left - half, top - thin / 2))}; {_size((2 * half, thin))}"></div>'
            yield f'<div class="mark" style="{_at((left - thin / 2, top - half))}; {_size((thin, 2 * half))}"></div>'
