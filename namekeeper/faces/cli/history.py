"""``namekeeper history``: which names stood on a label, since when and why."""

from __future__ import annotations

import argparse
from pathlib import Path

from namekeeper.faces.cli.arguments import json_option, partial_date
from namekeeper.faces.telling.collection import history_document, history_parts
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.history import read_histories


def options(parser: argparse.ArgumentParser) -> None:
    """Specimen, day on the label, day of knowledge, year."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the collection")
    parser.add_argument("specimens", metavar="ID", nargs="*", help="only these (else all)")
    parser.add_argument("--on", metavar="DATE", type=partial_date, help="the name on the label that day")
    parser.add_argument("--known", metavar="DATE", type=partial_date, help="by what was recorded up to that day")
    parser.add_argument("--year", metavar="Y", type=int, help="what changed in that year")
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    """Show the history; 2 if files have problems (a past entry changed outside the tool is one)."""
    console, desk = terminal.console, CollectionDesk.at(args.folder, outside)
    found = read_histories(desk, args.specimens, on=args.on, known=args.known, year=args.year)
    if args.json:
        console.json(history_document(found))
    else:
        for history in found.told:
            console.show(history_parts(history, by_day=bool(args.on or args.known)))
        if not found.told:
            console.put("No name changed." if args.year else "No animals.")
    console.say_all(found.problems)
    return found.exit_code
