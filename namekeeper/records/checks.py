"""Small checks of one specimen; adding a check is adding a function to ``CHECKS``."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date, timedelta

from namekeeper.records.specimen import Specimen
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Place, Problem
from namekeeper.words.terms import EntryStanding, Standing

STANDINGS = frozenset(standing.value for standing in (*Standing, *EntryStanding))
DECISION_KINDS = frozenset({"kept", "postponed", "undone", "printed", "counted", "joined", "divided", "unprinted"})

# A keeper who travels west, or a machine on another continent's time, may be a day behind what was recorded.
_ANOTHER_ZONE = timedelta(days=1)

_DIGITS = 9  # no file holds that many entries

Lines = Mapping[str, int]  # key of the specimen's file -> its line, from 1
Check = Callable[[Specimen, Lines, date], Iterator[Problem]]


def has_tag_or_name(specimen: Specimen, _lines: Lines, _today: date) -> Iterator[Problem]:
    """Without either nothing could ever be said of the animal."""
    if not specimen.tag.strip() and not specimen.names:
        what = "neither a tag nor a name"
        yield Problem(what, "write the seller's text as tag:", Place(specimen.place.file, 1, specimen.id))


def dates_have_come(specimen: Specimen, lines: Lines, today: date) -> Iterator[Problem]:
    """Records speak of what has been; a date ahead is a slip of the pen."""
    latest = today + _ANOTHER_ZONE
    for when, key, line in _dates_of(specimen, lines):
        if when is not None and when.earliest > latest:
            yield Problem(f"{key} {when} lies in the future", "correct the date", _at(specimen, line))


def _dates_of(specimen: Specimen, lines: Lines) -> Iterator[tuple[PartialDate | None, str, int]]:
    yield specimen.acquired, "acquired", lines.get("acquired", 1)
    if specimen.left is not None:
        yield specimen.left.date, "left", lines.get("left", 1)
    for entry in specimen.names:
        yield entry.since, "since", entry.line
        yield entry.recorded, "recorded", entry.line
    for decision in specimen.decisions:
        yield decision.recorded, "recorded", decision.line
    for paper in specimen.papers:
        yield paper.date, "papers", lines.get("papers", 1)


def entries_are_appended(specimen: Specimen, _lines: Lines, _today: date) -> Iterator[Problem]:
    """Entries stand oldest first, by the day they were recorded."""
    latest: PartialDate | None = None
    for entry in specimen.names:
        if entry.recorded is None:
            continue
        if latest is not None and latest.earliest - entry.recorded.latest > _ANOTHER_ZONE:
            what = f"entry recorded {entry.recorded} stands after one recorded {latest}"
            yield Problem(what, "names: is kept oldest first; move or correct the entry", _at(specimen, entry.line))
        latest = entry.recorded


def undone_entries_exist(specimen: Specimen, _lines: Lines, _today: date) -> Iterator[Problem]:
    """An undoing names an earlier entry by its number."""
    for number, entry in enumerate(specimen.names, 1):
        if entry.standing == EntryStanding.UNDONE:
            named = entry.undoes
            if _earlier(named, number) is None:
                what = f"undoes: '{named}' is not the number of an earlier entry"
                yield Problem(what, f"write a number from 1 to {number - 1}", _at(specimen, entry.line))
        elif entry.undoes:
            what = "undoes: belongs to an entry with standing: undone"
            yield Problem(what, "delete undoes: or correct standing:", _at(specimen, entry.line))


def undone_prints_exist(specimen: Specimen, _lines: Lines, _today: date) -> Iterator[Problem]:
    """A print taken back is named by its number among the decisions."""
    for number, decision in enumerate(specimen.decisions, 1):
        named = decision.undoes
        if decision.kind == "unprinted":
            earlier = _earlier(named, number)
            if earlier is None or specimen.decisions[earlier - 1].kind != "printed":
                what = f"undoes: '{named}' is not the number of an earlier print"
                yield Problem(what, "write the number of a decision of kind: printed", _at(specimen, decision.line))
        elif named:
            what = "undoes: belongs to a decision of kind: unprinted"
            yield Problem(what, "delete undoes: or correct kind:", _at(specimen, decision.line))


def _earlier(named: str, number: int) -> int | None:
    """The number of an entry before the given one; None for anything else, of any length."""
    fitting = named.isascii() and named.isdigit() and len(named) <= _DIGITS and 0 < int(named) < number
    return int(named) if fitting else None


def words_are_known(specimen: Specimen, _lines: Lines, _today: date) -> Iterator[Problem]:
    """Standings and kinds of decision are closed sets (contract of the file format)."""
    for entry in specimen.names:
        if entry.standing not in STANDINGS:
            what = f"unknown standing '{entry.standing}'"
            yield Problem(what, "use one of: " + ", ".join(sorted(STANDINGS)), _at(specimen, entry.line))
    for decision in specimen.decisions:
        if decision.kind not in DECISION_KINDS:
            what = f"unknown kind of decision '{decision.kind}'"
            yield Problem(what, "use one of: " + ", ".join(sorted(DECISION_KINDS)), _at(specimen, decision.line))


def left_after_it_came(specimen: Specimen, lines: Lines, _today: date) -> Iterator[Problem]:
    """An animal cannot leave before it was acquired."""
    gone = specimen.left.date if specimen.left else None
    if gone and specimen.acquired and gone.latest < specimen.acquired.earliest:
        what = f"left {gone}, before it was acquired {specimen.acquired}"
        yield Problem(what, "correct one of the dates", _at(specimen, lines.get("left", 1)))


def is_not_its_own_parent(specimen: Specimen, lines: Lines, _today: date) -> Iterator[Problem]:
    """``from`` names sellers or parents."""
    if specimen.id.casefold() in (origin.casefold() for origin in specimen.origin):
        yield Problem("from: names the specimen itself", "name its parents", _at(specimen, lines.get("from", 1)))


CHECKS: tuple[Check, ...] = (
    has_tag_or_name,
    dates_have_come,
    entries_are_appended,
    undone_entries_exist,
    undone_prints_exist,
    words_are_known,
    left_after_it_came,
    is_not_its_own_parent,
)


def problems_of(specimen: Specimen, lines: Lines, today: date) -> tuple[Problem, ...]:
    """Everything the checks have to say of one specimen."""
    return tuple([problem for check in CHECKS for problem in check(specimen, lines, today)])


def questions_of(specimen: Specimen) -> Iterator[Problem]:
    """What only the keeper can tell, though nothing is wrong with the file; ``verify`` alone asks it.

    Version 0.1 wrote the day of adding as ``acquired`` wherever no day was given.
    """
    first = specimen.names[0] if specimen.names else None
    day = specimen.acquired
    if first and day and day == first.recorded and day.earliest == day.latest:
        what = f"acquired {day} is the day of the first entry: did the animal come that day?"
        remedy = "if not, correct acquired: or delete it; version 0.1 wrote that day where none was given"
        yield Problem(what, remedy, _at(specimen, first.line))


def _at(specimen: Specimen, line: int) -> Place:
    return Place(specimen.place.file, line, specimen.id)
