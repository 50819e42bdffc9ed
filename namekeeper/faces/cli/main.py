"""The command line: finds the verb, imports only its module, turns errors into one line and an exit code."""

from __future__ import annotations

import argparse
import errno
import importlib
import os
import sys
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from types import MappingProxyType
from typing import Any, NamedTuple, Protocol, TextIO

from namekeeper import __version__
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.words.errors import FileError, NamekeeperError, file_error


class VerbModule(Protocol):
    """What a verb's module in this package offers."""

    def options(self, parser: argparse.ArgumentParser) -> None:
        """Declare the verb's arguments."""

    def run(self, args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
        """Parse what argparse cannot, call one task, print what it came to; returns the exit code."""


class Verb(NamedTuple):
    """A command: its word, which is the name of its module here, and what it is for."""

    word: str
    what: str

    def module(self) -> VerbModule:
        module: VerbModule = importlib.import_module(f"namekeeper.faces.cli.{self.word}")
        return module

    def declare(self, parser: argparse.ArgumentParser) -> None:
        """Declare the verb's arguments."""
        self.module().options(parser)


#: Every command, in the order of the overview. A new one is its module and a line here.
VERBS = MappingProxyType(
    {
        verb.word: verb
        for verb in (
            Verb("lookup", "what a seller's tag may mean"),
            Verb("check", "compare every name in a collection with the lists and services"),
            Verb("settle", "take, keep or postpone what a check proposes"),
            Verb("history", "which names stood on a label, since when and why"),
            Verb("aka", "every name a species has carried"),
            Verb("labels", "print labels on sticker sheets"),
            Verb("lists", "the lists of names on this machine"),
            Verb("collection", "begin, fill, move and verify a collection"),
            Verb("tables", "carry new names into other tables"),
            Verb("services", "the open name services and how they answer"),
            Verb("browse", "the whole job on a page in your browser"),
            Verb("pocket", "the look-up and your animals in one file for a phone"),
            Verb("completion", "finish words with the tab key in bash, zsh or fish"),
            Verb("demo", "the whole job once, on a sample collection"),
        )
    }
)


#: Before the words typed so far: print what the last of them may become. For shells, see ``completion``.
COMPLETE = "--complete"


def main() -> int:
    """Entry point of the installed command."""
    terminal = Terminal.of_this_process(os.environ)
    console = terminal.console

    def outside() -> Outside:
        return Outside.of(_here(), os.environ, lambda: datetime.now(UTC), console.notice, console.progress)

    return run(sys.argv[1:], terminal, outside)


def _here() -> Path:
    try:
        return Path.cwd()
    except OSError:
        raise FileError("the folder you are in is gone", remedy="go to another: cd") from None


def run(arguments: Sequence[str], terminal: Terminal, outside: Callable[[], Outside]) -> int:
    """Run one command; the result is its exit code (contract section 0). ``outside`` is called for a verb's work."""
    console = terminal.console
    try:
        code = _run(arguments, terminal, outside)
        console.out.flush()
    except NamekeeperError as error:
        console.say(f"namekeeper: {error}")
        return error.exit_code
    except KeyboardInterrupt as stop:
        from namekeeper.faces.telling.remarks import stopped_line

        console.say(f"namekeeper: {stopped_line(stop)}")
        return 130
    except OSError as error:
        gone = error.errno == errno.EPIPE or (error.errno == errno.EINVAL and not console.out.isatty())
        if gone and not error.filename:
            # The reader of our output went away (a pager, `head`; Windows says EINVAL): nothing is wrong, and nothing
            # more can be said.
            _let_go(sys.stdout)
            return 0
        # A full disk behind our output: what was written is cut off, and no answer may look whole.
        if error.errno not in (errno.ENOSPC, errno.EIO, errno.EDQUOT, errno.EFBIG) or error.filename:
            console.say(f"namekeeper: {file_error(error)}")
            return 2
        _let_go(sys.stdout)
        console.say(f"namekeeper: the output cannot be written: {error.strerror}")
        return 2
    return code


def _let_go(stream: TextIO) -> None:
    """Sends what is still held back nowhere, so that the end of the process does not stumble over it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _run(arguments: Sequence[str], terminal: Terminal, outside: Callable[[], Outside]) -> int:
    out = terminal.console.out
    if not arguments:
        return _bare(terminal, outside())
    if arguments[0] in ("-h", "--help", "help"):
        out.write(_overview())
        return 0
    if arguments[0] in ("-V", "--version"):
        out.write(f"namekeeper {__version__}\n")
        return 0
    if arguments[0] == COMPLETE:
        from namekeeper.faces.cli.next_words import next_words

        declared = {verb.word: verb.declare for verb in VERBS.values()}
        out.writelines(f"{word}\n" for word in next_words(arguments[1:], declared, outside()))
        return 0
    return _run_verb(arguments[0], list(arguments[1:]), terminal, outside)


def _bare(terminal: Terminal, outside: Outside) -> int:
    """No word at all: in the folder of a collection what is due there, elsewhere the overview."""
    if not os.path.isdir(outside.folder / "specimens"):  # noqa: PTH112 - never raises
        terminal.console.out.write(_overview())
        return 2
    from namekeeper.faces.telling.due import due_parts
    from namekeeper.tasks.desk import CollectionDesk
    from namekeeper.tasks.due import what_is_due

    due = what_is_due(CollectionDesk(outside.folder, outside))
    terminal.console.show(due_parts(due))
    return due.exit_code


def _run_verb(word: str, arguments: list[str], terminal: Terminal, outside: Callable[[], Outside]) -> int:
    console, verb = terminal.console, VERBS.get(word)
    if verb is None:
        console.say(f"namekeeper: there is no command '{word}'{_suggestion(word)} (see namekeeper --help)")
        return 2
    module = verb.module()
    parser = _Parser(
        prog=f"namekeeper {word}", description=f"{verb.what.capitalize()}.", allow_abbrev=False, formatter_class=_Help
    )
    module.options(parser)
    try:
        parsed = parser.parse(arguments)
    except _UsageError as usage:
        console.say(str(usage))
        return 2
    except _HelpAsked as asked:
        console.out.write(str(asked))
        return 0
    return module.run(parsed, outside(), terminal)


class _UsageError(Exception):
    pass


class _HelpAsked(Exception):  # noqa: N818 - not an error
    pass


class _Once(argparse._StoreAction):  # argparse has no other name for what stores a value
    """Refuses an option that is given twice: the first value would be lost without a word."""

    given = False

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[object] | None,
        option_string: str | None = None,
    ) -> None:
        if self.given and self.option_strings:
            raise argparse.ArgumentError(self, "can be given only once")
        self.given = True
        super().__call__(parser, namespace, values, option_string)


class _Parser(argparse.ArgumentParser):
    """Raises instead of printing and leaving, so that the streams are ours and tests can run in one process."""

    def __init__(self, **wishes: Any) -> None:
        super().__init__(**wishes)
        for word in (None, "store"):
            self.register("action", word, _Once)

    def parse(self, arguments: list[str]) -> argparse.Namespace:
        """As ``parse_args``, which fails on a second ``--`` or hands on an empty list where a word belongs."""
        if arguments.count("--") > 1:
            self.error("'--' can stand only once")
        has_acts = any(action.nargs == argparse.PARSER for action in self._get_positional_actions())
        if has_acts or "--" in arguments:
            return self.parse_args(arguments)
        return self.parse_intermixed_args(arguments)  # Python before 3.12 reads no ID behind an option otherwise

    def error(self, message: str) -> None:  # type: ignore[override]
        usage = f"{self.format_usage().strip()}\n{self.prog}: {message}"
        raise _UsageError(usage)

    def print_help(self, file: object = None) -> None:
        from namekeeper.faces.cli.examples import examples_of

        raise _HelpAsked(examples_of(self.prog.removeprefix("namekeeper ")) + self.format_help())


class _Help(argparse.HelpFormatter):
    """Asks the system for the width; argparse would import a library of archive formats to do so, for every command."""

    def __init__(self, prog: str) -> None:
        try:
            width = os.get_terminal_size().columns - 2
        except OSError:
            width = 78
        super().__init__(prog, width=max(width, 40))


def _suggestion(word: str) -> str:
    import difflib

    near = difflib.get_close_matches(word, VERBS, n=1)
    return f"; did you mean '{near[0]}'?" if near else ""


def _overview() -> str:
    width = max(map(len, VERBS))
    verbs = "\n".join(f"  {verb.word.ljust(width)}  {verb.what}" for verb in VERBS.values())
    return (
        "usage: namekeeper COMMAND ...\n\n"
        "From a seller's tag to the right name, and from the right name to a fresh label.\n\n"
        f"{verbs}\n\n"
        "namekeeper COMMAND --help explains one command. Most take --json.\n"
        "Begin with: namekeeper demo\n"
    )
