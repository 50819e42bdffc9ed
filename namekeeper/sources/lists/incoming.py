"""Rows on their way into an index: what every reader of a list hands over, and how the cells of a row become it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from operator import itemgetter
from typing import NamedTuple, TypeVar

_Row = TypeVar("_Row")


class UsageRow(NamedTuple):
    """One name as a list prints it; every field is text as it stands there, empty where it says nothing.

    ``key`` is the list's own identifier. An accepted name is found by ``accepted_key``, else by ``accepted_name``.
    ``status`` is any of the words that Darwin Core, ColDP and zoologists use; empty means accepted.
    """

    line: int
    key: str
    name: str
    authorship: str = ""
    rank: str = ""
    status: str = ""
    accepted_key: str = ""
    accepted_name: str = ""
    parent_key: str = ""
    original_genus: str = ""
    original_key: str = ""  # the usage of the original combination (basionym)
    range: str = ""
    family: str = ""
    order: str = ""
    class_: str = ""
    kingdom: str = ""
    code: str = ""  # nomenclatural code
    name_status: str = ""  # status by the Code, such as "nomen dubium"
    remarks: str = ""
    citation: str = ""
    link: str = ""
    confidence: str = "verified"
    as_of: str = ""  # year up to which the source of the status was followed
    revised: str = ""  # year of a newer revision of the genus that the list knows


#: Makes a usage of a tuple of its fields, without the checks of ``_make``: this runs once for every name.
usage_row: Callable[[tuple[str | int, ...]], UsageRow] = partial(tuple.__new__, UsageRow)


class CommonRow(NamedTuple):
    """A common name of the usage ``key``, or of the taxon named ``taxon``."""

    line: int
    key: str
    text: str
    language: str
    taxon: str = ""
    kind: str = "common"
    citation: str = ""
    link: str = ""
    confidence: str = "verified"
    usual: bool = False  # the one that most people say, of those of its taxon in its language


class AreaRow(NamedTuple):
    """An area in which the usage ``key`` occurs naturally."""

    line: int
    key: str
    area: str


class ActRow(NamedTuple):
    """A published act between two names, both canonical."""

    old: str
    new: str
    kind: str  # a word of evidence.ActKind
    year: str = ""
    citation: str = ""
    link: str = ""
    confidence: str = "verified"


class RelationRow(NamedTuple):
    """A relation of names by identifier (ColDP NameRelation): ``key`` is or does ``kind`` to ``related``."""

    line: int
    key: str
    related: str
    kind: str
    citation: str = ""


class FactRow(NamedTuple):
    """Any other fact: ``kind`` is one of schema.FACTS, ``key`` the name it is found by, ``values`` its columns."""

    kind: str
    key: str
    values: dict[str, str]
    citation: str = ""
    link: str = ""
    confidence: str = "verified"


@dataclass(frozen=True, slots=True)
class Column:
    """Where a field comes from: a column of the table (from 0), a constant for empty cells, or both."""

    index: int | None = None
    default: str = ""


def mapped(
    rows: Iterator[tuple[int, list[str]]],
    fields: Sequence[str],
    columns: Mapping[str, Column],
    make: Callable[[tuple[str | int, ...]], _Row],
    *,
    skip: Callable[[int, str, str], None],
    file: str,
) -> Iterator[_Row]:
    """Rows of ``make``, a named tuple whose first field is the line and whose others are ``fields``.

    A row with fewer or more cells than the first row is skipped: its cells may stand in the wrong columns.
    """
    used = [columns.get(field, Column()) for field in fields]
    # In front of all stands the line, which is put at the end of the cells, behind an empty one for what is not there.
    places = [-1, *(-2 if column.index is None else column.index for column in used)]
    defaulted = [(place, column.default) for place, column in enumerate(used, 1) if column.default]
    furthest = max(places)
    pick: Callable[[list[str | int]], tuple[str | int, ...]] = itemgetter(*places)
    width = 0
    for line, cells in rows:
        size = len(cells)
        width = width or size
        if size != width or size <= furthest:
            skip(line, f"has {size} cells, not {max(width, furthest + 1)}", file)
            continue
        values = pick([*cells, "", line])
        yield make(_with_defaults(values, defaulted) if defaulted else values)


def _with_defaults(values: tuple[str | int, ...], defaults: list[tuple[int, str]]) -> tuple[str | int, ...]:
    filled = list(values)
    for place, default in defaults:
        filled[place] = filled[place] or default
    return tuple(filled)
