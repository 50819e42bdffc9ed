"""``namekeeper labels``: labels on sticker sheets, previews, sheets, templates, and what the enclosures say."""

from __future__ import annotations

import argparse
from pathlib import Path

from namekeeper.faces import labels_report
from namekeeper.faces.cli.arguments import desk_of
from namekeeper.faces.cli.context import Context
from namekeeper.records.specimen import Collection
from namekeeper.tasks import labels as task
from namekeeper.tasks.collection import open_collection
from namekeeper.tasks.label_bench import open_workshop
from namekeeper.tasks.label_plan import Choices, LabelPlan, plan_labels, waiting_sheet
from namekeeper.tasks.open_sources import local_lists
from namekeeper.words.errors import InputError
from namekeeper.words.terms import LabelOrder


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", metavar="FOLDER", type=Path, nargs="?", help="the collection")
    parser.add_argument("-o", "--output", metavar="FILE.pdf", type=Path, help="where to write the PDF")
    parser.add_argument("--sheet", metavar="KEY", help="sheet by its measures, or roll-WIDTHxHEIGHT")
    parser.add_argument("--template", metavar="NAME", help="template by its name, see --templates")
    parser.add_argument("--only", metavar="ID", action="append", default=[], help="this specimen only (repeatable)")
    parser.add_argument("--stale", action="store_true", help="only where the enclosure does not say the name in force")
    first = parser.add_mutually_exclusive_group()
    first.add_argument("--start", metavar="N", type=int, help="first free place of a used sheet, row by row from 1")
    first.add_argument("--used", metavar="PLACES", help="places already used, such as 1-4,7")
    first.add_argument("--drawer", action="store_true", help="go on with the partly used sheet printed on last")
    parser.add_argument("--copies", metavar="N", type=int, help="of each label")
    parser.add_argument("--order", choices=[one.value for one in LabelOrder], help="order of the labels")
    parser.add_argument("--qr", metavar="WHAT", help="no, auto, id, or a link with {id} in it")
    parser.add_argument("--printer", metavar="NAME", help="whose offset and scale to use")
    parser.add_argument("--skip-refused", action="store_true", help="print the others when a label cannot be printed")
    parser.add_argument("--preview", metavar="FILE.png", type=Path, help="a page as a picture")
    parser.add_argument("--page", metavar="N", type=int, default=1, help="page of the preview, from 1")
    parser.add_argument("--no-record", action="store_true", help="do not remember these labels as printed")
    parser.add_argument("--sheets", action="store_true", help="list the sheets")
    parser.add_argument("--templates", action="store_true", help="list the templates")
    parser.add_argument("--test-page", metavar="KEY", help="rulers to adjust a printer, on that sheet")
    parser.add_argument("--status", action="store_true", help="what the label on every enclosure says")
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")


def run(args: argparse.Namespace, context: Context) -> int:
    collection = open_collection(desk_of(args.folder, context), context.console.say) if args.folder else None
    if args.sheets or args.templates or args.test_page:
        return _without_labels(args, context, collection)
    if collection is None:
        what = "labels of which collection?"
        raise InputError(what, remedy="namekeeper labels FOLDER -o FILE.pdf")
    for problem in collection.problems:
        context.console.say(str(problem))
    code = 2 if collection.problems else 0
    if args.status:
        labels_report.status(task.statuses(collection), context.console, as_json=args.json)
        return code
    return max(code, _print(args, context, collection))


def _without_labels(args: argparse.Namespace, context: Context, collection: Collection | None) -> int:
    workshop = open_workshop(collection)
    if args.sheets:
        labels_report.sheets(workshop, context.console, as_json=args.json)
    elif args.templates:
        labels_report.templates(workshop, context.console, as_json=args.json)
    else:
        sheet = workshop.sheet(args.test_page)
        made = task.ruler_sheet(workshop, sheet, _wanted(args), context.outside)
        labels_report.test_page(made, args.output, context.console, as_json=args.json)
    return 0


def _print(args: argparse.Namespace, context: Context, collection: Collection) -> int:
    if args.output is None and args.preview is None:
        _wanted(args)
    console = context.console
    plan = _planned(args, context, collection)
    for refused in plan.refused:
        console.say(str(labels_report.problem(refused, plan)))
    if not plan.placed or (plan.refused and not args.skip_refused):
        labels_report.plan(plan, None, console, as_json=args.json)
        console.say(labels_report.why_nothing(plan, stale=args.stale and bool(collection.kept())))
        return 2 if plan.refused else 0
    for notice in labels_report.notices(plan):
        console.say(notice)
    to = task.PrintTo(args.output, args.preview, args.page, record=not args.no_record)
    problems = task.print_labels(plan, collection, to, context.outside)
    for problem in problems:
        console.say(labels_report.not_remembered(problem))
    labels_report.plan(plan, args.output or args.preview, console, as_json=args.json)
    return 2 if problems else 1 if plan.refused else 0


def _planned(args: argparse.Namespace, context: Context, collection: Collection) -> LabelPlan:
    choices = Choices(
        sheet=args.sheet,
        template=args.template,
        only=tuple(args.only),
        stale=args.stale,
        copies=_positive(args.copies, "--copies"),
        order=LabelOrder(args.order) if args.order else None,
        square=args.qr,
        printer=args.printer,
        start=args.start,
        used=args.used,
        drawer=args.drawer,
    )
    workshop = open_workshop(collection)
    lists = local_lists(context.places, context.console.say)
    if waiting := waiting_sheet(workshop, choices, context.outside):
        context.console.say(labels_report.waiting(waiting))
    return plan_labels(collection, workshop, choices, lists, context.outside)


def _wanted(args: argparse.Namespace) -> Path:
    if args.output is None:
        what = "where should the PDF go?"
        raise InputError(what, remedy="add -o FILE.pdf, or --preview FILE.png for a picture")
    path: Path = args.output
    return path


def _positive(number: int | None, option: str) -> int | None:
    if number is not None and not 1 <= number <= 1000:
        what = f"{option} is a number from 1 to 1000"
        raise InputError(what, remedy="leave it away for one copy")
    return number
