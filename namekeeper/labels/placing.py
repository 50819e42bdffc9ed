"""From fitted labels to what is drawn: every line on its baseline, rules, bars and QR codes; arithmetic only."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from namekeeper.labels.drawing import Box, Dots, LabelDrawing, Letters, PageDrawing, Shown, Square, Symbol
from namekeeper.labels.fill_in import Area
from namekeeper.labels.fitted import QUIET, Fitted, Set
from namekeeper.labels.layout import PT, STEP, Layout, Zone
from namekeeper.labels.pages import FOOTER_COLOUR, FOOTER_SIZE, Correction, Markings, Placed, cut_marks, footer_corner
from namekeeper.labels.pictures import Picture
from namekeeper.labels.qr import squares
from namekeeper.labels.sheets import StickerSheet
from namekeeper.labels.text import Face


@dataclass(frozen=True, slots=True)
class Frame:
    """A label of a sheet: its width and height, its padding in x and y, and what a picture takes at the left, in mm."""

    width: float
    height: float
    pad_x: float
    pad_y: float
    indent: float = 0.0


def frame_of(sheet: StickerSheet, layout: Layout) -> Frame:
    """Labels of a sheet with the padding of a layout."""
    pads = sheet.inset(*layout.pads)
    width, height, pad_x, pad_y = (float(side) for side in (sheet.width, sheet.height, *pads))
    return Frame(width, height, pad_x, pad_y, layout.indent)


def picture_height(picture: Picture, frame: Frame) -> float:
    """The height of a picture's box in mm, no more than the label has between its paddings."""
    return min(picture.height, frame.height - 2 * frame.pad_y)


def pages_of(
    placed: Sequence[Placed],
    sheet: StickerSheet,
    correction: Correction,
    markings: Markings,
    *,
    layout: Layout,
    frame: Frame,
    symbols: Mapping[str, Symbol],
    drop: float,
    dots: Dots | None = None,
) -> tuple[PageDrawing, ...]:
    """All pages; ``drop`` in em is how far a baseline lies below the middle of its line, ``dots`` are the picture's."""
    codes = squares(placed, sheet, (frame.pad_x, frame.pad_y), correction, symbols)
    labels: dict[int, list[LabelDrawing]] = defaultdict(list)
    for one, code in zip(placed, codes, strict=True):
        x, y = (float(side) for side in correction.apply(sheet.corner(one.place)))
        labels[one.page].append(_Label(one.fitted, layout, frame, (x, y), drop).drawn(code, dots))
    marks = cut_marks(sheet, correction)
    width, height = (float(side) for side in sheet.paper)
    return tuple(
        PageDrawing(width, height, tuple(drawn), marks, _footer(sheet, markings.footer_of(page, len(labels)), drop))
        for page, (_, drawn) in enumerate(sorted(labels.items()), 1)
    )


def _footer(sheet: StickerSheet, text: str, drop: float) -> tuple[Letters, ...]:
    corner = footer_corner(sheet)
    if not text or corner is None:
        return ()
    x, y = (float(side) for side in corner)
    baseline = y + (0.5 + drop) * FOOTER_SIZE * PT
    return (Letters(x, baseline, FOOTER_SIZE, ((text, Face.REGULAR),), FOOTER_COLOUR),)


def to_fill_in(
    fitted: Fitted, layout: Layout, frame: Frame, corner: tuple[float, float], drop: float
) -> tuple[Box | Letters, ...]:
    """What is drawn to be filled in by hand, in the room between body and foot, or beside the QR code."""
    heights = {zone: sum(one.height for one in fitted.sets if one.block.zone is zone) for zone in Zone}
    head = max(heights[Zone.HEAD], fitted.head)
    upper = head + (layout.gap if heights[Zone.BODY] or layout.rule else 0.0) + heights[Zone.BODY]
    quiet = min(QUIET * fitted.module, frame.pad_y)
    lower = max(heights[Zone.FOOT], fitted.square - quiet if fitted.square else 0.0)
    left, top = corner
    bottom = top + frame.height - frame.pad_y - lower
    width = frame.width - 2 * frame.pad_x - frame.indent
    area = Area(left + frame.pad_x + frame.indent, top + frame.pad_y + upper, width, bottom)
    return layout.fill_in.drawn(area, Area(left, top, frame.width, top + frame.height), drop)


