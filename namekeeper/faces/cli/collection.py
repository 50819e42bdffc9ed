"""``namekeeper collection``: begin, fill, verify and move a collection."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from namekeeper.faces.cli import exchange, stock
from namekeeper.faces.cli.arguments import (
    NOT_KNOWN,
    TODAY,
    allowed,
    day_of_arrival,
    facts_of,
    folder_path,
    json_option,
    partial_date,
    plain_text,
    sex_count,
)
from namekeeper.faces.telling import collection as told
from namekeeper.faces.telling.outdated import outdated_line
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks import collection as task
from namekeeper.tasks.arrivals import Arrival, add_specimens
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.facts import FACTS, set_facts
from namekeeper.words.dates import PartialDate

_MANY = 50  # animals added at once without a question


def options(parser: argparse.ArgumentParser) -> None:
    """One sub-command an act."""
    acts = parser.add_subparsers(dest="act", required=True, metavar="ACT")

    def act(name: str, help_text: str) -> argparse.ArgumentParser:
        sub = acts.add_parser(name, help=help_text, description=help_text, allow_abbrev=False)
        sub.add_argument("folder", metavar="FOLDER", type=folder_path, help="the collection")
        json_option(sub, "stdout")
        return sub

    act("new", "make an empty collection; written at once")
    _add_options(act("add", "add animals, or offspring of one; written at once"))
    verify = act("verify", "every problem of the files in one go")
    verify.add_argument("--accept", action="store_true", help="take changed past entries for right (with --write)")
    verify.add_argument("--write", action="store_true", help="write what --accept takes")
    _change_options(act)
    exchange.import_options(act("import", "animals from a table or an export, shown first"))
    exchange.export_options(act("export", "the whole collection for other programs"))
    stock.options(act("stock", "animals and counts of each species on a day"))


def _add_options(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("--tag", type=plain_text, default="", metavar="TEXT", help="the seller's text, verbatim")
    sub.add_argument(
        "--from", dest="origin", type=plain_text, action="append", default=[], metavar="ID", help="a parent or seller"
    )
    sub.add_argument("--count", type=int, default=1, metavar="N", help="so many animals, each with its own label")
    sub.add_argument("--yes", action="store_true", help=f"do not ask before more than {_MANY} animals are added")
    sub.add_argument("--id", dest="identifier", metavar="ID", help="an id of your own; else the next free one")
    sub.add_argument(
        "--acquired", type=day_of_arrival, metavar="DATE", help=f"when it came: a date, {TODAY} or {NOT_KNOWN}"
    )
    sub.add_argument("--sex", type=sex_count, metavar="COUNT", help="male.female.unsexed, such as 0.1.0, or m, f, w")
    sub.add_argument("--locality", type=plain_text, default="", metavar="TEXT", help="where it or its kind was found")
    sub.add_argument("--note", type=plain_text, default="", metavar="TEXT", help="in your own words")
    sub.add_argument("--write", action="store_true", help=argparse.SUPPRESS)  # adding is writing


def _change_options(act: Callable[[str, str], argparse.ArgumentParser]) -> None:
    left = act("left", "an animal died, was sold or given away")
    left.add_argument("identifier", metavar="ID")
    left.add_argument("--how", type=plain_text, required=True, metavar="WORDS", help="died, sold, given away ...")
    left.add_argument("--on", type=partial_date, metavar="DATE", help="the day; today without")
    counted = act("count", "a group's count changed")
    counted.add_argument("identifier", metavar="ID")
    counted.add_argument("sex", type=sex_count, metavar="COUNT", help="male.female.unsexed, such as 1.2.5")
    joined = act("join", "put groups of one name under one label")
    joined.add_argument("identifier", metavar="ID")
    joined.add_argument("others", nargs="+", metavar="OTHER")
    facts = act("set", "change facts of an animal; its tag stays")
    facts.add_argument("identifier", metavar="ID")
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
        terminal.console.json({"folder": str(args.folder), "made": list(made)})
    else:
        terminal.console.show(told.new_parts(str(args.folder)))
    return 0


def _add(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    if args.count > _MANY and not args.yes:
        allowed(told.many(args.count), args, terminal)
    acquired = _when(args, desk, terminal)
    arrival = Arrival(
        args.tag, args.count, args.identifier, tuple(args.origin), acquired, args.sex, args.locality, args.note
    )
    arrived = add_specimens(desk, arrival)
    terminal.console.say_all(told.heritage(arrived))
    code = _say_changed(args, terminal, arrived.changed, "added", told.read_document(arrived.read))
    if not args.json:
        terminal.console.show(told.read_parts(arrived.read))
        if terminal.interactive and arrived.changed.specimens:
            _ask_name(args, desk, terminal, arrived.changed.specimens)
    return code


def _ask_name(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal, ids: Sequence[str]) -> None:
    """Ask what the new animals are, where the lists here know what their tag may mean."""
    # Only here: the pass takes long to load, and scripts never come to it.
    from namekeeper.faces.cli.deciding import go_through
    from namekeeper.tasks.online import ServiceWishes
    from namekeeper.tasks.settle_collection import SettleDesk
    from namekeeper.tasks.settle_orders import Orders

    with SettleDesk.open(desk, ServiceWishes(offline=True), ids) as settling:
        if any(finding.verdict.choices for finding in settling.report.to_decide):
            go_through(settling, Orders(), terminal, str(args.folder))


def _when(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> PartialDate | None:
    """When the animals came: as the option says, else as the keeper says at a terminal, else not known."""
    said = args.acquired
    while said is None and terminal.interactive and not args.json:
        terminal.console.put(told.WHEN)
        line = terminal.line()
        try:
            said = _typed_day(line.strip())
        except argparse.ArgumentTypeError as error:
            terminal.console.say(str(error))
    if said == TODAY:
        return PartialDate.of(desk.today)
    return None if said in (None, NOT_KNOWN) else said


def _typed_day(typed: str) -> PartialDate | str:
    return {"": NOT_KNOWN, "t": TODAY}.get(typed.casefold()) or day_of_arrival(typed)


def _left(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    changed = task.leave(desk, args.identifier, args.how, args.on, write=args.write)
    return _say_changed(args, terminal, changed, "left")


def _count(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    return _say_changed(args, terminal, task.count(desk, args.identifier, args.sex, write=args.write), "counted")


def _join(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    return _say_changed(args, terminal, task.join(desk, args.identifier, args.others, write=args.write), "joined")


def _set(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    done = set_facts(desk, args.identifier, facts_of(args.facts), write=args.write)
    if done.turn and not args.json:
        terminal.console.say(told.turn(done.turn))
    return _say_changed(args, terminal, done.changed, "set", told.turn_document(done.turn))


def _say_changed(
    args: argparse.Namespace,
    terminal: Terminal,
    changed: task.Changed,
    what: str,
    more: Mapping[str, object] = MappingProxyType({}),
) -> int:
    """Say what was written, or would be; 2 if something was refused."""
    console = terminal.console
    console.say_all(changed.messages)
    if args.json:
        console.json({**told.changed_document(changed), **more})
    else:
        console.show(told.changed_parts(changed, what))
    console.say_all((*changed.refused, *map(outdated_line, changed.outdated)))
    return changed.exit_code


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
        "add": _add,
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
