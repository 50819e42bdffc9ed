"""CSV and its relatives (RFC 4180) cell by cell: where each stands, single cells replaced, safe cells written."""

from __future__ import annotations

import codecs
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from unicodedata import category, normalize

from namekeeper.files.delimited import TableStyle, style_of
from namekeeper.files.packing import HEAD, refuse_packed
from namekeeper.tables.grid import FORMULA, CellSpot, EditableTable, Edits, Row, SheetSpots, Table
from namekeeper.tables.layout import sheet_of
from namekeeper.words.errors import NOWHERE, InputError, Place

# Signs by which spreadsheet programs take a cell for a formula (OWASP, CSV Injection; CWE-1236); some skip what is not
# seen in front of them, and take the full-width form (NFKC folds it), or the minus of type, for the same.
_SIGNS = frozenset("=+-@\N{MINUS SIGN}")
_BREAKS = frozenset("\t\r\n")
#: General categories (UAX #44) of what is not seen: controls, format characters, marks without a letter, blanks; and
#: letters that are drawn as nothing (Default_Ignorable_Code_Point, DerivedCoreProperties.txt).
_UNSEEN = frozenset({"Cc", "Cf", "Mn", "Zs", "Zl", "Zp"})
_EMPTY_LETTERS = frozenset("\u115f\u1160\u3164\uffa0\u2800")

#: What a spreadsheet calculates in a text table: an equals sign and a function, a cell or a text in quotes.
_CALCULATED = re.compile(r"=\s*(?:[A-Za-z.]+\(|\$?[A-Z]{1,3}\$?\d|\")")


@dataclass(frozen=True, slots=True)
class Field:
    """A cell and its span in the text, quotes included."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Delimited:
    """A text table taken apart: how it is written, its text, records of fields with spans."""

    style: TableStyle
    text: str
    records: tuple[tuple[Field, ...], ...]

    def table(self) -> Table:
        rows = [Row(i, tuple(field.text for field in record)) for i, record in enumerate(self.records, 1)]
        return Table((sheet_of("", rows),), str(self.style), self.style.encoding)

    def replaced(self, cells: Mapping[tuple[int, int], str]) -> bytes:
        """The file with the cells (row from 1, column from 0) replaced and every other byte as it was.

        :raises InputError: if the new text cannot be written in the file's encoding.
        """
        parts, position = [], 0
        for (row, column), text in sorted(cells.items()):
            field = self.records[row - 1][column]
            quoted = self.text[field.start : field.start + 1] == '"'
            parts += [self.text[position : field.start], _written(text, self.style.separator, quote=quoted)]
            position = field.end
        whole = "".join((*parts, self.text[position:]))
        try:
            return self.style.encoding.mark + whole.encode(self.style.encoding.name)
        except UnicodeEncodeError as error:
            what = f"'{error.object[error.start : error.end]}' cannot be written in {self.style.encoding.name}"
            raise InputError(what, remedy="save the table as UTF-8 first") from None


class DelimitedFile(EditableTable):
    """A text table in which single cells are replaced."""

    def __init__(self, content: bytes, encoding_named: str = "") -> None:
        self._file = take_apart(content, encoding_named)

    def sheets(self) -> tuple[SheetSpots, ...]:
        spots = (
            CellSpot(number, column, field.text, FORMULA if _formula(field.text) else "", _formula(field.text))
            for number, record in enumerate(self._file.records, 1)
            for column, field in enumerate(record)
        )
        return (SheetSpots("", tuple(spots)),)

    def unsafe(self, sheet: str, edits: Edits) -> Mapping[tuple[int, int], str]:
        return {}

    def replaced(self, edits: Mapping[str, Edits]) -> bytes:
        return self._file.replaced(edits.get("", {}))


def _formula(text: str) -> str:
    return text if _CALCULATED.match(text) else ""


def take_apart(content: bytes, encoding_named: str = "") -> Delimited:
    """Read a text table, in the encoding that the keeper names if he does.

    :raises InputError: if it is no text, or none in that encoding.
    """
    refuse_packed(content[:HEAD], NOWHERE)
    try:
        style = style_of(io.BytesIO(content), encoding_named)
    except ValueError:
        raise InputError("this is no table of text", remedy="save it as CSV, XLSX or ODS") from None
    encoding = style.encoding
    try:
        text = content[len(encoding.mark) :].decode(encoding.name)
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start + len(encoding.mark)) + 1
        what = f"line {line} of the table is no text in {encoding.name}"
        raise InputError(
            what, remedy="name another with --encoding, or save it as CSV in UTF-8", place=Place(None, line)
        ) from None
    return Delimited(style, text, tuple(_records(text, style.separator, style.announced)))


def safe_csv(headers: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """UTF-8 with comma and line feed; a cell that a spreadsheet would take for a formula begins with an apostrophe.

    The mark in front tells spreadsheet programs that it is UTF-8; without it they read the letters of the system's own
    code page.
    """
    return codecs.BOM_UTF8 + plain_csv(headers, ([guarded(cell) for cell in row] for row in rows))


def plain_csv(headers: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """UTF-8 with comma and line feed, quotes where RFC 4180 needs them; for programs, not for spreadsheets."""
    return "".join(",".join(_written(cell, ",") for cell in line) + "\n" for line in (headers, *rows)).encode("utf-8")


def guarded(text: str) -> str:
    """``text`` with an apostrophe before what a spreadsheet would calculate; reversible."""
    return "'" + text if _calculates(text) else text


def unguarded(text: str) -> str:
    """What :func:`guarded` was given."""
    return text[1:] if text.startswith("'") and _calculates(text) else text


def _calculates(text: str) -> bool:
    """Whether a spreadsheet may take a cell for a formula, apostrophes in front left out."""
    for place, char in enumerate(text.lstrip("'")):
        if place == 0 and char in _BREAKS:
            return True
        if char not in _EMPTY_LETTERS and category(char) not in _UNSEEN:
            return normalize("NFKC", char)[:1] in _SIGNS
    return False


def _written(text: str, delimiter: str, *, quote: bool = False) -> str:
    if quote or any(sign in text for sign in (delimiter, '"', "\n", "\r")) or text != text.strip():
        return '"' + text.replace('"', '""') + '"'
    return text


def _records(text: str, delimiter: str, start: int) -> Iterable[tuple[Field, ...]]:
    stop = re.escape(delimiter)
    field = re.compile(rf'(?:"((?:[^"]|"")*)"(?={stop}|[\r\n]|\Z)|([^{stop}\r\n]*))({stop}|\r\n|\r|\n|\Z)')
    record: list[Field] = []
    position = start
    while position < len(text) or record:
        found = field.match(text, position)
        if found is None:  # cannot be: the second branch matches anything up to a stop
            break
        quoted, plain, end = found.groups()
        value = quoted.replace('""', '"') if quoted is not None else plain
        record.append(Field(value, position, found.start(3)))
        position = found.end()
        if end != delimiter:
            yield tuple(record)
            record = []
            if not end:
                break
