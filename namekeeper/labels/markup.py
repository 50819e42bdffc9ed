"""Sheets of fitted labels as one HTML document with its style; pure text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from html import escape

from namekeeper.labels.drawing import Box, Letters
from namekeeper.labels.fitted import Fitted, Set
from namekeeper.labels.layout import PT, STEP, Block, Layout, Zone
from namekeeper.labels.pages import FOOTER_COLOUR, FOOTER_SIZE, Correction, Markings, Placed, cut_marks, footer_corner
from namekeeper.labels.pictures import SCHEME
from namekeeper.labels.placing import frame_of, picture_height, to_fill_in
from namekeeper.labels.sheets import StickerSheet
from namekeeper.labels.templates import LabelTemplate
from namekeeper.labels.text import Face

FONT_SCHEME = "label-font:"
LABEL_CLASS = "label"
LABELS_AT_ONCE = 400  # laid out in one go: more take more memory and no less time


def document(
    placed: Sequence[Placed],
    sheet: StickerSheet,
    template: LabelTemplate,
    correction: Correction,
    markings: Markings,
    *,
    drop: float,
) -> tuple[tuple[str, ...], str]:
    """The HTML of all pages, in parts that are laid out one after the other, and the CSS; the same text every time.

    ``drop`` in em is how far a baseline lies below the middle of its line.
    """
    marks = _marks(sheet, correction)
    picture = "" if template.markup else _picture(template.layout, sheet)
    labels: dict[int, list[str]] = {}
    for one in placed:
        classes = " ".join((f"p{one.place}", *_shifts(one.fitted, template.layout)))
        layout = template.layout
        inner = template.fill(values(one.fitted, sheet)) if template.markup else _zones(one.fitted, layout)
        inner += _to_fill_in(one.fitted, layout, sheet, drop) + picture
        labels.setdefault(one.page, []).append(f'<div class="{LABEL_CLASS} {classes}">{inner}</div>')
    pages = [
        f"<section>{''.join(inner)}{marks}{_footer(sheet, markings.footer_of(page, len(labels)))}</section>"
        for page, (_, inner) in enumerate(sorted(labels.items()), 1)
    ]
    step = max(1, LABELS_AT_ONCE // sheet.places)
    parts = tuple(_whole("".join(pages[at : at + step]), markings) for at in range(0, len(pages), step))
    return parts, stylesheet(placed, sheet, template, correction)


def _whole(body: str, markings: Markings) -> str:
    head = f'<meta charset="utf-8"><title>{escape(markings.title)}</title>'
    return f'<!DOCTYPE html><html lang="{escape(markings.language)}"><head>{head}</head><body>{body}</body></html>'


def values(fitted: Fitted, sheet: StickerSheet) -> dict[str, object]:
    """What a template may use."""
    from markupsafe import Markup

    def zone(name: str) -> Markup:
        """All blocks of a zone that are on the label."""
        return Markup(_zone(fitted, Zone(name)))  # noqa: S704

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
    """Classes for what differs from label to label: the width of the left column, heights kept free."""
    side = (f"w{_hundredths(fitted.side_width)}",) if fitted.side_width else ()
    head = (f"k{_hundredths(fitted.head)}",) if fitted.head else ()
    return (*side, *head, f"h{_hundredths(fitted.lead)}") if layout.centred else (*side, *head)


def _hundredths(length: float) -> int:
    return round(length * 100)


def _block(one: Set) -> str:
    """The lines of a block, one element each: boxes are what the engine's time goes into."""
    name = one.block.name
    lead = f" l{_hundredths(one.lead)}" if one.lead else ""
    start = f"b-{name} first{lead} s{one.size}"
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
    pad_x, pad_y = sheet.inset(*layout.pads)
    start = pad_x + Fraction(layout.indent).limit_denominator(1000)
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
        f".head {{ padding: {_mm(pad_y)} {_mm(pad_x)} 0 {_mm(start)} }}",
        f".body {{ margin: 0 {_mm(pad_x)} 0 {_mm(start)}; padding-top: {layout.gap}mm }}",
        f".foot {{ position: absolute; left: {_mm(start)}; right: {_mm(pad_x)}; bottom: {_mm(pad_y)} }}",
        *_shift_rules(placed, layout, start, pad_y),
        *(f".s{size} {{ font-size: {size / STEP}pt }}" for size in sizes),
        *(f".{face} {{ font-family: {face} }}" for face in sorted(faces)),
        *(_block_rule(block) for block in layout.blocks),
        *_lead_rules(placed),
        f".outside {{ position: absolute; font-size: {FOOTER_SIZE:g}pt; line-height: 1; color: {FOOTER_COLOUR} }}",
        ".mark { position: absolute; background: #000 }",
    ]
    return "\n".join((*rules, *(_description(layout) if template.markup is None else ()), template.style))


def _zones(fitted: Fitted, layout: Layout) -> str:
    """The label of a template that is drawn from its layout alone."""
    zones = {block.zone for block in layout.blocks} | ({Zone.BODY} if layout.rule else set())
    return "".join(f'<div class="{zone}">{_zone(fitted, zone)}</div>' for zone in Zone if zone in zones)


