"""``namekeeper lookup``: what a seller's tag may mean."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from pathlib import Path

from namekeeper.evidence.interfaces import NameList
from namekeeper.faces import lookup_report
from namekeeper.faces.cli.context import Context
from namekeeper.faces.services_report import unasked
from namekeeper.reading.tag import LONGEST_TAG
from namekeeper.tasks.lookup import as_document, look_up
from namekeeper.tasks.online import ServiceWishes, TagNamesOnline
from namekeeper.tasks.open_sources import local_lists
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, InputError, Place
from namekeeper.words.terms import AnswerKind

HELP = "what a seller's tag may mean"
_MOST_BYTES = 64 * 1024 * 1024


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("tags", metavar="TAG", nargs="*", help="a tag as the seller wrote it, in quotes")
    parser.add_argument("--from", metavar="FILE", dest="file", help="one tag a line; - is standard input")
    parser.add_argument(
        "--on", metavar="DATE", help="read the names as written on that date (2014, 2014-05, 2014-05-03)"
    )
    parser.add_argument("--offline", action="store_true", help="ask no service: lists and kept answers only")
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")


def run(args: argparse.Namespace, context: Context) -> int:
    on = _date(args.on)
    if args.tags and args.file:
        raise InputError("TAG and --from together", remedy="give the tags or the file")
    lists = local_lists(context.places, context.console.say)
    online = TagNamesOnline(context.outside, ServiceWishes(offline=args.offline))
    if not args.tags and not args.file:
        if not context.interactive or args.json:
            raise InputError("no tag", remedy="give a tag in quotes, or --from FILE with one tag a line")
        return _prompt(lists, on, online, context)
    tags = args.tags or _lines(args.file, context)
    too_long = [number for number, tag in enumerate(tags, 1) if len(tag) > LONGEST_TAG]
    results = list(
        look_up((tag for tag in tags if len(tag) <= LONGEST_TAG), lists, on, online.common, online.scientific)
    )
    if args.json:
        context.console.json(as_document(results))
    else:
        lookup_report.show(results, context.console)
    for number in too_long:
        context.console.say(f"namekeeper: tag {number} is longer than {LONGEST_TAG} characters and was left out")
    _tell(online, context)
    if too_long:
        return 2
    return _code([looked.lookup.answer for looked in results], online)


def _code(answers: Sequence[AnswerKind], online: TagNamesOnline) -> int:
    """0 all found, 3 a name stayed unasked because a service failed, else 1 (contract section 0)."""
    if online.failures and AnswerKind.UNASKED in answers:
        return 3
    return 0 if all(answer is AnswerKind.ONE for answer in answers) else 1


def _tell(online: TagNamesOnline, context: Context) -> None:
    """One line for each service that could not be asked."""
    for failure in online.failures.values():
        context.console.say(unasked(failure))


def _date(text: str | None) -> PartialDate | None:
    if text is None:
        return None
    try:
        return PartialDate.parse(text)
    except ValueError as error:
        raise InputError(str(error), remedy="write --on 2014, --on 2014-05 or --on 2014-05-03") from None


def _lines(file: str, context: Context) -> list[str]:
    """Tags of a file, blank lines skipped, order kept.

    :raises FileError: if it cannot be read; InputError if it is no text or holds no tag.
    """
    if file == "-":
        held = getattr(context.stdin, "buffer", None)  # bytes where it has them: the same rules as for a file
        text = _decoded(held.read(_MOST_BYTES + 1), file) if held else context.stdin.read(_MOST_BYTES)
    else:
        path = context.folder / Path(file).expanduser()
        try:
            with path.open("rb") as stream:
                content = stream.read(_MOST_BYTES + 1)
        except OSError as error:
            why = error.strerror or "it cannot be read"
            what = f"no tags from here: {why}"
            raise FileError(what, place=Place(file)) from error
        text = _decoded(content, file)
    tags = [line.strip("\r\ufeff") for line in text.split("\n") if line.strip(" \t\r\ufeff")]
    if not tags:
        raise InputError("no tag in it", remedy="write one tag a line", place=Place(file))
    return tags


def _decoded(content: bytes, file: str) -> str:
    if len(content) > _MOST_BYTES:
        raise InputError("more than 64 MB", remedy="split the file", place=Place(file))
    try:
        if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
            return content.decode("utf-16")
        return "\n".join(_decoded_line(line) for line in content.removeprefix(b"\xef\xbb\xbf").split(b"\n"))
    except UnicodeDecodeError:
        raise InputError("not a text file", remedy="save it as UTF-8 text, one tag a line", place=Place(file)) from None


def _decoded_line(line: bytes) -> str:
    """Line by line: one tag in the encoding of older systems must not spoil those in UTF-8."""
    try:
        return line.decode()
    except UnicodeDecodeError:
        return line.decode("cp1252")


def _prompt(
    lists: Sequence[NameList],
    on: PartialDate | None,
    online: TagNamesOnline,
    context: Context,
) -> int:
    """Answers line by line until an empty line or the end of input."""
    context.console.put("A tag a line; an empty line ends.")
    answers = []
    for looked in look_up(_typed(context), lists, on, online.common, online.scientific):
        lookup_report.show([looked], context.console)
        answers.append(looked.lookup.answer)
    _tell(online, context)
    return _code(answers, online)


def _typed(context: Context) -> Iterator[str]:
    while True:
        context.out.write("tag> ")
        context.out.flush()
        line = context.stdin.readline()
        if not line.strip():
            context.out.write("\n" * (not line))
            return
        tag = line.rstrip("\r\n")
        if len(tag) > LONGEST_TAG:
            context.console.say(f"longer than {LONGEST_TAG} characters")
            continue
        yield tag
