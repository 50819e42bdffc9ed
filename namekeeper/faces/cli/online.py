"""Options of every command that may ask services, and how they become a callable."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from datetime import timedelta

from namekeeper.evidence.statements import Reply
from namekeeper.faces.cli.context import Context
from namekeeper.records.specimen import Settings
from namekeeper.tasks.judge_labels import AskOnline


def online_options(parser: argparse.ArgumentParser) -> None:
    """``--offline``, ``--services``, ``--refresh``, ``--max-age``."""
    parser.add_argument("--offline", action="store_true", help="ask no service: lists and kept answers only")
    parser.add_argument("--services", metavar="A,B", default="", help="ask only these services ('none' for none)")
    parser.add_argument("--refresh", action="store_true", help="ask again even where an answer is kept")
    parser.add_argument("--max-age", metavar="DAYS", type=int, help="ask again where the kept answer is older")


def ask_online(args: argparse.Namespace, settings: Settings, context: Context) -> AskOnline | None:
    """A function that asks the chosen services; None where nothing beyond this machine's lists can answer.

    :raises InputError: for an unknown service or an unsafe address.
    """
    if args.offline and not (context.places.cache / "services").is_dir():
        return None
    from namekeeper.sources.freshness import Freshness
    from namekeeper.sources.services.registry import open_services
    from namekeeper.sources.services.spidercatalog_replies import LSID_PREFIX
    from namekeeper.tasks.ask_services import ask_services
    from namekeeper.tasks.identifiers import ListedIdentifiers
    from namekeeper.tasks.open_sources import local_lists

    console = context.console
    keys = [key.strip() for key in args.services.split(",") if key.strip()]
    max_age = None if args.max_age is None else timedelta(days=args.max_age)
    wish = Freshness(args.offline, args.refresh, max_age)
    services = open_services(
        keys,
        settings,
        context.places,
        context.environ,
        console.say,
        context.clock,
        wish=wish,
        identifier_of=ListedIdentifiers(lambda: local_lists(context.places, console.say), LSID_PREFIX),
    )

    def ask(names: Sequence[str]) -> Mapping[str, tuple[Reply, ...]]:
        with console.progress("asking") as step:
            return ask_services(services, names, wish, step)

    return ask
