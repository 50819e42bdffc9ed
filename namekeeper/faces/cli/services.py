"""``namekeeper services``: which open name services there are, what for, and how they fare."""

from __future__ import annotations

import argparse

from namekeeper.faces.cli.arguments import json_option
from namekeeper.faces.telling.services import services_document, services_parts, services_trouble
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.contact import NOBODY_TO_REACH, somebody_to_reach
from namekeeper.tasks.services import service_states

_UNREACHABLE = 3


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--live", action="store_true", help="ask each service one question now")
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    """0, or 3 if a service that is switched on does not answer."""
    console, states = terminal.console, service_states(outside, live=args.live)
    if args.json:
        console.json(services_document(states))
    else:
        console.show(services_parts(states))
        console.say_all(services_trouble(states))
    if not somebody_to_reach(outside):
        console.notice(NOBODY_TO_REACH)
    return _UNREACHABLE if any(state.reachable is False for state in states) else 0
