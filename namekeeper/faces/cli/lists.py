"""``namekeeper lists``: the lists of names on this machine, and what is done with them."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from pathlib import Path

from namekeeper.faces import lists_report
from namekeeper.faces.cli.context import Context
from namekeeper.sources.lists.adding import ListWishes, formats
from namekeeper.sources.lists.fetch import catalogue
from namekeeper.sources.lists.store import ListStore, Stored
from namekeeper.tasks.lists import Added, ListBench, add_list, changes, fetch_list, touched, two_editions
from namekeeper.words.errors import InputError

HELP = "the lists of names on this machine"


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")
    actions = parser.add_subparsers(dest="action", metavar="ACTION", title="actions")
    add = _action(actions, "add", f"add {formats()}")
    add.add_argument("file", metavar="FILE", type=Path)
    _key(add)
    add.add_argument(
        "--column", metavar="FIELD=HEADER", action="append", default=[], help="what a column of a table is"
    )
    add.add_argument("--keep-current", action="store_true", help="add the edition, but go on using the present one")
    _wishes(add)
    fetch = _action(actions, "fetch", "build a list of one taxon from the Catalogue of Life")
    fetch.add_argument("taxon", metavar="TAXON", help="a genus, family or order")
    _key(fetch)
    _wishes(fetch)
    compare = _action(actions, "compare", "what changes from one edition to another")
    compare.add_argument("old", metavar="OLD", help="KEY, KEY@EDITION or a file")
    compare.add_argument("new", metavar="NEW", help="KEY, KEY@EDITION or a file")
    compare.add_argument("--collection", metavar="FOLDER", type=Path, help="say which of its specimens it touches")
    compare.add_argument("-o", "--output", metavar="FILE.html", type=Path, help="write a page as well")
    use = _action(actions, "use", "use another edition of a list")
    use.add_argument("edition", metavar="KEY@EDITION")
    remove = _action(actions, "remove", "remove a list, or one edition of it")
    remove.add_argument("key", metavar="KEY[@EDITION]")


def _action(
    actions: argparse._SubParsersAction[argparse.ArgumentParser], name: str, what: str
) -> argparse.ArgumentParser:
    parser = actions.add_parser(name, help=what, description=f"{what[0].upper()}{what[1:]}.", allow_abbrev=False)
    parser.add_argument("--json", action="store_true", default=argparse.SUPPRESS, help="one JSON document")
    return parser


def _key(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--as", dest="key", metavar="KEY", required=True, help="a short name for the list")


def _wishes(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--edition", metavar="E", help="the edition, such as 2026-07")
    parser.add_argument("--licence", metavar="L", help="the licence of the data")
    parser.add_argument("--citation", metavar="C", help="how to cite it")
    parser.add_argument(
        "--complete-for", metavar="TAXON", action="append", default=[], help="it lists every name of it"
    )
    parser.add_argument("--upstream", metavar="KEY", help="the catalogue it is a copy of: copies share one vote")


def run(args: argparse.Namespace, context: Context) -> int:
    actions: dict[str | None, Callable[[argparse.Namespace, Context], int]] = {
        None: _show,
        "add": _add,
        "fetch": _fetch,
        "compare": _compare,
        "use": _use,
        "remove": _remove,
    }
    return actions[args.action](args, context)


def _show(args: argparse.Namespace, context: Context) -> int:
    from namekeeper.sources.lists.registry import starter

    built_in = starter(context.places, context.console.say)
    edition = built_in.edition
    stored = [
        Stored(
            "starter",
            edition.edition or "",
            built_in.place,
            True,
            built_in.place.stat().st_size,
            edition,
            built_in.size,
        ),
        *ListStore(context.places.data).all(),
    ]
    if args.json:
        context.console.json(lists_report.lists_document(stored))
    else:
        lists_report.show_lists(stored, context.console)
    return 0


def _add(args: argparse.Namespace, context: Context) -> int:
    with context.console.progress("adding") as step:
        bench = ListBench(context.places, context.today, step)
        wishes = _wished(args, _pairs(args.column))
        added = add_list(context.folder / args.file, args.key, wishes, bench, switch=not args.keep_current)
    return _report_added(args, context, added)


def _fetch(args: argparse.Namespace, context: Context) -> int:
    with context.console.progress("fetching") as step:
        bench = ListBench(context.places, context.today, step)
        added = fetch_list(args.taxon, args.key, _wished(args, {}), catalogue(context.environ), bench)
    return _report_added(args, context, added)


def _report_added(args: argparse.Namespace, context: Context, added: Added) -> int:
    if args.json:
        context.console.json(lists_report.added_document(added))
    else:
        lists_report.show_added(added, context.console)
    return 0


def _compare(args: argparse.Namespace, context: Context) -> int:
    """0 if nothing changes, 1 if something does."""
    with two_editions(args.old, args.new, context.folder, context.places) as (old, new):
        found = list(changes(old, new))
        specimens = None
        if args.collection:
            from namekeeper.storage.collection_folder import load_collection

            specimens = touched(load_collection(context.folder / args.collection, context.today), old, new)
    if args.output:
        from namekeeper.storage.collection_folder import write_output

        page = lists_report.changes_page(args.old, args.new, found, specimens)
        write_output(context.folder / args.output, page.encode())
    if args.json:
        context.console.json(lists_report.changes_document(found, specimens))
    else:
        lists_report.show_changes(found, specimens, context.console)
    return 1 if found else 0


def _use(args: argparse.Namespace, context: Context) -> int:
    store = ListStore(context.places.data)
    place = store.find(args.edition)
    store.use(place.parent.name, place.stem)
    if args.json:
        context.console.json({"key": place.parent.name, "edition": place.stem})
    else:
        context.console.put(f"In use: {place.parent.name} {place.stem}")
    return 0


def _remove(args: argparse.Namespace, context: Context) -> int:
    gone = ListStore(context.places.data).remove(args.key)
    if args.json:
        context.console.json({"removed": [f"{place.parent.name}@{place.stem}" for place in gone]})
    else:
        context.console.put(f"Removed: {', '.join(f'{place.parent.name} {place.stem}' for place in gone)}")
    return 0


def _wished(args: argparse.Namespace, columns: dict[str, str]) -> ListWishes:
    return ListWishes(columns, args.edition, args.licence, args.citation, tuple(args.complete_for), args.upstream)


def _pairs(texts: Sequence[str]) -> dict[str, str]:
    pairs = {}
    for text in texts:
        field, equals, header = text.partition("=")
        if not equals or not field or not header:
            message = f"'{text}' is not FIELD=HEADER"
            raise InputError(message, remedy="for example --column name=Species")
        pairs[field.strip()] = header.strip()
    return pairs
