"""What a keeper is told of work that was stopped: how far it came, and what is left of it."""

from __future__ import annotations

from types import MappingProxyType

from namekeeper.outside import StoppedError, Work

_LEFT = MappingProxyType(
    {
        Work.CHECKING: "nothing was changed",
        Work.ASKING: "every answer that came is kept, and the next run goes on from there",
        Work.READING: "nothing was written",
        Work.WRITING: "either all was written or nothing",
        Work.ADDING: "no list was changed",
        Work.FETCHING: "what came is kept, and the next fetch goes on from there",
        Work.COMPARING: "nothing was changed",
        Work.GATHERING: "no label was drawn",
        Work.FITTING: "no label was drawn",
        Work.DRAWING: "no file was written",
        Work.ANSWERING: "no file was written",
    }
)


def stopped_line(stop: KeyboardInterrupt) -> str:
    """One line for a job that the keeper stopped."""
    if not isinstance(stop, StoppedError) or stop.work is None:
        return "stopped; what was finished is kept"
    steps = f"{stop.done} of {stop.total}" if stop.total else str(stop.done)
    came = f" after {steps}" if stop.done else ""
    return f"stopped while {stop.work}{came}: {_LEFT[stop.work]}"
