"""Colours, rules and bars as a layout describes them; lengths in mm."""

from __future__ import annotations

import re
from dataclasses import dataclass

from namekeeper.labels.drawing import BLACK
from namekeeper.labels.yaml_texts import LayoutError, check_keys, line_of, mapping, number

Colour = tuple[float, float, float]  # red, green and blue, 0 to 1
WHITE: Colour = (1.0, 1.0, 1.0)
_COLOUR = re.compile(r"#[0-9a-f]{6}", re.ASCII)
CONTRAST = 4.5  # with white; WCAG 2.2, success criterion 1.4.3


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


def read_bar(value: object, what: str, padding: float) -> Bar | None:
    """The bar of a block from its fields.

    :raises LayoutError: naming the key that cannot be read.
    """
    if value is None:
        return None
    fields = mapping(value, f"bar of {what}")
    check_keys(fields, {"thick", "gap", "colour"}, f"bar of {what}")
    thick = number(fields.get("thick", "0.4"), f"thick of the bar of {what}", 0.05, 5)
    gap = number(fields.get("gap", "0.6"), f"gap of the bar of {what}", 0, 10)
    if thick + gap > padding:
        message = f"the bar of {what} stands in the padding, which is only {padding:g} mm wide"
        raise LayoutError(message, line_of(value))
    return Bar(thick, gap, _colour(fields.get("colour", BLACK), f"bar of {what}"))


def read_rule(value: object, gap: float) -> BodyRule | None:
    """The rule below the head, in a gap of ``gap`` mm.

    :raises LayoutError: naming the key that cannot be read.
    """
    if value is None:
        return None
    fields = mapping(value, "rule")
    check_keys(fields, {"thick", "length", "below", "colour"}, "rule")
    thick = number(fields.get("thick", "0.35"), "thick of rule", 0.05, 5)
    below = number(fields.get("below", "0"), "below of rule", 0, 50)
    if below + thick > gap:
        message = f"the rule stands in the gap below the head, which is only {gap:g} mm high"
        raise LayoutError(message, line_of(value))
    length = number(fields.get("length", "9"), "length of rule", 1, 200)
    return BodyRule(thick, length, below, _colour(fields.get("colour", BLACK), "rule"))


def read_divider(value: object) -> Divider | None:
    """The line beside the column at the left.

    :raises LayoutError: naming the key that cannot be read.
    """
    if value is None:
        return None
    fields = mapping(value, "divider")
    check_keys(fields, {"thick", "colour"}, "divider")
    thick = number(fields.get("thick", "0.35"), "thick of divider", 0.05, 5)
    return Divider(thick, _colour(fields.get("colour", BLACK), "divider"))


def read_ink(value: object, what: str) -> str:
    """A colour of text, dark enough to be read on white.

    :raises LayoutError: if it is no colour, or too pale.
    """
    colour = _colour(value, what)
    if _contrast_with_white(colour) < CONTRAST:
        message = f"the colour {colour} of {what} is too pale to be read on white"
        raise LayoutError(message, line_of(value))
    return colour


def _colour(value: object, what: str) -> str:
    text = str(value).casefold()
    if not _COLOUR.fullmatch(text):
        message = f"the colour of {what} should be six digits such as '#7a3b1e', not '{value}'"
        raise LayoutError(message, line_of(value))
    return text


def _contrast_with_white(colour: str) -> float:
    """Contrast of ``#rrggbb`` with white."""
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return contrast((red, green, blue), WHITE)


def contrast(one: Colour, other: Colour) -> float:
    """Contrast of two colours by WCAG 2.2, 1 to 21."""
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def _luminance(colour: Colour) -> float:
    """Relative luminance of sRGB by WCAG 2.2."""
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
