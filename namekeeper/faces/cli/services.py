"""``namekeeper services``: which open name services there are, what for, and how they fare."""

from __future__ import annotations

import argparse
from datetime import datetime

from namekeeper.faces.cli.context import Context
from namekeeper.records.specimen import Settings
from namekeeper.sources.freshness import Freshness
from namekeeper.sources.services.registry import KEYS, Outside, Wire, open_all, switched_on
from namekeeper.tasks.ask_services import ServiceState, service_states

HELP = "the open name services and how they answer"
_UNREACHABLE = 3


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--live", action="store_true", help="ask each service one question now")
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")


def run(args: argparse.Namespace, context: Context) -> int:
    """0, or 3 if a service that is switched on does not answer."""
    console = context.console
    outside = Outside(context.places.cache, context.environ, console.say, context.clock, Wire())
    services = open_all(KEYS, Settings(), outside, Freshness())
    on = switched_on(Settings(), context.environ)
    with console.progress("asking") as progress:
        states = service_states(services, on, live=args.live, progress=progress)
    if args.json:
        console.json({"services": [_document(state) for state in states]})
    else:
        console.table(("service", "on", "for", "licence", "answers", "last answer", "kept"), [_row(s) for s in states])
        for state in states:
            if state.why:
                console.say(f"{state.key}: {state.why}")
    return _UNREACHABLE if any(state.reachable is False for state in states) else 0


def _document(state: ServiceState) -> dict[str, object]:
    return {
        "key": state.key,
        "on": state.on,
        "for": list(state.jobs),
        "licence": state.licence,
        "reachable": state.reachable,
        "why": state.why or None,
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
