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
    defaulted = [(place, column.default) for place, column in enumerate(used) if column.default]
    furthest = max((column.index for column in used if column.index is not None), default=-1)
    pick = itemgetter(*(-1 if column.index is None else column.index for column in used))
    width = 0
    for line, cells in rows:
        width = width or len(cells)
        if len(cells) != width or len(cells) <= furthest:
            skips.add(line, f"has {len(cells)} cells, not {max(width, furthest + 1)}", file)
            continue
        cells.append("")
        values = pick(cells)
        if defaulted:
            values = _with_defaults(values, defaulted)
        yield make((line, *values))


def _with_defaults(values: tuple[str, ...], defaults: list[tuple[int, str]]) -> tuple[str, ...]:
    filled = list(values)
    for place, default in defaults:
        filled[place] = filled[place] or default
    return tuple(filled)
