"""What is due in a collection, found without asking anyone."""

from __future__ import annotations

from dataclasses import dataclass

from namekeeper.records.specimen import live_prints
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tasks.check import check_opened
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_memory import status_of
from namekeeper.tasks.online import ServiceWishes


@dataclass(frozen=True, slots=True)
class Due:
    """How much waits: names that need no judgement, names to decide, labels to print, files that cannot be read.

    A label that was never printed is due where the keeper prints, that is where any print of this collection is
    recorded: who writes labels by hand would have something to do for ever. It is offered all the same. An enclosure
    with an outdated name is always due.
    """

    title: str
    labels: int
    safe: int
    to_decide: int
    postponed: int  # of those to decide
    stale: int
    unprinted: int  # labels that were never printed, beside the stale ones
    prints: bool  # whether any print is recorded
    problems: int

    @property
    def exit_code(self) -> int:
        """1 if anything is to do."""
        unprinted = self.prints and self.unprinted
        return 1 if self.safe or self.to_decide or self.stale or unprinted or self.problems else 0


def what_is_due(desk: CollectionDesk) -> Due:
    """Check a collection by lists and kept answers alone, and look at its labels.

    :raises FileError: if the folder cannot be read.
    """
    collection = desk.open()
    with open_lists(desk.outside.places, desk.outside.notice) as lists:
        report = check_opened(desk, collection, lists, ServiceWishes(offline=True))
    labels = [status_of(specimen) for specimen in collection.kept()]
    return Due(
        report.title,
        len(report.findings),
        len(report.safe),
        len(report.to_decide),
        sum(finding.postponed for finding in report.to_decide),
        sum(one.stale for one in labels),
        sum(one.due and not one.stale for one in labels),
        any(live_prints(specimen) for specimen in collection.specimens),
        len(report.problems),
    )
