"""Words that may come next on a command line that is being typed, found from the options each command declares."""

from __future__ import annotations

import argparse
import os
import shlex
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

from namekeeper.outside import Outside
from namekeeper.tasks.known_words import known_words

#: What stands for words that only this machine knows: the metavar, or the option.
_KINDS = MappingProxyType(
    {
        "ID": "ids", "ID=NAME": "ids", "OTHER": "ids", "--sheet": "sheets", "--test-page": "sheets",
        "--template": "templates", "--services": "services", "KEY@EDITION": "lists", "KEY[@EDITION]": "lists",
        "OLD": "lists", "NEW": "lists",
    }
)  # fmt: skip
_MANY = ("*", "+")


#: By the word of a command, what declares its arguments.
Declared = Mapping[str, Callable[[argparse.ArgumentParser], None]]


def next_words(typed: Sequence[str], declared: Declared, outside: Outside) -> tuple[str, ...]:
    """What the last of the words typed behind ``namekeeper`` may become; nothing where a file or free text belongs."""
    *before, last = [_unquoted(word) for word in typed] or [""]
    found = _after(before, declared, outside)
    return tuple(word for word in found if word.startswith(last) and (last or not word.startswith("-")))


def _unquoted(word: str) -> str:
    """A word as the shell will hand it on; one whose quotation is still open as it is."""
    try:
        return " ".join(shlex.split(word)) if word else ""
    except ValueError:
        return word


def _after(before: list[str], declared: Declared, outside: Outside) -> Iterable[str]:
    if not before:
        return ("--help", "--version", *declared)
    if before[0] not in declared:
        return ()
    parser = argparse.ArgumentParser(allow_abbrev=False)
    declared[before[0]](parser)
    return _of_parser(parser, before[1:], outside)


def _of_parser(parser: argparse.ArgumentParser, words: list[str], outside: Outside) -> Iterable[str]:
    """Words of a command, or of the act of it that was typed."""
    positional = [action for action in parser._actions if not action.option_strings]
    taking, given = _walked(parser, words)
    acts = next((action for action in positional if isinstance(action, argparse._SubParsersAction)), None)
    if acts is not None and given:
        act = acts.choices.get(given[0])
        return _of_parser(act, words[words.index(given[0]) + 1 :], outside) if act else ()
    folder = _folder(positional, given)
    if taking is not None:
        return _values(taking, outside, folder)
    return (*_options(parser, words), *_values(_wanted(positional, len(given)), outside, folder))


def _walked(parser: argparse.ArgumentParser, words: Sequence[str]) -> tuple[argparse.Action | None, list[str]]:
    """The option that takes the next word, and the words that belong to no option."""
    known = {string: action for action in parser._actions for string in action.option_strings}
    taking, given = None, []
    for word in words:
        if taking is not None:
            taking = None
        elif word in known:
            taking = known[word] if known[word].nargs != 0 else None
        elif not word.startswith("-"):
            given.append(word)
    return taking, given


def _wanted(positional: Sequence[argparse.Action], given: int) -> argparse.Action | None:
    """The positional argument that the next word belongs to."""
    for action in positional:
        if action.nargs in _MANY or given == 0:
            return action
        given -= 1
    return None


def _folder(positional: Sequence[argparse.Action], given: Sequence[str]) -> Path | None:
    """The collection, where the command has one and it was typed."""
    named = [word for action, word in zip(positional, given, strict=False) if action.metavar == "FOLDER"]
    return Path(os.path.expanduser(named[0])) if named else None  # noqa: PTH111 - Path raises for an unknown user


def _options(parser: argparse.ArgumentParser, words: Sequence[str]) -> Iterator[str]:
    """Long options, but for those that were given and cannot be repeated."""
    for action in parser._actions:
        if action.help == argparse.SUPPRESS or (set(action.option_strings) & set(words) and action.default != []):
            continue
        yield from (string for string in action.option_strings if string.startswith("--"))


def _values(action: argparse.Action | None, outside: Outside, folder: Path | None) -> Iterable[str]:
    """What may stand for an argument."""
    if action is None:
        return ()
    if action.choices is not None:
        return map(str, action.choices)
    named = (*action.option_strings, action.metavar)
    kind = next((_KINDS[name] for name in named if isinstance(name, str) and name in _KINDS), None)
    if kind is None:
        return ()
    end = "=" if action.metavar == "ID=NAME" else ""
    return (word + end for word in known_words(kind, outside, folder))
