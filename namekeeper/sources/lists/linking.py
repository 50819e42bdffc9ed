"""The last stage of building an index: duplicates out, references resolved, keys computed, indexes made."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Collection, Mapping
from itertools import pairwise
from typing import TypeVar

from namekeeper.sources.lists import schema
from namekeeper.sources.lists.folding import common_words
from namekeeper.sources.lists.list_file import Skips
from namekeeper.words.spelling import ending_of_folded, letters_of_ending

_Key = TypeVar("_Key", bound=str)
_BY_KEY = "(SELECT t.id FROM name t WHERE t.key = {table}.{column} AND t.key <> '')"
_BY_NAME = """(SELECT t.id FROM name t
    WHERE t.genus = substr({column} || ' ', 1, instr({column} || ' ', ' ') - 1)
      AND t.rest = substr({column}, instr({column} || ' ', ' ') + 1)
    ORDER BY t.status <> 'accepted', t.id LIMIT 1)"""


def link(database: sqlite3.Connection, skips: Skips, columns: Collection[str], *, similar: bool) -> int:
    """Make the rows one whole; returns the number of names.

    :param columns: those of ``name`` that hold anything.
    """
    database.execute("CREATE INDEX name_by_key ON name (key) WHERE key <> ''")
    if "key" in columns:
        _drop_duplicate_keys(database, skips)
    for statement in filter(str.strip, schema.INDEXES.split(";\n")):
        database.execute(statement)
    _resolve(database, columns)
    _relate(database, columns)
    _tell_faults(database, skips, columns)
    # Last, because it is kept in order with every change of a target.
    database.execute("CREATE INDEX name_by_target ON name (target) WHERE target IS NOT NULL")
    _spread_areas(database)
    _settle_commons(database, skips)
    _fill_epithets(database)
    if similar:
        _fill_similar(database)
    count: int = database.execute("SELECT count(*) FROM name").fetchone()[0]
    return count


def _has(database: sqlite3.Connection, query: str) -> bool:
    return database.execute(query + " LIMIT 1").fetchone() is not None


def _drop_duplicate_keys(database: sqlite3.Connection, skips: Skips) -> None:
    """An identifier belongs to its first row. A later row of the same name goes; of another name it stays without it.

    Two names under one identifier may also be a species that was split: that is kept for comparing editions.
    """
    later = (
        "SELECT id FROM name n WHERE key <> '' AND EXISTS"
        " (SELECT 1 FROM name first WHERE first.key = n.key AND first.key <> '' AND first.id < n.id)"
    )
    every, distinct = database.execute(
        "SELECT (SELECT count(*) FROM name WHERE key <> ''), (SELECT count(DISTINCT key) FROM name WHERE key <> '')"
    ).fetchone()
    if every == distinct:
        return
    database.execute(f"CREATE TEMP TABLE twin AS {later}")
    rows = database.execute(
        "SELECT line, key, EXISTS (SELECT 1 FROM name first WHERE first.key = n.key AND first.key <> ''"
        " AND first.id < n.id AND first.name = n.name) FROM name n JOIN twin USING (id) ORDER BY id"
    )
    for line, key, goes in rows:
        (skips.add if goes else skips.tell)(line, f"identifier {key!r} stands in an earlier row already")
    database.execute(
        "INSERT INTO fact SELECT 'twin', key, json_object('name', name), 0, 0 FROM name JOIN twin USING (id)"
    )
    database.execute(
        "DELETE FROM name WHERE id IN (SELECT n.id FROM twin JOIN name n USING (id) JOIN name first"
        " ON first.key = n.key AND first.key <> '' AND first.id < n.id AND first.name = n.name)"
    )
    database.execute("UPDATE name SET key = '' WHERE id IN (SELECT id FROM twin)")
    database.execute("DROP TABLE twin")


def _resolve(database: sqlite3.Connection, columns: Collection[str]) -> None:
    for column, reference in (("target", "target_ref"), ("parent", "parent_ref")):
        if reference in columns:
            found = _BY_KEY.format(table="name", column=reference)
            database.execute(f"UPDATE name SET {column} = {found} WHERE {reference} <> ''")  # noqa: S608
    if "target_name" in columns:
        found = _BY_NAME.format(column="name.target_name")
        database.execute(f"UPDATE name SET target = {found} WHERE target_name <> ''")  # noqa: S608


def _tell_faults(database: sqlite3.Connection, skips: Skips, columns: Collection[str]) -> None:
    """References into nowhere and circles; such names are kept, and say so when asked."""
    for column, reference, what in (
        ("target", "target_ref", "leads to"),
        ("target", "target_name", "leads to"),
        ("parent", "parent_ref", "stands below"),
    ):
        if reference in columns:
            lost = database.execute(
                f"SELECT line, {reference} FROM name WHERE {column} IS NULL AND {reference} <> ''"  # noqa: S608
            )
            for line, missing in lost:
                skips.tell(line, f"{what} {missing!r}, which the list does not have")
    if "target_ref" in columns or "target_name" in columns:
        links = database.execute(
            "SELECT n.id, n.target FROM name n JOIN name t ON t.id = n.target WHERE t.target IS NOT NULL ORDER BY n.id"
        )
        within = _in_rings(dict(links))
        for number in sorted(within):
            (line,) = database.execute("SELECT line FROM name WHERE id = ?", (number,)).fetchone()
            skips.tell(line, "leads back to itself")


def _in_rings(links: Mapping[int, int]) -> set[int]:
    """Names from which a chain comes back to them; each name is walked over once."""
    within: set[int] = set()
    walk_of: dict[int, int] = {}  # name -> the walk that came over it first
    for start in links:
        at, walked = start, []
        while at in links and at not in walk_of:
            walk_of[at] = start
            walked.append(at)
            at = links[at]
        if walk_of.get(at) == start and at in links:
            within.update(walked[walked.index(at) :])
    return within


def _relate(database: sqlite3.Connection, columns: Collection[str]) -> None:
    """Relations of names into acts, and the original combination into what it says: genus, same type or not."""
    related = _has(database, "SELECT 1 FROM relation")
    if related:
        database.execute(
            "UPDATE name SET original_ref ="
            " (SELECT related FROM relation r WHERE r.key = name.key AND r.kind = 'basionym')"
            " WHERE original_ref = '' AND key IN (SELECT key FROM relation WHERE kind = 'basionym')"
        )
        for kind, act, status in (
            ("replacement name", "replacement", "replaced"),
            ("spelling correction", "spelling", None),
            ("homotypic", "objective_synonymy", "objective synonym"),
        ):
            _relation_into_act(database, kind, act, status)
        database.execute("DELETE FROM relation")
    if related or "original_ref" in columns:
        database.execute(
            "UPDATE name SET original_genus = coalesce("
            "(SELECT substr(t.name, 1, instr(t.name || ' ', ' ') - 1) FROM name t"
            " WHERE t.key = name.original_ref AND t.key <> ''), '')"
            " WHERE original_ref <> '' AND original_genus = ''"
        )
        database.execute(
            "UPDATE name SET status = 'objective synonym' WHERE status = 'synonym' AND target IS NOT NULL AND"
            " (SELECT coalesce(nullif(t.original_ref, ''), t.key) FROM name t WHERE t.id = name.target)"
            " = coalesce(nullif(name.original_ref, ''), name.key)"
        )


def _relation_into_act(database: sqlite3.Connection, kind: str, act: str, status: str | None) -> None:
    # ColDP: the subject replaces or corrects the object.
    database.execute(
        "INSERT INTO act SELECT trim(o.genus || ' ' || o.rest), trim(n.genus || ' ' || n.rest), ?, '', r.source, 0"
        " FROM relation r JOIN name n ON n.key = r.key AND n.key <> ''"
        " JOIN name o ON o.key = r.related AND o.key <> '' WHERE r.kind = ?",
        (act, kind),
    )
    if status is not None:
        database.execute(
            "UPDATE name SET status = ? WHERE status = 'synonym' AND key IN"
            " (SELECT related FROM relation WHERE kind = ?)",
            (status, kind),
        )


def _spread_areas(database: sqlite3.Connection) -> None:
    if not _has(database, "SELECT 1 FROM area"):
        return
    database.execute("CREATE INDEX area_by_key ON area (key, area)")
    database.execute(
        "UPDATE name SET range = (SELECT group_concat(area, ';') FROM"
        " (SELECT DISTINCT area FROM area WHERE area.key = name.key ORDER BY rowid))"
        " WHERE key IN (SELECT key FROM area)"
    )
    database.execute("DROP INDEX area_by_key")
    database.execute("DELETE FROM area")


def _settle_commons(database: sqlite3.Connection, skips: Skips) -> None:
    if not _has(database, "SELECT 1 FROM common"):
        return
    if _has(database, "SELECT 1 FROM common WHERE key <> ''"):
        found = _BY_KEY.format(table="common", column="key")
        database.execute(f"UPDATE common SET name = {found} WHERE key <> ''")  # noqa: S608
    found = _BY_NAME.format(column="common.taxon")
    database.execute(f"UPDATE common SET name = {found} WHERE taxon <> ''")  # noqa: S608
    for line, text in database.execute("SELECT line, text FROM common WHERE name IS NULL"):
        skips.add(line, f"common name {text!r} is of a taxon that the list does not have")
    database.execute("DELETE FROM common WHERE name IS NULL")
    database.execute(
        "DELETE FROM common WHERE id NOT IN (SELECT min(id) FROM common GROUP BY text, language, kind, name)"
    )
    words = database.execute("SELECT id, text FROM common")
    writer = database.cursor()
    writer.executemany(
        "INSERT OR IGNORE INTO common_word VALUES (?, ?)",
        ((word, number) for number, text in words for word in _findable(text)),
    )


def _findable(text: str) -> set[str]:
    """The words and each two neighbours as one: "red knee" finds "redknee", and the other way round."""
    words = common_words(text)
    return {*words, *(first + second for first, second in pairwise(words))}


def _fill_epithets(database: sqlite3.Connection) -> None:
    _compute(
        database,
        "ending",
        ending_of_folded,
        "INSERT INTO epithet (form, rest, ending)"
        " SELECT rest, rest, ending(rest) FROM (SELECT DISTINCT rest FROM name WHERE rest <> '')",
    )


def _fill_similar(database: sqlite3.Connection) -> None:
    _compute(database, "letters", letters_of_ending, "UPDATE epithet SET letters = letters(ending)")
    database.execute("INSERT INTO word SELECT 'genus', genus FROM (SELECT DISTINCT genus FROM name)")
    database.execute("INSERT INTO word SELECT 'epithet', form FROM (SELECT DISTINCT form FROM epithet)")
    database.execute("INSERT INTO word SELECT 'common', word FROM (SELECT DISTINCT word FROM common_word)")
    for statement in filter(str.strip, schema.SIMILAR_INDEXES.split(";\n")):
        database.execute(statement)


def _compute(database: sqlite3.Connection, name: str, function: Callable[[_Key], str], statement: str) -> None:
    """Run a statement that calls ``function``, which cannot fail: what comes out of it is the keeper's Ctrl-C."""
    database.create_function(name, 1, function, deterministic=True)
    try:
        database.execute(statement)
    except sqlite3.OperationalError as error:
        if "user-defined function" in str(error):
            raise KeyboardInterrupt from error
        raise
