"""Whether laid-out labels say what was fitted: nothing lost, hidden, outside its label or over other text.

Shipped layouts cannot do wrong here, a keeper's own markup may. The boxes are those of the engine, in CSS pixels.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Any

from namekeeper.labels.decoration import CONTRAST, WHITE, Colour, contrast
from namekeeper.labels.markup import LABEL_CLASS
from namekeeper.labels.pages import Placed
from namekeeper.words.errors import InputError, Place

_TOLERANCE = 0.1  # CSS pixels, about 0.03 mm
_TOUCHING = 1.0  # letters of two lines may touch so far
_X_HEIGHT = 0.5  # em; the part of a line where nearly all letters have ink


@dataclass(frozen=True, slots=True)
class MeantLabel:
    """Of one label, the blocks that were fitted with their lines."""

    specimen: str
    blocks: tuple[tuple[str, tuple[str, ...]], ...]


def meant_labels(placed: Sequence[Placed]) -> tuple[MeantLabel, ...]:
    """What was fitted, in the order in which it is drawn."""
    return tuple(
        MeantLabel(
            one.fitted.content.specimen,
            tuple((block.block.name, tuple(line.text for line in block.lines)) for block in one.fitted.sets),
        )
        for one in sorted(placed, key=lambda one: one.page)
    )


def check_drawn(pages: Iterable[Any], meant: Sequence[MeantLabel], place: Place) -> int:
    """Compare laid-out pages with what was fitted, label by label; how many labels there are.

    ``place`` is the file that arranges them.

    :raises InputError: naming the block and the file.
    """
    labels = [label for page in pages for label in _labels(page._page_box)]
    for label, wanted in zip(labels, meant, strict=False):
        seen_texts = list(_texts(label, _Sight().through(label)))
        _check_readable(seen_texts, place)
        texts = [one.text for one in seen_texts]
        _check_inside(texts, label, place)
        seen = "".join("".join(str(text.text).split()) for text in texts)
        for block, lines in wanted.blocks:
            for line in lines:
                if "".join(line.split()) not in seen:
                    what = f"block '{block}' of {wanted.specimen} is not drawn: '{line}'"
                    raise _fault(what, place)
        _check_apart(texts, place)
    return len(labels)


def _check_readable(texts: Sequence[_Seen], place: Place) -> None:
    for one in texts:
        harm = "too pale to read" if one.faint() else "cut off" if one.cut() else ""
        if harm:
            what = f"'{str(one.text.text).strip()}' would be {harm}"
            raise _fault(what, place)


def _check_inside(texts: Sequence[Any], label: Any, place: Place) -> None:
    for text in texts:
        if _outside(text, label):
            what = f"'{str(text.text).strip()}' would stand outside its label"
            raise _fault(what, place)


def _check_apart(texts: Sequence[Any], place: Place) -> None:
    for one, other in combinations(texts, 2):
        if _overlap(_ink(one), _ink(other)):
            what = f"'{str(one.text).strip()}' and '{str(other.text).strip()}' lie over each other"
            raise _fault(what, place)


def _fault(what: str, place: Place) -> InputError:
    told = f"the labels cannot be drawn: {what}"
    return InputError(told, remedy="compare the template with a shipped one", place=place)


def _labels(box: Any) -> Iterator[Any]:
    for child in getattr(box, "children", ()):
        element = child.element
        if element is not None and LABEL_CLASS in (element.get("class") or "").split():
            yield child
        else:
            yield from _labels(child)


@dataclass(frozen=True, slots=True)
class _Sight:
    """What boxes around a text do to it: how opaque they are, their colour behind it, what they cut off."""

    opacity: float = 1.0
    ground: Colour = WHITE
    left: float = -float("inf")
    top: float = -float("inf")
    right: float = float("inf")
    bottom: float = float("inf")

    def through(self, box: Any) -> _Sight:
        style = box.style
        ground, alpha = _colour(style["background_color"])
        within = replace(self, opacity=self.opacity * style["opacity"], ground=ground if alpha == 1 else self.ground)
        if style["overflow"] == "visible":
            return within
        left, top = box.padding_box_x(), box.padding_box_y()
        return replace(
            within,
            left=max(within.left, left),
            top=max(within.top, top),
            right=min(within.right, left + box.padding_width()),
            bottom=min(within.bottom, top + box.padding_height()),
        )


@dataclass(frozen=True, slots=True)
class _Seen:
    """A text box of the engine as it is seen."""

    text: Any
    sight: _Sight

    def faint(self) -> bool:
        colour, alpha = _colour(self.text.style["color"])
        return self.sight.opacity * alpha < 1 or contrast(colour, self.sight.ground) < CONTRAST

    def cut(self) -> bool:
        left, top, right, bottom = _ink(self.text)
        sight = self.sight
        return (
            left < sight.left - _TOUCHING
            or top < sight.top - _TOUCHING
            or right > sight.right + _TOUCHING
            or bottom > sight.bottom + _TOUCHING
        )


def _colour(value: Any) -> tuple[Colour, float]:
    """Red, green, blue and how opaque; of the engine's colours."""
    red, green, blue = value.to("srgb").coordinates
    return (red, green, blue), value.alpha


def _texts(box: Any, sight: _Sight) -> Iterator[_Seen]:
    """Texts that are drawn."""
    for child in getattr(box, "children", ()):
        if not hasattr(child, "text"):
            yield from _texts(child, sight.through(child))
        elif child.style["visibility"] == "visible" and str(child.text).strip():
            yield _Seen(child, sight)


def _ink(text: Any) -> tuple[float, float, float, float]:
    baseline = text.position_y + text.baseline
    return text.position_x, baseline - _X_HEIGHT * text.style["font_size"], text.position_x + text.width, baseline


def _overlap(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > _TOUCHING and down > _TOUCHING


def _outside(text: Any, label: Any) -> bool:
    baseline = text.position_y + text.baseline
    return bool(
        text.position_x < label.position_x - _TOLERANCE
        or text.position_x + text.width > label.position_x + label.width + _TOLERANCE
        or baseline > label.position_y + label.height + _TOLERANCE
        or baseline < label.position_y
    )
