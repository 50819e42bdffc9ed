"""From the cells of a row to a named tuple: which column, or which constant, fills which field."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import TypeVar

from namekeeper.sources.lists.skips import Skips

_Row = TypeVar("_Row")


@dataclass(frozen=True, slots=True)
class Column:
    """Where a field comes from: a column of the table (from 0), a constant for empty cells, or both."""

    index: int | None = None
    default: str = ""


def mapped(
    rows: Iterator[tuple[int, list[str]]],
    fields: Sequence[str],
    columns: Mapping[str, Column],
    make: Callable[[tuple[str | int, ...]], _Row],
    *,
    skips: Skips,
    file: str,
) -> Iterator[_Row]:
    """Rows of ``make``, a named tuple whose first field is the line and whose others are ``fields``.

    A row with fewer or more cells than the first row is skipped: its cells may stand in the wrong columns.
    """
    used = [columns.get(field, Column()) for field in fields]
    # In front of all stands the line, which is put at the end of the cells, behind an empty one for what is not there.
    places = [-1, *(-2 if column.index is None else column.index for column in used)]
    defaulted = [(place, column.default) for place, column in enumerate(used, 1) if column.default]
    furthest = max(places)
    pick: Callable[[list[str | int]], tuple[str | int, ...]] = itemgetter(*places)
    width = 0
    for line, cells in rows:
        size = len(cells)
        width = width or size
        if size != width or size <= furthest:
            skips.add(line, f"has {size} cells, not {max(width, furthest + 1)}", file)
            continue
        values = pick([*cells, "", line])
        yield make(_with_defaults(values, defaulted) if defaulted else values)


def _with_defaults(values: tuple[str | int, ...], defaults: list[tuple[int, str]]) -> tuple[str | int, ...]:
    filled = list(values)
    for place, default in defaults:
        filled[place] = filled[place] or default
    return tuple(filled)
