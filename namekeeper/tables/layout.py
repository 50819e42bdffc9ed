"""How a keeper lays out a sheet: where the header stands, and which rows are none of the data.

A title above, a heading over a group, the header again on every printed page, a sum at the end: all are passed over and
said, and a text that is merged over several rows stands for each of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import cache

from namekeeper.files.header_words import HEADER_WORDS
from namekeeper.files.headers import header_key, is_known_word
from namekeeper.tables.grid import Merge, Row, RowKind, RowSkipped, TableSheet
from namekeeper.words.errors import InputError, Place

#: Of the spreadsheet programs of today, whose cells hold up to 32,767 characters; a text file may say a little more.
MOST_COLUMNS, LONGEST_CELL = 16_384, 100_000
#: Rows among which the header is looked for.
_HEADER_WITHIN = 15
_NUMBER = re.compile(r"[\s\d.,:;€£$%+-]*|(?:\d+\.){2}\d+|[A-Z]{0,3}\s?\d[\d.,\s]*\s?[A-Za-zł€]{0,3}")


def header_at(rows: Sequence[Row]) -> int:
    """Index of the header among the filled rows of a sheet, 0 if nothing speaks for another than the first."""
    words = [sum(map(is_known_word, filter(str.strip, row.cells))) for row in rows[:_HEADER_WITHIN]]
    best = max(range(len(words)), key=lambda index: (words[index], -index), default=0)
    mostly = best and 2 * words[best] >= len(_texts(rows[best]))  # a row of data has words such as "male", too
    if mostly and words[best] > words[0] and (words[best] > 1 or len(_texts(rows[0])) == 1):
        return best
    return 0


def sheet_of(name: str, rows: list[Row], merges: Iterable[Merge] = ()) -> TableSheet:
    """A sheet from all its rows."""
    merges = tuple(merges)
    _refuse_endless(rows)
    filled = [row for row in rows if _texts(row)]
    if not filled:
        return TableSheet(name, (), ())
    at = header_at(filled)
    header = filled[at]
    skipped = [RowSkipped(row.number, _texts(row)[0], RowKind.TITLE) for row in filled[:at]]
    data, merged = _filled_down([row for row in rows if row.number > header.number], merges)
    kept: list[Row] = []
    for row in data:
        kind = _kind(row, header, merges)
        if kind is None:
            kept.append(row)
        elif kind is not RowKind.EMPTY:
            skipped.append(RowSkipped(row.number, _texts(row)[0], kind))
    last = kept[-1].number if kept else 0
    gaps = (row for row in data if row.number < last and not _texts(row))
    skipped += [RowSkipped(row.number, "", RowKind.EMPTY) for row in gaps]
    return TableSheet(name, header.cells, tuple(kept), tuple(sorted(skipped, key=lambda one: one.row)), merged)


def _refuse_endless(rows: Iterable[Row]) -> None:
    """Refuse what no sheet of a keeper holds, before every cell is compared with words.

    :raises InputError: for more columns than spreadsheet programs know, or a text longer than any of theirs.
    """
    for row in rows:
        if len(row.cells) > MOST_COLUMNS:
            what = f"a row has {len(row.cells):,} cells, {MOST_COLUMNS:,} at most are read"
        elif any(len(cell) > LONGEST_CELL for cell in row.cells):
            what = f"a cell holds more than {LONGEST_CELL:,} characters"
        else:
            continue
        raise InputError(what, remedy="see that it is a table, and split it", place=Place(None, row.number))


def _kind(row: Row, header: Row, merges: Sequence[Merge]) -> RowKind | None:
    texts = _texts(row)
    if not texts:
        return RowKind.EMPTY
    if len(texts) > 1 and texts == _texts(header):
        return RowKind.HEADER
    if _adds_up(texts):
        return RowKind.TOTAL
    wide = any(merge.top <= row.number <= merge.bottom and merge.right - merge.left > 1 for merge in merges)
    return RowKind.HEADING if wide and len(texts) == 1 else None


def _adds_up(texts: Sequence[str]) -> bool:
    """Whether a row begins with a word for a sum, and holds nothing but numbers beside it."""
    first = header_key(re.sub(r"[\d.,:€£$]+.*$", "", texts[0]) or texts[0])
    return first in _sums() and all(_NUMBER.fullmatch(text) for text in texts[1:])


@cache
def _sums() -> frozenset[str]:
    return frozenset(map(header_key, HEADER_WORDS["total"]))


def _filled_down(rows: list[Row], merges: Sequence[Merge]) -> tuple[list[Row], int]:
    """Rows with the text of a cell that is merged over several rows in each of them, and how many cells took it."""
    by_number = {row.number: row for row in rows}
    count = 0
    for merge in merges:
        first = by_number.get(merge.top)
        text = first.cell(merge.left) if first else ""
        for number in range(merge.top + 1, merge.bottom + 1):
            row = by_number.get(number)
            if text.strip() and row is not None and not row.cell(merge.left).strip() and _texts(row):
                cells = [*row.cells, *[""] * (merge.left + 1 - len(row.cells))]
                cells[merge.left] = text
                by_number[number] = replace(row, cells=tuple(cells))
                count += 1
    return list(by_number.values()), count


def _texts(row: Row) -> list[str]:
    return [text for cell in row.cells if (text := cell.strip())]
