"""``namekeeper aka``: every name a species has carried."""

from __future__ import annotations

import argparse

from namekeeper.evidence.statements import Failure
from namekeeper.faces.cli.arguments import json_option
from namekeeper.faces.telling.aka import aka_document, aka_parts
from namekeeper.faces.telling.sources import unreached
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.aka import find_names
from namekeeper.words.errors import InputError


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("name", metavar="NAME", nargs="+", help="a scientific name, old or new, or a common name")
    parser.add_argument("--online", action="store_true", help="add what the open name services list")
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    if len(args.name) > 1 and any(" " in word.strip() for word in args.name):
        raise InputError("these are several names", remedy="ask for one at a time")
    console = terminal.console
    failures: list[Failure] = []

    def tell(failure: Failure) -> None:
        failures.append(failure)
        console.say(unreached(failure))

    known = find_names(" ".join(args.name), outside, tell if args.online else None)
    if args.json:
        console.json(aka_document(known, failures))
    else:
        console.show(aka_parts(known))
    return 0
