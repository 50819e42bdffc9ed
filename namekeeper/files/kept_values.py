"""Frozen values of our own in a plain JSON file of our own, read back as the classes that are named and nothing else.

A value that several others hold stands there once: a row is the number of its class and its fields, each a plain JSON
value or ``[number of an earlier row]``.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Iterable, Mapping
from contextlib import suppress
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from enum import Enum
from pathlib import Path
from typing import Any

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.reading import LARGEST, read_file
from namekeeper.words.errors import FileError

_PLAIN = frozenset({str, int, float, bool, type(None)})


def recall_values(path: Path, state: str, classes: Collection[type]) -> dict[str, object]:
    """What was kept at ``path`` under that ``state``; nothing if it was another, or if it cannot be read."""
    try:
        document = json.loads(read_file(path, LARGEST))
        if document["state"] != state:
            return {}
        named = {one.__qualname__: one for one in (tuple, *classes)}
        builders = [_builder(named[name]) for name in document["classes"]]
        built: list[object] = []
        for row in document["rows"]:
            parts = [built[part[0]] if type(part) is list else part for part in row[1:]]
            built.append(builders[row[0]](parts))
        return {str(key): built[number] for key, number in document["kept"].items()}
    except Exception:
        return {}


def keep_values(path: Path, state: str, values: Mapping[str, object], classes: Collection[type]) -> None:
    """Keep ``values`` in place of what was kept there; where it cannot be written, nothing is kept.

    :raises KeyError: if a value holds another of a class that is not among ``classes``.
    """
    rows = _Rows((tuple, *classes))
    kept = {key: rows.number(value) for key, value in values.items()}
    document = {"state": state, "classes": rows.names, "rows": rows.rows, "kept": kept}
    with suppress(OSError, FileError):
        path.parent.mkdir(parents=True, exist_ok=True)
        replace_whole(DiskFiles(), path, json.dumps(document, separators=(",", ":")).encode())


class _Rows:
    """Values as rows; one that is held twice is told by its identity, since all of them live as long as the writing."""

    def __init__(self, classes: Iterable[type]) -> None:
        known = tuple(dict.fromkeys(classes))
        self.names = [one.__qualname__ for one in known]
        self.rows: list[list[object]] = []
        self._numbers = {one: number for number, one in enumerate(known)}
        self._partings = {one: _parting(one) for one in known}
        self._seen: dict[int, int] = {}

    def number(self, value: object) -> int:
        """The row of a value."""
        number = self._seen.get(id(value))
        if number is None:
            kind = type(value)
            parts = self._partings[kind](value)
            row = [self._numbers[kind], *(part if type(part) in _PLAIN else [self.number(part)] for part in parts)]
            number = self._seen[id(value)] = len(self.rows)
            self.rows.append(row)
        return number


def _parting(kind: type) -> Callable[[Any], Iterable[object]]:
    """How a value of that class is taken apart."""
    if issubclass(kind, tuple):
        return tuple
    if issubclass(kind, Enum):
        return lambda value: (value.value,)
    if issubclass(kind, date):
        return lambda value: (value.isoformat(),)
    names = [field.name for field in fields(kind)] if is_dataclass(kind) else []
    return lambda value: [getattr(value, name) for name in names]


def _builder(kind: type) -> Callable[[list[Any]], object]:
    """How a value of that class is put together."""
    if kind is tuple:
        return tuple
    if issubclass(kind, date):
        moment = datetime if issubclass(kind, datetime) else date
        return lambda parts: moment.fromisoformat(parts[0])
    return lambda parts: kind(*parts)
