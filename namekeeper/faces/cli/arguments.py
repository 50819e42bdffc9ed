"""Arguments and reports that several commands share."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from namekeeper.faces.cli.context import Context
from namekeeper.records.specimen import Sex
from namekeeper.storage.changes import Written
from namekeeper.tasks.collection import CollectionDesk
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Problem


def partial_date(words: str) -> PartialDate:
    """An argument such as 2014-05-03, 2014-05 or 2014."""
    try:
        return PartialDate.parse(words)
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def plain_text(words: str) -> str:
    """An argument that goes into a file as it is; bytes that are no text come in as half surrogate pairs."""
    try:
        words.encode("utf-8")
    except UnicodeEncodeError:
        message = "this is no text in the encoding of your terminal"
        raise argparse.ArgumentTypeError(message) from None
    return words


def sex_count(words: str) -> Sex:
    """An argument such as 1.2.0."""
    try:
        return Sex.parse(words)
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def desk_of(folder: Path, context: Context) -> CollectionDesk:
    """Where the tasks work; a relative folder counts from the context's."""
    return CollectionDesk(context.folder / folder, context.places, context.clock, context.today)


def report_problems(problems: Sequence[Problem], context: Context, *, quiet: bool = False) -> None:
    """One line a problem: on stdout where that is the report, on stderr where JSON is."""
    for problem in problems:
        (context.console.say if quiet else context.console.put)(str(problem))


def report_written(args: argparse.Namespace, context: Context, written: Written, what: str) -> int:
    """Say what was written; 2 if something was refused."""
    for message in written.messages:
        context.console.say(message)
    if args.json:
        context.console.json({"specimens": list(written.specimens), "written": bool(written.specimens)})
    else:
        context.console.put(f"{what.capitalize()}: {', '.join(written.specimens) or 'nothing'}")
    for problem in written.refused:
        context.console.say(str(problem))
    return 2 if written.refused else 0
