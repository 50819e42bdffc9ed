"""A table as values: sheets of rows of texts, numbered as the keeper sees them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """One row; ``number`` from 1 with the header row counted, ``cells`` as many as there are."""

    number: int
    cells: tuple[str, ...]

    def cell(self, index: int) -> str:
        """The text of a column, empty where the row is shorter."""
        return self.cells[index] if index < len(self.cells) else ""


@dataclass(frozen=True, slots=True)
class TableSheet:
    """One sheet: its first row that holds anything is the header."""

    name: str
    headers: tuple[str, ...]
    rows: tuple[Row, ...]

    def column(self, header: str) -> int | None:
        """Index of a column by its header, first exactly, then ignoring case and outer blanks."""
        if header in self.headers:
            return self.headers.index(header)
        folded = [text.strip().casefold() for text in self.headers]
        wanted = header.strip().casefold()
        return folded.index(wanted) if wanted in folded else None

    def title(self, index: int) -> str:
        """The header of a column, or its letter where it has none."""
        text = self.headers[index] if index < len(self.headers) else ""
        return text.strip() or column_letter(index)


@dataclass(frozen=True, slots=True)
class Table:
    """A file's sheets, and what had to be detected: encoding and delimiter of a text file."""

    sheets: tuple[TableSheet, ...]
    told: str = ""


def sheet_of(name: str, rows: list[Row]) -> TableSheet:
    """A sheet from its rows; empty ones are left out."""
    filled = [row for row in rows if any(cell.strip() for cell in row.cells)]
    return TableSheet(name, filled[0].cells, tuple(filled[1:])) if filled else TableSheet(name, (), ())


def column_letter(index: int) -> str:
    """A, B ... Z, AA ... as spreadsheets name columns; ``index`` from 0."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
