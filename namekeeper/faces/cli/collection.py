"""``namekeeper collection``: begin, fill, verify and move a collection."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from pathlib import Path
from types import MappingProxyType

from namekeeper.faces.cli.arguments import desk_of, partial_date, plain_text, report_problems, report_written, sex_count
from namekeeper.faces.cli.context import Context
from namekeeper.faces.cli.transfer import export_options, import_options, run_export, run_import
from namekeeper.storage.changes import FileChange, SetKey, accept_history
from namekeeper.storage.emit import value_text
from namekeeper.tasks.collection import (
    Arrival,
    CollectionDesk,
    add_specimens,
    count,
    join,
    leave,
    new_collection,
    open_collection,
)

HELP = "begin, fill, move and verify a collection"


def options(parser: argparse.ArgumentParser) -> None:
    """One sub-command an act."""
    acts = parser.add_subparsers(dest="act", required=True, metavar="ACT")

    def act(name: str, help_text: str) -> argparse.ArgumentParser:
        sub = acts.add_parser(name, help=help_text, description=help_text, allow_abbrev=False)
        sub.add_argument("folder", metavar="FOLDER", type=Path)
        sub.add_argument("--json", action="store_true", help="one JSON document on stdout")
        return sub

    act("new", "make an empty collection")
    _add_options(act("add", "add animals, or offspring of one"))
    verify = act("verify", "every problem of the files in one go")
    verify.add_argument("--accept", action="store_true", help="take changed past entries for right (with --write)")
    verify.add_argument("--write", action="store_true", help="write what --accept takes")
    _change_options(act)
    import_options(act("import", "animals from a table or an export, shown first"))
    export_options(act("export", "the whole collection for other programs"))


def _add_options(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("--tag", type=plain_text, default="", metavar="TEXT", help="the seller's text, verbatim")
    sub.add_argument(
        "--from", dest="origin", type=plain_text, action="append", default=[], metavar="ID", help="a parent or seller"
    )
    sub.add_argument("--count", type=int, default=1, metavar="N", help="so many animals, each with its own label")
    sub.add_argument("--id", dest="identifier", metavar="ID", help="an id of your own")
    sub.add_argument("--acquired", type=partial_date, metavar="DATE")
    sub.add_argument("--sex", type=sex_count, metavar="COUNT", help="male.female.unsexed, such as 0.1.0")
    sub.add_argument("--locality", type=plain_text, default="", metavar="TEXT")
    sub.add_argument("--note", type=plain_text, default="", metavar="TEXT")
    sub.add_argument("--write", action="store_true", help=argparse.SUPPRESS)  # adding is writing


def _change_options(act: Callable[[str, str], argparse.ArgumentParser]) -> None:
    left = act("left", "an animal died, was sold or given away")
    left.add_argument("identifier", metavar="ID")
    left.add_argument("--how", type=plain_text, required=True, metavar="WORDS", help="died, sold, given away ...")
    left.add_argument("--on", type=partial_date, metavar="DATE")
    counted = act("count", "a group's count changed")
    counted.add_argument("identifier", metavar="ID")
    counted.add_argument("sex", type=sex_count, metavar="COUNT", help="male.female.unsexed, such as 1.2.5")
    joined = act("join", "put groups of one name under one label")
    joined.add_argument("identifier", metavar="ID")
    joined.add_argument("others", nargs="+", metavar="OTHER")
    for sub in (left, counted, joined):
        sub.add_argument("--write", action="store_true", help="write the change; without it, show it")


def run(args: argparse.Namespace, context: Context) -> int:
    """Run one act; exit codes of contract section 0."""
    return _ACTS[args.act](args, context, desk_of(args.folder, context))


def _new(args: argparse.Namespace, context: Context, desk: CollectionDesk) -> int:
    made = new_collection(desk.folder)
    if args.json:
        context.console.json({"folder": str(args.folder), "made": list(made)})
    else:
        context.console.put(f"A new collection: {args.folder}")
        context.console.put(f'Add an animal: namekeeper collection add {args.folder} --tag "what the seller wrote"')
    return 0


def _add(args: argparse.Namespace, context: Context, desk: CollectionDesk) -> int:
    arrival = Arrival(
        args.tag, args.count, args.identifier, tuple(args.origin), args.acquired, args.sex, args.locality, args.note
    )
    written = add_specimens(desk, arrival)
    return report_written(args, context, written, "added")


def _verify(args: argparse.Namespace, context: Context, desk: CollectionDesk) -> int:
    collection = open_collection(desk, context.console.say)
    if args.accept and args.write:
        accept_history(desk.folder, collection.specimens, desk.places, desk.clock)
        collection = desk.load()
    if args.json:
        rows = [
            {"file": problem.place.file, "line": problem.place.line, "what": problem.what, "remedy": problem.remedy}
            for problem in collection.problems
        ]
        context.console.json({"problems": rows})
    elif not collection.problems:
        context.console.put(f"{len(collection.specimens)} specimens, no problems.")
    report_problems(collection.problems, context, quiet=args.json)
    return 2 if collection.problems else 0


def _left(args: argparse.Namespace, context: Context, desk: CollectionDesk) -> int:
    return _change(args, context, desk, leave(desk, args.identifier, args.how, args.on), "left")


def _count(args: argparse.Namespace, context: Context, desk: CollectionDesk) -> int:
    return _change(args, context, desk, count(desk, args.identifier, args.sex), "counted")


def _join(args: argparse.Namespace, context: Context, desk: CollectionDesk) -> int:
    return _change(args, context, desk, join(desk, args.identifier, args.others), "joined")


def _change(
    args: argparse.Namespace, context: Context, desk: CollectionDesk, changes: Sequence[FileChange], what: str
) -> int:
    if args.write:
        return report_written(args, context, desk.apply(changes, together=True), what)
    would = desk.apply(changes, together=True, rehearse=True)
    if args.json:
        context.console.json({"specimens": list(would.specimens), "written": False})
        return 0
    context.console.put(f"Would be {what}: {', '.join(would.specimens)}. Nothing is written without --write.")
    for change in changes:
        if isinstance(change, SetKey):
            context.console.put(f"  {change.specimen_id}: {change.key}: {value_text(change.value)}")
    return 0


_ACTS = MappingProxyType(
    {
        "new": _new,
        "add": _add,
        "verify": _verify,
        "left": _left,
        "count": _count,
        "join": _join,
        "import": run_import,
        "export": run_export,
    }
)
