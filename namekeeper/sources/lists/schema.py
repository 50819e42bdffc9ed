"""The index on disk: one SQLite file a list and edition, the same for the starter list and for whole catalogues.

A name is kept as its genus word and the rest, both folded by row 1 of contract section 1, so that one ordered index
answers "this name", "names that begin with" and "all species of a genus", and its mirror "this epithet in any genus".
``epithet`` holds every distinct rest once with its keys of rows 2 and 3, ``word`` every distinct word once for similar
spelling: work that grows with the number of words, not of names.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from pathlib import Path, PurePath
from types import MappingProxyType

#: Raised whenever the meaning of a table changes; an index of another format is built anew or refused.
FORMAT = 5
#: "NmKp" as SQLite's application id: tells our files from any other database.
APPLICATION = 0x4E6D4B70

TABLES = """
CREATE TABLE meta (name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE source (id INTEGER PRIMARY KEY, citation TEXT NOT NULL, link TEXT NOT NULL);
CREATE TABLE lineage (id INTEGER PRIMARY KEY, higher TEXT NOT NULL, kingdom TEXT NOT NULL);
CREATE TABLE name (
    id INTEGER PRIMARY KEY,
    genus TEXT NOT NULL,        -- folded, row 1
    rest TEXT NOT NULL,         -- folded, row 1; empty for a name of one word
    name TEXT NOT NULL,         -- canonical, as printed
    line INTEGER NOT NULL,
    target INTEGER,             -- the next name of the chain; the end has none
    parent INTEGER,
    authorship TEXT NOT NULL DEFAULT '',
    rank TEXT NOT NULL DEFAULT 'species',
    status TEXT NOT NULL DEFAULT 'accepted',    -- a word of evidence.NameStatus
    key TEXT NOT NULL DEFAULT '',           -- the list's own identifier
    target_ref TEXT NOT NULL DEFAULT '',    -- the identifier by which the list names the next of the chain, or
    target_name TEXT NOT NULL DEFAULT '',   -- its folded name, where the list has no identifiers
    parent_ref TEXT NOT NULL DEFAULT '',
    lineage INTEGER NOT NULL DEFAULT 0,
    original_genus TEXT NOT NULL DEFAULT '',
    original_ref TEXT NOT NULL DEFAULT '',
    range TEXT NOT NULL DEFAULT '',         -- areas, separated by ';'
    source INTEGER NOT NULL DEFAULT 0,
    memory INTEGER NOT NULL DEFAULT 0,      -- 1 if the row was recalled and not seen
    note TEXT NOT NULL DEFAULT '',
    as_of TEXT NOT NULL DEFAULT '',         -- year up to which the source of the status was followed
    revised TEXT NOT NULL DEFAULT ''        -- year of a newer revision of the genus known to the list
);
CREATE TABLE epithet (form TEXT NOT NULL, rest TEXT NOT NULL, ending TEXT NOT NULL, letters TEXT);
CREATE TABLE word (kind TEXT NOT NULL, text TEXT NOT NULL);
CREATE TABLE common (
    id INTEGER PRIMARY KEY,
    text TEXT NOT NULL,
    language TEXT NOT NULL,
    kind TEXT NOT NULL,
    sorted TEXT NOT NULL,       -- folded words in order of the alphabet
    joined TEXT NOT NULL,       -- folded words as they stand, without white space
    key TEXT NOT NULL,          -- identifier of the taxon
    taxon TEXT NOT NULL,        -- or its name
    name INTEGER,
    source INTEGER NOT NULL,
    memory INTEGER NOT NULL,
    line INTEGER NOT NULL,
    usual INTEGER NOT NULL      -- 1 for the name of its taxon and language that most people say
);
CREATE TABLE common_word (word TEXT NOT NULL, common INTEGER NOT NULL, PRIMARY KEY (word, common)) WITHOUT ROWID;
CREATE TABLE area (key TEXT NOT NULL, area TEXT NOT NULL, line INTEGER NOT NULL);
CREATE TABLE act (
    old TEXT NOT NULL, new TEXT NOT NULL, kind TEXT NOT NULL, year TEXT NOT NULL,
    source INTEGER NOT NULL, memory INTEGER NOT NULL
);
CREATE TABLE relation (key TEXT NOT NULL, related TEXT NOT NULL, kind TEXT NOT NULL, source INTEGER NOT NULL);
CREATE TABLE fact (
    kind TEXT NOT NULL, key TEXT NOT NULL, content TEXT NOT NULL, source INTEGER NOT NULL, memory INTEGER NOT NULL
);
"""

#: What a row brings; the second part has defaults. NULL is avoided: Python's sqlite3 binds None at the cost of a search
#: for adapters, many times that of an empty text.
REQUIRED = ("genus", "rest", "name", "line")
DEFAULTS: Mapping[str, str | int] = MappingProxyType(
    {
        "authorship": "", "rank": "species", "status": "accepted", "key": "", "target_ref": "", "target_name": "",
        "parent_ref": "", "lineage": 0, "original_genus": "", "original_ref": "", "range": "", "source": 0, "memory": 0,
        "note": "", "as_of": "", "revised": "",
    }
)  # fmt: skip

#: Kinds of facts that are looked up by name: on its usage, on taxa, on genus words and on epithets.
FACTS = ("misuse", "division", "dispute", "form", "caution", "genus", "moved", "taxon", "epithet")

#: Built after the rows, in one go each: far cheaper than keeping them in order row by row.
INDEXES = """
CREATE INDEX name_by_genus ON name (genus, rest);
CREATE INDEX name_by_rest ON name (rest, genus);
CREATE INDEX epithet_by_ending ON epithet (ending, rest);
CREATE INDEX common_by_sorted ON common (sorted);
CREATE INDEX common_by_joined ON common (joined);
CREATE INDEX common_by_name ON common (name);
CREATE INDEX act_by_names ON act (old, new);
CREATE INDEX fact_by_key ON fact (kind, key);
"""

#: Of two words that differ by one edit, one half stays whole (or the edit swaps the two letters at the joint, which is
#: looked up apart); of two that differ by two, one of three parts does. The expressions are repeated by the search.
SIMILAR_INDEXES = """
CREATE INDEX epithet_by_letters ON epithet (letters, rest);
CREATE INDEX word_by_text ON word (kind, text);
CREATE INDEX word_by_first_half ON word (kind, length(text), substr(text, 1, length(text) / 2), text);
CREATE INDEX word_by_last_half ON word (kind, length(text), substr(text, length(text) / 2 + 1), text);
"""

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


def address_of(place: PurePath) -> str:
    """The address by which SQLite opens a file for reading only (sqlite.org/uri.html, 3.1: no other host in it).

    An index is never changed where it lies, so nothing beside it (a journal, a log) is looked for and opened (3.3).

    A share of a network (``\\\\server\\share``) stands behind an empty host, as its path begins with two slashes.
    """
    whole = (place.absolute() if isinstance(place, Path) else place).as_uri()
    inner = whole.removeprefix("file://")
    return f"file://{inner if inner.startswith('/') else f'//{inner}'}?mode=ro&immutable=1"
