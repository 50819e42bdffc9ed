"""What a template asks for: blocks of text with their sizes, and the order in which they give way."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum, unique
from fractions import Fraction

from namekeeper.labels.decoration import Bar, BodyRule, Divider, read_bar, read_divider, read_ink, read_rule
from namekeeper.labels.drawing import BLACK
from namekeeper.labels.fill_in import NOTHING_TO_FILL_IN, FillIn, read_fill_in
from namekeeper.labels.fonts import Measure
from namekeeper.labels.pictures import Picture, read_picture
from namekeeper.labels.text import Face, Weight
from namekeeper.labels.yaml_texts import LayoutError, check_keys, line_of, list_of, mapping, number, word_of, yes_or_no
from namekeeper.words.errors import InputError, Place
from namekeeper.words.terms import LabelOrder

PT = 25.4 / 72  # one point in mm
STEP = 4  # sizes are whole quarters of a point
SMALLEST_X = 0.9  # mm; EU Regulation 1169/2011 Art. 13(3), small packs: nothing on a label is smaller
WISHED_X = 1.2  # mm; the same, Art. 13(2): the name is this large wherever space allows
REQUIRED = frozenset({"name", "id", "caution"})
FIELDS = (
    "name", "authorship", "former", "form", "common", "id", "sex", "stage", "acquired", "origin", "locality", "stands",
    "caution", "history", "tag", "title", "size", "mark", "price", "range", "years", "reports", "note", "listed",
    "papers", "determined",
)  # fmt: skip
SQUARE = "qr"
_CALM = 3.0  # mm; a padding wider than this shrinks on small labels
_KEYS = {
    "title", "padding", "gap", "blocks", "gives_way", "qr", "side", "centred", "wide_body", "brief", "on_enclosure",
    "rule", "divider", "made_for", "padding_x", "sheet", "order", "blanks", "grid", "tick", "floor", "picture",
}  # fmt: skip
_BLOCK_KEYS = {
    "show", "zone", "weight", "size", "lines", "leading", "before", "stacked", "one_line", "colour", "bar",
    "roomy",
}  # fmt: skip


@unique
class Zone(StrEnum):
    """Where a block stands: across the top, below it, at the foot, or in a column of its own at the left."""

    HEAD = "head"
    BODY = "body"
    FOOT = "foot"
    SIDE = "side"


@dataclass(frozen=True, slots=True)
class Block:
    """Text of one or more fields set alike; sizes in quarters of a point, lengths in mm."""

    fields: tuple[str, ...]
    zone: Zone
    weight: Weight
    least: int
    most: int
    lines: int
    leading: float
    before: float
    stacked: bool
    one_line: int  # from this size on the block stays on one line rather than grow further; 0 = never
    colour: str = BLACK
    bar: Bar | None = None
    roomy: int = 0  # the size it grows to where height is left over once all else has its size; 0 = no more than most

    @property
    def name(self) -> str:
        return self.fields[0]

    def grown(self, scale: float) -> Block:
        """The same with largest sizes ``scale`` times as large."""
        most, roomy, one_line = (round(size * scale) for size in (self.most, self.roomy, self.one_line))
        return replace(self, most=most, roomy=roomy, one_line=one_line)


@dataclass(frozen=True, slots=True)
class Layout:
    """All blocks of a template; ``gives_way`` names a field once for every step it can take."""

    key: str
    title: str
    padding: float
    blocks: tuple[Block, ...]
    gives_way: tuple[str, ...]
    gap: float  # between the head and what follows it
    square: tuple[float, float] | None  # least and best module of the QR code
    side_share: float
    side_gap: float
    centred: bool
    wide_body: bool  # the body runs the full width and the QR code stands beside the foot only
    brief: frozenset[str]  # fields that begin with their smallest form
    on_enclosure: bool  # whether such a label is what an enclosure says, and so is remembered
    rule: BodyRule | None = None
    divider: Divider | None = None
    made_for: tuple[float, float] | None = None  # width and height in mm of the label that the sizes are meant for
    padding_x: float | None = None  # at the left and right, where it is not the same as above and below
    sheet: str = ""  # the sheet it is printed on if none is asked for; empty: the collection's
    order: LabelOrder | None = None  # of its labels, if none is asked for
    fill_in: FillIn = NOTHING_TO_FILL_IN
    picture: Picture | None = None

    @property
    def fields(self) -> frozenset[str]:
        """All fields it shows."""
        return frozenset(name for block in self.blocks for name in block.fields)

    @property
    def pads(self) -> tuple[Fraction, Fraction]:
        """Padding in x and y, exact."""
        across = self.padding if self.padding_x is None else self.padding_x
        return Fraction(across).limit_denominator(1000), Fraction(self.padding).limit_denominator(1000)

    @property
    def indent(self) -> float:
        """How far, in mm, text begins to the right of the padding: beside a picture."""
        return self.picture.width + self.picture.gap if self.picture else 0.0

    def grown(self, width: float, height: float) -> Layout:
        """The same for a label of ``width`` x ``height`` mm.

        With a label larger than meant the largest sizes grow, with a smaller one a wide padding shrinks.
        """
        if self.made_for is None:
            return self
        scale = math.sqrt(width * height / (self.made_for[0] * self.made_for[1]))
        if scale >= 1:
            return self._with_white(scale, tuple(block.grown(scale) for block in self.blocks))
        padding = max(min(self.padding, _CALM), self.padding * scale)
        return replace(self._with_white(padding / self.padding, self.blocks), padding=padding)

    def _with_white(self, scale: float, blocks: tuple[Block, ...]) -> Layout:
        """The same with all white between blocks ``scale`` times as high."""
        rule = self.rule and replace(self.rule, below=self.rule.below * scale)
        spaced = tuple(replace(block, before=block.before * scale) for block in blocks)
        return replace(self, blocks=spaced, gap=self.gap * scale, rule=rule)

    def ink_pads(self, pads: tuple[Fraction, Fraction]) -> tuple[Fraction, Fraction]:
        """Of a padding in mm, what stays white: bars stand in it."""
        bars = 0.0 if self.picture else _widest_bar(self.blocks)
        return pads[0] - Fraction(bars).limit_denominator(1000), pads[1]

    def unplaced(self) -> str:
        """Why the blocks cannot be drawn in their zones, empty if they can."""
        zones = {block.zone for block in self.blocks}
        if Zone.SIDE in zones and zones & {Zone.HEAD, Zone.FOOT}:
            return "beside a side column all blocks stand in the body"
        if self.fill_in.part and Zone.SIDE in zones:
            return "blanks or a grid do not stand beside a side column"
        return ""


def _widest_bar(blocks: Sequence[Block]) -> float:
    """How far bars reach to the left of the text, in mm."""
    return max((block.bar.gap + block.bar.thick for block in blocks if block.bar), default=0.0)


def smallest_size(measure: Measure) -> int:
    """The smallest size allowed, in quarters of a point, by the height of the letter x in the text face."""
    return math.ceil(SMALLEST_X / PT / measure.x_height(Face.REGULAR) * STEP)


def wished_name_size(measure: Measure) -> int:
    """The size of the name wherever there is room for it, in quarters of a point."""
    return math.ceil(WISHED_X / PT / measure.x_height(Face.REGULAR) * STEP)


def layout_from(key: str, document: object, floor: int, place: Place) -> Layout:
    """A layout from its YAML, every scalar as text; ``floor`` is the smallest size allowed, in quarters of a point.

    :raises InputError: naming the template and what is wrong.
    """
    try:
        layout = _read(key, mapping(document, "the file"), floor)
    except LayoutError as fault:
        what = f"template '{key}': {fault}"
        at = Place(place.file, fault.line)
        raise InputError(what, remedy="see the shipped layouts for how one is written", place=at) from None
    return layout


def _read(key: str, document: Mapping[str, object], floor: int) -> Layout:
    check_keys(document, _KEYS, "the file")
    padding = number(document.get("padding", "2"), "padding", 0, 30)
    across = number(document.get("padding_x", str(padding)), "padding_x", 0, 30)
    gap = number(document.get("gap", "0"), "gap", 0, 50)
    blocks = tuple(_block(entry, floor, across) for entry in list_of(document.get("blocks"), "blocks", filled=True))
    used = _shown_once(blocks)
    order = tuple(_field(field, allow_square=True) for field in list_of(document.get("gives_way", []), "gives_way"))
    stuck = [field for field in used if field not in order and field not in REQUIRED]
    if stuck:
        message = f"gives_way does not name '{stuck[0]}'"
        raise LayoutError(message, line_of(document.get("gives_way"), stuck[0]))
    side = mapping(document.get("side", {}), "side")
    check_keys(side, {"share", "gap"}, "side")
    return Layout(
        key=key,
        title=str(document.get("title", key)),
        padding=padding,
        blocks=blocks,
        gives_way=order,
        gap=gap,
        square=_square(document.get("qr")),
        side_share=number(side.get("share", "0.3"), "share", 0.05, 0.7),
        side_gap=number(side.get("gap", "2"), "gap", 0, 30),
        centred=yes_or_no(document.get("centred", "no"), "centred"),
        wide_body=yes_or_no(document.get("wide_body", "no"), "wide_body"),
        brief=frozenset(_field(field) for field in list_of(document.get("brief", []), "brief")),
        on_enclosure=yes_or_no(document.get("on_enclosure", "yes"), "on_enclosure"),
        rule=read_rule(document.get("rule"), gap),
        divider=read_divider(document.get("divider")),
        made_for=_made_for(document.get("made_for")),
        padding_x=across if across != padding else None,
        sheet=str(document.get("sheet", "")),
        order=word_of(LabelOrder, document["order"], "order") if "order" in document else None,
        fill_in=read_fill_in(document, across),
        picture=read_picture(document, _widest_bar(blocks)),
    )


def _shown_once(blocks: Sequence[Block]) -> list[str]:
    """The fields that blocks show; name and id must be among them, and none twice."""
    used = [field for block in blocks for field in block.fields]
    for needed in ("name", "id"):
        if needed not in used:
            message = f"no block shows the {needed}"
            raise LayoutError(message)
    for place, field in enumerate(used):
        if field in used[:place]:
            message = f"two blocks show '{field}'"
            raise LayoutError(message, line_of(field))
    return used


def _block(entry: object, floor: int, padding: float) -> Block:
    fields = mapping(entry, "a block")
    check_keys(fields, _BLOCK_KEYS, "a block")
    shown = fields.get("show")
    names = tuple(_field(name) for name in (shown if isinstance(shown, list) else [shown]))
    what = f"block '{names[0]}'" if names else "a block"
    if not names:
        message = f"{what} shows nothing"
        raise LayoutError(message, line_of(entry))
    sizes = list_of(fields.get("size"), f"size of {what}")
    if len(sizes) != 2:
        message = f"size of {what} should be [least, most]"
        raise LayoutError(message, line_of(sizes, entry))
    least, most = (round(number(size, f"size of {what}", 1, 200) * STEP) for size in sizes)
    if least < floor or most < least:
        message = f"size of {what}: least is at least {floor / STEP} pt, most is not less than least"
        raise LayoutError(message, line_of(sizes, entry))
    return Block(
        fields=names,
        zone=word_of(Zone, fields.get("zone", "body"), what),
        weight=word_of(Weight, fields.get("weight", "regular"), what),
        least=least,
        most=most,
        lines=int(number(fields.get("lines", "1"), f"lines of {what}", 1, 60)),
        leading=number(fields.get("leading", "1.15"), f"leading of {what}", 1, 3),
        before=number(fields.get("before", "0"), f"space before {what}", 0, 50),
        stacked=yes_or_no(fields.get("stacked", "no"), f"stacked of {what}"),
        one_line=round(number(fields.get("one_line", "0"), f"one_line of {what}", 0, 200) * STEP),
        colour=read_ink(fields.get("colour", BLACK), what),
        bar=read_bar(fields.get("bar"), what, padding),
        roomy=round(number(fields.get("roomy", "0"), f"roomy of {what}", 0, 200) * STEP),
    )


def _made_for(value: object) -> tuple[float, float] | None:
    if value is None:
        return None
    sides = [number(side, "made_for", 5, 500) for side in list_of(value, "made_for")]
    if len(sides) != 2:
        message = "made_for should be [width, height] of a label in mm"
        raise LayoutError(message, line_of(value))
    return sides[0], sides[1]


def _square(value: object) -> tuple[float, float] | None:
    if value is None:
        return None
    fields = mapping(value, "qr")
    check_keys(fields, {"module"}, "qr")
    sizes = list_of(fields.get("module"), "module of qr", filled=True)
    least, best = (number(size, "module of qr", 0.33, 3) for size in (sizes[0], sizes[-1]))
    return least, max(least, best)


def _field(name: object, *, allow_square: bool = False) -> str:
    if isinstance(name, str) and (name in FIELDS or (allow_square and name == SQUARE)):
        return name
    message = f"there is no field '{name}'; fields are {', '.join(FIELDS)}"
    raise LayoutError(message, line_of(name))
