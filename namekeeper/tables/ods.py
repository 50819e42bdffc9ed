"""ODS (OpenDocument 1.3, ISO/IEC 26300): read for import, find text cells, change single cells inside the zip."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from namekeeper.tables.grid import FORMULA, RUNS, CellSpot, EditableTable, Edits, Merge, Row, SheetSpots, Table
from namekeeper.tables.layout import sheet_of
from namekeeper.tables.xml_parts import Element, Zipped, apply_edits, each, text_edits
from namekeeper.words.errors import InputError

_CONTENT = "content.xml"
_CELLS = ("table-cell", "covered-table-cell")
_REPEATED = "one cell stands for several side by side; change it by hand"
_DIGITS = 9
_MOST_ROWS, _MOST_COLUMNS = 1_048_576, 16_384  # of the spreadsheet programs of today
#: Filled places of a sheet that are written as repetitions of a cell; empty ones may be as many as they like.
_MOST_FILLED = 4_000_000


@dataclass(frozen=True, slots=True)
class _Cell:
    element: Element
    row: int  # from 1, the first of the rows it stands for
    rows: int
    column: int  # from 0
    columns: int

    def kind(self) -> str:
        return _attribute(self.element, "value-type")

    def paragraphs(self) -> list[Element]:
        """Direct ones only: those of an annotation are not the cell's text."""
        return [child for child in self.element.children if child.name == "p"]

    def text(self) -> str:
        """The text, or the value of a number or date as ISO writes it."""
        if self.kind() == "date":
            return _attribute(self.element, "date-value").removesuffix("T00:00:00")
        if self.kind() in ("float", "percentage", "currency"):
            return _attribute(self.element, "value").removesuffix(".0")
        if self.kind() == "boolean":
            return _attribute(self.element, "boolean-value")
        written = "\n".join(_paragraph_text(paragraph) for paragraph in self.paragraphs())
        return written or _attribute(self.element, "string-value")

    def fixed(self) -> str:
        if _attribute(self.element, "formula"):
            return FORMULA
        if self.kind() not in ("string", "") or _attribute(self.element, "string-value"):
            return "not a text"
        return _REPEATED if self.columns > 1 else ""


class OdsFile(EditableTable):
    """An ODS file taken apart as far as single text cells need."""

    def __init__(self, content: bytes) -> None:
        self._zipped = Zipped(content)
        self._part = self._zipped.part(_CONTENT)
        self._cells: dict[str, list[_Cell]] = {}
        each(self._part, frozenset({"table"}), self._take)

    def sheets(self) -> tuple[SheetSpots, ...]:
        return tuple(SheetSpots(name, tuple(self._spots(cells))) for name, cells in self._cells.items())

    def table(self) -> Table:
        """All sheets with values as a keeper reads them."""
        sheets = []
        for sheet in self.sheets():
            rows: dict[int, dict[int, str]] = {}
            for spot in sheet.spots:
                rows.setdefault(spot.row, {})[spot.column] = spot.text
            made = [Row(n, tuple(cells.get(i, "") for i in range(max(cells) + 1))) for n, cells in sorted(rows.items())]
            sheets.append(sheet_of(sheet.name, made, self._merges(sheet.name)))
        return Table(tuple(sheets), "ODS")

    def _merges(self, sheet: str) -> Iterator[Merge]:
        for cell in self._cells[sheet]:
            down = _count(cell.element, "number-rows-spanned", _MOST_ROWS)
            across = _count(cell.element, "number-columns-spanned", _MOST_COLUMNS)
            if down > 1 or across > 1:
                yield Merge(cell.row, cell.column, cell.row + down - 1, cell.column + across - 1)

    def unsafe(self, sheet: str, edits: Edits) -> Mapping[tuple[int, int], str]:
        refused: dict[tuple[int, int], str] = {}
        for cell in self._cells[sheet]:
            wanted = {edits[place] for place in _places(cell) if place in edits}
            covered = all(place in edits for place in _places(cell))
            safe = len(wanted) == 1 and covered and self._edit(cell, next(iter(wanted)))
            if wanted and not safe:
                why = RUNS if covered else "one cell stands for several rows that do not all change"
                refused |= {place: why for place in _places(cell) if place in edits}
        return refused

    def replaced(self, edits: Mapping[str, Edits]) -> bytes:
        spans = []
        for sheet, wanted in edits.items():
            if self.unsafe(sheet, wanted):
                raise InputError("a cell cannot be changed safely", remedy="change it by hand")
            for cell in self._cells[sheet]:
                text = wanted.get((cell.row, cell.column))
                if text is not None:
                    spans += self._edit(cell, text) or []
        return self._zipped.with_parts({_CONTENT: apply_edits(self._part, spans)})

    def _edit(self, cell: _Cell, text: str) -> list[tuple[int, int, bytes]] | None:
        return text_edits(self._part, cell.paragraphs(), cell.text(), text)

    def _spots(self, cells: list[_Cell]) -> Iterator[CellSpot]:
        for cell in cells:
            for row, column in _places(cell):
                yield CellSpot(row, column, cell.text(), cell.fixed(), _attribute(cell.element, "formula"))

    def _take(self, table: Element) -> None:
        cells = self._cells.setdefault(_attribute(table, "name"), [])
        number, filled = 1, 0
        for row in table.find("table-row"):
            repeated, column = _count(row, "number-rows-repeated", _MOST_ROWS), 0
            for element in row.children:
                if element.name in _CELLS:
                    columns = _count(element, "number-columns-repeated", _MOST_COLUMNS)
                    cell = _Cell(element, number, repeated, column, columns)
                    if element.children or cell.kind():
                        cells.append(cell)
                        filled += repeated * columns
                        if filled > _MOST_FILLED:
                            what = f"row {number}: a cell is repeated over more than {_MOST_FILLED:,} places"
                            raise InputError(what, remedy="delete what was filled down too far, and save it again")
                    column += columns
            number += repeated


def _places(cell: _Cell) -> list[tuple[int, int]]:
    """Every place a cell stands for."""
    rows, columns = range(cell.row, cell.row + cell.rows), range(cell.column, cell.column + cell.columns)
    return [(row, column) for row in rows for column in columns]


def _count(element: Element, name: str, most: int) -> int:
    text = _attribute(element, name)
    return min(max(int(text), 1), most) if text.isascii() and text.isdigit() and len(text) <= _DIGITS else 1


def _attribute(element: Element, name: str) -> str:
    return next((value for key, value in element.attributes.items() if key.rpartition(":")[2] == name), "")


def _paragraph_text(element: Element) -> str:
    """Text with the blanks, tabs and line breaks that are elements of their own (OpenDocument 1.3, part 3, 6.1)."""
    pieces: list[tuple[int, str]] = [(chunk.start, chunk.text) for chunk in element.chunks]
    for child in element.children:
        if child.name == "s":
            pieces.append((child.start, " " * _count(child, "c", 1000)))
        elif child.name in ("tab", "line-break"):
            pieces.append((child.start, "\t" if child.name == "tab" else "\n"))
        elif child.name != "annotation":
            pieces.append((child.start, _paragraph_text(child)))
    return "".join(text for _, text in sorted(pieces))