class _Label:
    """One label with its top left corner."""

    def __init__(self, fitted: Fitted, layout: Layout, frame: Frame, corner: tuple[float, float], drop: float) -> None:
        self._fitted = fitted
        self._layout = layout
        self._frame = frame
        self._left, self._top = corner
        self._drop = drop
        self._boxes: list[Box] = []
        self._blocks: dict[str, tuple[Letters, ...]] = {}

    def drawn(self, code: Square | None, dots: Dots | None) -> LabelDrawing:
        frame, layout, fitted = self._frame, self._layout, self._fitted
        left, top = self._left + frame.pad_x + frame.indent, self._top + frame.pad_y
        lead = fitted.lead
        self._column(Zone.SIDE, left, top + lead)
        if fitted.side_width:
            self._divide(left + fitted.side_width + layout.side_gap / 2)
            left += fitted.side_width + layout.side_gap
            self._column(Zone.BODY, left, top + lead)
        else:
            body = max(self._column(Zone.HEAD, left, top + lead), top + lead + fitted.head)
            self._rule(left, body)
            self._column(Zone.BODY, left, body + layout.gap)
        foot = sum(one.height for one in self._sets(Zone.FOOT))
        self._column(Zone.FOOT, left, self._top + frame.height - frame.pad_y - foot)
        order = [one.block.name for one in fitted.sets]
        filled = to_fill_in(fitted, layout, frame, (self._left, self._top), self._drop)
        boxes = (*self._boxes, *(one for one in filled if isinstance(one, Box)))
        words = ((one,) for one in filled if isinstance(one, Letters))
        return LabelDrawing(boxes, (*(self._blocks[name] for name in order), *words), code, self._picture(dots))

    def _picture(self, dots: Dots | None) -> Shown | None:
        """The picture as large as its box and the label allow, at the upper left."""
        picture, frame = self._layout.picture, self._frame
        if picture is None or dots is None:
            return None
        scale = min(picture.width / dots.columns, picture_height(picture, frame) / dots.rows)
        left, top = self._left + frame.pad_x, self._top + frame.pad_y
        return Shown(left, top, dots.columns * scale, dots.rows * scale, dots)

    def _sets(self, zone: Zone) -> Iterator[Set]:
        return (one for one in self._fitted.sets if one.block.zone is zone)

    def _column(self, zone: Zone, x: float, y: float) -> float:
        """The blocks of a zone from ``y`` on; where they end."""
        for one in self._sets(zone):
            block, size = one.block, one.size / STEP
            step = block.leading * size * PT
            first = y + block.before + one.lead
            y = first + step * len(one.lines)
            baseline = first + step / 2 + self._drop * size * PT
            language = self._fitted.content.languages.get(block.name, "") if len(block.fields) == 1 else ""
            self._blocks[block.name] = tuple(
                Letters(x, baseline + step * number, size, line.parts, block.colour, language)
                for number, line in enumerate(one.lines)
            )
            if block.bar:
                bar = block.bar
                self._boxes.append(Box(x - bar.gap - bar.thick, first, bar.thick, y - first, bar.colour))
        return y

    def _rule(self, x: float, y: float) -> None:
        rule = self._layout.rule
        if rule:
            self._boxes.append(Box(x, y + rule.below, rule.length, rule.thick, rule.colour))

    def _divide(self, x: float) -> None:
        divider, frame = self._layout.divider, self._frame
        if divider:
            height = frame.height - 2 * frame.pad_y
            self._boxes.append(
                Box(x - divider.thick / 2, self._top + frame.pad_y, divider.thick, height, divider.colour)
            )
