"""What a template asks for: blocks of text with their sizes, and the order in which they give way."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum, unique

from namekeeper.labels.drawing import BLACK
from namekeeper.labels.fonts import Measure
from namekeeper.labels.text import Face, Weight
from namekeeper.labels.yaml_texts import check_keys, list_of, mapping, number, word_of, yes_or_no
from namekeeper.words.errors import InputError, Place

PT = 25.4 / 72  # one point in mm
STEP = 4  # sizes are whole quarters of a point
SMALLEST_X = 0.9  # mm; EU Regulation 1169/2011 Art. 13(3), small packs: nothing on a label is smaller
WISHED_X = 1.2  # mm; the same, Art. 13(2): the name is this large wherever space allows
REQUIRED = frozenset({"name", "id", "caution"})
FIELDS = (
    "name", "authorship", "former", "form", "common", "id", "sex", "stage", "acquired", "origin", "locality", "stands",
    "caution", "history", "tag", "title",
)  # fmt: skip
SQUARE = "qr"
_KEYS = {
    "title", "padding", "gap", "blocks", "gives_way", "qr", "side", "centred", "wide_body", "brief", "on_enclosure",
    "rule", "divider",
}  # fmt: skip
_BLOCK_KEYS = {
    "show", "zone", "weight", "size", "lines", "leading", "before", "stacked", "one_line", "colour", "bar",
    "roomy",
}  # fmt: skip
_COLOUR = re.compile(r"#[0-9a-f]{6}", re.ASCII)
_CONTRAST = 4.5  # with white; WCAG 2.2, success criterion 1.4.3


@unique
class Zone(StrEnum):
    """Where a block stands: across the top, below it, at the foot, or in a column of its own at the left."""

    HEAD = "head"
    BODY = "body"
    FOOT = "foot"
    SIDE = "side"


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar along the left of a block, ``gap`` mm from its text, in the label's padding."""

    thick: float
    gap: float
    colour: str


@dataclass(frozen=True, slots=True)
class BodyRule:
    """A line across the top of the body, ``below`` mm under the head."""

    thick: float
    length: float
    below: float
    colour: str


@dataclass(frozen=True, slots=True)
class Divider:
    """A line between the column at the left and what stands beside it."""

    thick: float
    colour: str


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

    def unplaced(self) -> str:
        """Why the blocks cannot be drawn in their zones, empty if they can."""
        zones = {block.zone for block in self.blocks}
        if Zone.SIDE in zones and zones & {Zone.HEAD, Zone.FOOT}:
            return "beside a side column all blocks stand in the body"
        return ""


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
    except ValueError as fault:
        what = f"template '{key}': {fault}"
        raise InputError(what, remedy="see the shipped layouts for how one is written", place=place) from None
    return layout


def _read(key: str, document: Mapping[str, object], floor: int) -> Layout:
    check_keys(document, _KEYS, "the file")
    padding = number(document.get("padding", "2"), "padding", 0, 30)
    gap = number(document.get("gap", "0"), "gap", 0, 50)
    blocks = tuple(_block(entry, floor, padding) for entry in list_of(document.get("blocks"), "blocks", filled=True))
    used = [field for block in blocks for field in block.fields]
    for needed in ("name", "id"):
        if needed not in used:
            message = f"no block shows the {needed}"
            raise ValueError(message)
    if doubled := {field for field in used if used.count(field) > 1}:
        message = f"two blocks show '{sorted(doubled)[0]}'"
        raise ValueError(message)
    order = tuple(_field(field, allow_square=True) for field in list_of(document.get("gives_way", []), "gives_way"))
    stuck = [field for field in used if field not in order and field not in REQUIRED]
    if stuck:
        message = f"gives_way does not name '{stuck[0]}'"
        raise ValueError(message)
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
        rule=_rule(document.get("rule"), gap),
        divider=_divider(document.get("divider")),
    )


