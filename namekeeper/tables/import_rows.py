"""Rows of a keeper's table as specimens; each is imported or comes back with its reason."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from namekeeper.records.identifiers import fault_of_id
from namekeeper.records.specimen import NameEntry, Sex, Specimen
from namekeeper.tables.columns import ColumnMap
from namekeeper.tables.grid import Row
from namekeeper.words.date_reading import AmbiguousDateError, read_date
from namekeeper.words.dates import DayOrder, PartialDate
from namekeeper.words.errors import InputError, Place
from namekeeper.words.parsing import parse_name


@dataclass(frozen=True, slots=True)
class RowLeft:
    """A row that was not imported, and why."""

    row: int
    why: str
    ambiguous: bool = False  # a date whose order of day and month the keeper has to tell


@dataclass(slots=True)
class RowImporter:
    """Reads rows one after the other; ``taken`` holds ids of the collection and of rows read, ``free_ids`` new ones.

    ``placed`` tells the file of an id.
    """

    columns: ColumnMap
    today: date
    order: DayOrder | None
    taken: set[str]
    free_ids: Iterator[str]
    placed: Callable[[str], str]
    numbered: set[str] = field(default_factory=set)  # ids that were chosen here, as the row had none

    def read(self, row: Row) -> Specimen | RowLeft:
        """The row as a specimen, its tag verbatim."""
        cells = {name: row.cell(index) for name, index in self.columns.columns.items()}
        try:
            identifier = self._identifier(cells.get("id", "").strip())
            specimen = self._specimen(identifier, cells)
        except ValueError as error:
            return RowLeft(row.number, str(error), isinstance(error, AmbiguousDateError))
        except InputError as error:
            return RowLeft(row.number, error.what)
        self.taken.add(identifier.casefold())
        return specimen

    def _identifier(self, text: str) -> str:
        if not text:
            chosen = next(self.free_ids)
            self.numbered.add(chosen)
            return chosen
        fault = fault_of_id(text)
        if fault:
            message = f"'{text}' cannot be an id: {fault}"
            raise ValueError(message)
        if text.casefold() in self.taken:
            message = f"the id '{text}' is taken"
            raise ValueError(message)
        return text

    def _specimen(self, identifier: str, cells: Mapping[str, str]) -> Specimen:
        acquired, since = self._date(cells, "acquired"), self._date(cells, "since")
        tag, written = cells.get("tag", ""), cells.get("name", "").strip()
        entry = None
        if written:
            try:
                entry = self._entry(written, since or acquired)
            except InputError:
                if tag.strip():
                    message = f"'{written}' cannot be read as a name; move what is none to the tag's column"
                    raise ValueError(message) from None
                tag = cells["name"]  # what cannot be read as a name is a tag, verbatim
        if not tag.strip() and entry is None:
            raise ValueError("neither a tag nor a name")
        return Specimen(
            identifier,
            Place(self.placed(identifier), 1, identifier),
            tag=tag,
            acquired=acquired,
            sex=Sex.parse(sex).whole if (sex := cells.get("sex", "").strip()) else None,
            locality=cells.get("locality", "").strip(),
            origin=(cells["from"].strip(),) if cells.get("from", "").strip() else (),
            stands_at=cells.get("place", "").strip(),
            note=cells.get("note", "").strip(),
            names=(entry,) if entry else (),
        )

    def _entry(self, written: str, since: PartialDate | None) -> NameEntry:
        name = parse_name(written)
        unread = _words(written) - _words(str(name))
        if unread:
            what = f"'{written}': what is '{' '.join(sorted(unread))}'?"
            raise InputError(what)
        return NameEntry(
            name.canonical,
            str(name.authorship) if name.authorship else "",
            since,
            PartialDate.of(self.today),
            qualifier=name.qualifier,
            trade_form=name.trade_form,
            note="" if str(name) == written else f"as written in the table: {written}",
        )

    def _date(self, cells: Mapping[str, str], key: str) -> PartialDate | None:
        text = cells.get(key, "")
        if not text.strip():
            return None
        found = read_date(text, self.order)
        if found.earliest > self.today:
            message = f"{key} '{text}' lies in the future"
            raise ValueError(message)
        return found


def _words(text: str) -> set[str]:
    return set(re.findall(r"\w+", text.casefold()))
