"""Which column of a keeper's table holds what: guessed from headers and content, shown, and kept for next time."""

from __future__ import annotations

import difflib
import hashlib
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from namekeeper.files.header_words import HEADER_WORDS
from namekeeper.files.headers import column_named, columns_understood, header_key
from namekeeper.records.identifiers import fault_of_id
from namekeeper.records.sexes import read_sex
from namekeeper.tables.grid import TableSheet
from namekeeper.words.date_reading import AmbiguousDateError, read_date
from namekeeper.words.errors import InputError

#: Fields of an import with what their columns mean (files.header_words); an earlier field takes its column first.
MEANINGS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "id": ("specimen id",),
        "tag": ("tag",),
        "name": ("name",),
        **{one: (one,) for one in ("genus", "subgenus", "epithet", "infraspecific", "authorship")},
        **{one: (one,) for one in ("author", "year", "brackets")},
        "qualifier": ("qualifier",),
        "since": ("since",),
        "decided_by": ("decided by",),
        "acquired": ("acquired", "observed"),
        **{one: (one,) for one in ("died", "sold", "sex", "males", "females", "unsexed", "count")},
        **{one: (one,) for one in ("locality", "municipality", "province", "country")},
        **{one: (one,) for one in ("from", "place", "note", "common", "stage", "size", "price")},
    }
)
FIELDS = tuple(MEANINGS)
_DATES = frozenset({"acquired", "since", "died", "sold"})
#: Headers of dates that are of the row, not of the animal.
_OF_THE_RECORD = frozenset({"modified", "lastmodified", "created", "updated", "dateentered", "timestamp"})
#: Rows by whose content a column is judged.
_MOST_SUGGESTED = 100  # columns for which a field is looked for; nobody reads more
_LOOK_AT = 200


@dataclass(frozen=True, slots=True)
class UnreadColumn:
    """A column that holds something and is not read: its header or letter, its first text, and what it may be.

    ``field`` is empty where nothing suggests itself.
    """

    header: str
    sample: str
    cells: int
    field: str


@dataclass(frozen=True, slots=True)
class ColumnMap:
    """Field -> index of its column, the same as the keeper reads it, and the columns of which nothing is read."""

    columns: Mapping[str, int]
    headers: Mapping[str, str]
    unread: tuple[UnreadColumn, ...] = ()
    old_ids: Mapping[str, int] = field(default_factory=dict)  # columns of ids that cannot be ids here, by header


def map_columns(
    sheet: TableSheet,
    told: Mapping[str, str],
    kept: Mapping[str, str],
    ids: Collection[str] = (),
    *,
    only_told: bool = False,
) -> ColumnMap:
    """The columns of a sheet: as told, else as kept from an earlier import of such a table, else guessed.

    With ``only_told`` no others are read.

    :raises InputError: for an unknown field, a header that is not there, or a table with neither tag nor name.
    """
    columns: dict[str, int] = {}
    old_ids: dict[str, int] = {}
    for name, header in told.items():
        columns[name] = _told(sheet, name, header)
    for name, header in () if only_told else kept.items():
        index = column_named(sheet.headers, header)
        if index is not None and name not in columns and index not in columns.values() and name in FIELDS:
            columns[name] = index
    if not kept and not only_told:
        columns, old_ids = _guessed(sheet, columns)
        columns = _with_ids(sheet, columns, ids)
    if not {"tag", "name", "genus"} & columns.keys():
        what = (
            f"no column with tags or names was found among: {', '.join(filter(str.strip, sheet.headers)) or 'nothing'}"
        )
        raise InputError(what, remedy="say which it is: --column tag=HEADER or --column name=HEADER")
    headers = {name: sheet.title(columns[name]) for name in FIELDS if name in columns}
    used = {*columns.values(), *old_ids.values()}
    return ColumnMap(columns, headers, tuple(_unread(sheet, used, columns)), old_ids)


def signature(sheet: TableSheet) -> str:
    """A key for tables of the same headers."""
    return hashlib.sha256("\x1f".join(sheet.headers).encode("utf-8", "surrogatepass")).hexdigest()[:16]


def _told(sheet: TableSheet, name: str, header: str) -> int:
    if name not in FIELDS:
        what = f"unknown field '{name}'"
        raise InputError(what, remedy="fields: " + ", ".join(FIELDS))
    index = column_named(sheet.headers, header)
    if index is None:
        what = f"the table has no column '{header}'"
        raise InputError(what, remedy="its columns: " + ", ".join(text for text in sheet.headers if text.strip()))
    return index


