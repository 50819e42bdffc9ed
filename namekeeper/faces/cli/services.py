"""``namekeeper services``: which open name services there are, what for, and how they fare."""

from __future__ import annotations

import argparse

from namekeeper.faces import services_report
from namekeeper.faces.cli.context import Context
from namekeeper.tasks.services import service_states

_UNREACHABLE = 3


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--live", action="store_true", help="ask each service one question now")
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")


def run(args: argparse.Namespace, context: Context) -> int:
    """0, or 3 if a service that is switched on does not answer."""
    states = service_states(context.outside, live=args.live)
    if args.json:
        context.console.json(services_report.as_document(states))
    else:
        services_report.show(states, context.console)
    return _UNREACHABLE if any(state.reachable is False for state in states) else 0
