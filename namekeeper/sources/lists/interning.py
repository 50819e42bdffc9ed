"""Texts that repeat from row to row, kept once in the index and not all of them in memory."""

from __future__ import annotations

import sqlite3

#: A catalogue may cite more works than memory should hold; beyond this the oldest may be written a second time.
_REMEMBERED = 20_000


class Interned:
    """Gives each pair of texts a row; ``insert`` takes id and the two texts."""

    def __init__(self, database: sqlite3.Connection, insert: str) -> None:
        self._database = database
        self._insert = insert
        self._known: dict[tuple[str, str], int] = {}
        self._last = 0

    def of(self, first: str, second: str) -> int:
        """The row that holds the pair; 0 for two empty texts."""
        pair = (first, second)
        if not first and not second:
            return 0
        known = self._known.get(pair)
        if known is not None:
            return known
        if len(self._known) >= _REMEMBERED:
            self._known.clear()
        self._last += 1
        self._database.execute(self._insert, (self._last, first, second))
        self._known[pair] = self._last
        return self._last
