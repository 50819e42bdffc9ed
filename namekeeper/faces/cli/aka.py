"""``namekeeper aka``: every name a species has carried."""

from __future__ import annotations

import argparse

from namekeeper.faces.cli.context import Context
from namekeeper.faces.console import Console
from namekeeper.faces.services_report import unasked
from namekeeper.tasks.aka import KnownName, as_document, names_of
from namekeeper.tasks.online import cards_online
from namekeeper.tasks.open_sources import local_lists
from namekeeper.words.citations import short_citation
from namekeeper.words.errors import InputError

HELP = "every name a species has carried"


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("name", metavar="NAME", nargs="+", help="a scientific name, old or new, or a common name")
    parser.add_argument("--online", action="store_true", help="add what the open name services list")
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")


def run(args: argparse.Namespace, context: Context) -> int:
    if len(args.name) > 1 and any(" " in word.strip() for word in args.name):
        raise InputError("these are several names", remedy="ask for one at a time")
    lists = local_lists(context.places, context.console.say)
    asked = " ".join(args.name)
    if args.online:
        say = context.console.say
        known = names_of(asked, lists, cards_online(context.outside, lambda failure: say(unasked(failure))))
    else:
        known = names_of(asked, lists)
    if args.json:
        context.console.json(as_document(known))
    else:
        _show(known, context.console)
    return 0


def _show(known: KnownName, console: Console) -> None:
    aka = known.aka
    if known.led:
        console.put_folded(f"{known.led}.")
    console.put_folded(f"{aka.taxon.name} {aka.taxon.authorship}".strip())
    if aka.described_in:
        console.put_folded(f"described as {aka.described_in}", indent=2)
    if aka.taxon.range:
        console.put_folded(f"native range: {', '.join(aka.taxon.range)}", indent=2)
    if aka.former:
        console.heading("Former names")
        rows = [
            [f"{old.name} {old.authorship}".strip(), old.year, str(old.standing), short_citation(old.source)]
            for old in aka.former
        ]
        console.table(["name", "until", "what happened", "source"], rows)
    if aka.common:
        console.heading("Common names")
        languages: dict[str, list[str]] = {}
        for name in aka.common:
            languages.setdefault(name.language, []).append(name.text)
        for language, names in languages.items():
            console.put_folded(f"{language}: {', '.join(names)}", indent=2)
    if aka.sold_as:
        console.heading("Names of other species it has been sold under")
        for use in aka.sold_as:
            cleared = f", cleared up {use.cleared}" if use.cleared else ""
            console.put_folded(f"{use.name}{cleared} ({short_citation(use.citation)})", indent=2)
    console.heading("To search for all of them")
    console.put(aka.search)
    console.heading("Pages")
    for link in aka.links:
        console.put(f"{link.title}: {link.url}")
