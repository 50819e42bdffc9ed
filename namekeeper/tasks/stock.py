"""What a collection held on a day: animals by species, under the name of then and that of now."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from namekeeper.labels.naming import name_text
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.tables.delimited import safe_csv
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Problem

_HEADERS = ("name", "name then", "labels", "animals", "male", "female", "unsexed", "not certain")


@dataclass(frozen=True, slots=True)
class StockRow:
    """Animals that share the name they have now and the one they had then; both None where there was only a tag.

    ``specimens`` are the labels; one without a count of sexes is one animal. ``unsure`` are those of which the files do
    not say for certain that they were there that day.
    """

    name: str | None
    then: str | None
    specimens: tuple[Specimen, ...]
    unsure: tuple[str, ...]

    @property
    def sexes(self) -> tuple[int, int, int]:
        """Males, females and unsexed animals."""
        counts = [(one.sex.male, one.sex.female, one.sex.unsexed) if one.sex else (0, 0, 1) for one in self.specimens]
        male, female, unsexed = (sum(column) for column in zip(*counts, strict=True))
        return male, female, unsexed

    @property
    def count(self) -> int:
        return sum(self.sexes)


@dataclass(frozen=True, slots=True)
class Stock:
    """The stock on a day. Counts are those recorded now: files keep no earlier ones, so ``past`` is to be said."""

    on: date
    rows: tuple[StockRow, ...]
    past: bool
    problems: tuple[Problem, ...] = ()

    @property
    def count(self) -> int:
        return sum(row.count for row in self.rows)

    @property
    def labels(self) -> int:
        return sum(len(row.specimens) for row in self.rows)

    @property
    def exit_code(self) -> int:
        """2 if files could not be read, whose animals are missing here."""
        return 2 if self.problems else 0

    def as_csv(self) -> bytes:
        """One line a row, for a spreadsheet."""
        return safe_csv(
            _HEADERS,
            (
                (
                    row.name or "",
                    row.then or "",
                    " ".join(one.id for one in row.specimens),
                    str(row.count),
                    *map(str, row.sexes),
                    " ".join(row.unsure),
                )
                for row in self.rows
            ),
        )


def take_stock(desk: CollectionDesk, on: PartialDate | None = None) -> Stock:
    """The stock of a collection on disk on a day, today without one; of a month or year on its last day.

    :raises FileError: if there is no such folder.
    """
    collection = desk.open()
    return _stock_of(collection, on.latest if on else desk.today, desk.today)


def _stock_of(collection: Collection, day: date, today: date) -> Stock:
    """The same of a collection that is read already; rows by name, animals without one last."""
    seen = {specimen.id: _was_there(specimen, day, past=day < today) for specimen in collection.specimens}
    there = {identifier: sure for identifier, sure in seen.items() if sure is not None}
    groups: dict[tuple[str | None, str | None], list[Specimen]] = {}
    for specimen in collection.specimens:
        if specimen.id in there:
            groups.setdefault((_name(specimen, date.max), _name(specimen, day)), []).append(specimen)
    rows = (StockRow(*names, tuple(found), _unsure(found, there)) for names, found in groups.items())
    ordered = sorted(rows, key=lambda row: (row.name is None, row.name or "", row.then or ""))
    return Stock(day, tuple(ordered), day < today, collection.problems)


def _name(specimen: Specimen, day: date) -> str | None:
    entry = specimen.name_on(day)
    return name_text(entry) if entry else None


def _unsure(specimens: Iterable[Specimen], there: dict[str, bool]) -> tuple[str, ...]:
    return tuple(one.id for one in specimens if not there[one.id])


def _was_there(specimen: Specimen, day: date, *, past: bool) -> bool | None:
    """Whether the animal was there at the end of that day: surely, perhaps (False), or not (None)."""
    came, left = specimen.acquired, specimen.left
    if came is not None and came.earliest > day:
        return None
    if left is None:
        return (came is not None and came.latest <= day) or not past
    if left.date is None:
        return False if past else None  # it is gone, and nobody knows since when
    if left.date.latest <= day:
        return None
    return came is not None and came.latest <= day < left.date.earliest
