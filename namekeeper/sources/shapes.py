"""Typed access to a JSON reply: what is absent is empty, what has another shape is a fault that says where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from namekeeper.evidence.statements import FailureKind
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.words.forms import has_control


@dataclass(frozen=True, slots=True)
class Node:
    """One JSON object of a reply and the path that led to it."""

    record: Mapping[str, object]
    path: str = "reply"

    @classmethod
    def of(cls, document: object, path: str = "reply") -> Node:
        """:raises UnansweredError: unless ``document`` is a JSON object."""
        if not isinstance(document, dict):
            raise wrong_shape(path, document, "an object")
        return cls(document, path)

    def text(self, key: str) -> str:
        """Text or number as text in one line, without blanks around it; "" if absent or null."""
        value = self.record.get(key)
        if value is None:
            return ""
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise self.wrong(key, "text")
        return self._line(key, str(value))

    def needed(self, key: str) -> str:
        """Like :meth:`text`, but it must be there."""
        return self.text(key) or self._missing(key)

    def flag(self, key: str) -> bool:
        """False if absent."""
        value = self.record.get(key)
        if value is not None and not isinstance(value, bool):
            raise self.wrong(key, "true or false")
        return bool(value)

    def number(self, key: str) -> float:
        """0 if absent."""
        value = self.record.get(key) or 0
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.wrong(key, "a number")
        return float(value)

    def node(self, key: str) -> Node | None:
        value = self.record.get(key)
        return None if value is None else Node.of(value, f"{self.path}.{key}")

    def needed_node(self, key: str) -> Node:
        """Like :meth:`node`, but it must be there."""
        return self.node(key) or Node.of(self._missing(key))

    def nodes(self, key: str, *, needed: bool = False) -> tuple[Node, ...]:
        """The objects of a list, nulls skipped (one service writes an empty list as ``[null]``)."""
        return tuple(
            Node.of(value, f"{self.path}.{key}[{number}]")
            for number, value in enumerate(self._list(key, needed))
            if value is not None
        )

    def texts(self, key: str) -> tuple[str, ...]:
        """The texts or numbers of a list as texts; empty if absent or null."""
        return tuple(self._texts(key))

    def _texts(self, key: str) -> Iterator[str]:
        for value in self._list(key, needed=False):
            if isinstance(value, bool) or not isinstance(value, str | int):
                raise self.wrong(key, "a list of texts")
            yield self._line(key, str(value))

    def _line(self, key: str, text: str) -> str:
        line = text if text.isprintable() else " ".join(text.split())
        if has_control(line):
            raise self.wrong(key, "text without signs that nobody sees")
        return line.strip()

    def _list(self, key: str, needed: bool) -> list[object]:
        value = self.record.get(key)
        if value is None and not needed:
            return []
        if not isinstance(value, list):
            raise self.wrong(key, "a list")
        return value

    def wrong(self, key: str, expected: str) -> UnansweredError:
        """The fault for the value of ``key``, which should be ``expected``."""
        return wrong_shape(f"{self.path}.{key}", self.record.get(key), expected)

    def _missing(self, key: str) -> str:
        raise self.wrong(key, "there")


def wrong_shape(path: str, value: object, expected: str) -> UnansweredError:
    """The fault for ``value`` at ``path`` that should be ``expected``."""
    names = {dict: "an object", list: "a list", str: "text", bool: "true or false", type(None): "missing"}
    found = names.get(type(value), "a number")
    return UnansweredError(FailureKind.BAD_REPLY, f"its reply has another shape: {path} is {found}, not {expected}")


def rows(document: object, key: str) -> tuple[Node, ...]:
    """The objects of a reply that is a list, or a page that holds the list under ``key``."""
    if isinstance(document, list):
        return Node({key: document}).nodes(key)
    return Node.of(document).nodes(key, needed=True)
