"""Rows of a keeper's table as specimens; each is imported or comes back with its reason."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from namekeeper.records.identifiers import fault_of_id
from namekeeper.records.sexes import read_sex, sex_of_count
from namekeeper.records.specimen import Left, Sex, Specimen
from namekeeper.tables.columns import ColumnMap
from namekeeper.tables.grid import Row
from namekeeper.tables.import_names import named_entry, written_name
from namekeeper.words.date_reading import AmbiguousDateError, read_date
from namekeeper.words.dates import DayOrder, PartialDate
from namekeeper.words.errors import InputError, Place
from namekeeper.words.name_parts import NOTHING

#: What stands for a date that nobody knows (common practice, no source).
_UNKNOWN = NOTHING | {
    "?",
    "??",
    "unknown",
    "unbekannt",
    "inconnu",
    "inconnue",
    "desconocido",
    "desconocida",
    "nieznana",
}
_NOT_SO = frozenset({"no", "n", "nein", "non", "nie", "0", "false", "alive", "lebt", "vivant", "vivo"})
_COUNT = re.compile(r"(\d{1,6})(?:[.,]0+)?(?:\s*(?:x|st[kü]?[a-z]*\.?|pcs?|szt\.?|ex\.?))?", re.IGNORECASE | re.ASCII)


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
        old_ids = [f"{title}: {text}" for title, at in self.columns.old_ids.items() if (text := row.cell(at).strip())]
        try:
            identifier = self._identifier(cells.get("id", "").strip())
            specimen = self._specimen(identifier, cells, old_ids)
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

    def _specimen(self, identifier: str, cells: Mapping[str, str], notes: list[str]) -> Specimen:
        acquired, since = self._date(cells, "acquired"), self._date(cells, "since")
        tag, written = cells.get("tag", ""), written_name(cells)
        entry = None
        if written:
            try:
                entry = named_entry(written, cells, since or acquired, self.today)
            except InputError:
                if tag.strip():
                    message = f"'{written}' cannot be read as a name; move what is none to the tag's column"
                    raise ValueError(message) from None
                tag = cells.get("name", "") or written  # what cannot be read as a name is a tag, verbatim
        tag = tag if tag.strip() or entry else cells.get("common", "")
        if not tag.strip() and entry is None:
            raise ValueError("neither a tag nor a name")
        return Specimen(
            identifier,
            Place(self.placed(identifier), 1, identifier),
            tag=tag,
            acquired=acquired,
            sex=_sex(cells),
            locality=_locality(cells),
            common=cells.get("common", "").strip(),
            stage=cells.get("stage", "").strip(),
            origin=(cells["from"].strip(),) if cells.get("from", "").strip() else (),
            stands_at=cells.get("place", "").strip(),
            note="; ".join(filter(None, (cells.get("note", "").strip(), *notes))),
            size=cells.get("size", "").strip(),
            price=cells.get("price", "").strip(),
            left=self._left(cells),
            names=(entry,) if entry else (),
        )

    def _date(self, cells: Mapping[str, str], key: str) -> PartialDate | None:
        text = cells.get(key, "")
        if not text.strip() or text.strip().casefold() in _UNKNOWN:
            return None
        found = read_date(text, self.order)
        if found.earliest > self.today:
            message = f"{key} '{text}' lies in the future"
            raise ValueError(message)
        return found

    def _left(self, cells: Mapping[str, str]) -> Left | None:
        for how in ("died", "sold"):
            if cells.get(how, "").strip().casefold() not in _NOT_SO and (when := self._date(cells, how)):
                return Left(when, how)
        return None


def _sex(cells: Mapping[str, str]) -> Sex | None:
    """The sex of one animal or the counts, from one column or several."""
    parts = [_count(cells.get(key, "")) for key in ("males", "females", "unsexed")]
    if any(part is not None for part in parts):
        counts = [part or 0 for part in parts]
        if any(counts):
            return Sex(".".join(map(str, counts)), *counts)
    sex, count = read_sex(cells.get("sex", "")), _count(cells.get("count", ""))
    return sex if not count or (sex is None and count == 1) else sex_of_count(sex, count)


def _count(text: str) -> int | None:
    """A number of animals; None where there is none.

    :raises ValueError: for what is no number.
    """
    clean = text.strip()
    if not clean or clean.casefold() in _UNKNOWN:
        return None
    found = _COUNT.fullmatch(clean)
    if found is None:
        message = f"'{clean}' is no number of animals"
        raise ValueError(message)
    return int(found[1])


def _locality(cells: Mapping[str, str]) -> str:
    """From the place to the country, each once."""
    parts = (cells.get(key, "").strip() for key in ("locality", "municipality", "province", "country"))
    return ", ".join(dict.fromkeys(filter(None, parts)))
