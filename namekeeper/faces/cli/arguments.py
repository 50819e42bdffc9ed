"""Arguments that several commands share, and how their words become values."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError

if TYPE_CHECKING:  # every command reads this module, and few have these arguments
    from namekeeper.faces.terminal import Terminal
    from namekeeper.records.specimen import Sex
    from namekeeper.tasks.online import ServiceWishes


#: Words for a day, in place of a date.
TODAY, NOT_KNOWN = "today", "unknown"


def partial_date(words: str) -> PartialDate:
    """An argument such as 2014-05-03, 3/2019, 12.03.2023 or 2014."""
    from namekeeper.words.date_reading import AmbiguousDateError, read_date

    try:
        return read_date(words)
    except AmbiguousDateError as error:
        message = f"{error}: write the one that is meant"
        raise argparse.ArgumentTypeError(message) from None
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def day_of_arrival(words: str) -> PartialDate | str:
    """A date, or one of the words for one."""
    word = words.strip().casefold()
    return word if word in (TODAY, NOT_KNOWN) else partial_date(words)


def folder_path(words: str) -> Path:
    """An argument that names a folder; an empty one, as of a variable that is not set, is none."""
    if not words.strip():
        message = "a folder has a name; . is the one you are in"
        raise argparse.ArgumentTypeError(message)
    return Path(words)


def plain_text(words: str) -> str:
    """An argument that goes into a file as it is; bytes that are no text come in as half surrogate pairs."""
    try:
        words.encode("utf-8")
    except UnicodeEncodeError:
        message = "this is no text in the encoding of your terminal (set it to UTF-8)"
        raise argparse.ArgumentTypeError(message) from None
    return words


def sex_count(words: str) -> Sex:
    """An argument such as 1.2.0, or m, f or w."""
    from namekeeper.records.sexes import read_sex

    try:
        found = read_sex(words)
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from None
    if found is None:
        message = "no count is given"
        raise argparse.ArgumentTypeError(message)
    return found


def allowed(question: str, args: argparse.Namespace, terminal: Terminal) -> None:
    """Ask the keeper before something that is much, or cannot be undone.

    :raises InputError: unless the answer is yes; in scripts nothing is asked.
    """
    if terminal.interactive and not args.json:
        terminal.console.put(f"{question} y (yes), anything else leaves it:")
        if terminal.line().strip().lower() in ("y", "yes"):
            return
        raise InputError("nothing was done", remedy="it was not confirmed")
    raise InputError(question.rstrip("?") + " was not confirmed", remedy="add --yes")


def encoding_option(parser: argparse.ArgumentParser) -> None:
    """``--encoding``, for what reads a table of text."""
    parser.add_argument(
        "--encoding", default="", metavar="NAME", help="of a text table, such as cp1252, cp1250 or utf-8; else guessed"
    )


def pairs_of(texts: Sequence[str], example: str) -> Mapping[str, str]:
    """Options FIELD=HEADER as a mapping.

    :raises InputError: for a text without both; the remedy shows ``example``.
    """
    pairs = {}
    for text in texts:
        field, sign, header = text.partition("=")
        if not sign or not field.strip() or not header.strip():
            what = f"'{text}' is not FIELD=HEADER"
            raise InputError(what, remedy=example)
        pairs[field.strip()] = header
    return pairs


def facts_of(texts: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Arguments FIELD=VALUE in their order; a value may be empty.

    :raises InputError: for a text without a field.
    """
    facts = []
    for text in texts:
        field, sign, value = text.partition("=")
        if not sign or not field.strip():
            what = f"'{text}' is not FIELD=VALUE"
            raise InputError(what, remedy='write "place=shelf 2"')
        facts.append((field.strip(), value))
    return tuple(facts)


def output_option(parser: argparse.ArgumentParser, metavar: str, what: str, *, required: bool = False) -> None:
    """``-o FILE`` and ``--replace``."""
    parser.add_argument("-o", "--output", metavar=metavar, type=Path, required=required, help=what)
    parser.add_argument("--replace", action="store_true", help="replace a file that is there, whoever wrote it")


def json_option(parser: argparse.ArgumentParser) -> None:
    """``--json``."""
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")


def online_options(parser: argparse.ArgumentParser) -> None:
    """``--offline``, ``--services``, ``--refresh``, ``--max-age``; see :func:`service_wishes`."""
    parser.add_argument("--offline", action="store_true", help="ask no service: lists and kept answers only")
    parser.add_argument("--services", metavar="A,B", default="", help="ask only these services ('none' for none)")
    parser.add_argument("--refresh", action="store_true", help="ask again even where an answer is kept")
    parser.add_argument("--max-age", metavar="DAYS", type=int, help="ask again where the kept answer is older")


def service_wishes(args: argparse.Namespace) -> ServiceWishes:
    """What these options wish of the services."""
    from namekeeper.tasks.online import ServiceWishes

    keys = tuple(key.strip() for key in args.services.split(",") if key.strip())
    by_updates = bool(getattr(args, "since_last", False))  # who asks for news only is served by a list of updates
    return ServiceWishes(keys, args.offline, args.refresh, args.max_age, by_updates)
