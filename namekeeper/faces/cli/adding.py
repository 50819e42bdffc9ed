"""``namekeeper collection add``: new animals, with what their tag says and what a person at the terminal adds."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from namekeeper.faces.cli.arguments import NOT_KNOWN, TODAY, allowed, day_of_arrival, plain_text, sex_count
from namekeeper.faces.telling import collection as told
from namekeeper.faces.telling.outdated import outdated_line
from namekeeper.faces.terminal import Terminal
from namekeeper.tasks.arrivals import Arrival, add_specimens
from namekeeper.tasks.collection import Changed
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.words.dates import PartialDate

_MANY = 50  # animals added at once without a question


def options(sub: argparse.ArgumentParser) -> None:
    """What is told of the new animals."""
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


def run(args: argparse.Namespace, desk: CollectionDesk, terminal: Terminal) -> int:
    """Add, say what was read from the tag, and at a terminal ask what it may be."""
    if args.count > _MANY and not args.yes:
        allowed(told.many(args.count), args, terminal)
    acquired = _when(args, desk, terminal)
    arrival = Arrival(
        args.tag, args.count, args.identifier, tuple(args.origin), acquired, args.sex, args.locality, args.note
    )
    arrived = add_specimens(desk, arrival)
    terminal.console.say_all(told.heritage(arrived))
    code = say_changed(args, terminal, arrived.changed, "added", told.added_document(arrived))
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


def say_changed(
    args: argparse.Namespace,
    terminal: Terminal,
    changed: Changed,
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
