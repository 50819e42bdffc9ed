"""``namekeeper settle``: take, choose, correct, keep, postpone or undo, shown first and written with ``--write``."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from namekeeper.faces.cli.arguments import json_option, online_options, partial_date, plain_text, service_wishes
from namekeeper.faces.cli.deciding import go_through
from namekeeper.faces.telling import check as told
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.settle_collection import Settled, SettleDesk
from namekeeper.tasks.settle_orders import Orders
from namekeeper.words.errors import InputError


def options(parser: argparse.ArgumentParser) -> None:
    """What the keeper orders, and whether it is written."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the collection")
    parser.add_argument("--take-safe", action="store_true", help="take every proposal that needs no judgement")
    for word, metavar, what in (
        ("take", "ID=NAME", "put this name on the label"),
        ("correct", "ID=NAME", "put this name there: the one on the label was wrong from the start"),
        ("keep", "ID", "keep the name, until something new is said"),
        ("later", "ID", "decide later"),
        ("undo", "ID", "take back what was decided last"),
        ("undo-print", "ID", "the label printed last did not come out"),
    ):
        parser.add_argument(f"--{word}", action="append", default=[], metavar=metavar, help=f"{what} (repeatable)")
    parser.add_argument(
        "--certain", action="store_true", help="take names without the doubt (cf., ?) of their tags: you know them"
    )
    parser.add_argument(
        "--on", type=partial_date, metavar="DATE", help="the day the new label counts from (else today)"
    )
    parser.add_argument("--by", type=plain_text, default="", metavar="NAME", help="who decided, in a house of several")
    parser.add_argument("--note", type=plain_text, default="", metavar="TEXT", help="why, in your own words")
    parser.add_argument("--write", action="store_true", help="write; without it, show what would change")
    online_options(parser)
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    """Settle; 2 if something was refused, else as ``check`` would say of what is left."""
    orders = _orders(args)
    with SettleDesk.open(CollectionDesk.at(args.folder, outside), service_wishes(args)) as desk:
        return _settle(args, desk, orders, terminal)


def _settle(args: argparse.Namespace, desk: SettleDesk, orders: Orders, terminal: Terminal) -> int:
    console = terminal.console
    settled = desk.settle(orders, write=args.write)
    console.say_all(told.unlisted(settled.changes))
    console.say_all(told.doubts(settled.changes, "--certain takes it without"))
    console.say_all((*told.already(settled.changes), *settled.messages, *settled.refused, *told.outdated(settled)))
    asked = args.take_safe or orders.named()
    if args.write and not args.json and not asked and terminal.interactive:
        settled = replace(settled, changes=tuple(go_through(desk, orders, terminal, str(args.folder))))
    elif args.json:
        console.json(told.settled_document(settled))
    else:
        _show(settled, args, terminal)
    console.say_all(settled.report.problems)
    return settled.exit_code


def _show(settled: Settled, args: argparse.Namespace, terminal: Terminal) -> None:
    folder = str(args.folder)
    terminal.console.show(told.settled_parts(settled, folder, write=args.write, safe_asked=args.take_safe))
    if not settled.changes:
        terminal.console.say_all(told.trouble(replace(settled.left, problems=())))


def _orders(args: argparse.Namespace) -> Orders:
    keep, later, undo, undo_print = (
        tuple(dict.fromkeys(ids)) for ids in (args.keep, args.later, args.undo, args.undo_print)
    )
    return Orders(
        take_safe=args.take_safe,
        take=_names(args.take),
        correct=_names(args.correct),
        keep=keep,
        later=later,
        undo=undo,
        undo_print=undo_print,
        certain=args.certain,
        on=args.on,
        note=args.note,
        by=args.by,
    )


def _names(texts: Sequence[str]) -> Mapping[str, str]:
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
