"""Delimited text as rows, streamed: any separator, quote and encoding a description declares, bounded memory."""

from __future__ import annotations

import codecs
import csv
from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO, NoReturn

from namekeeper.sources.lists.skips import Skips
from namekeeper.words.errors import InputError, Place

_CHUNK = 1 << 18
#: Characters; a line this long is no row of a list, and must not fill memory.
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
    lines = _lines(stream, dialect, file)
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
            if _is_sound(cells, reader.line_num, skips, file):
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


def _lines(stream: IO[bytes], dialect: Dialect, file: str) -> Iterator[str]:
    """Lines with their end, cut only where the table says so (not at other characters that Unicode calls line ends)."""
    try:
        decoder = codecs.getincrementaldecoder(dialect.encoding)(errors="replace")
    except LookupError:
        _refuse(f"its encoding {dialect.encoding!r} is not known", file)
    end = dialect.line_end
    held, first = "", True
    while chunk := stream.read(_CHUNK):
        text = decoder.decode(chunk)
        if first:
            text, first = text.removeprefix("\ufeff"), False
        pieces = (held + text).split(end)
        held = pieces.pop()
        if len(held) > _LONGEST_LINE:
            _refuse(f"a line is longer than {_LONGEST_LINE} characters", file)
        yield from (
            [piece + "\n" for piece in pieces] if end == "\n" else [piece.rstrip("\r\n") + "\n" for piece in pieces]
        )
    held += decoder.decode(b"", final=True)
    if held:
        yield held


def _refuse(what: str, file: str, line: int | None = None) -> NoReturn:
    raise InputError(what, remedy="correct the file or declare how it is written", place=Place(file, line))
