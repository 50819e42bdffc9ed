"""JSON from elsewhere, looked through where it enters: what could not be told, counted or kept later is no answer."""

from __future__ import annotations

import json
import math
import re
import sys

#: Bytes that a text and what is made of it may take together; the largest page of a list takes a quarter.
MOST_MEMORY = 48_000_000
#: Bytes that an object, a list and a further value take at most beside their letters (CPython 3.11 to 3.14, 64 bits).
_OBJECT, _LIST, _VALUE = 240, 96, 100
_DEEPEST = 60  # levels; the deepest reply of a service has eight
_LONGEST_NUMBER = 30  # digits; identifiers have up to 19
_HALF = re.compile("[\ud800-\udfff]")


def document_of(text: str) -> object:
    """The document of a JSON text (RFC 8259).

    :raises ValueError: if it is none, or holds what no reader can use: half a character, a number that is none or has
        too many digits, levels without end, more than memory is meant for. The message says which, "" for a text that
        is no JSON.
    """
    if _memory(text) > MOST_MEMORY:
        raise ValueError("would take more memory than any answer")
    try:
        document: object = json.loads(text, parse_constant=_no_number, parse_int=_whole, parse_float=_fraction)
    except json.JSONDecodeError:
        raise ValueError from None
    except RecursionError:
        raise ValueError("goes deeper than any reader") from None
    _look_through(document)
    return document


def _memory(text: str) -> int:
    """Bytes that the text and its document take at most, reckoned without making it: three letters can be a list."""
    values = _OBJECT * text.count("{") + _LIST * text.count("[") + _VALUE * text.count(",")
    return 2 * sys.getsizeof(text) + values


def _no_number(word: str) -> float:
    message = f"has the number {word}, which is none"
    raise ValueError(message)


def _whole(digits: str) -> int:
    if len(digits) > _LONGEST_NUMBER:
        message = f"has a number of {len(digits)} digits"
        raise ValueError(message)
    return int(digits)


def _fraction(digits: str) -> float:
    number = float(digits)
    return number if math.isfinite(number) else _no_number(digits[:_LONGEST_NUMBER])


def _look_through(document: object) -> None:
    """Level by level, so that no depth can stop it."""
    level: list[object] = [document]
    for _ in range(_DEEPEST):
        if not level:
            return
        below: list[object] = []
        for value in level:
            if isinstance(value, str):
                _whole_characters(value)
            elif isinstance(value, list):
                below += value
            elif isinstance(value, dict):
                below += value
                below += value.values()
        level = below
    raise ValueError("goes deeper than any reader")


def _whole_characters(text: str) -> None:
    if not text.isascii() and _HALF.search(text):
        raise ValueError("holds half a character")
