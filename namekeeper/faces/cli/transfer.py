"""The acts ``import`` and ``export`` of ``namekeeper collection``."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from namekeeper.faces.cli.context import Context
from namekeeper.tables.columns import FIELDS
from namekeeper.tables.dates import DayOrder
from namekeeper.tasks.collection import CollectionDesk, open_collection
from namekeeper.tasks.transfer import KINDS, ImportPlan, ImportWishes, export, plan_import, write_import
from namekeeper.words.errors import InputError

_ROWS_SHOWN = 12


def import_options(sub: argparse.ArgumentParser) -> None:
    """Table, columns, dates."""
    sub.add_argument("table", metavar="TABLE", type=Path, help="CSV, XLSX, ODS, or an export of namekeeper")
    sub.add_argument("--column", action="append", default=[], metavar="FIELD=HEADER", help=", ".join(FIELDS))
    sub.add_argument("--sheet", default="", metavar="NAME", help="the sheet to read; the first that holds rows without")
    sub.add_argument("--dates", choices=[order.value for order in DayOrder], help="how dates like 3/5/2014 are meant")
    sub.add_argument("--write", action="store_true", help="write the specimens; without it, show them")


def export_options(sub: argparse.ArgumentParser) -> None:
    """Target and kinds."""
    sub.add_argument("-o", "--output", metavar="FILE", type=Path, required=True, help="where to write")
    sub.add_argument("--as", dest="kinds", default="csv", metavar="KIND", help=f"one or more of {','.join(KINDS)}")


def run_import(args: argparse.Namespace, context: Context, desk: CollectionDesk) -> int:
    """0 if every row goes in, 1 if rows are left, 2 if files were refused."""
    console = context.console
    open_collection(desk, console.say)
    wishes = ImportWishes(columns_of(args.column), DayOrder(args.dates) if args.dates else None, args.sheet)
    table = context.folder / args.table
    with console.progress("reading") as step:
        plan = plan_import(desk, table, wishes, step)
    if plan.ambiguous and context.interactive and not args.json:
        order = _asked(context)
        plan = plan_import(desk, table, replace(wishes, order=order)) if order else plan
    refused: tuple[str, ...] = ()
    if args.write:
        with console.progress("writing") as step:
            written = write_import(desk, plan, step)
        refused = tuple(map(str, written.refused))
        for message in (*written.messages, *refused):
            console.say(message)
        done = set(written.specimens)
        plan = replace(plan, specimens=tuple(row for row in plan.specimens if row[1].id in done))
    if args.json:
        console.json(_document(plan, written=args.write))
    else:
        _show(plan, context, written=args.write)
    return 2 if refused else 1 if plan.left else 0


def run_export(args: argparse.Namespace, context: Context, desk: CollectionDesk) -> int:
    """0, or 2 if specimens could not be read and are therefore not in the export."""
    collection = open_collection(desk, context.console.say)
    kinds = tuple(kind.strip() for kind in args.kinds.split(",") if kind.strip())
    files = export(desk, collection, context.folder / args.output, kinds)
    if args.json:
        context.console.json({"files": [str(path) for path in files], "specimens": len(collection.specimens)})
    else:
        context.console.put(f"{len(collection.specimens)} specimens: {', '.join(str(path) for path in files)}")
    for problem in collection.problems:
        context.console.say(str(problem))
    return 2 if collection.problems else 0


def columns_of(texts: list[str]) -> Mapping[str, str]:
    """Options FIELD=HEADER as a mapping."""
    columns: dict[str, str] = {}
    for text in texts:
        name, sign, header = text.partition("=")
        if not sign or not header.strip():
            what = f"'{text}' is not FIELD=HEADER"
            raise InputError(what, remedy='write --column "tag=Sold as"')
        columns[name.strip()] = header
    return columns


def _asked(context: Context) -> DayOrder | None:
    context.console.put("In dates like 3/5/2014, is the day first? y (day first), n (month first), else leave them:")
    answer = context.stdin.readline().strip().lower()
    return {"y": DayOrder.DAY_FIRST, "n": DayOrder.MONTH_FIRST}.get(answer)


def _document(plan: ImportPlan, *, written: bool) -> dict[str, object]:
    return {
        "columns": dict(plan.headers),
        "imported": [{"row": number, "specimen": specimen.id} for number, specimen in plan.specimens],
        "left": [{"row": row.row, "why": row.why} for row in plan.left],
        "written": written,
    }


def _show(plan: ImportPlan, context: Context, *, written: bool) -> None:
    console = context.console
    console.put(f"Read as {plan.told}.")
    if plan.headers:
        console.table(("field", "column"), list(plan.headers.items()))
        console.put()
    shown = plan.specimens[:_ROWS_SHOWN]
    rows = [(str(n), each.id, each.tag, each.names[-1].name if each.names else "", str(each.acquired or ""))
            for n, each in shown]  # fmt: skip
    console.table(("row", "id", "tag", "name", "acquired"), rows)
    if len(plan.specimens) > len(shown):
        console.put(f"... and {len(plan.specimens) - len(shown)} more")
    if plan.left:
        console.heading("Rows that are left")
        console.table(("row", "why"), [(str(row.row), row.why) for row in plan.left])
    console.put()
    console.put(f"{len(plan.specimens)} rows {'written' if written else 'would be written'}, {len(plan.left)} left.")
    if not written:
        console.put("Nothing is written without --write.")
