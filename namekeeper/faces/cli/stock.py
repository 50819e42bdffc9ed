"""``namekeeper collection stock``: what a collection held on a day."""

from __future__ import annotations

import argparse

from namekeeper.faces.cli.arguments import output_option, partial_date
from namekeeper.faces.telling import stock as told
from namekeeper.faces.terminal import Terminal
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.output import Output, OutputKind
from namekeeper.tasks.stock import take_stock


def options(parser: argparse.ArgumentParser) -> None:
    """The day, and where a table goes."""
    parser.add_argument(
        "--on", type=partial_date, metavar="DATE", help="the day (else today); of a month or year its last"
    )
    output_option(parser, "FILE.csv", "write a table instead of showing it")


def run(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    """0, or 2 if files could not be read, whose animals are missing here."""
    table = Output(args.output, OutputKind.STOCK, desk.outside, args.replace) if args.output else None
    if table:
        table.check()
    stock = take_stock(desk, args.on)
    if table:
        table.write(stock.as_csv())
    if args.json:
        terminal.console.json(told.stock_document(stock))
    elif args.output:
        terminal.console.put(told.stock_written(stock, str(args.output)))
    else:
        terminal.console.show(told.stock_parts(stock))
    terminal.console.say_all(stock.problems)
    return stock.exit_code
