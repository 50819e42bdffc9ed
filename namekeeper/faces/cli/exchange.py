"""``namekeeper collection import`` and ``export``: a keeper's table in, a collection out."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path

from namekeeper.faces.cli.arguments import (
    encoding_option,
    output_option,
    pairs_of,
)
from namekeeper.faces.telling.transfer import (
    export_document,
    export_parts,
    import_document,
    import_parts,
    unlicensed,
)
from namekeeper.faces.terminal import Terminal
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.export import (
    KINDS,
    LICENCE_KEYS,
    WITH,
    ExportWishes,
    export,
    is_licensed,
    keep_licence,
    outputs_of,
)
from namekeeper.tasks.transfer import IMPORT_FIELDS, Imported, ImportWishes, plan_import, write_import
from namekeeper.words.dates import DayOrder


def import_options(sub: argparse.ArgumentParser) -> None:
    """The table, and how to read it."""
    sub.add_argument("table", metavar="TABLE", type=Path, help="CSV, XLSX, ODS, or an export of namekeeper")
    sub.add_argument("--column", action="append", default=[], metavar="FIELD=HEADER", help=", ".join(IMPORT_FIELDS))
    encoding_option(sub)
    sub.add_argument("--sheet", default="", metavar="NAME", help="the sheet to read (else the first that holds rows)")
    sub.add_argument("--dates", choices=[order.value for order in DayOrder], help="how dates like 3/5/2014 are meant")
    sub.add_argument("--write", action="store_true", help="write the animals; without it, show them")


def export_options(sub: argparse.ArgumentParser) -> None:
    """Where to, in which forms, and what goes out with them."""
    output_option(sub, "FILE", "where to write", required=True)
    sub.add_argument("--as", dest="kinds", default="csv", metavar="KIND", help=f"one or more of {','.join(KINDS)}")
    archive = sub.add_argument_group(
        "a Darwin Core archive (dwca)",
        "It may be published, so what is private stays out of it; csv and json hold all. Identifiers that others may"
        " cite are kept in the collection's folder.",
    )
    archive.add_argument(
        "--with", dest="shared", default="", metavar="FIELDS", help=f"let these go with it: {','.join(WITH)}"
    )
    archive.add_argument("--licence", default="", metavar="L", help=f"{', '.join(LICENCE_KEYS)}, or other words")
    archive.add_argument("--rights-holder", default="", metavar="NAME", help="whose data they are")


def import_table(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    """0 if every row goes in, 1 if rows are left, 2 if files were refused."""
    columns = pairs_of(args.column, 'write --column "tag=Sold as"')
    wishes = ImportWishes(columns, DayOrder(args.dates) if args.dates else None, args.sheet, args.encoding)
    plan = plan_import(desk, args.table, wishes)
    if plan.ambiguous and terminal.interactive and not args.json:
        order = _day_order(terminal)
        plan = plan_import(desk, args.table, replace(wishes, order=order)) if order else plan
    done = write_import(desk, plan) if args.write else Imported(plan)
    terminal.console.say_all((*done.messages, *done.refused))
    if args.json:
        terminal.console.json(import_document(done))
    else:
        terminal.console.show(import_parts(done))
    return done.exit_code


def _day_order(terminal: Terminal) -> DayOrder | None:
    terminal.console.put("In dates like 3/5/2014, is the day first? y (day first), n (month first), else leave them:")
    return {"y": DayOrder.DAY_FIRST, "n": DayOrder.MONTH_FIRST}.get(terminal.line().strip().lower())


def export_collection(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    """0, or 2 if specimens could not be read and are therefore not in the export."""
    kinds = _listed(args.kinds)
    outputs = outputs_of(desk, args.output, kinds, replace=args.replace)
    if "dwca" in kinds and not args.licence and terminal.interactive and not args.json:
        _ask_licence(desk, terminal)
    done = export(desk, outputs, ExportWishes(kinds, args.licence, args.rights_holder, _listed(args.shared)))
    if args.json:
        terminal.console.json(export_document(done))
    else:
        terminal.console.show(export_parts(done))
    terminal.console.say_all((*unlicensed(done), *done.problems))
    return done.exit_code


def _listed(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(",") if part.strip())


def _ask_licence(desk: CollectionDesk, terminal: Terminal) -> None:
    """Ask once, at the first archive; what is answered is written into collection.yaml."""
    if is_licensed(desk):
        return
    terminal.console.put(
        f"Under which licence may others use the archive? {', '.join(LICENCE_KEYS)}; enter for none yet:"
    )
    licence = terminal.line().strip()
    if licence:
        terminal.console.put("Whose data are they (a name that goes out with them)?")
        keep_licence(desk, licence, terminal.line().strip())
