"""``namekeeper lookup``: what a seller's tag may mean."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from namekeeper.faces.cli.arguments import json_option, partial_date
from namekeeper.faces.telling.lookup import lookup_document, lookup_parts
from namekeeper.faces.telling.sources import unreached
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.tags import LONGEST, MOST_BYTES, TagAnswers, TagDesk, tags_in, tags_in_file
from namekeeper.words.errors import InputError


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("tags", metavar="TAG", nargs="*", help="a tag as the seller wrote it, in quotes")
    parser.add_argument("--from", metavar="FILE", dest="file", help="one tag a line; - is standard input")
    parser.add_argument(
        "--on", type=partial_date, metavar="DATE", help="read the names as written then (2014, 3/2019, 2014-05-03)"
    )
    parser.add_argument("--offline", action="store_true", help="ask no service: lists and kept answers only")
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    console = terminal.console
    if args.tags and args.file:
        raise InputError("TAG and --from together", remedy="give the tags or the file")
    with TagDesk.open(outside, args.on, offline=args.offline) as desk:
        answers = _answers(args, desk, outside, terminal)
    for number in answers.too_long:
        console.say(f"namekeeper: tag {number} is longer than {LONGEST} characters and was left out")
    console.say_all(map(unreached, answers.failures))
    return answers.exit_code


def _answers(args: argparse.Namespace, desk: TagDesk, outside: Outside, terminal: Terminal) -> TagAnswers:
    """The answers, shown already."""
    if not args.tags and not args.file:
        if not terminal.interactive or args.json:
            raise InputError("no tag", remedy="give a tag in quotes, or --from FILE with one tag a line")
        return _prompted(desk, terminal)
    answers = desk.read_all(args.tags or _tags(args.file, outside, terminal))
    if args.json:
        terminal.console.json(lookup_document(answers))
    else:
        terminal.console.show(lookup_parts(answers.looked))
    return answers


def _tags(file: str, outside: Outside, terminal: Terminal) -> list[str]:
    if file != "-":
        return tags_in_file(file, outside)
    held = getattr(terminal.stdin, "buffer", None)  # bytes where it has them: the same rules as for a file
    return tags_in(held.read(MOST_BYTES + 1) if held else terminal.stdin.read(MOST_BYTES), file)


def _prompted(desk: TagDesk, terminal: Terminal) -> TagAnswers:
    """Answers line by line until an empty line or the end of input."""
    terminal.console.put("A tag a line; an empty line ends.")
    answers = []
    for looked in desk.read(_typed(terminal)):
        terminal.console.show(lookup_parts([looked]))
        answers.append(looked)
    return desk.answers(answers)


def _typed(terminal: Terminal) -> Iterator[str]:
    out = terminal.console.out
    while True:
        out.write("tag> ")
        out.flush()
        line = terminal.line()
        if not line.strip():
            out.write("\n" * (not line))
            return
        tag = line.rstrip("\r\n")
        if len(tag) > LONGEST:
            terminal.console.say(f"longer than {LONGEST} characters")
            continue
        yield tag
