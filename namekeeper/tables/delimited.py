"""CSV and its relatives (RFC 4180): encoding and delimiter detected, single cells replaced, safe cells written."""

from __future__ import annotations

import codecs
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from namekeeper.tables.cells import CellSpot, EditableTable, Edits, SheetSpots
from namekeeper.tables.grid import Row, Table, sheet_of
from namekeeper.words.errors import InputError

_MARKS = ((codecs.BOM_UTF8, "utf-8"), (codecs.BOM_UTF16_LE, "utf-16-le"), (codecs.BOM_UTF16_BE, "utf-16-be"))
_DELIMITERS = (",", ";", "\t", "|")
_SEPARATOR_LINE = re.compile(r"sep=(.)(?:\r\n|\r|\n)")  # a first line that spreadsheet programs write and read
_LOOK_AT = 60  # records
# Signs by which spreadsheet programs take a cell for a formula (OWASP, CSV Injection; CWE-1236).
_FORMULA = re.compile(r"'*[=+\-@\t\r\n]")


@dataclass(frozen=True, slots=True)
class Field:
    """A cell and its span in the text, quotes included."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Delimited:
    """A text table taken apart: byte-order mark, encoding, delimiter, text, records of fields with spans."""

    mark: bytes
    encoding: str
    delimiter: str
    text: str
    records: tuple[tuple[Field, ...], ...]

    def table(self) -> Table:
        rows = [Row(i, tuple(field.text for field in record)) for i, record in enumerate(self.records, 1)]
        name = {"\t": "tab"}.get(self.delimiter, self.delimiter)
        return Table((sheet_of("", rows),), f"{self.encoding}, delimiter {name}")

    def replaced(self, cells: Mapping[tuple[int, int], str]) -> bytes:
        """The file with the cells (row from 1, column from 0) replaced and every other byte as it was.

        :raises InputError: if the new text cannot be written in the file's encoding.
        """
        parts, position = [], 0
        for (row, column), text in sorted(cells.items()):
            field = self.records[row - 1][column]
            quoted = self.text[field.start : field.start + 1] == '"'
            parts += [self.text[position : field.start], _written(text, self.delimiter, quote=quoted)]
            position = field.end
        whole = "".join((*parts, self.text[position:]))
        try:
            return self.mark + whole.encode(self.encoding)
        except UnicodeEncodeError as error:
            what = f"'{error.object[error.start : error.end]}' cannot be written in {self.encoding}"
            raise InputError(what, remedy="save the table as UTF-8 first") from None


class DelimitedFile(EditableTable):
    """A text table in which single cells are replaced."""

    def __init__(self, content: bytes) -> None:
        self._file = take_apart(content)

    def sheets(self) -> tuple[SheetSpots, ...]:
        spots = (
            CellSpot(number, column, field.text)
            for number, record in enumerate(self._file.records, 1)
            for column, field in enumerate(record)
        )
        return (SheetSpots("", tuple(spots)),)

    def unsafe(self, sheet: str, edits: Edits) -> Mapping[tuple[int, int], str]:
        return {}

    def replaced(self, edits: Mapping[str, Edits]) -> bytes:
        return self._file.replaced(edits.get("", {}))


def take_apart(content: bytes) -> Delimited:
    """Read a text table.

    :raises InputError: if it is no text.
    """
    mark, encoding, text = _decoded(content)
    announced = _SEPARATOR_LINE.match(text)
    delimiter = announced[1] if announced else _delimiter_of(text)
    start = announced.end() if announced else 0
    return Delimited(mark, encoding, delimiter, text, tuple(_records(text, delimiter, start)))


def safe_csv(headers: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """UTF-8 with comma and line feed; a cell that a spreadsheet would take for a formula begins with an apostrophe."""
    return plain_csv(headers, ([guarded(cell) for cell in row] for row in rows))


def plain_csv(headers: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """UTF-8 with comma and line feed, quotes where RFC 4180 needs them; for programs, not for spreadsheets."""
    return "".join(",".join(_written(cell, ",") for cell in line) + "\n" for line in (headers, *rows)).encode("utf-8")


def guarded(text: str) -> str:
    """``text`` with an apostrophe before what a spreadsheet would calculate; reversible."""
    return "'" + text if _FORMULA.match(text) else text


def unguarded(text: str) -> str:
    """What :func:`guarded` was given."""
    return text[1:] if text.startswith("'") and _FORMULA.match(text) else text


def _written(text: str, delimiter: str, *, quote: bool = False) -> str:
    if quote or any(sign in text for sign in (delimiter, '"', "\n", "\r")) or text != text.strip():
        return '"' + text.replace('"', '""') + '"'
    return text


def _decoded(content: bytes) -> tuple[bytes, str, str]:
    for mark, encoding in _MARKS:
        if content.startswith(mark):
            return mark, encoding, _strict(content[len(mark) :], encoding)
    encoding = _encoding_of(content)
    return b"", encoding, _strict(content, encoding)


def _strict(content: bytes, encoding: str) -> str:
    try:
        text = content.decode(encoding)
    except (UnicodeDecodeError, LookupError):
        what = f"the table is no text in {encoding}"
        raise InputError(what, remedy="save it as CSV in UTF-8") from None
    if "\x00" in text.split("\n", 1)[0]:
        raise InputError("this is no table of text", remedy="save it as CSV, XLSX or ODS")
    return text


def _encoding_of(content: bytes) -> str:
    even, odd = content[:1000:2].count(0), content[1:1000:2].count(0)
    if max(even, odd) * 4 > len(content[:1000]):  # Latin letters in UTF-16: every other byte is nought
        return "utf-16-le" if odd > even else "utf-16-be"
    try:
        content.decode("utf-8")
    except UnicodeDecodeError:
        pass
    else:
        return "utf-8"
    from charset_normalizer import from_bytes

    # The encodings that spreadsheet programs of the last thirty years have written in Europe and the Americas.
    likely = ["cp1252", "cp1250", "iso8859_15", "mac_roman", "cp850", "utf_16_le", "utf_16_be", "cp1251"]
    best = from_bytes(content, cp_isolation=likely).best()
    return best.encoding if best is not None else "cp1252"


def _delimiter_of(text: str) -> str:
    """The sign that cuts most of the first records into the same number of cells, two or more."""

    def fit(delimiter: str) -> tuple[float, int]:
        widths = []
        for record in _records(text, delimiter, 0):
            widths.append(len(record))
            if len(widths) == _LOOK_AT:
                break
        usual = max(set(widths), key=lambda width: (widths.count(width), width), default=1)
        return (widths.count(usual) / len(widths), usual) if usual > 1 else (0.0, 1)

    return max(_DELIMITERS, key=fit)


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
