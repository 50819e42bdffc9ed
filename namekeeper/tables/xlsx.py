"""XLSX (ISO/IEC 29500): read for import, find text cells, change single cells inside the zip."""

from __future__ import annotations

import io
import posixpath
import re
import warnings
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from xml.sax.saxutils import quoteattr

from namekeeper.tables.grid import FORMULA, RUNS, CellSpot, EditableTable, Edits, Merge, Row, SheetSpots, Table
from namekeeper.tables.layout import sheet_of
from namekeeper.tables.xml_parts import Element, Zipped, apply_edits, each, text_edits
from namekeeper.words.errors import InputError

_STRINGS = "xl/sharedStrings.xml"
_MERGED = re.compile(rb"<(?:\w+:)?mergeCell\s[^>]*ref=\"([A-Z]{1,3}\d{1,7}):([A-Z]{1,3}\d{1,7})\"")
_DIGITS = 9  # no table has that many strings
_ADDRESS = re.compile(r"([A-Z]{1,3})([1-9]\d{0,6})", re.ASCII)


@dataclass(frozen=True, slots=True)
class _Cell:
    element: Element
    shared: int | None  # index of the shared string


class XlsxFile(EditableTable):
    """An XLSX file taken apart as far as single text cells need."""

    def __init__(self, content: bytes) -> None:
        self._zipped = Zipped(content)
        self._strings: list[Element] = []
        self._strings_part = b""
        if _STRINGS in self._zipped.names():
            self._strings_part = self._zipped.part(_STRINGS)
            each(self._strings_part, frozenset({"si"}), self._strings.append)
        self._parts = worksheets(self._zipped)

    def sheets(self) -> tuple[SheetSpots, ...]:
        return tuple(
            SheetSpots(
                name, tuple(self._spot(place, cell) for place, cell in self._cells(self._zipped.part(part)).items())
            )
            for name, part in self._parts.items()
        )

    def unsafe(self, sheet: str, edits: Edits) -> Mapping[tuple[int, int], str]:
        part = self._zipped.part(self._parts[sheet])
        cells = self._cells(part)
        return {place: RUNS for place, text in edits.items() if self._new_content(part, cells[place], text) is None}

    def replaced(self, edits: Mapping[str, Edits]) -> bytes:
        parts = {}
        for sheet, wanted in edits.items():
            part = self._zipped.part(self._parts[sheet])
            cells = self._cells(part)
            spans = [self._edit(part, cells[place], text) for place, text in wanted.items()]
            parts[self._parts[sheet]] = apply_edits(part, spans)
        return self._zipped.with_parts(parts)

    def _cells(self, part: bytes) -> dict[tuple[int, int], _Cell]:
        cells: dict[tuple[int, int], _Cell] = {}

        def take(element: Element) -> None:
            place = _place(element.attributes.get("r", ""))
            if place is not None:
                cells[place] = _Cell(element, _shared(element))

        each(part, frozenset({"c"}), take)
        return cells

    def _spot(self, place: tuple[int, int], cell: _Cell) -> CellSpot:
        fixed = ""
        formulas = cell.element.find("f")
        if formulas:
            fixed = FORMULA
        elif cell.element.attributes.get("t") not in ("s", "inlineStr"):
            fixed = "not a text"
        return CellSpot(*place, self._text(cell), fixed, "".join(formula.text() for formula in formulas))

    def _text(self, cell: _Cell) -> str:
        return "".join(piece.text() for piece in self._pieces(cell))

    def _pieces(self, cell: _Cell) -> list[Element]:
        """The elements that hold the cell's text."""
        if cell.shared is not None:
            return _texts(self._strings[cell.shared]) if cell.shared < len(self._strings) else []
        inline = cell.element.find("is")
        return _texts(inline[0]) if inline else cell.element.find("v")

    def _edit(self, part: bytes, cell: _Cell, text: str) -> tuple[int, int, bytes]:
        inner = self._new_content(part, cell, text)
        element = cell.element
        if inner is None:
            what = f"cell {element.attributes['r']} is {RUNS}"
            raise InputError(what, remedy="change it by hand")
        prefix = _prefix(part, element)
        kept = [(key, value) for key, value in element.attributes.items() if key != "t"]
        attributes = "".join(f" {key}={quoteattr(value)}" for key, value in [*kept, ("t", "inlineStr")]).encode()
        opened, closed = b"<%bc%b><%bis>" % (prefix, attributes, prefix), b"</%bis></%bc>" % (prefix, prefix)
        return element.start, element.end, opened + inner + closed

    def _new_content(self, part: bytes, cell: _Cell, text: str) -> bytes | None:
        """Content of the cell's inline string: the old runs with the changed text; None if that is not safe."""
        if cell.shared is not None and cell.shared < len(self._strings):
            whole, source = self._strings[cell.shared], self._strings_part
        elif inline := cell.element.find("is"):
            whole, source = inline[0], part
        else:
            return None
        edits = text_edits(source, _texts(whole), self._text(cell), text)
        if edits is None or _prefix(source, whole) != _prefix(part, cell.element):
            return None
        end = source.rindex(b"</", whole.inner, whole.end)
        moved = [(start - whole.inner, stop - whole.inner, new) for start, stop, new in edits]
        return apply_edits(source[whole.inner : end], moved)


