"""A look at laid-out pages before they become a PDF: whether text left its label, whether a foreign font crept in.

Shipped templates cannot do either; a keeper's own may. The boxes are those of the layout engine, in CSS pixels.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from namekeeper.labels.text import Face

LABEL_CLASS = "label"
_TOLERANCE = 0.1  # CSS pixels, about 0.03 mm


def strayed_text(pages: Iterable[Any]) -> str | None:
    """The first text that stands outside its label, None if all stand inside."""
    for page in pages:
        for label in _labels(page._page_box):
            for text in _texts(label):
                if _outside(text, label):
                    return str(text.text).strip()
    return None


def foreign_font(fonts: Iterable[Any]) -> str | None:
    """The first font that is none of the shipped faces."""
    shipped = {face.value for face in Face}
    return next((str(font.family) for font in fonts if font.family not in shipped), None)


def _labels(box: Any) -> Iterator[Any]:
    for child in getattr(box, "children", ()):
        element = child.element
        if element is not None and LABEL_CLASS in (element.get("class") or "").split():
            yield child
        else:
            yield from _labels(child)


def _texts(box: Any) -> Iterator[Any]:
    for child in getattr(box, "children", ()):
        if hasattr(child, "text"):
            yield child
        else:
            yield from _texts(child)


def _outside(text: Any, label: Any) -> bool:
    baseline = text.position_y + text.baseline
    return bool(
        text.position_x < label.position_x - _TOLERANCE
        or text.position_x + text.width > label.position_x + label.width + _TOLERANCE
        or baseline > label.position_y + label.height + _TOLERANCE
        or baseline < label.position_y
    )
