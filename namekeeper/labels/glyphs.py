"""Whether every character of a label can be drawn; asked before anything is printed."""

from __future__ import annotations

import unicodedata

from namekeeper.labels.content import LabelContent
from namekeeper.labels.fonts import Measure
from namekeeper.labels.layout import Layout
from namekeeper.labels.text import words_of

CANNOT_DRAW = "which no shipped type can draw"


def unprintable(content: LabelContent, layout: Layout, measure: Measure) -> str:
    """What cannot be drawn of the fields the layout shows, in words; empty if all can."""
    for block in layout.blocks:
        for field in block.fields:
            for variant in content.fields.get(field, ()):
                for word in words_of(variant, block.weight):
                    for text, face in word.parts:
                        if missing := measure.missing(text, face):
                            return f"the {field} has {_named(missing[0])}, {CANNOT_DRAW}"
    return ""


def _named(char: str) -> str:
    name = unicodedata.name(char, "a character without a name").lower()
    return f"'{char}' ({name}, U+{ord(char):04X})"
