"""A sheet of a keeper's table as names are carried into it: its header, its column of ids, cells that may be names."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from namekeeper.files.headers import column_named, columns_understood, header_key
from namekeeper.tables.columns import MEANINGS
from namekeeper.tables.grid import CellSpot, Row, SheetSpots, column_letter
from namekeeper.tables.layout import header_at
from namekeeper.tasks.renaming import (
    CollectionNames,
    Judged,
    Stays,
    StaysFor,
    WhyStays,
    by_name,
    by_short_name,
    by_specimen,
    carried_keys,
    mentioned,
)

_IN_FORMULA = Stays(StaysFor.IN_FORMULA)
#: Headers of ids, or of numbers that run down any table.
_RUNNING = frozenset({"no", "nr", "n", "number", "nummer", "numero", "num", "numer", "lfdnr", "laufendenummer", "lp"})
#: Fields that hold small numbers, none of them an id.
_MEASURES = frozenset({"count", "males", "females", "unsexed", "sex", "size", "price", "year", "stage", "acquired"})
_TEXTS_OF_FORMULA = re.compile(r'"((?:[^"]|"")*)"')


@dataclass(frozen=True, slots=True)
class SheetView:
    """A sheet with its header row, the column of ids, and the columns to search."""

    name: str
    spots: tuple[CellSpot, ...]
    headers: Mapping[int, str]
    first_row: int
    ids: Mapping[int, str]  # row -> id of the specimen it is about
    id_column: int | None
    searched: frozenset[int] = field(default_factory=frozenset)

    @classmethod
    def of(
        cls, sheet: SheetSpots, known: CollectionNames, column: str | None = None, ids: str | None = None
    ) -> SheetView:
        """The sheet with its columns found out, or as the keeper names them by their headers."""
        filled = [spot for spot in sheet.spots if spot.text.strip() or spot.formula]
        rows = _rows(filled)
        first = rows[header_at(rows)].number if rows else 1
        headers = {spot.column: spot.text.strip() for spot in filled if spot.row == first}
        id_column = _id_column(filled, first, headers, known) if ids is None else _named(headers, ids)
        found = {s.row: s.text.strip() for s in filled if s.column == id_column and s.text.strip() in known.by_id}
        columns = {spot.column for spot in filled}
        if column is not None:
            columns = {i for i, title in headers.items() if title.casefold() == column.strip().casefold()}
        searched = frozenset(columns - {id_column})
        return cls(sheet.name, tuple(filled), headers, first, found, id_column, searched)

    def title(self, column: int) -> str:
        return self.headers.get(column) or column_letter(column)

    def titles(self) -> list[str]:
        return [title for _, title in sorted(self.headers.items())]

    def candidates(self) -> Iterator[CellSpot]:
        """Cells below the header, in columns to search, that may be names: two words at least."""
        for spot in sorted(self.spots, key=lambda spot: (spot.row, spot.column)):
            texts = (spot.text, *_texts_in(spot.formula))
            if spot.row > self.first_row and spot.column in self.searched and any(len(t.split()) > 1 for t in texts):
                yield spot

    def unknown_names(self, known: CollectionNames) -> Iterator[str]:
        """First two words of cells that look like a name which the collection does not know."""
        for spot in self.candidates():
            for text in (spot.text, *_texts_in(spot.formula)):
                words = text.split()
                looks = len(words) > 1 and words[0].istitle() and words[1].islower() and words[1].isalpha()
                if looks and not known.key_in(text):
                    yield " ".join(words[:2])

    def outcome(self, spot: CellSpot, known: CollectionNames, others: Judged) -> tuple[str, WhyStays]:
        """The cell's new text or "", and why it stays or ""."""
        for text in _texts_in(spot.formula):
            if text != spot.text and any(self._told(replace(spot, text=text), known, others)):
                return "", _IN_FORMULA
        if any(text == spot.text for text in _texts_in(spot.formula)) and any(self._told(spot, known, others)):
            return "", _IN_FORMULA
        new, why = self._told(spot, known, others)
        if new == spot.text or (not new and not why):
            return "", ""
        return ("", spot.fixed) if spot.fixed else (new, why)

    def _told(self, spot: CellSpot, known: CollectionNames, others: Judged) -> tuple[str, WhyStays]:
        specimen = known.by_id.get(self.ids.get(spot.row, ""))
        present = specimen.entry_in_force() if specimen else None
        if specimen is not None and present is not None and known.key_in(spot.text, carried_keys(specimen)):
            return by_specimen(spot.text, specimen, present, known)
        if specimen is not None and present is not None and (short := by_short_name(spot.text, specimen, present)):
            return short, ""
        new, why = by_name(spot.text, known, others)
        if not new and not why and not known.key_in(spot.text):
            return "", mentioned(spot.text, specimen, known) or ""
        return new, why


def _rows(spots: Sequence[CellSpot]) -> list[Row]:
    """Filled rows of a sheet, in order."""
    cells: dict[int, dict[int, str]] = {}
    for spot in spots:
        cells.setdefault(spot.row, {})[spot.column] = spot.text
    return [Row(n, tuple(row.get(i, "") for i in range(max(row) + 1))) for n, row in sorted(cells.items())]


def _named(headers: Mapping[int, str], wanted: str) -> int | None:
    places = sorted(headers)
    index = column_named([headers[place] for place in places], wanted)
    return None if index is None else places[index]


def _id_column(spots: Sequence[CellSpot], first: int, headers: Mapping[int, str], known: CollectionNames) -> int | None:
    """The column that holds ids of the collection, if they are most of what it holds.

    A header that means ids or animals goes before a bare number, and that before one that says nothing; a column that
    means something else (how many, how large, how much) is none, whatever numbers it holds.
    """
    below = [spot for spot in spots if spot.row > first]
    held = Counter(spot.column for spot in below)
    hits = Counter(spot.column for spot in below if spot.text.strip() in known.by_id)
    rank = {column: _speaks_of_ids(headers.get(column, "")) for column in hits}
    fitting = [column for column in hits if hits[column] * 2 > held[column] and rank[column] is not None]
    return max(fitting, key=lambda column: (rank[column] or 0, hits[column], -column), default=None)


def _speaks_of_ids(header: str) -> int | None:
    """How surely a header means ids of animals, 0 if it says nothing, None if it means something else."""
    if header_key(header) in _RUNNING:
        return 1
    if columns_understood([header], {"id": ("specimen id", "any name")}, {}).keys() & {"id"}:
        return 2
    return None if columns_understood([header], MEANINGS, {}).keys() & _MEASURES else 0


def _texts_in(formula: str) -> list[str]:
    """Texts in quotes that a formula holds."""
    return [text.replace('""', '"') for text in _TEXTS_OF_FORMULA.findall(formula)]
