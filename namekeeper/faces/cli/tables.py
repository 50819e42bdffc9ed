"""``namekeeper tables``: carry new names into a feeding log, a sales list or any other table."""

from __future__ import annotations

import argparse
from pathlib import Path

from namekeeper.faces.cli.arguments import desk_of, report_problems
from namekeeper.faces.cli.context import Context
from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.reading import read_named
from namekeeper.tasks.collection import open_collection
from namekeeper.tasks.open_sources import local_lists
from namekeeper.tasks.tables import TablePlan, judge_with, new_path, plan_table

HELP = "carry new names into other tables"


def options(parser: argparse.ArgumentParser) -> None:
    """Collection, table, column, target."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the collection")
    parser.add_argument("table", metavar="TABLE", type=Path, help="CSV, XLSX or ODS")
    parser.add_argument("--column", metavar="NAME", help="look into this column only")
    parser.add_argument("-o", "--output", metavar="FILE", type=Path, help="the new table; beside the old one without")
    parser.add_argument("--write", action="store_true", help="write the new table; without it, show what would change")
    parser.add_argument("--json", action="store_true", help="one JSON document on stdout")


def run(args: argparse.Namespace, context: Context) -> int:
    """0 if nothing is left to do, 1 if cells are left or not written, 2 if files of the collection have problems."""
    console = context.console
    collection = open_collection(desk_of(args.folder, context), console.say)
    table = context.folder / args.table
    lists = local_lists(context.places, console.say)
    plan = plan_table(collection, read_named(table), args.column, judge_with(lists, collection, context.today))
    target = new_path(table, context.folder / args.output if args.output else None)
    if args.write and plan.changes:
        replace_whole(DiskFiles(), target, plan.content)
    if args.json:
        console.json(_document(plan))
    else:
        _show(plan, context, target if args.write and plan.changes else None)
    report_problems(collection.problems, context, quiet=True)
    open_end = plan.left or (plan.changes and not args.write)
    return 2 if collection.problems else 1 if open_end else 0


def _document(plan: TablePlan) -> dict[str, object]:
    return {
        "changes": [
            {"row": c.row, "column": c.column, "old": c.old, "new": c.new, "sheet": c.sheet} for c in plan.changes
        ],
        "left": [
            {"row": c.row, "column": c.column, "value": c.value, "why": c.why, "sheet": c.sheet} for c in plan.left
        ],
    }


def _show(plan: TablePlan, context: Context, written: Path | None) -> None:
    console = context.console
    console.table(("row", "column", "old", "new"), [(str(c.row), c.column, c.old, c.new) for c in plan.changes])
    if plan.left:
        console.heading("Cells that stay as they are")
        console.table(("row", "column", "value", "why"), [(str(c.row), c.column, c.value, c.why) for c in plan.left])
    if not plan.changes:
        console.put("No cell changes.")
    elif written is not None:
        console.put(f"{len(plan.changes)} cells changed in the new table {written}")
    else:
        console.put(f"{len(plan.changes)} cells would change. Nothing is written without --write.")
