"""A table as values: sheets of rows of texts, numbered as the keeper sees them, and cells that can be replaced."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum, unique

from namekeeper.files.encodings import Encoding


@unique
class RowKind(StrEnum):
    """What a row is that holds no animal."""

    TITLE = "title"  # above the header
    HEADER = "header"  # the header again
    HEADING = "heading"  # one text over several columns, between the rows
    TOTAL = "total"
    EMPTY = "empty"
    BROKEN = "broken"  # cells that stand in no certain column


@dataclass(frozen=True, slots=True)
class Row:
    """One row; ``number`` from 1 with the header row counted, ``cells`` as many as there are."""

    number: int
    cells: tuple[str, ...]

    def cell(self, index: int) -> str:
        """The text of a column, empty where the row is shorter."""
        return self.cells[index] if index < len(self.cells) else ""


@dataclass(frozen=True, slots=True)
class RowSkipped:
    """A row that is no animal and no header, and why it was passed over; ``sample`` is its first text."""

    row: int
    sample: str
    why: RowKind


@dataclass(frozen=True, slots=True)
class Merge:
    """Cells made one: rows from 1, columns from 0, both ends included."""

    top: int
    left: int
    bottom: int
    right: int


@dataclass(frozen=True, slots=True)
class TableSheet:
    """One sheet: its header, the rows below it, and what was passed over or filled in on the way."""

    name: str
    headers: tuple[str, ...]
    rows: tuple[Row, ...]
    skipped: tuple[RowSkipped, ...] = ()
    merged: int = 0  # cells that took the text of the merged cell they belong to

    def title(self, index: int) -> str:
        """The header of a column, or its letter where it has none."""
        text = self.headers[index] if index < len(self.headers) else ""
        return text.strip() or column_letter(index)


@dataclass(frozen=True, slots=True)
class Table:
    """A file's sheets, what it was read as, in words, and the encoding of a text file."""

    sheets: tuple[TableSheet, ...]
    told: str = ""
    encoding: Encoding | None = None


def column_letter(index: int) -> str:
    """A, B ... Z, AA ... as spreadsheets name columns; ``index`` from 0."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


@dataclass(frozen=True, slots=True)
class CellSpot:
    """A cell that holds text: its place (row from 1, column from 0), its text, and why it may not be changed."""

    row: int
    column: int
    text: str
    fixed: str = ""  # empty, or the reason
    formula: str = ""  # as it stands in the file, where there is one


@dataclass(frozen=True, slots=True)
class SheetSpots:
    """All cells of a sheet that hold anything, row by row."""

    name: str
    spots: tuple[CellSpot, ...]


Edits = Mapping[tuple[int, int], str]  # (row from 1, column from 0) -> the cell's new text
FORMULA = "a formula: it follows when the table is recalculated"
RUNS = "written in several formats; change it by hand"


class EditableTable(ABC):
    """A keeper's table in whose cells names are replaced, while every other cell, format and formula stays."""

    @abstractmethod
    def sheets(self) -> tuple[SheetSpots, ...]:
        """Cells of every sheet."""

    @abstractmethod
    def unsafe(self, sheet: str, edits: Edits) -> Mapping[tuple[int, int], str]:
        """For each cell that cannot take its new text without touching anything else: why."""

    @abstractmethod
    def replaced(self, edits: Mapping[str, Edits]) -> bytes:
        """The file's bytes with cells replaced, keyed by sheet.

        :raises InputError: if one of them is unsafe or the text does not go into the file's encoding.
        """
