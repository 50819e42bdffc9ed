"""YAML with every scalar as the text that stands there, and checks on what it holds.

The checks raise :class:`LayoutError` with words that name the key, and with the line where that stands, as far as it is
known; who reads a file adds the file and what to do.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import StrEnum
from typing import TypeVar

import yaml

_Words = TypeVar("_Words", bound=StrEnum)
_Loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)  # the same, five times as fast, where it was built


class LayoutError(ValueError):
    """What is wrong in a file of ours for keepers; ``line`` from 1, None where it is not known."""

    def __init__(self, what: str, line: int | None = None) -> None:
        super().__init__(what)
        self.line = line


class _Text(str):
    """A scalar that knows its line."""

    __slots__ = ("line",)
    line: int


class _Texts(list[object]):
    """A list that knows its line."""

    line: int


class _Keys(dict[str, object]):
    """Keys with values; knows its line, and that of every key by the key itself."""

    line: int


def texts_of(text: str) -> object:
    """Mappings, lists and texts of a YAML document without aliases, which :func:`line_of` knows the lines of.

    :raises yaml.YAMLError: if it is none, or has a key twice.
    """
    node = yaml.compose(text, Loader=_Loader)
    return "" if node is None else _made(node)


def _made(node: yaml.Node) -> _Text | _Texts | _Keys:
    found: _Text | _Texts | _Keys
    if isinstance(node, yaml.ScalarNode):
        found = _Text(node.value)
    elif isinstance(node, yaml.SequenceNode):
        found = _Texts(map(_made, node.value))
    else:
        found = _keys(node.value)
    found.line = node.start_mark.line + 1
    return found


def _keys(pairs: Sequence[tuple[yaml.Node, yaml.Node]]) -> _Keys:
    found = _Keys()
    for key, value in pairs:
        name = _made(key)
        if not isinstance(name, _Text) or name in found:
            problem = f"the key '{name}' stands here twice" if isinstance(name, _Text) else "a key is no word"
            raise yaml.MarkedYAMLError(problem=problem, problem_mark=key.start_mark)
        found[name] = _made(value)
    return found


def line_of(*values: object) -> int | None:
    """The line of the first of some values that is known."""
    return next((line for value in values if (line := getattr(value, "line", None)) is not None), None)


def check_keys(fields: Mapping[str, object], allowed: set[str], what: str) -> None:
    """No keys but the allowed ones."""
    if unknown := sorted(set(fields) - allowed):
        message = f"{what} has an unknown key '{unknown[0]}'; keys are {', '.join(sorted(allowed))}"
        raise LayoutError(message, line_of(unknown[0]))


def mapping(value: object, what: str) -> Mapping[str, object]:
    """Keys with values."""
    if not isinstance(value, Mapping):
        message = f"{what} should be keys with values"
        raise LayoutError(message, line_of(value))
    return value


def list_of(value: object, what: str, *, filled: bool = False) -> Sequence[object]:
    """A list; with ``filled`` one that holds something."""
    if not isinstance(value, list) or (filled and not value):
        message = f"{what} should be a list" + (" that holds something" if value == [] else "")
        raise LayoutError(message, line_of(value))
    return value


def number(value: object, what: str, low: float, high: float) -> float:
    """A number from ``low`` to ``high``."""
    try:
        found = float(str(value))
    except ValueError:
        found = float("nan")
    if not low <= found <= high:
        message = f"{what} should be a number from {low} to {high}, not '{value}'"
        raise LayoutError(message, line_of(value))
    return found


def word_of(kind: type[_Words], value: object, what: str) -> _Words:
    """One of a closed set of words."""
    try:
        return kind(str(value))
    except ValueError:
        message = f"{what}: '{value}' is none of {', '.join(kind)}"
        raise LayoutError(message, line_of(value)) from None


def yes_or_no(value: object, what: str) -> bool:
    """A truth as YAML writes one."""
    text = str(value).casefold()
    if text not in ("yes", "true", "on", "no", "false", "off"):
        message = f"{what} should be yes or no, not '{value}'"
        raise LayoutError(message, line_of(value))
    return text in ("yes", "true", "on")
