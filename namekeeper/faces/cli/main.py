"""The command line: finds the verb, imports only its module, turns errors into one line and an exit code."""

from __future__ import annotations

import argparse
import errno
import importlib
import os
import sys
from collections.abc import Sequence
from types import MappingProxyType
from typing import TextIO

from namekeeper import __version__
from namekeeper.faces.cli.context import Context
from namekeeper.words.errors import NamekeeperError

VERBS = MappingProxyType(
    {
        "lookup": "what a seller's tag may mean",
        "check": "compare every name in a collection with the lists and services",
        "settle": "take, keep or postpone what a check proposes",
        "history": "which names stood on a label, since when and why",
        "aka": "every name a species has carried",
        "labels": "print labels on sticker sheets",
        "lists": "the lists of names on this machine",
        "collection": "begin, fill, move and verify a collection",
        "tables": "carry new names into other tables",
        "services": "the open name services and how they answer",
        "browse": "the same on a page of this machine",
        "pocket": "one file to search on a phone",
        "demo": "the whole job once, on a sample collection",
    }
)
NOT_BUILT = frozenset({"browse", "pocket"})


def main() -> int:
    """Entry point of the installed command."""
    return run(sys.argv[1:], Context.of_this_process(os.environ))


def run(arguments: Sequence[str], context: Context) -> int:
    """Run one command; the result is its exit code (contract section 0)."""
    try:
        code = _run(arguments, context)
        context.out.flush()
    except NamekeeperError as error:
        context.console.say(f"namekeeper: {error}")
        return error.exit_code
    except KeyboardInterrupt:
        context.console.say("namekeeper: stopped; what was finished is kept")
        return 130
    except BrokenPipeError:
        # The reader of our output went away (a pager, `head`): nothing is wrong, and nothing more can be said.
        _let_go(sys.stdout)
        return 0
    except OSError as error:
        # A full disk behind our output: what was written is cut off, and no answer may look whole.
        if error.errno not in (errno.ENOSPC, errno.EIO, errno.EDQUOT, errno.EFBIG) or error.filename:
            raise
        _let_go(sys.stdout)
        context.console.say(f"namekeeper: the output cannot be written: {error.strerror}")
        return 2
    return code


def _let_go(stream: TextIO) -> None:
    """Sends what is still held back nowhere, so that the end of the process does not stumble over it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _run(arguments: Sequence[str], context: Context) -> int:
    if not arguments or arguments[0] in ("-h", "--help", "help"):
        context.out.write(_overview())
        return 0 if arguments else 2
    if arguments[0] in ("-V", "--version"):
        context.out.write(f"namekeeper {__version__}\n")
        return 0
    return _run_verb(arguments[0], list(arguments[1:]), context)


def _run_verb(verb: str, arguments: list[str], context: Context) -> int:
    if verb not in VERBS:
        context.console.say(f"namekeeper: there is no command '{verb}'{_suggestion(verb)} (see namekeeper --help)")
        return 2
    if verb in NOT_BUILT:
        context.console.say(f"namekeeper: '{verb}' is not built yet")
        return 2
    module = importlib.import_module(f"namekeeper.faces.cli.{verb}")
    parser = _Parser(prog=f"namekeeper {verb}", description=f"{VERBS[verb].capitalize()}.", allow_abbrev=False)
    parser.formatter_class = _Help
    module.options(parser)
    try:
        parsed = parser.parse(arguments)
    except _UsageError as usage:
        context.console.say(str(usage))
        return 2
    except _HelpAsked as asked:
        context.out.write(str(asked))
        return 0
    code: int = module.run(parsed, context)
    return code


class _UsageError(Exception):
    pass


class _HelpAsked(Exception):  # noqa: N818 - not an error
    pass


class _Parser(argparse.ArgumentParser):
    """Raises instead of printing and leaving, so that the streams are ours and tests can run in one process."""

    def parse(self, arguments: list[str]) -> argparse.Namespace:
        """As ``parse_args``, which fails on a second ``--`` or hands on an empty list where a word belongs."""
        if arguments.count("--") > 1:
            self.error("'--' can stand only once")
        return self.parse_args(arguments)

    def error(self, message: str) -> None:  # type: ignore[override]
        usage = f"{self.format_usage().strip()}\n{self.prog}: {message}"
        raise _UsageError(usage)

    def print_help(self, file: object = None) -> None:
        raise _HelpAsked(self.format_help())


class _Help(argparse.HelpFormatter):
    """Asks the system for the width; argparse would import a library of archive formats to do so, for every command."""

    def __init__(self, prog: str) -> None:
        try:
            width = os.get_terminal_size().columns - 2
        except OSError:
            width = 78
        super().__init__(prog, width=max(width, 40))


def _suggestion(verb: str) -> str:
    import difflib

    near = difflib.get_close_matches(verb, VERBS, n=1)
    return f"; did you mean '{near[0]}'?" if near else ""


def _overview() -> str:
    width = max(map(len, VERBS))
    verbs = "\n".join(f"  {verb.ljust(width)}  {what}" for verb, what in VERBS.items() if verb not in NOT_BUILT)
    return (
        "usage: namekeeper COMMAND ...\n\n"
        "From a seller's tag to the right name, and from the right name to a fresh label.\n\n"
        f"{verbs}\n\n"
        "namekeeper COMMAND --help explains one command. Most take --json.\n"
        "Begin with: namekeeper demo\n"
    )
