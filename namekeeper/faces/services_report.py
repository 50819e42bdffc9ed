"""How services fare, in words and as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from namekeeper.evidence.statements import Failure
from namekeeper.faces.console import Console

if TYPE_CHECKING:  # loads every adapter, which a command that only tells of a failure has no use for
    from namekeeper.tasks.services import ServiceState


def unasked(failure: Failure) -> str:
    """The line on a service that was meant to be asked and could not be."""
    return f"{failure.edition.title} could not be asked: {failure.why}"


def show(states: Sequence[ServiceState], console: Console) -> None:
    """A table of all, and a line on each that does not answer."""
    console.table(("service", "on", "for", "licence", "answers", "last answer", "kept"), [_row(s) for s in states])
    for state in states:
        if why := _why(state):
            console.say(f"{state.key}: {why}")


def as_document(states: Sequence[ServiceState]) -> dict[str, object]:
    """The JSON of contract section 5; ``why`` beside it."""
    return {"services": [_document(state) for state in states]}


def _why(state: ServiceState) -> str:
    if state.failure is not None:
        return state.failure.why
    return "it needs a key of your own" if state.lacks_key else ""


def _document(state: ServiceState) -> dict[str, object]:
    return {
        "key": state.key,
        "on": state.on,
        "for": list(state.jobs),
        "licence": state.licence,
        "reachable": state.reachable,
        "why": _why(state) or None,
        "last_answer": _iso(state.last_answer),
        "cache_bytes": state.cache_bytes,
    }


def _row(state: ServiceState) -> tuple[str, ...]:
    reachable = {True: "yes", False: "no", None: "not asked"}[state.reachable]
    last = _iso(state.last_answer)
    return (
        state.key,
        "yes" if state.on else "no",
        ", ".join(state.jobs),
        state.licence or "not stated",
        reachable,
        last[:10] if last else "never",
        f"{state.cache_bytes / 1000:.0f} kB",
    )


def _iso(moment: datetime | None) -> str | None:
    return None if moment is None else moment.isoformat(timespec="seconds")
