"""Delimited text as rows, streamed: any separator, quote and encoding a description declares, bounded memory."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO, BinaryIO, NoReturn, TextIO, cast

from namekeeper.sources.lists.skips import Skips
from namekeeper.words.errors import InputError, Place

_CHUNK = 1 << 18
#: Bytes; a line this long is no row of a list, and must not fill memory.
_LONGEST_LINE = 1 << 20
_DAMAGED = "\ufffd"


@dataclass(frozen=True, slots=True)
class Dialect:
    """How a table is written: ``quote`` may be empty, ``backslash`` escapes tab, line ends and itself."""

    separator: str = ","
    quote: str = '"'
    line_end: str = "\n"
    encoding: str = "utf-8"
    skipped_lines: int = 0
    backslash: bool = False


def rows(stream: IO[bytes], dialect: Dialect, skips: Skips, file: str) -> Iterator[tuple[int, list[str]]]:
    """Line number (from 1) and cells of every row but the empty ones; rows with damaged letters are skipped.

    :raises InputError: for an encoding nobody knows, a line without end, a quote that is never closed.
    """
    watched = _Watched(stream, dialect, file)
    lines = _lines(watched, dialect)
    if len(dialect.separator) != 1:
        yield from _split_rows(lines, dialect, skips, file)
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
            if not watched.damaged or _is_sound(cells, reader.line_num, skips, file):
                yield reader.line_num, cells
    except csv.Error as error:
        _refuse(f"a row cannot be read: {error}", file, reader.line_num)


def _split_rows(lines: Iterator[str], dialect: Dialect, skips: Skips, file: str) -> Iterator[tuple[int, list[str]]]:
    """A separator of several characters, or none: quotes only around whole cells."""
    for number, line in enumerate(lines, 1):
        text = line.rstrip("\r\n")
        if number <= dialect.skipped_lines or not text:
            continue
        cells = text.split(dialect.separator) if dialect.separator else [text]
        if dialect.quote:
            cells = [_unquoted(cell, dialect.quote) for cell in cells]
        if _is_sound(cells, number, skips, file):
            yield number, cells


def _unquoted(cell: str, quote: str) -> str:
    return cell[1:-1].replace(quote * 2, quote) if len(cell) > 1 and cell[0] == cell[-1] == quote else cell


def _is_sound(cells: list[str], line: int, skips: Skips, file: str) -> bool:
    if any(_DAMAGED in cell for cell in cells):
        skips.add(line, "holds letters that do not fit the encoding", file)
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
            self._decoder = codecs.getincrementaldecoder(dialect.encoding)()
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
        yield from _cut(text, dialect.line_end)
        return
    first = next(text, "").removeprefix("\ufeff")
    yield first
    yield from text


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
