"""The two time axes of a name: on the label since, and known (recorded) since. Nothing here changes a record."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from itertools import takewhile
from typing import NamedTuple

from namekeeper.records.specimen import Decision, NameEntry, Specimen
from namekeeper.words.dates import PartialDate


@dataclass(frozen=True, slots=True)
class DatedEntry:
    """An entry with its number (from 1), whether a later entry undid it, or corrected it as wrong from the start."""

    number: int
    entry: NameEntry
    undone: bool
    corrected: bool = False


class Print(NamedTuple):
    """A print that came out, with its number among the decisions (from 1)."""

    number: int
    decision: Decision


def live_prints(specimen: Specimen) -> tuple[Print, ...]:
    """What was printed on labels and not taken back, oldest first."""
    back = {decision.undoes for decision in specimen.decisions if decision.kind == "unprinted"}
    numbered = enumerate(specimen.decisions, 1)
    return tuple(Print(number, one) for number, one in numbered if one.kind == "printed" and str(number) not in back)


def known_on(specimen: Specimen, day: date) -> Specimen:
    """The specimen as it was recorded at the end of that day.

    Entries stand in the order they were recorded, so what was known is the beginning of the list; its numbers stay.
    """
    known = takewhile(lambda entry: entry.recorded is None or entry.recorded.earliest <= day, specimen.names)
    return replace(specimen, names=tuple(known))


def dated_entries(specimen: Specimen) -> tuple[DatedEntry, ...]:
    """All entries in file order; an undoing itself is never undone (to redo, the name is taken again)."""
    undone = {entry.undoes for entry in specimen.names if entry.standing == "undone"}
    held, live = ({id(entry) for entry in found} for found in (specimen.held_entries(), specimen.live_entries()))
    return tuple(
        DatedEntry(
            number,
            entry,
            str(number) in undone and entry.standing != "undone",
            id(entry) in held and id(entry) not in live,
        )
        for number, entry in enumerate(specimen.names, 1)
    )


def touches_year(entry: NameEntry, year: int) -> bool:
    """Whether the entry came onto the label, or was recorded, in that year."""
    return any(_in_year(when, year) for when in (entry.since, entry.recorded))


def last_undoable(specimen: Specimen) -> DatedEntry | None:
    """The entry that an undoing would take back: the last live one, unless it is what the animal came with."""
    dated = (one for one in dated_entries(specimen) if not one.undone and not one.corrected)
    live = [one for one in dated if one.entry.standing != "undone"]
    if not live or live[-1].entry.standing == "as-labelled":
        return None
    return live[-1]


def _in_year(when: PartialDate | None, year: int) -> bool:
    return when is not None and when.earliest.year == year
