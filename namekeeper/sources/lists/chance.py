"""Whether a species of the same epithet and family that is new in an edition may be there by chance."""

from __future__ import annotations

import sqlite3
from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import NamedTuple

#: Expected bearers of the epithet among all that the family has new; more, and one of them tells nothing by itself.
#: Of 807 names that two editions of the NCBI Taxonomy follow by identifier this leaves 5 unfollowed without one, and
#: of 3 false moves none (editions 2021.11.16 and 2024.9.7, arthropods and molluscs).
_BY_CHANCE = 0.05


class Move(NamedTuple):
    """A name and the one that may have taken its place: their folded genus words, and what speaks for it."""

    old_genus: str
    new_genus: str
    family: str
    bearers: int  # names in force of that epithet in the new edition


class Odds:
    """What two editions, the older as ``main`` and the newer as ``new`` of ``database``, tell of such moves.

    ``moves`` are the genus words of all moves between them, once for every species.
    """

    def __init__(self, database: sqlite3.Connection, moves: Iterable[tuple[str, str]]) -> None:
        self._database = database
        self._between = Counter(moves)
        self._out = Counter(old for old, _ in self._between.elements())
        self._into = Counter(new for _, new in self._between.elements())

    def are_poor(self, move: Move) -> bool:
        """Whether nothing but the epithet speaks for a move, and may do so by chance.

        For it speak another species on the same way; a genus that is new in the edition and took in nobody else; a
        genus that is gone, from which nobody went elsewhere.
        """
        if self._between[move.old_genus, move.new_genus] > 1:
            return False
        made_for_it = self._into[move.new_genus] == 1 and not self._has("main", move.new_genus)
        gone_with_it = self._out[move.old_genus] == 1 and not self._has("new", move.old_genus)
        if made_for_it or gone_with_it:
            return False
        return self._added.get(move.family, 0) * move.bearers >= _BY_CHANCE * self._total

    def _has(self, edition: str, genus: str) -> bool:
        query = f"SELECT 1 FROM {edition}.name WHERE genus = ? AND rest <> '' AND status = 'accepted' LIMIT 1"  # noqa: S608
        return self._database.execute(query, (genus,)).fetchone() is not None

    @cached_property
    def _added(self) -> Mapping[str, int]:
        """Names in force that are new, by family."""
        rows = self._database.execute(
            "SELECT l.higher, count(*) FROM new.name n JOIN new.lineage l ON l.id = n.lineage"
            " WHERE n.status = 'accepted' AND n.rest <> ''"
            " AND NOT EXISTS (SELECT 1 FROM main.name o WHERE o.genus = n.genus AND o.rest = n.rest)"
            " GROUP BY l.higher"
        )
        found: dict[str, int] = {}
        for higher, count in rows:
            family = higher.partition(";")[0]
            found[family] = found.get(family, 0) + count
        return found

    @cached_property
    def _total(self) -> int:
        count: int = self._database.execute(
            "SELECT count(*) FROM new.name WHERE status = 'accepted' AND rest <> ''"
        ).fetchone()[0]
        return count
