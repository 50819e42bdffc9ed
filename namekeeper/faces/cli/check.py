"""``namekeeper check``: every label of a collection against the lists and services."""

from __future__ import annotations

import argparse
from pathlib import Path

from namekeeper.faces.cli.arguments import json_option, online_options, output_option, service_wishes
from namekeeper.faces.telling import check as told
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.check import Report, check_folder
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.output import Output, OutputKind


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the collection")
    parser.add_argument("--only", metavar="ID", action="append", default=[], help="only this animal (repeatable)")
    online_options(parser)
    parser.add_argument(
        "--since-last", action="store_true", help="only what is new since the last check with this option"
    )
    output_option(parser, "FILE.html", "write the report as a page, too")
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    console, desk = terminal.console, CollectionDesk.at(args.folder, outside)
    page = Output(args.output, OutputKind.REPORT, outside, args.replace) if args.output else None
    if page:
        page.check()
    report = check_folder(desk, service_wishes(args), args.only)
    if page:
        from namekeeper.faces.telling.pages import check_page

        page.write(check_page(report, offline=args.offline))
    if args.since_last:
        return _since_last(args, report, desk, terminal)
    if args.json:
        console.json(told.check_document(report))
    else:
        console.show(told.check_parts(report))
    console.say_all(told.trouble(report))
    if (report.safe or report.to_decide) and not args.json:
        console.put(told.next_step(report, str(args.folder)))
    return report.exit_code


def _since_last(args: argparse.Namespace, report: Report, desk: CollectionDesk, terminal: Terminal) -> int:
    """Print only what the last check of this folder did not say; nothing at all where nothing is new."""
    from namekeeper.tasks.since_last import news_since_last

    console, news = terminal.console, news_since_last(report, desk, partial=bool(args.only))
    if news.problem:
        console.say(str(news.problem))
    if args.json:
        console.json(told.news_document(news, report))
    elif not news.quiet:
        console.show(told.news_parts(news))
    # What could not be read or asked is told even where the rest is no news.
    console.say_all(told.trouble(report))
    return news.exit_code
