"""What the date on a label says about the meaning of the name on it (contract section 4, label date).

The date a label was written is compared with the dates of acts. Dates are often known to the year only; a comparison
then takes the unsafe side: whatever may have been in force when the label was written counts as in force. An unknown
label date leaves every meaning open.
"""

from __future__ import annotations

from enum import IntEnum, unique

from namekeeper.evidence.statements import Act, ActKind, Division, Misuse
from namekeeper.words.dates import PartialDate


@unique
class Usage(IntEnum):
    """How a recorded misuse bears on one label, gravest last."""

    NONE = 0  # written before it began or after it ended
    WARNED = 1  # cleared up on paper, still going on in the trade
    MISAPPLIED = 2  # not yet cleared up when the label was written


def usage(misuse: Misuse, label: PartialDate | None, decided_once: bool = False) -> Usage:
    """Contract section 4: before ``cleared`` misapplied; from ``cleared`` on and not ``ended`` a warning."""
    if label is None:
        return Usage.MISAPPLIED
    if begins_later(misuse, label):
        return Usage.NONE
    if misuse.ended is not None and not may_be_before(label, misuse.ended):
        return Usage.NONE
    if misuse.cleared is None or may_be_before(label, misuse.cleared):
        return Usage.MISAPPLIED
    return Usage.NONE if decided_once else Usage.WARNED


def begins_later(misuse: Misuse, label: PartialDate | None) -> bool:
    """Whether the label is older than the misuse; beginnings are mostly recalled, so it stays a note."""
    return label is not None and misuse.start is not None and surely_before(label, misuse.start)


def divides(division: Division, label: PartialDate | None) -> bool:
    """Whether a label of that date may mean any of the species a name was divided into.

    A split counts for labels older than ``since``. A revival counts only while the revived name was sunk: before
    that the revived species went under its own name.
    """
    if label is None:
        return True
    if division.since is not None and not may_be_before(label, division.since):
        return False
    if division.kind is ActKind.REVIVAL and division.sunk is not None:
        return not surely_before(label, division.sunk)
    return True


def may_be_before(day: PartialDate, other: PartialDate) -> bool:
    """Whether ``day`` can lie before ``other``."""
    return day.earliest < other.latest


def surely_before(day: PartialDate, other: PartialDate) -> bool:
    """Whether every day that ``day`` can mean lies before every day of ``other``."""
    return day.latest < other.earliest


def _act_date(act: Act) -> PartialDate | None:
    """The year of an act as a date; None if the source does not give one that can be read."""
    try:
        return PartialDate.parse(act.year[:10]) if act.year else None
    except ValueError:
        return None


def latest_act(acts: tuple[Act, ...]) -> PartialDate | None:
    """The date of the newest dated act of a chain."""
    dates = [found for act in acts if (found := _act_date(act)) is not None]
    return max(dates, default=None)
