"""``namekeeper tables``: carry new names into a feeding log, a sales list or any other table."""

from __future__ import annotations

import argparse
from pathlib import Path

from namekeeper.faces.cli.arguments import encoding_option, json_option
from namekeeper.faces.telling.transfer import tables_document, tables_parts
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.tables import TableWishes, rewrite_table


def options(parser: argparse.ArgumentParser) -> None:
    """Collection, table, column, target."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the collection")
    parser.add_argument("table", metavar="TABLE", type=Path, help="CSV, XLSX or ODS")
    parser.add_argument("--column", metavar="NAME", help="look into this column only")
    parser.add_argument("--id-column", metavar="NAME", help="this column holds the ids of the animals")
    parser.add_argument("-o", "--output", metavar="FILE", type=Path, help="the new table (else beside the old one)")
    parser.add_argument("--write", action="store_true", help="write the new table; without it, show what would change")
    encoding_option(parser)
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    """0 if nothing is left to do, 1 if cells are left or not written, 2 if files of the collection have problems."""
    console, desk = terminal.console, CollectionDesk.at(args.folder, outside)
    done = rewrite_table(
        desk, args.table, TableWishes(args.column, args.id_column, args.encoding), args.output, write=args.write
    )
    if args.json:
        console.json(tables_document(done))
    else:
        console.show(tables_parts(done))
    console.say_all(done.problems)
    return done.exit_code
