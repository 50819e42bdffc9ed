"""What a report consists of, for a face to lay out: on a terminal of any width, or on a page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple


class Heading(NamedTuple):
    """Begins a section."""

    text: str


class TextLine(NamedTuple):
    """A line that is not folded: something to copy, or short."""

    text: str = ""


class Folded(NamedTuple):
    """A paragraph, folded to the width; ``indent`` in columns."""

    text: str
    indent: int = 0


class NameItem(NamedTuple):
    """An item of a list: a name, and the authorship behind it."""

    name: str
    authorship: str


class Numbered(NamedTuple):
    """A name to choose by its number."""

    number: int
    name: str
    authorship: str


class Grid(NamedTuple):
    """A table; nothing is shown of one without rows. ``folds_first`` is the column that gives way first."""

    headers: Sequence[str]
    rows: Sequence[Sequence[str]]
    folds_first: int | None = None


def counted(number: int, what: str, several: str = "") -> str:
    """ "1 row", "2 rows"; ``several`` where an s is not enough."""
    return f"{number} {what if number == 1 else several or what + 's'}"


Part = Heading | TextLine | Folded | NameItem | Numbered | Grid
BLANK = TextLine()
