"""YAML with every scalar as the text that stands there, and checks on what it holds.

The checks raise :class:`ValueError` with words that name the key; who reads a file adds the file and what to do.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import StrEnum
from typing import TypeVar

import yaml

_Words = TypeVar("_Words", bound=StrEnum)
_Loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)  # the same, five times as fast, where it was built


def texts_of(text: str) -> object:
    """Mappings, lists and texts of a YAML document.

    :raises yaml.YAMLError: if it is none.
    """
    return yaml.load(text, Loader=_Loader)  # noqa: S506 - a base loader makes nothing but texts, lists and mappings


def check_keys(fields: Mapping[str, object], allowed: set[str], what: str) -> None:
    """No keys but the allowed ones."""
    if unknown := sorted(str(name) for name in set(fields) - allowed):
        message = f"{what} has an unknown key '{unknown[0]}'; keys are {', '.join(sorted(allowed))}"
        raise ValueError(message)


def mapping(value: object, what: str) -> Mapping[str, object]:
    """Keys with values."""
    if not isinstance(value, Mapping):
        message = f"{what} should be keys with values"
        raise ValueError(message)
    return value


def list_of(value: object, what: str, *, filled: bool = False) -> Sequence[object]:
    """A list; with ``filled`` one that holds something."""
    if not isinstance(value, list) or (filled and not value):
        message = f"{what} should be a list" + (" that holds something" if value == [] else "")
        raise ValueError(message)
    return value


def number(value: object, what: str, low: float, high: float) -> float:
    """A number from ``low`` to ``high``."""
    try:
        found = float(str(value))
    except ValueError:
        found = float("nan")
    if not low <= found <= high:
        message = f"{what} should be a number from {low} to {high}, not '{value}'"
        raise ValueError(message)
    return found


def word_of(kind: type[_Words], value: object, what: str) -> _Words:
    """One of a closed set of words."""
    try:
        return kind(str(value))
    except ValueError:
        message = f"{what}: '{value}' is none of {', '.join(kind)}"
        raise ValueError(message) from None


def yes_or_no(value: object, what: str) -> bool:
    """A truth as YAML writes one."""
    text = str(value).casefold()
    if text not in ("yes", "true", "on", "no", "false", "off"):
        message = f"{what} should be yes or no, not '{value}'"
        raise ValueError(message)
    return text in ("yes", "true", "on")
