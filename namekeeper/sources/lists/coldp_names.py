"""Rows of one ColDP file kept at hand, on disk, while another is read: names for taxa, citations for everything."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable


class NameShelf:
    """A private database in a temporary file that goes with the object."""

    FIELDS = ("ID", "scientificName", "authorship", "rank", "basionymID", "code", "status")

    def __init__(self) -> None:
        # The empty name makes SQLite keep what outgrows its cache in a file of its own, deleted when closed.
        self._database = sqlite3.connect("", isolation_level=None)
        self._database.executescript(
            "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA cache_size = -8192; BEGIN;"
            "CREATE TABLE name (id PRIMARY KEY, name, authorship, rank, basionym, code, status) WITHOUT ROWID;"
            "CREATE TABLE usage (name PRIMARY KEY, id) WITHOUT ROWID;"
            "CREATE TABLE reference (id PRIMARY KEY, citation) WITHOUT ROWID;"
        )

    def put_names(self, rows: Iterable[tuple[str, ...]]) -> None:
        """Names, in the order of ``FIELDS``; of two with one identifier the first counts."""
        self._database.executemany("INSERT OR IGNORE INTO name VALUES (?, ?, ?, ?, ?, ?, ?)", rows)

    def put_usages(self, rows: Iterable[tuple[str, str]]) -> None:
        """Pairs of usage and name."""
        self._database.executemany("INSERT OR IGNORE INTO usage (id, name) VALUES (?, ?)", rows)

    def put_references(self, rows: Iterable[tuple[str, str]]) -> None:
        """Pairs of identifier and citation."""
        self._database.executemany("INSERT OR IGNORE INTO reference VALUES (?, ?)", rows)

    def name(self, key: str) -> dict[str, str] | None:
        """A name as fields of a usage; its original combination by the usage that carries it."""
        found = self._database.execute("SELECT * FROM name WHERE id = ?", (key,)).fetchone()
        if found is None:
            return None
        _key, name, authorship, rank, basionym, code, status = found
        original = self.usage_of(basionym) if basionym and basionym != key else ""
        return {
            "scientificName": name, "authorship": authorship, "rank": rank, "basionymID": original, "code": code,
            "nameStatus": status,
        }  # fmt: skip

    def usage_of(self, name: str) -> str:
        """The first usage of a name; empty if it has none."""
        found = self._database.execute("SELECT id FROM usage WHERE name = ?", (name,)).fetchone()
        return "" if found is None else str(found[0])

    def reference(self, key: str) -> str:
        """A citation; empty if there is none of that identifier."""
        found = self._database.execute("SELECT citation FROM reference WHERE id = ?", (key,)).fetchone()
        return "" if found is None else str(found[0])
