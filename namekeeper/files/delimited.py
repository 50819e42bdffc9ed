"""Delimited text (RFC 4180 and its relatives): how a table is written, and its rows, streamed in bounded memory.

A description may declare how a table is written; of a bare one encoding, separator and line ends are found out here,
the same for every command.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import chain, islice
from types import MappingProxyType
from typing import IO, BinaryIO, NoReturn, TextIO, cast

from namekeeper.files.encodings import Encoding, charset, encoding_of, named_encoding
from namekeeper.words.errors import InputError, Place

_CHUNK = 1 << 18
#: Bytes; a line this long is no row of a list, and must not fill memory.
_LONGEST_LINE = 1 << 20
_DAMAGED = "\ufffd"
_SEPARATORS = (",", ";", "\t", "|")
_SHOWN = MappingProxyType({"\t": "tab"})
#: A first line that spreadsheet programs write and obey.
_ANNOUNCED = re.compile(r"sep=(.)(?:\r\n|\r|\n)")
#: Records, and bytes, by which a separator is judged.
_LOOK_AT, _PROBE = 60, 1 << 16

#: Told of a row that is left out: its line (from 1), why, and the file.
Skip = Callable[[int, str, str], None]


@dataclass(frozen=True, slots=True)
class Dialect:
    """How a table is written: ``quote`` may be empty, ``backslash`` escapes tab, line ends and itself."""

    separator: str = ","
    quote: str = '"'
    line_end: str = "\n"
    encoding: str = "utf-8"
    skipped_lines: int = 0
    backslash: bool = False


@dataclass(frozen=True, slots=True)
class TableStyle:
    """How a bare table is written; ``announced`` characters in front are the line ``sep=`` and no row."""

    encoding: Encoding
    separator: str
    line_end: str
    announced: int

    def __str__(self) -> str:
        return f"{self.encoding}, delimiter {_SHOWN.get(self.separator, self.separator)}"

    @property
    def dialect(self) -> Dialect:
        """The same as if it had been declared."""
        return Dialect(self.separator, '"', self.line_end, self.encoding.name, 1 if self.announced else 0)


def style_of(stream: BinaryIO, encoding_named: str = "") -> TableStyle:
    """How the table in a seekable stream is written, in the encoding that the keeper names if he does.

    :raises ValueError: if it is no text.
    :raises InputError: if nobody knows the encoding named.
    """
    encoding = named_encoding(encoding_named, stream.read(4)) if encoding_named else encoding_of(stream)
    stream.seek(len(encoding.mark))
    probe = stream.read(_PROBE)
    text = probe.decode(encoding.name, errors="replace")
    if len(probe) == _PROBE:
        text = text[: max(text.rfind("\n"), text.rfind("\r")) + 1] or text
    announced = _ANNOUNCED.match(text)
    start = announced.end() if announced else 0
    line_end = "\n" if "\n" in text or "\r" not in text else "\r"
    return TableStyle(encoding, announced[1] if announced else _separator_of(text), line_end, start)


def _separator_of(text: str) -> str:
    """The sign that cuts most of the first records into the same number of cells, two or more."""

    def fit(separator: str) -> tuple[float, int]:
        records = filter(None, csv.reader(io.StringIO(text, newline=""), delimiter=separator))
        try:
            widths = [len(record) for record in islice(records, _LOOK_AT)]
        except csv.Error:
            return (0.0, 1)
        usual = max(set(widths), key=lambda width: (widths.count(width), width), default=1)
        return (widths.count(usual) / len(widths), usual) if usual > 1 else (0.0, 1)

    return max(_SEPARATORS, key=fit)


def rows(stream: IO[bytes], dialect: Dialect, skip: Skip, file: str) -> Iterator[tuple[int, list[str]]]:
    """Line number (from 1) and cells of every row but the empty ones; rows with damaged letters are skipped.

    :raises InputError: for an encoding nobody knows, a line without end, a quote that is never closed.
    """
    watched = _Watched(stream, dialect, file)
    lines = _lines(watched, dialect)
    if len(dialect.separator) != 1:
        yield from _split_rows(lines, dialect, skip, file)
        return
    if dialect.quote:
        reader = csv.reader(lines, delimiter=dialect.separator, quotechar=dialect.quote)
    else:
        reader = csv.reader(lines, delimiter=dialect.separator, quoting=csv.QUOTE_NONE)
    try:
        for cells in reader:
            if reader.line_num <= dialect.skipped_lines or not cells:
                continue
            if dialect.backslash:
                cells = _unescaped(cells)  # noqa: PLW2901 - the escaped form is done with
            if not watched.damaged or _is_sound(cells, reader.line_num, skip, file):
                yield reader.line_num, cells
    except csv.Error as error:
        _refuse(f"a row cannot be read: {error}", file, reader.line_num)


def _split_rows(lines: Iterator[str], dialect: Dialect, skip: Skip, file: str) -> Iterator[tuple[int, list[str]]]:
    """A separator of several characters, or none: quotes only around whole cells."""
    for number, line in enumerate(lines, 1):
        text = line.rstrip("\r\n")
        if number <= dialect.skipped_lines or not text:
            continue
        cells = text.split(dialect.separator) if dialect.separator else [text]
        if dialect.quote:
            cells = [_unquoted(cell, dialect.quote) for cell in cells]
        if _is_sound(cells, number, skip, file):
            yield number, cells


def _unquoted(cell: str, quote: str) -> str:
    return cell[1:-1].replace(quote * 2, quote) if len(cell) > 1 and cell[0] == cell[-1] == quote else cell


def _is_sound(cells: list[str], line: int, skip: Skip, file: str) -> bool:
    if any(_DAMAGED in cell for cell in cells):
        skip(line, "holds letters that do not fit the encoding", file)
        return False
    return True


_ESCAPES = {"\\t": "\t", "\\n": "\n", "\\r": "\r", "\\\\": "\\"}


def _unescaped(cells: list[str]) -> list[str]:
    return [_unescaped_cell(cell) if "\\" in cell else cell for cell in cells]


def _unescaped_cell(cell: str) -> str:
    out, place = [], 0
    while place < len(cell):
        pair = cell[place : place + 2]
        out.append(_ESCAPES.get(pair, cell[place]))
        place += 2 if pair in _ESCAPES else 1
    return "".join(out)


class _Watched(io.BufferedIOBase):
    """Bytes on their way to be decoded: knows from where on they do not fit, and gives up a line without end."""

    def __init__(self, stream: IO[bytes], dialect: Dialect, file: str) -> None:
        try:
            self._decoder = codecs.getincrementaldecoder(charset(dialect.encoding))()
        except LookupError:
            _refuse(f"its encoding {dialect.encoding!r} is not known", file)
        self._stream = stream
        self._file = file
        self._end = dialect.line_end[-1].encode("ascii", "replace")
        self._since_end = 0
        self.damaged = False

    def readable(self) -> bool:
        return True

    def read1(self, _size: int = -1) -> bytes:
        chunk = self._stream.read(_CHUNK)
        place = chunk.rfind(self._end)
        self._since_end = self._since_end + len(chunk) if place < 0 else len(chunk) - place
        if self._since_end > _LONGEST_LINE:
            _refuse(f"a line is longer than {_LONGEST_LINE} bytes", self._file)
        if not self.damaged:
            try:
                self._decoder.decode(chunk, final=not chunk)
            except UnicodeError:
                self.damaged = True
        return chunk


def _lines(watched: _Watched, dialect: Dialect) -> Iterator[str]:
    """Lines with their end, cut only where the table says so (not at other characters that Unicode calls line ends)."""
    end = dialect.line_end if dialect.line_end in ("\n", "\r", "\r\n") else None
    text = io.TextIOWrapper(cast("BinaryIO", watched), dialect.encoding, errors="replace", newline=end or "\n")
    if end is None:
        return _cut(text, dialect.line_end)
    return chain((next(text, "").removeprefix("\ufeff"),), text)


def _cut(text: TextIO, end: str) -> Iterator[str]:
    """Lines that end in characters of the table's own."""
    held = ""
    while chunk := text.read(_CHUNK):
        *pieces, held = (held + chunk).split(end)
        yield from (piece + "\n" for piece in pieces)
    if held:
        yield held


def _refuse(what: str, file: str, line: int | None = None) -> NoReturn:
    raise InputError(what, remedy="correct the file or declare how it is written", place=Place(file, line))
