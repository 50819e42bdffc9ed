"""Options of every command that may ask services."""

from __future__ import annotations

import argparse

from namekeeper.tasks.online import ServiceWishes


def online_options(parser: argparse.ArgumentParser) -> None:
    """``--offline``, ``--services``, ``--refresh``, ``--max-age``."""
    parser.add_argument("--offline", action="store_true", help="ask no service: lists and kept answers only")
    parser.add_argument("--services", metavar="A,B", default="", help="ask only these services ('none' for none)")
    parser.add_argument("--refresh", action="store_true", help="ask again even where an answer is kept")
    parser.add_argument("--max-age", metavar="DAYS", type=int, help="ask again where the kept answer is older")


def service_wishes(args: argparse.Namespace) -> ServiceWishes:
    """These options as one value."""
    keys = tuple(key.strip() for key in args.services.split(",") if key.strip())
    return ServiceWishes(keys, args.offline, args.refresh, args.max_age)
