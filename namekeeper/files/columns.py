"""Rows of a table by the columns that are wanted of them: short rows filled up, what cannot be trusted left out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import TypeVar

_Made = TypeVar("_Made")
_Cells = tuple[int, list[str]]


@dataclass(frozen=True, slots=True)
class Column:
    """Where a field comes from: a column of the table (from 0), a constant for empty cells, or both."""

    index: int | None = None
    default: str = ""


@dataclass(frozen=True, slots=True)
class Shape:
    """How long a row is, and what it must reach.

    :param width: cells of a whole row; 0 if only the first row tells.
    :param needs: fields that a row must reach: a shorter one is left out, a longer one is filled up.
    :param capital: the last of what is needed begins with a capital; a piece that does not is the rest of a row.
    :param short: told of each row that was filled up, by its line.
    """

    width: int = 0
    needs: Sequence[str] = ()
    capital: bool = False
    short: Callable[[int, str], None] = lambda _line, _why: None


def mapped(
    rows: Iterator[_Cells],
    fields: Sequence[str],
    columns: Mapping[str, Column],
    make: Callable[[tuple[str | int, ...]], _Made],
    *,
    skip: Callable[[int, str, str], None],
    file: str,
    shape: Shape | None = None,
) -> Iterator[_Made]:
    """Rows of ``make``, a named tuple whose first field is the line and whose others are ``fields``.

    Programs cut trailing separators, so a row that reaches what is needed is filled up. A row that is too long is
    skipped, as its cells may stand in the wrong columns, and so are the two halves of a row that a line end broke.
    """
    used = [columns.get(field, Column()) for field in fields]
    # In front of all stands the line, which is put at the end of the cells, behind an empty one for what is not there.
    places = [-1, *(-2 if column.index is None else column.index for column in used)]
    defaulted = [(place, column.default) for place, column in enumerate(used, 1) if column.default]
    pick: Callable[[list[str | int]], tuple[str | int, ...]] = itemgetter(*places)
    shape = shape or Shape()
    needed = [column.index for field in shape.needs if (column := columns.get(field)) and column.index is not None]
    fitted = _Fitted(shape, max(places) + 1, max(needed, default=max(places)), skip, file)
    values = map(pick, fitted.rows(rows))
    return map(make, (_with_defaults(row, defaulted) for row in values) if defaulted else values)


class _Fitted:
    """Rows of one width; a short row waits for the next, which may be its other half."""

    def __init__(self, shape: Shape, used: int, reach: int, skip: Callable[[int, str, str], None], file: str) -> None:
        self._shape, self._used, self._reach = shape, used, reach
        self._skip, self._file = skip, file
        self._held: _Cells | None = None
        self._width = shape.width and max(shape.width, used)  # 0 until the first row tells

    def rows(self, rows: Iterator[_Cells]) -> Iterator[list[str | int]]:
        """Cells of whole rows, an empty one and the line behind them."""
        width = self._width
        for line, cells in rows:
            if len(cells) == width and self._held is None:
                yield [*cells, "", line]
                continue
            if not width:
                self._width = width = max(len(cells), self._used)
            for at, whole in self._made_whole(line, cells):
                yield [*whole, "", at]
        if self._held is not None and len(self._held[1]) > self._reach + 1:
            at, whole = self._filled()
            yield [*whole, "", at]
        elif self._held is not None:
            self._skip(self._held[0], "the last row is cut short", self._file)

    def _made_whole(self, line: int, cells: list[str]) -> Iterator[_Cells]:
        """The row held, if this one is not its other half, and this one, unless it has to wait."""
        if len(cells) < self._width:
            yield from self._short(line, cells)
            return
        if self._held is not None:
            yield self._filled()
        if any(map(str.strip, cells[self._width :])):
            self._leave(line, len(cells))
        else:
            yield line, cells[: self._width]

    def _short(self, line: int, cells: list[str]) -> Iterator[_Cells]:
        last = cells[self._reach].strip() if len(cells) > self._reach else ""
        reaches = bool(last) and not (self._shape.capital and last[0].islower())
        held = self._held
        if held is not None and not reaches and len(held[1]) + len(cells) == self._width + 1:
            self._held = None
            for half in (held[0], line):
                self._skip(half, "a row broken over two lines", self._file)
            return
        if held is not None:
            yield self._filled()
        if len(cells) > self._reach:
            self._held = line, cells
        else:
            self._leave(line, len(cells))

    def _filled(self) -> _Cells:
        assert self._held is not None
        (line, cells), self._held = self._held, None
        missing = self._width - len(cells)
        self._shape.short(line, f"has {len(cells)} cells, not {self._width}: the missing ones are taken as empty")
        return line, cells + [""] * missing

    def _leave(self, line: int, size: int) -> None:
        self._skip(line, f"has {size} cells, not {self._width}", self._file)


def _with_defaults(values: tuple[str | int, ...], defaults: list[tuple[int, str]]) -> tuple[str | int, ...]:
    filled = list(values)
    for place, default in defaults:
        filled[place] = filled[place] or default
    return tuple(filled)
