"""Which place of which page a label gets; a partly used sheet keeps its holes."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from namekeeper.labels.sheets import StickerSheet
from namekeeper.words.errors import InputError

_RANGE = re.compile(r"(\d{1,4})(?:-(\d{1,4}))?", re.ASCII)


def used_places(text: str, sheet: StickerSheet) -> frozenset[int]:
    """Places counted from 0 of a text such as ``1-4,7``, which counts from 1.

    :raises InputError: for anything else, or a place the sheet does not have.
    """
    found: set[int] = set()
    for part in text.split(","):
        match = _RANGE.fullmatch(part.strip())
        first, last = (int(match[1]), int(match[2] or match[1])) if match else (0, 0)
        if not 1 <= first <= last <= sheet.places:
            what = f"'{part.strip()}' names no places of {sheet.key}"
            raise InputError(what, remedy=f"write places from 1 to {sheet.places}, such as 1-4,7")
        found.update(range(first - 1, last))
    return frozenset(found)


def before(start: int, sheet: StickerSheet) -> frozenset[int]:
    """Places used up when printing starts at place ``start``, counted from 1.

    :raises InputError: if the sheet has no such place.
    """
    if not 1 <= start <= sheet.places:
        what = f"{sheet.key} has no place {start}"
        raise InputError(what, remedy=f"places count from 1 to {sheet.places}, row by row")
    return frozenset(range(start - 1))


def free_places(sheet: StickerSheet, used: Collection[int]) -> Iterator[tuple[int, int]]:
    """Page and place, from 0, of every free place without end; ``used`` are holes of the first page only.

    :raises InputError: if the first sheet is full.
    """
    if len(set(used)) >= sheet.places:
        what = f"the sheet in use has no free place ({sheet.key})"
        raise InputError(what, remedy="put in a new sheet and leave --start, --used and --drawer away")
    page = 0
    while True:
        for place in range(sheet.places):
            if page or place not in used:
                yield page, place
        page += 1
