"""``namekeeper check``: every label of a collection against the lists and services."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path

from namekeeper.faces import check_report
from namekeeper.faces.cli.arguments import desk_of
from namekeeper.faces.cli.context import Context
from namekeeper.faces.cli.online import online_options, service_wishes
from namekeeper.judging.trust import Trust
from namekeeper.tasks.check import Report, check_collection
from namekeeper.tasks.collection import open_collection
from namekeeper.tasks.online import ask_online
from namekeeper.tasks.open_sources import local_lists

_UNREACHED = 3


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the collection")
    parser.add_argument("--only", metavar="ID", action="append", default=[], help="this specimen only (repeatable)")
    online_options(parser)
    parser.add_argument("--since-last", action="store_true", help="only what is new since the last check so asked")
    parser.add_argument("-o", "--output", metavar="FILE.html", type=Path, help="write a page as well")
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")


def run(args: argparse.Namespace, context: Context) -> int:
    console = context.console
    folder = context.folder / args.folder
    collection = open_collection(desk_of(args.folder, context), console.say)
    lists = local_lists(context.places, console.say)
    trust = Trust.of(collection.settings.trust_order)
    with console.progress("checking") as step:
        report = check_collection(
            collection,
            lists,
            ask_online(context.outside, collection.settings, service_wishes(args)),
            trust,
            context.today,
            only=args.only,
            step=step,
        )
    if args.output:
        from namekeeper.storage.collection_folder import write_output

        page = check_report.as_page(report, collection.settings.title or folder.name, offline=args.offline)
        write_output(context.folder / args.output, page.encode())
    if args.since_last:
        return _since_last(args, report, folder, context)
    if args.json:
        console.json(check_report.as_document(report))
        check_report.talk(report, console)
    else:
        check_report.show(report, console)
        if report.safe:
            console.put_folded(f"Next: namekeeper settle {args.folder} --take-safe --write")
    return report.exit_code


def _since_last(args: argparse.Namespace, report: Report, folder: Path, context: Context) -> int:
    """Print only what the last check of this folder did not say; nothing at all where nothing is new."""
    from namekeeper.tasks.since_last import remember_and_compare

    document = check_report.as_document(report)
    # An animal whose file cannot be read is not gone.
    partial = bool(args.only or report.problems)
    news = remember_and_compare(document, folder, context.places, partial=partial)
    changed = {row["specimen"] for row in news.changed}
    if news.problem:
        context.console.say(str(news.problem))
    told = replace(report, findings=tuple(f for f in report.findings if f.specimen.id in changed))
    if args.json:
        context.console.json(check_report.as_document(told) | {"gone": list(news.gone)})
    elif not news.quiet:
        check_report.show(told, context.console)
        for identifier in news.gone:
            context.console.put(f"{identifier} is no longer in the collection")
    # What could not be read or asked is told even where the rest is no news.
    if args.json or news.quiet:
        check_report.talk(report, context.console)
    return report.exit_code if report.exit_code == _UNREACHED else told.exit_code