def _to_fill_in(fitted: Fitted, layout: Layout, sheet: StickerSheet, drop: float) -> str:
    """Lines and words for the pen; their places are computed, for nothing there depends on what the engine lays out."""
    frame = frame_of(sheet, layout)
    return "".join(
        f'<div class="mark" style="{_box(one)}; background: {one.colour}"></div>'
        if isinstance(one, Box)
        else _fixed(one, drop)
        for one in to_fill_in(fitted, layout, frame, (0.0, 0.0), drop)
    )


def _picture(layout: Layout, sheet: StickerSheet) -> str:
    """The picture of the layout in its box."""
    if (picture := layout.picture) is None:
        return ""
    frame = frame_of(sheet, layout)
    box = f"left: {frame.pad_x}mm; top: {frame.pad_y}mm; width: {picture.width}mm"
    style = f"position: absolute; {box}; height: {picture_height(picture, frame)}mm; object-fit: contain"
    return f'<img src="{SCHEME}{picture.name}" style="{style}; object-position: left top">'


def _fixed(one: Letters, drop: float) -> str:
    """A line of type at a place of its own."""
    top = one.baseline - (0.5 + drop) * one.size * PT
    text = escape("".join(text for text, _ in one.parts))
    style = f"left: {one.x:.6f}mm; top: {top:.6f}mm; font-size: {one.size:g}pt; color: {one.colour}"
    return f'<p class="outside" style="{style}">{text}</p>'


def _zone(fitted: Fitted, zone: Zone) -> str:
    return "".join(_block(one) for one in fitted.sets if one.block.zone is zone)


def _description(layout: Layout) -> Iterable[str]:
    """Colours, rules and bars of the layout as a style."""
    # A body beside a column is placed absolutely, by a stronger rule.
    yield ".body { position: relative }"
    if rule := layout.rule:
        line = f"left: 0; top: {rule.below}mm; width: {rule.length}mm; border-top: {rule.thick}mm solid {rule.colour}"
        yield f'.body::before {{ content: ""; position: absolute; {line} }}'
    if divider := layout.divider:
        line = f"left: {-divider.thick / 2}mm; top: 0; bottom: 0; border-left: {divider.thick}mm solid {divider.colour}"
        yield f'.body::after {{ content: ""; position: absolute; {line} }}'
    for block in layout.blocks:
        yield f".b-{block.name} {{ color: {block.colour} }}"
        if bar := block.bar:
            shift = f"margin-left: {-bar.gap - bar.thick}mm; padding-left: {bar.gap}mm"
            yield f".b-{block.name} {{ {shift}; border-left: {bar.thick}mm solid {bar.colour} }}"


def _shift_rules(placed: Sequence[Placed], layout: Layout, pad_x: Fraction, pad_y: Fraction) -> Iterable[str]:
    """The left column and what stands beside it; both in the middle of the height where the layout asks for that."""
    yield f".side {{ position: absolute; left: {_mm(pad_x)}; top: {_mm(pad_y)}; width: 0 }}"
    for side in sorted({_hundredths(one.fitted.side_width) for one in placed} - {0}):
        left = float(pad_x) + side / 100 + layout.side_gap / 2
        yield (
            f".w{side} .body {{ position: absolute; left: {left:.3f}mm; top: {_mm(pad_y)}; bottom: {_mm(pad_y)}; "
            f"right: 0; margin: 0; padding-left: {layout.side_gap / 2}mm }}"
        )
    if layout.centred:
        for lead in sorted({_hundredths(one.fitted.lead) for one in placed}):
            yield f".h{lead} > .side, .h{lead} > .body {{ padding-top: {lead / 100}mm }}"
    for head in sorted({_hundredths(one.fitted.head) for one in placed} - {0}):
        yield f".k{head} > .head {{ min-height: {head / 100}mm }}"


def _block_rule(block: Block) -> str:
    rule = f".b-{block.name} {{ line-height: {block.leading}; height: {block.leading}em }}"
    return rule + (f" .b-{block.name}.first {{ margin-top: {block.before}mm }}" if block.before else "")


def _lead_rules(placed: Sequence[Placed]) -> Iterable[str]:
    """Further white above blocks, so that they stand on the baselines of the run."""
    leads = {(one.block.name, one.block.before, _hundredths(one.lead)) for label in placed for one in label.fitted.sets}
    for name, before, lead in sorted(leads):
        if lead:
            yield f".b-{name}.first.l{lead} {{ margin-top: {before + lead / 100:.3f}mm }}"


def _face(face: Face) -> str:
    return f'@font-face {{ font-family: {face}; src: url("{FONT_SCHEME}{face}") }}'


def _size(lengths: tuple[Fraction, Fraction]) -> str:
    return f"width: {_mm(lengths[0])}; height: {_mm(lengths[1])}"


def _at(corner: tuple[Fraction, Fraction]) -> str:
    return f"left: {_mm(corner[0])}; top: {_mm(corner[1])}"


def _mm(length: Fraction) -> str:
    return f"{float(length):.6f}".rstrip("0").rstrip(".") + "mm"


def _footer(sheet: StickerSheet, text: str) -> str:
    corner = footer_corner(sheet)
    if not text or corner is None:
        return ""
    return f'<div class="outside" style="{_at(corner)}">{escape(text)}</div>'


def _marks(sheet: StickerSheet, correction: Correction) -> str:
    return "".join(f'<div class="mark" style="{_box(one)}"></div>' for one in cut_marks(sheet, correction))


def _box(box: Box) -> str:
    return f"left: {box.x:.6f}mm; top: {box.y:.6f}mm; width: {box.width}mm; height: {box.height}mm"
