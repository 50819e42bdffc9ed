"""``namekeeper lists``: the lists of names on this machine, and what is done with them."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from namekeeper.evidence.statements import ListWishes
from namekeeper.faces.cli.arguments import allowed, encoding_option, json_option, output_option, pairs_of
from namekeeper.faces.telling import lists as told
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks import lists as task
from namekeeper.tasks.output import Output, OutputKind


def options(parser: argparse.ArgumentParser) -> None:
    json_option(parser)
    actions = parser.add_subparsers(dest="action", metavar="ACTION", title="actions")
    add = _action(actions, "add", f"add {task.known_formats()}")
    add.add_argument("file", metavar="FILE", type=Path, help="an archive or a table of names")
    _key(add)
    add.add_argument(
        "--column", metavar="FIELD=HEADER", action="append", default=[], help="what a column of a table is"
    )
    encoding_option(add)
    add.add_argument("--keep-current", action="store_true", help="add the edition, but go on using the present one")
    _wishes(add)
    fetch = _action(actions, "fetch", "build a list of one taxon from the Catalogue of Life")
    fetch.add_argument("taxon", metavar="TAXON", help="a genus, family or order")
    _key(fetch)
    _wishes(fetch)
    compare = _action(actions, "compare", "what changes from one edition to another")
    compare.add_argument("old", metavar="OLD", help="KEY, KEY@EDITION or a file")
    compare.add_argument("new", metavar="NEW", help="KEY, KEY@EDITION or a file")
    compare.add_argument("--collection", metavar="FOLDER", type=Path, help="say which of its animals it touches")
    output_option(compare, "FILE.html", "write the changes as a page, too")
    use = _action(actions, "use", "use another edition of a list")
    use.add_argument("edition", metavar="KEY@EDITION", help="a list and its edition")
    remove = _action(actions, "remove", "remove a list, or one edition of it")
    remove.add_argument("key", metavar="KEY[@EDITION]", help="a list, and its edition if only one goes")
    remove.add_argument("--yes", action="store_true", help="do not ask")


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
        "--complete-for",
        metavar="TAXON",
        action="append",
        default=[],
        help="a group of which it has every name, such as Theraphosidae",
    )
    parser.add_argument(
        "--upstream", metavar="KEY", help="the catalogue it is a copy of, so that both count as one voice"
    )


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    return _ACTS[args.action](args, outside, terminal)


def _show(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    states = task.list_states(outside)
    if args.json:
        terminal.console.json(told.lists_document(states))
    else:
        terminal.console.show(told.lists_parts(states, outside.today))
    return 0


def _add(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    columns = pairs_of(args.column, "for example --column name=Species")
    wishes = _wished(args, columns)._replace(encoding=args.encoding)
    added = task.add_list(args.file, args.key, wishes, outside, switch=not args.keep_current)
    return _say_added(args, terminal, added)


def _fetch(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    return _say_added(args, terminal, task.fetch_list(args.taxon, args.key, _wished(args, {}), outside))


def _say_added(args: argparse.Namespace, terminal: Terminal, added: task.Added) -> int:
    """0, or 1 if much was left out."""
    if args.json:
        terminal.console.json(told.added_document(added))
    else:
        terminal.console.show(told.added_parts(added))
    return added.exit_code


def _compare(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    """0 if nothing changes, 1 if something does."""
    page = Output(args.output, OutputKind.COMPARISON, outside, args.replace) if args.output else None
    if page:
        page.check()
    found = task.compare_editions(args.old, args.new, outside, args.collection)
    if page:
        page.write(told.compare_page(args.old, args.new, found))
    if args.json:
        terminal.console.json(told.compare_document(found))
    else:
        terminal.console.show(told.compare_parts(found))
    return found.exit_code


def _use(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    key, edition = task.use_edition(args.edition, outside)
    if args.json:
        terminal.console.json(told.used_document(key, edition))
    else:
        terminal.console.put(f"In use: {key} {edition}")
    return 0


def _remove(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    if not args.yes:
        allowed(told.removing(task.found_list(args.key, outside)), args, terminal)
    gone = task.remove_list(args.key, outside)
    if args.json:
        terminal.console.json(told.removed_document(gone))
    else:
        terminal.console.put(f"Removed: {', '.join(f'{key} {edition}' for key, edition in gone)}")
    return 0


def _wished(args: argparse.Namespace, columns: Mapping[str, str]) -> ListWishes:
    headers = {field: header.strip() for field, header in columns.items()}
    return ListWishes(headers, args.edition, args.licence, args.citation, tuple(args.complete_for), args.upstream)


_ACTS = MappingProxyType(
    {None: _show, "add": _add, "fetch": _fetch, "compare": _compare, "use": _use, "remove": _remove}
)
