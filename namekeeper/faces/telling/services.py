"""The open name services and how they fare."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime

from namekeeper.faces.telling.documents import code
from namekeeper.faces.telling.parts import Grid, Part
from namekeeper.tasks.services import ServiceState

#: What goes out of the house once a service is asked, and what never does.
LEAVES_THE_HOUSE = (
    "A service that is on is asked only when you say so. Then the scientific names on your labels go out, with their "
    "authors, or the names read in a tag that you look up. With every question goes the name of this program and the "
    "address below, if you give one. Nothing else leaves the house: no numbers, places, sellers, prices or notes."
)


def services_document(states: Sequence[ServiceState]) -> dict[str, object]:
    """The JSON of ``services`` (contract section 5); ``why`` beside it."""
    return {"services": [_service(state) for state in states]}


def _service(state: ServiceState) -> dict[str, object]:
    return {
        "key": state.key,
        "on": state.on,
        "for": list(state.jobs),
        "licence": state.licence,
        "reachable": state.reachable,
        "reason": _reason(state),
        "why": _why(state) or None,
        "last_answer": _iso(state.last_answer),
        "cache_bytes": state.cache_bytes,
    }


def services_parts(states: Sequence[ServiceState]) -> Iterator[Part]:
    """Every service, and how it fares."""
    yield Grid(("service", "on", "for", "licence", "answers", "last answer", "kept"), [_row(s) for s in states])


def reached(states: Sequence[ServiceState]) -> str:
    """How many of those that were asked answered."""
    asked = [state for state in states if state.asked]
    if not asked:
        return "No service is on, so none was asked."
    answered = [state.key for state in asked if state.reachable]
    return f"{len(answered)} of {len(asked)} services answered" + (f": {', '.join(answered)}." if answered else ".")


def services_trouble(states: Sequence[ServiceState]) -> tuple[str, ...]:
    """A line on each that does not answer, or cannot."""
    return tuple(f"{state.key}: {why}" for state in states if (why := _why(state)))


def _why(state: ServiceState) -> str:
    if state.failure is not None:
        return state.failure.why
    return "it needs a key of your own" if state.lacks_key else ""


def _reason(state: ServiceState) -> str | None:
    """The same as a word."""
    if state.failure is not None:
        return code(state.failure.kind)
    return "no-key" if state.lacks_key else None


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
