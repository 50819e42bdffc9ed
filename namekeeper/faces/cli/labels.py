"""``namekeeper labels``: labels on sticker sheets, previews, sheets, templates, and what the enclosures say."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from pathlib import Path

from namekeeper.faces.cli.arguments import json_option, output_option
from namekeeper.faces.telling import labels as told
from namekeeper.faces.telling.outdated import outdated_line
from namekeeper.faces.telling.parts import Part
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_bench import Workshop, open_workshop
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.labels import LabelDesk, Printed, PrintTo, ruler_sheet
from namekeeper.tasks.output import Output, OutputKind
from namekeeper.words.errors import InputError
from namekeeper.words.terms import DrawingEngine, LabelOrder


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", metavar="FOLDER", type=Path, nargs="?", help="the collection")
    output_option(parser, "FILE.pdf", "where to write the PDF")
    parser.add_argument("--sheet", metavar="KEY", help="sheet by its measures, or roll-WIDTHxHEIGHT")
    parser.add_argument("--template", metavar="NAME", help="template by its name, see --templates")
    parser.add_argument("--only", metavar="ID", action="append", default=[], help="only this animal (repeatable)")
    which = parser.add_mutually_exclusive_group()
    which.add_argument("--due", action="store_true", help="only where no label was printed yet, or an outdated one")
    which.add_argument("--stale", action="store_true", help="only where the enclosure does not say the name in force")
    first = parser.add_mutually_exclusive_group()
    first.add_argument("--start", metavar="N", type=int, help="first free place of a used sheet, row by row from 1")
    first.add_argument("--used", metavar="PLACES", help="places already used, such as 1-4,7")
    first.add_argument("--drawer", action="store_true", help="go on with the partly used sheet printed on last")
    parser.add_argument("--price", action="store_true", help="prices too, on templates that have a place for them")
    parser.add_argument("--each-largest", action="store_true", help="every label as large as it can be, not all alike")
    engines = [one.value for one in DrawingEngine]
    parser.add_argument("--engine", choices=engines, default="direct", help="how labels are drawn (html: as a check)")
    parser.add_argument("--copies", metavar="N", type=int, help="how many of each label")
    parser.add_argument("--order", choices=[one.value for one in LabelOrder], help="order of the labels")
    parser.add_argument("--qr", metavar="WHAT", help="no, auto, id, or a link with {id} in it")
    parser.add_argument("--printer", metavar="NAME", help="whose offset and scale to use")
    parser.add_argument("--skip-refused", action="store_true", help="print the others when a label cannot be printed")
    parser.add_argument("--preview", metavar="FILE.png", type=Path, help="a page as a picture")
    parser.add_argument("--page", metavar="N", type=int, default=1, help="page of the preview, from 1")
    record = parser.add_mutually_exclusive_group()
    record.add_argument(
        "--printed", action="store_true", help="the sheet will come out: remember it without a question"
    )
    record.add_argument("--no-record", action="store_true", help="neither ask nor remember that the sheet came out")
    parser.add_argument("--sheets", action="store_true", help="list the sheets")
    parser.add_argument("--templates", action="store_true", help="list the templates")
    parser.add_argument("--test-page", metavar="KEY", help="rulers to adjust a printer, on that sheet")
    parser.add_argument("--status", action="store_true", help="what the label on every enclosure says")
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    desk = LabelDesk.open(CollectionDesk.at(args.folder, outside)) if args.folder else None
    if args.sheets or args.templates or args.test_page:
        return _without_labels(args, outside, terminal, open_workshop(desk.collection if desk else None))
    if desk is None:
        what = "labels of which collection?"
        raise InputError(what, remedy="namekeeper labels FOLDER -o FILE.pdf")
    console = terminal.console
    console.say_all(desk.collection.problems)
    if args.status:
        found = desk.statuses()
        _print(args, terminal, told.status_document(found, desk.collection.problems), told.status_parts(found))
        return desk.exit_code
    return max(desk.exit_code, _labels(args, desk, terminal))


def _without_labels(args: argparse.Namespace, outside: Outside, terminal: Terminal, workshop: Workshop) -> int:
    if args.sheets:
        _print(args, terminal, told.sheets_document(workshop), told.sheets_parts(workshop))
    elif args.templates:
        _print(args, terminal, told.templates_document(workshop), told.templates_parts(workshop))
        terminal.console.say_all(faults := workshop.faults())
        return 2 if faults else 0
    else:
        target = Output(_wanted(args), OutputKind.TEST_PAGE, outside, args.replace)
        made = ruler_sheet(workshop, workshop.sheet(args.test_page), target, args.printer)
        _print(args, terminal, told.ruler_document(made, args.output), told.ruler_parts(made, args.output))
    return 0


def _print(args: argparse.Namespace, terminal: Terminal, document: dict[str, object], parts: Iterable[Part]) -> None:
    if args.json:
        terminal.console.json(document)
    else:
        terminal.console.show(parts)


def _labels(args: argparse.Namespace, desk: LabelDesk, terminal: Terminal) -> int:
    if args.output or not args.preview:
        _wanted(args)
    to = PrintTo(args.output, args.preview, args.page, record=args.printed, replace=args.replace)
    console, choices, workshop = terminal.console, _choices(args), desk.workshop()
    waiting = desk.waiting(workshop, choices)
    plan = desk.plan(workshop, choices)
    console.say_all(told.problem(refused, plan) for refused in plan.refused)
    done = Printed(plan)
    if plan.prints(without_refused=args.skip_refused):
        console.say_all((*filter(None, [waiting and told.waiting(waiting)]), *told.notices(plan)))
        done = desk.print(plan, to)
    _print(args, terminal, told.printed_document(done, desk.collection.problems), told.printed_parts(done))
    if done.written is not None and args.output and not (args.printed or args.no_record):
        done = _came_out(args, desk, done, terminal)
    console.say_all((*map(told.not_remembered, done.unremembered), *map(outdated_line, done.outdated)))
    if done.written is None:
        console.say(told.why_nothing(plan, narrowed=(args.stale or args.due) and bool(desk.collection.kept())))
    return done.exit_code


def _came_out(args: argparse.Namespace, desk: LabelDesk, done: Printed, terminal: Terminal) -> Printed:
    """Ask the keeper whether the sheet came out, and remember it then; nothing is asked in scripts."""
    if args.json or not terminal.interactive:
        terminal.console.say(told.NOT_RECORDED)
        return done
    terminal.console.put(told.CAME_OUT)
    return desk.record(done) if terminal.line().strip().lower() in ("y", "yes") else done


def _choices(args: argparse.Namespace) -> Choices:
    return Choices(
        sheet=args.sheet,
        template=args.template,
        only=tuple(args.only),
        stale=args.stale,
        due=args.due,
        copies=_positive(args.copies, "--copies"),
        order=LabelOrder(args.order) if args.order else None,
        square=args.qr,
        printer=args.printer,
        start=args.start,
        used=args.used,
        drawer=args.drawer,
        engine=DrawingEngine(args.engine),
        each_largest=args.each_largest,
        price=args.price,
    )


def _wanted(args: argparse.Namespace) -> Path:
    if args.output is None:
        what = "where should the PDF go?"
        raise InputError(what, remedy="add -o FILE.pdf, or --preview FILE.png for a picture")
    path: Path = args.output
    if path.suffix.casefold() != ".pdf":
        what = f"labels are written as a PDF, and '{path}' does not end in .pdf"
        raise InputError(what, remedy="give a name such as labels.pdf")
    return path


def _positive(number: int | None, option: str) -> int | None:
    if number is not None and not 1 <= number <= 1000:
        what = f"{option} is a number from 1 to 1000"
        raise InputError(what, remedy="leave it out for one copy")
    return number
