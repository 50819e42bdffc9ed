"""Which names stood on labels: of one specimen or all, on a day, as known on a day, or in a year."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from namekeeper.records.history import DatedEntry, dated_entries, known_on, touches_year
from namekeeper.records.specimen import Collection, NameEntry, Specimen
from namekeeper.tasks.collection import find
from namekeeper.words.dates import PartialDate


@dataclass(frozen=True, slots=True)
class SpecimenHistory:
    """Entries of one specimen, and the name on the label on a day; ``name`` None where only the tag was known."""

    specimen: Specimen
    entries: tuple[DatedEntry, ...]
    on: date
    name: NameEntry | None


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
    chosen = [find(collection, identifier) for identifier in only] or collection.specimens
    day = on.earliest if on else today
    told = []
    for specimen in chosen:
        seen = known_on(specimen, known.earliest) if known else specimen
        entries = dated_entries(seen)
        if year is not None:
            entries = tuple(dated for dated in entries if touches_year(dated.entry, year))
            if not entries:
                continue
        told.append(SpecimenHistory(specimen, entries, day, seen.name_on(day)))
    return tuple(told)
