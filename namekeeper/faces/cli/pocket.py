"""``namekeeper pocket``: the look-up and the animals in one file for a phone."""

from __future__ import annotations

import argparse
from pathlib import Path

from namekeeper.faces.cli.arguments import output_option
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.output import Output, OutputKind
from namekeeper.tasks.pocket import MAY_GO_ALONG, fill_pocket


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", metavar="FOLDER", type=Path, nargs="?", help="a collection whose animals go along")
    output_option(parser, "FILE.html", "the file to write", required=True)
    parser.add_argument(
        "--with",
        metavar="FIELDS",
        dest="along",
        default="",
        help="facts of the animals that go along, with commas between: " + ", ".join(MAY_GO_ALONG),
    )


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    from namekeeper.faces.telling.pocket import pocket_page, written

    file = Output(args.output, OutputKind.POCKET, outside, args.replace)
    file.check()
    desk = CollectionDesk.at(args.folder, outside) if args.folder else None
    along = tuple(fact.strip() for fact in args.along.split(",") if fact.strip())
    pocket = fill_pocket(outside, desk, along)
    page = pocket_page(pocket)
    file.write(page)
    for problem in pocket.problems:
        terminal.console.say(str(problem))
    for line in written(pocket, args.output, len(page.encode())):
        terminal.console.put_folded(line)
    return 2 if pocket.problems else 0
