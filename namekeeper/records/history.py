"""The two time axes of a name: on the label since, and known (recorded) since. Nothing here changes a record."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from itertools import takewhile

from namekeeper.records.specimen import NameEntry, Specimen
from namekeeper.words.dates import PartialDate


@dataclass(frozen=True, slots=True)
class DatedEntry:
    """An entry with its number (from 1) and whether a later entry undid it."""

    number: int
    entry: NameEntry
    undone: bool


def known_on(specimen: Specimen, day: date) -> Specimen:
    """The specimen as it was recorded at the end of that day.

    Entries stand in the order they were recorded, so what was known is the beginning of the list; its numbers stay.
    """
    known = takewhile(lambda entry: entry.recorded is None or entry.recorded.earliest <= day, specimen.names)
    return replace(specimen, names=tuple(known))


def dated_entries(specimen: Specimen) -> tuple[DatedEntry, ...]:
    """All entries in file order; an undoing itself is never undone (to redo, the name is taken again)."""
    undone = {entry.undoes for entry in specimen.names if entry.standing == "undone"}
    return tuple(
        DatedEntry(number, entry, str(number) in undone and entry.standing != "undone")
        for number, entry in enumerate(specimen.names, 1)
    )


def touches_year(entry: NameEntry, year: int) -> bool:
    """Whether the entry came onto the label, or was recorded, in that year."""
    return any(_in_year(when, year) for when in (entry.since, entry.recorded))


def last_undoable(specimen: Specimen) -> DatedEntry | None:
    """The entry that an undoing would take back: the last live one, unless it is what the animal came with."""
    live = [dated for dated in dated_entries(specimen) if not dated.undone and dated.entry.standing != "undone"]
    if not live or live[-1].entry.standing == "as-labelled":
        return None
    return live[-1]


def _in_year(when: PartialDate | None, year: int) -> bool:
    return when is not None and when.earliest.year == year
