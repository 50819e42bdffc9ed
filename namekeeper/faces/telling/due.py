"""What is due in the collection that a keeper stands in, in five lines at most."""

from __future__ import annotations

from collections.abc import Iterator

from namekeeper.faces.telling.parts import Part, TextLine, counted
from namekeeper.tasks.due import Due


def due_parts(due: Due) -> Iterator[Part]:
    """The collection, then a line with a command for all that waits."""
    yield TextLine(f"{due.title}: {counted(due.labels, 'label')}{'' if due.exit_code else ', nothing is due'}")
    if due.safe:
        names = counted(due.safe, "name has changed and needs", "names have changed and need")
        yield TextLine(f"{names} no judgement: namekeeper settle . --take-safe --write")
    if due.to_decide:
        waits = counted(due.to_decide, "name waits", "names wait")
        later = f", {due.postponed} for later" if due.postponed else ""
        yield TextLine(f"{waits} for your decision{later}: namekeeper settle . --write")
    if due.stale or due.unprinted:
        old = f"{due.stale} with an outdated name" if due.stale else ""
        new = f"{due.unprinted} never printed" if due.unprinted else ""
        labels = f"{counted(due.stale + due.unprinted, 'label')} to print ({', '.join(filter(None, (old, new)))})"
        if not (due.stale or due.prints):
            labels = f"{counted(due.unprinted, 'label')} can be printed, none was yet"
        yield TextLine(f"{labels}: namekeeper labels . --due -o labels.pdf")
    if due.problems:
        files = counted(due.problems, "problem")
        yield TextLine(f"{files} in the files: namekeeper collection verify .")