def _block(entry: object, floor: int, padding: float) -> Block:
    fields = mapping(entry, "a block")
    check_keys(fields, _BLOCK_KEYS, "a block")
    shown = fields.get("show")
    names = tuple(_field(name) for name in (shown if isinstance(shown, list) else [shown]))
    what = f"block '{names[0]}'" if names else "a block"
    if not names:
        message = f"{what} shows nothing"
        raise ValueError(message)
    sizes = list_of(fields.get("size"), f"size of {what}")
    if len(sizes) != 2:
        message = f"size of {what} should be [least, most]"
        raise ValueError(message)
    least, most = (round(number(size, f"size of {what}", 1, 200) * STEP) for size in sizes)
    if least < floor or most < least:
        message = f"size of {what}: least is at least {floor / STEP} pt, most is not less than least"
        raise ValueError(message)
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
        colour=_ink(fields.get("colour", BLACK), what),
        bar=_bar(fields.get("bar"), what, padding),
        roomy=round(number(fields.get("roomy", "0"), f"roomy of {what}", 0, 200) * STEP),
    )


def _bar(value: object, what: str, padding: float) -> Bar | None:
    if value is None:
        return None
    fields = mapping(value, f"bar of {what}")
    check_keys(fields, {"thick", "gap", "colour"}, f"bar of {what}")
    thick = number(fields.get("thick", "0.4"), f"thick of the bar of {what}", 0.05, 5)
    gap = number(fields.get("gap", "0.6"), f"gap of the bar of {what}", 0, 10)
    if thick + gap > padding:
        message = f"the bar of {what} stands in the padding, which is only {padding:g} mm wide"
        raise ValueError(message)
    return Bar(thick, gap, _colour(fields.get("colour", BLACK), f"bar of {what}"))


def _rule(value: object, gap: float) -> BodyRule | None:
    if value is None:
        return None
    fields = mapping(value, "rule")
    check_keys(fields, {"thick", "length", "below", "colour"}, "rule")
    thick = number(fields.get("thick", "0.35"), "thick of rule", 0.05, 5)
    below = number(fields.get("below", "0"), "below of rule", 0, 50)
    if below + thick > gap:
        message = f"the rule stands in the gap below the head, which is only {gap:g} mm high"
        raise ValueError(message)
    length = number(fields.get("length", "9"), "length of rule", 1, 200)
    return BodyRule(thick, length, below, _colour(fields.get("colour", BLACK), "rule"))


def _divider(value: object) -> Divider | None:
    if value is None:
        return None
    fields = mapping(value, "divider")
    check_keys(fields, {"thick", "colour"}, "divider")
    thick = number(fields.get("thick", "0.35"), "thick of divider", 0.05, 5)
    return Divider(thick, _colour(fields.get("colour", BLACK), "divider"))


def _ink(value: object, what: str) -> str:
    """A colour of text, dark enough to be read on white."""
    colour = _colour(value, what)
    if contrast_with_white(colour) < _CONTRAST:
        message = f"the colour {colour} of {what} is too pale to be read on white"
        raise ValueError(message)
    return colour


def _colour(value: object, what: str) -> str:
    text = str(value).casefold()
    if not _COLOUR.fullmatch(text):
        message = f"the colour of {what} should be six digits such as '#7a3b1e', not '{value}'"
        raise ValueError(message)
    return text


def contrast_with_white(colour: str) -> float:
    """Contrast of ``#rrggbb`` with white by WCAG 2.2 ("relative luminance")."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)


def _square(value: object) -> tuple[float, float] | None:
    if value is None:
        return None
    fields = mapping(value, "qr")
    check_keys(fields, {"module"}, "qr")
    sizes = list_of(fields.get("module"), "module of qr", filled=True)
    least, best = (number(size, "module of qr", 0.33, 3) for size in (sizes[0], sizes[-1]))
    return least, max(least, best)


def _field(name: object, *, allow_square: bool = False) -> str:
    if name in FIELDS or (allow_square and name == SQUARE):
        return str(name)
    message = f"there is no field '{name}'; fields are {', '.join(FIELDS)}"
    raise ValueError(message)
