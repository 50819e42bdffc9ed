"""The facts of an index by name: on its usage, on taxa, on genus words; those asked last are remembered."""

from __future__ import annotations

import sqlite3
from collections import defaultdict
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from namekeeper.sources.lists import schema, values
from namekeeper.sources.lists.chains import Chains

_BY_KEY = (
    f"SELECT kind, content, source, memory FROM fact WHERE kind IN ({', '.join('?' * len(schema.FACTS))})"  # noqa: S608
    " AND key = ?"
)
#: Keys whose facts are held: labels of a collection share their genera and the taxa above.
_HELD = 4096


class ListedFact(NamedTuple):
    """A row of the table ``fact``: its columns, where it was read, and whether it was recalled (1) or seen."""

    content: values.Fact
    citation: str
    memory: int


class FactTable:
    """Reads the facts of one open index, all kinds of a key at once."""

    def __init__(self, database: sqlite3.Connection, chains: Chains) -> None:
        self._database = database
        self._chains = chains
        self._empty = database.execute("SELECT 1 FROM fact LIMIT 1").fetchone() is None  # as that of most catalogues
        self._held = lru_cache(maxsize=_HELD)(self._read)

    def of(self, kind: str, key: str) -> tuple[ListedFact, ...]:
        """The facts of that kind on a key, in the order of the list."""
        return () if self._empty else self._held(key).get(kind, ())

    def every(self, kind: str) -> tuple[ListedFact, ...]:
        """All facts of that kind."""
        rows = self._database.execute("SELECT content, source, memory FROM fact WHERE kind = ?", (kind,))
        return tuple(self._listed(*row) for row in rows.fetchall())

    def _read(self, key: str) -> Mapping[str, tuple[ListedFact, ...]]:
        found: defaultdict[str, tuple[ListedFact, ...]] = defaultdict(tuple)
        for kind, *row in self._database.execute(_BY_KEY, (*schema.FACTS, key)).fetchall():
            found[kind] += (self._listed(*row),)
        return dict(found)

    def _listed(self, content: str, source: int, memory: int) -> ListedFact:
        return ListedFact(values.decoded(content), self._chains.source(source)[0], memory)
