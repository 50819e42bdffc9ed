"""Which names stood on labels: of one specimen or all, on a day, as known on a day, or in a year."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from namekeeper.labels.naming import name_text
from namekeeper.records.specimen import (
    Collection,
    DatedEntry,
    NameEntry,
    Specimen,
    dated_entries,
    known_on,
    touches_year,
)
from namekeeper.tasks.desk import CollectionDesk, find_all
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Problem


class SpecimenHistory(NamedTuple):
    """Entries of one specimen, and the name on the label on a day; ``seen`` is the specimen as it was known then."""

    specimen: Specimen
    entries: tuple[DatedEntry, ...]
    on: date
    seen: Specimen

    @property
    def name(self) -> NameEntry | None:
        """The name on the label that day; None where only the tag was known."""
        return self.seen.name_on(self.on)

    @property
    def label(self) -> str:
        """The name on the label that day as a label prints it; empty where only the tag was known."""
        name = self.name
        return name_text(name) if name else ""

    def rows(self) -> tuple[tuple[DatedEntry, str], ...]:
        """Every entry with its name as a label prints it."""
        return tuple((dated, name_text(dated.entry)) for dated in self.entries)


@dataclass(frozen=True, slots=True)
class Histories:
    """What was asked for, and the problems in files of the animals asked about."""

    told: tuple[SpecimenHistory, ...]
    problems: tuple[Problem, ...] = ()

    @property
    def exit_code(self) -> int:
        """2 if files have problems: a past entry changed outside the tool is one."""
        return 2 if self.problems else 0


def read_histories(
    desk: CollectionDesk,
    only: Sequence[str] = (),
    *,
    on: PartialDate | None = None,
    known: PartialDate | None = None,
    year: int | None = None,
) -> Histories:
    """The histories of a collection on disk; see :func:`histories`.

    :raises FileError: if there is no such folder.
    """
    collection = desk.open()
    told = histories(collection, desk.today, only=only, on=on, known=known, year=year)
    asked = {specimen.id for specimen in find_all(collection, only)}
    return Histories(told, tuple(p for p in collection.problems if not asked or p.place.specimen in asked))


def histories(
    collection: Collection,
    today: date,
    *,
    only: Sequence[str] = (),
    on: PartialDate | None = None,
    known: PartialDate | None = None,
    year: int | None = None,
) -> tuple[SpecimenHistory, ...]:
    """Histories in the order of the collection; with ``year`` only entries of that year and specimens that have some.

    :raises InputError: for an id in ``only`` that is not there.
    """
    chosen = find_all(collection, only) or collection.specimens
    day = on.earliest if on else today
    told = []
    for specimen in chosen:
        seen = known_on(specimen, known.earliest) if known else specimen
        entries = dated_entries(seen)
        if year is not None:
            entries = tuple(dated for dated in entries if touches_year(dated.entry, year))
            if not entries:
                continue
        told.append(SpecimenHistory(specimen, entries, day, seen))
    return tuple(told)