def worksheets(zipped: Zipped) -> Mapping[str, str]:
    """Name of each worksheet and the part that holds it, in the keeper's order."""
    targets: dict[str, str] = {}
    found: dict[str, str] = {}

    def relation(element: Element) -> None:
        target = element.attributes.get("Target", "")
        path = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
        targets[element.attributes.get("Id", "")] = posixpath.normpath(path)

    def sheet(element: Element) -> None:
        identifier = next((v for k, v in element.attributes.items() if k.endswith(":id")), "")
        if "worksheets/" in targets.get(identifier, ""):
            found[element.attributes.get("name", "")] = targets[identifier]

    each(zipped.part("xl/_rels/workbook.xml.rels"), frozenset({"Relationship"}), relation)
    each(zipped.part("xl/workbook.xml"), frozenset({"sheet"}), sheet)
    return found


def _prefix(part: bytes, element: Element) -> bytes:
    """The namespace prefix of a tag with its colon, or nothing."""
    name = part[element.start + 1 : element.inner].split(None, 1)[0].rstrip(b">/")
    return name[: name.index(b":") + 1] if b":" in name else b""


def read_xlsx(content: bytes) -> Table:
    """All worksheets with values as a keeper reads them: dates ISO, whole numbers without a point.

    :raises InputError: if it is no readable XLSX file.
    """
    import openpyxl

    merges = _merges(content)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # about features that openpyxl does not keep; we only read
            book = openpyxl.load_workbook(io.BytesIO(content), read_only=True, data_only=True)
            sheets = []
            for sheet in book.worksheets:
                # Some programs write a wrong extent, by which the reader would leave rows out.
                sheet.reset_dimensions()
                rows = [
                    Row(number, tuple(_shown(value) for value in values))
                    for number, values in enumerate(sheet.iter_rows(values_only=True), 1)
                ]
                sheets.append(sheet_of(sheet.title, rows, merges.get(sheet.title, ())))
            book.close()
    except Exception as error:
        what = f"the table cannot be read: {type(error).__name__}"
        raise InputError(what, remedy="open it, save it again and try once more") from None
    return Table(tuple(sheets), "XLSX")


def _merges(content: bytes) -> Mapping[str, tuple[Merge, ...]]:
    """Merged cells by worksheet; the reader of values does not tell them."""
    zipped = Zipped(content)
    return {name: tuple(_merges_in(zipped.part(part))) for name, part in worksheets(zipped).items()}


def _merges_in(part: bytes) -> Iterator[Merge]:
    for first, last in _MERGED.findall(part):
        top, left = _place(first.decode()) or (0, 0)
        bottom, right = _place(last.decode()) or (0, 0)
        yield Merge(top, left, bottom, right)


def _shown(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time.min else value.isoformat(sep=" ")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value)


def _texts(container: Element) -> list[Element]:
    """Elements with text of a string; phonetic readings (rPh) are none of it."""
    found = []
    for child in container.children:
        if child.name == "t":
            found.append(child)
        elif child.name == "r":
            found += child.find("t")
    return found


def _shared(element: Element) -> int | None:
    if element.attributes.get("t") != "s":
        return None
    index = "".join(value.text() for value in element.find("v")).strip()
    return int(index) if index.isascii() and index.isdigit() and len(index) <= _DIGITS else None


def _place(address: str) -> tuple[int, int] | None:
    found = _ADDRESS.fullmatch(address)
    if found is None:
        return None
    column = 0
    for letter in found[1]:
        column = column * 26 + ord(letter) - 64
    return int(found[2]), column - 1
