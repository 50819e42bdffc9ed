"""``namekeeper collection``: begin, fill, verify and move a collection."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from types import MappingProxyType

from namekeeper.faces.cli import adding, exchange, stock
from namekeeper.faces.cli.adding import say_changed
from namekeeper.faces.cli.arguments import (
    facts_of,
    folder_path,
    json_option,
    partial_date,
    plain_text,
    sex_count,
)
from namekeeper.faces.telling import collection as told
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks import collection as task
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.facts import FACTS, set_facts


def options(parser: argparse.ArgumentParser) -> None:
    """One sub-command an act."""
    acts = parser.add_subparsers(dest="act", required=True, metavar="ACT")

    def act(name: str, help_text: str) -> argparse.ArgumentParser:
        sub = acts.add_parser(
            name, help=help_text, description=f"{help_text[0].upper()}{help_text[1:]}.", allow_abbrev=False
        )
        sub.add_argument("folder", metavar="FOLDER", type=folder_path, help="the collection")
        json_option(sub)
        return sub

    act("new", "make an empty collection; written at once")
    adding.options(act("add", "add animals, or offspring of one; written at once"))
    verify = act("verify", "every problem of the files in one go")
    verify.add_argument(
        "--accept", action="store_true", help="past entries that were changed by hand are right (with --write)"
    )
    verify.add_argument("--write", action="store_true", help="write what --accept takes")
    _change_options(act)
    exchange.import_options(act("import", "animals from a table or an export, shown first"))
    exchange.export_options(act("export", "the whole collection for other programs"))
    stock.options(act("stock", "animals and counts of each species on a day"))


def _change_options(act: Callable[[str, str], argparse.ArgumentParser]) -> None:
    left = act("left", "an animal died, was sold or given away")
    left.add_argument("identifier", metavar="ID", help="the animal's id")
    left.add_argument("--how", type=plain_text, required=True, metavar="WORDS", help="died, sold, given away ...")
    left.add_argument("--on", type=partial_date, metavar="DATE", help="the day (else today)")
    counted = act("count", "a group's count changed")
    counted.add_argument("identifier", metavar="ID", help="the animal's id")
    counted.add_argument("sex", type=sex_count, metavar="COUNT", help="male.female.unsexed, such as 1.2.5")
    joined = act("join", "put groups of one name under one label")
    joined.add_argument("identifier", metavar="ID", help="the animal's id")
    joined.add_argument("others", nargs="+", metavar="OTHER", help="ids of those that go under its label")
    facts = act("set", "change facts of an animal; its tag stays")
    facts.add_argument("identifier", metavar="ID", help="the animal's id")
    facts.add_argument(
        "facts",
        nargs="+",
        type=plain_text,
        metavar="FIELD=VALUE",
        help=f"{', '.join(FACTS)}; nothing behind = empties it",
    )
    for sub in (left, counted, joined, facts):
        sub.add_argument("--write", action="store_true", help="write the change; without it, show it")


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    """Run one act; exit codes of contract section 0."""
    return _ACTS[args.act](args, CollectionDesk.at(args.folder, outside), terminal)


def _new(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    made = task.new_collection(desk.folder)
    if args.json:
        terminal.console.json(told.new_document(str(args.folder), made))
    else:
        terminal.console.show(told.new_parts(str(args.folder)))
    return 0


def _left(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    changed = task.leave(desk, args.identifier, args.how, args.on, write=args.write)
    return say_changed(args, terminal, changed, "left")


def _count(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    return say_changed(args, terminal, task.count(desk, args.identifier, args.sex, write=args.write), "counted")


def _join(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    return say_changed(args, terminal, task.join(desk, args.identifier, args.others, write=args.write), "joined")


def _set(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    done = set_facts(desk, args.identifier, facts_of(args.facts), write=args.write)
    if done.turn and not args.json:
        terminal.console.say(told.turn(done.turn))
    return say_changed(args, terminal, done.changed, "set", told.turn_document(done.turn))


def _verify(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    console, verified = terminal.console, task.verify(desk, accept=args.accept and args.write)
    if args.json:
        console.json(told.verified_document(verified))
        console.say_all(verified.collection.problems)
    else:
        console.show(told.verified_parts(verified))
    return verified.exit_code


_ACTS = MappingProxyType(
    {
        "new": _new,
        "add": adding.run,
        "verify": _verify,
        "left": _left,
        "count": _count,
        "join": _join,
        "set": _set,
        "import": exchange.import_table,
        "export": exchange.export_collection,
        "stock": stock.run,
    }
)
