"""``namekeeper settle``: take, choose, keep, postpone or undo, shown first and written with ``--write``."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from namekeeper.faces import check_report
from namekeeper.faces.cli.arguments import desk_of, partial_date, plain_text, report_problems
from namekeeper.faces.cli.context import Context
from namekeeper.faces.cli.online import online_options, service_wishes
from namekeeper.faces.cli.settle_pass import SettlePass
from namekeeper.judging.trust import Trust
from namekeeper.tasks.check import Report, check_collection
from namekeeper.tasks.collection import open_collection
from namekeeper.tasks.online import ask_online
from namekeeper.tasks.open_sources import local_lists
from namekeeper.tasks.settle import Orders, Planned, plan, write_plan
from namekeeper.words.errors import InputError

HELP = "take, keep or postpone what a check proposes"


def options(parser: argparse.ArgumentParser) -> None:
    """What the keeper orders, and whether it is written."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the collection")
    parser.add_argument("--take-safe", action="store_true", help="take every proposal that needs no judgement")
    for word, metavar, what in (
        ("take", "ID=NAME", "put this name on the label"),
        ("keep", "ID", "keep the name, until something new is said"),
        ("later", "ID", "decide later"),
        ("undo", "ID", "take back what was done last"),
    ):
        parser.add_argument(f"--{word}", action="append", default=[], metavar=metavar, help=f"{what} (repeatable)")
    parser.add_argument("--on", type=partial_date, metavar="DATE", help="the day the new label counts from; today")
    parser.add_argument("--note", type=plain_text, default="", metavar="TEXT", help="why, in your own words")
    parser.add_argument("--write", action="store_true", help="write; without it, show what would change")
    online_options(parser)
    parser.add_argument("--json", action="store_true", help="one JSON document on stdout")


def run(args: argparse.Namespace, context: Context) -> int:
    """Settle; 2 if something was refused, else as ``check`` would say of what is left."""
    console, desk = context.console, desk_of(args.folder, context)
    collection = open_collection(desk, console.say)
    orders = _orders(args)
    lists = local_lists(context.places, console.say)
    with console.progress("checking") as step:
        report = check_collection(
            collection,
            lists,
            ask_online(context.outside, collection.settings, service_wishes(args)),
            Trust.of(collection.settings.trust_order),
            context.today,
            step=step,
        )
    planned = plan(collection, report.findings, orders, lists, context.today)
    refused = False
    for change in planned:
        if change.remark:
            console.say(change.remark)
    if planned and args.write:
        planned, written = write_plan(desk, planned)
        refused = bool(written.refused)
        for message in (*written.messages, *map(str, written.refused)):
            console.say(message)
    left = _left(report, planned)
    if _asks_to_go_through(args, orders, context):
        planned = SettlePass(context, desk, orders, lists).run((*left.safe, *left.to_decide))
        left = _left(left, planned)
    elif args.json:
        console.json({"changes": [_change(change) for change in planned]})
    else:
        _show(planned, left, context, args)
    report_problems(report.problems, context, quiet=True)
    return 2 if refused else left.exit_code


def _orders(args: argparse.Namespace) -> Orders:
    return Orders(
        args.take_safe,
        _taken(args.take),
        tuple(dict.fromkeys(args.keep)),
        tuple(dict.fromkeys(args.later)),
        tuple(dict.fromkeys(args.undo)),
        args.on,
        args.note,
    )


def _taken(texts: Sequence[str]) -> Mapping[str, str]:
    taken: dict[str, str] = {}
    for text in texts:
        identifier, sign, name = (part.strip() for part in text.partition("="))
        if not (identifier and sign and name):
            what = f"'{text}' is not ID=NAME"
            raise InputError(what, remedy='write --take "INV-0007=Tliltocatl vagans"')
        if taken.setdefault(identifier, name) != name:
            what = f"{identifier} was given two names"
            raise InputError(what, remedy="leave one out")
    return taken


def _asks_to_go_through(args: argparse.Namespace, orders: Orders, context: Context) -> bool:
    return bool(args.write and not args.json and not args.take_safe and not orders.named() and context.interactive)


def _left(report: Report, planned: Sequence[Planned]) -> Report:
    """The report without what was written; an undoing leaves its proposal open."""
    done = {change.specimen for change in planned if change.written and change.standing not in ("undone", "postponed")}
    return replace(report, findings=tuple(f for f in report.findings if f.specimen.id not in done))


def _change(change: Planned) -> dict[str, object]:
    return {
        "specimen": change.specimen,
        "old": change.old,
        "new": change.new,
        "standing": str(change.standing),
        "written": change.written,
    }


def _show(planned: Sequence[Planned], left: Report, context: Context, args: argparse.Namespace) -> None:
    console = context.console
    if planned:
        rows = [(c.specimen, c.old or "", c.new or "", str(c.standing), "yes" if c.written else "no") for c in planned]
        console.table(("label", "name on it", "new name", "standing", "written"), rows)
        if not args.write:
            console.put("Nothing is written without --write.")
        return
    check_report.show(replace(left, problems=()), console)
    console.put(f"Take what needs no judgement: namekeeper settle {args.folder} --take-safe --write")
    console.put(f"Go through the rest key by key, on a terminal: namekeeper settle {args.folder} --write")
