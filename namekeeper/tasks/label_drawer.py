"""The partly used sheets in the keeper's drawer: which places are gone, by kind of sheet."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from namekeeper.files.memory import recall, remember
from namekeeper.files.places import Places
from namekeeper.words.errors import FileError


def _file(places: Places) -> Path:
    return places.state / "label-sheets.json"


def used_in_drawer(places: Places, sheet_key: str) -> frozenset[int]:
    """Places, from 0, used on the last sheet of that kind; none if nothing is remembered or the memory is damaged."""
    return frozenset(_remembered(places).get(sheet_key, ()))


def remember_sheet(places: Places, sheet_key: str, used: Collection[int], of: int) -> None:
    """Remember the last sheet printed on; a full sheet is forgotten.

    :raises FileError: if the memory cannot be written.
    """
    known = _remembered(places)
    known.pop(sheet_key, None)
    if 0 < len(used) < of:
        known[sheet_key] = sorted(used)
    remember(_file(places), known)


def _remembered(places: Places) -> dict[str, list[int]]:
    try:
        known = recall(_file(places))
    except FileError:
        return {}
    if not isinstance(known, dict):
        return {}
    return {
        str(key): [number for number in numbers if isinstance(number, int) and number >= 0]
        for key, numbers in known.items()
        if isinstance(numbers, list)
    }