def _guessed(sheet: TableSheet, told: Mapping[str, int]) -> tuple[dict[str, int], dict[str, int]]:
    """Columns by their headers; a column of ids most of which cannot be ids of specimens is told apart, by header."""
    headers = list(sheet.headers)
    old_ids: dict[str, int] = {}
    columns = columns_understood(headers, MEANINGS, told)
    while "id" in columns and "id" not in told and not _may_be_ids(sheet, columns["id"]):
        index = columns["id"]
        if any(row.cell(index).strip() for row in sheet.rows):
            old_ids[sheet.title(index)] = index
        headers[index] = ""
        columns = columns_understood(headers, MEANINGS, told)
    if "author" not in columns:
        columns.pop("year", None)  # a year alone may be that of anything
    if not {"tag", "name", "genus"} & columns.keys() and "common" in columns:
        columns["tag"] = columns.pop("common")  # what the animal is called is all there is
    return columns, old_ids


def _may_be_ids(sheet: TableSheet, index: int) -> bool:
    """Whether most cells of a column can be ids, and most are there once only."""
    texts = [text for row in sheet.rows[:_LOOK_AT] if (text := row.cell(index).strip())]
    sound = {text.casefold() for text in texts if fault_of_id(text) is None}
    return bool(texts) and 2 * len(sound) >= len(texts)


def _with_ids(sheet: TableSheet, columns: Mapping[str, int], ids: Collection[str]) -> dict[str, int]:
    """Without a header for it the column of ids is the one most of whose cells are ids of the collection."""
    if "id" in columns or not ids:
        return dict(columns)
    held = {i: sum(row.cell(i) in ids for row in sheet.rows) for i in range(len(sheet.headers))}
    best = max(held, key=lambda i: held[i], default=None)
    if best is None or held[best] * 2 <= len(sheet.rows) or best in columns.values():
        return dict(columns)
    return {**columns, "id": best}


def _unread(sheet: TableSheet, used: Collection[int], columns: Mapping[str, int]) -> list[UnreadColumn]:
    width = max([len(sheet.headers), *(len(row.cells) for row in sheet.rows)])
    found: list[UnreadColumn] = []
    for index in range(width):
        texts = [text for row in sheet.rows if (text := row.cell(index).strip())] if index not in used else []
        if texts:
            suggested = _suggested(sheet, index, texts, columns) if len(found) < _MOST_SUGGESTED else ""
            found.append(UnreadColumn(sheet.title(index), texts[0], len(texts), suggested))
    return found


def _suggested(sheet: TableSheet, index: int, texts: list[str], columns: Mapping[str, int]) -> str:
    """The field that a header or its cells suggest, of those that have no column yet; else the note, if it is free."""
    free = [name for name in FIELDS if name not in columns]
    some, key = texts[:_LOOK_AT], header_key(sheet.headers[index]) if index < len(sheet.headers) else ""
    by_word = {
        header_key(word): name for name in reversed(free) for one in MEANINGS[name] for word in HEADER_WORDS[one]
    }
    near = difflib.get_close_matches(key, [word for word in by_word if len(word) > 3], n=1, cutoff=0.84)
    inside = max((word for word in by_word if len(word) > 4 and word in key), key=len, default="")
    by_header = by_word[near[0] if near else inside] if near or inside else ""
    if by_header and (_fits(by_header, some) or (by_header in _DATES and all(map(_is_year, some)))):
        return by_header
    by_content = () if key in _OF_THE_RECORD else ("acquired", "sex")
    return next((name for name in by_content if name in free and _fits(name, some)), "note" if "note" in free else "")


def _fits(name: str, texts: list[str]) -> bool:
    """Whether most texts can stand in the field."""
    reads = _is_date if name in _DATES else _is_sex if name == "sex" else None
    return reads is None or 2 * sum(map(reads, texts)) > len(texts)


def _is_year(text: str) -> bool:
    return len(text) == 4 and text[:2] in ("19", "20") and text.isdigit()


def _is_date(text: str) -> bool:
    try:
        read_date(text)
    except AmbiguousDateError:
        return True
    except ValueError:
        return False
    return not text.isdigit()


def _is_sex(text: str) -> bool:
    try:
        return read_sex(text) is not None
    except ValueError:
        return False
