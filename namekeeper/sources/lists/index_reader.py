"""A list on this machine, answered from its index."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack
from functools import lru_cache
from pathlib import Path

from namekeeper.evidence.interfaces import Closeness, NameCard, NameList, Near
from namekeeper.evidence.statements import (
    Answer,
    Caution,
    CommonName,
    Edition,
    Failure,
    FailureKind,
    GenusRecord,
    Match,
    NameStatus,
    Reply,
    Statement,
    TradeForm,
)
from namekeeper.sources.lists import schema, values
from namekeeper.sources.lists.chains import COLUMNS, Chains, NameRow
from namekeeper.sources.lists.commons import Commons
from namekeeper.sources.lists.fact_table import FactTable
from namekeeper.sources.lists.folding import folded, split_name
from namekeeper.sources.lists.grading import by_word, endings_of, grade, graded_epithets, ordered
from namekeeper.sources.lists.notes import Notes, chain_keys
from namekeeper.sources.lists.whole import WholeList
from namekeeper.words.errors import FileError
from namekeeper.words.spelling import (
    epithet_ending_key,
    epithet_letter_key,
    plain_keys,
)

_ALIKE = f"SELECT {COLUMNS} FROM epithet e JOIN name n ON n.genus = ? AND n.rest = e.rest WHERE e."  # noqa: S608
_BY_ENDING = _ALIKE + "ending = ?"
_BY_LETTERS = _ALIKE + "letters = ?"
_EQUAL = f"SELECT {COLUMNS} FROM name n WHERE n.genus = ? AND n.rest = ?"  # noqa: S608 - columns are ours
_ANY_GENUS = f"SELECT {COLUMNS} FROM epithet e JOIN name n ON n.rest = e.rest WHERE e.ending = ?"  # noqa: S608
_CROWD = "SELECT count(*) FROM (SELECT DISTINCT name FROM name WHERE genus = ? AND rest <> '' LIMIT ?)"
#: A character behind every letter that a folded name may hold.
_LAST = "\U0010ffff"
_HINTS = 5
#: Names whose answers are remembered: a tag asks several times for its own, a check first for all of a collection.
_HELD_SIMILAR, _HELD_NAMED = 256, 4096


class IndexList(NameList):
    """One list at one edition; read-only, one connection, nothing held but small caches."""

    def __init__(
        self, database: sqlite3.Connection, place: Path, afterwards: Callable[[], object] | None = None
    ) -> None:
        self._database = database
        self._afterwards = afterwards
        self.place = place
        self._edition = values.edition_of(database)
        self._chains = Chains(database, self._edition)
        facts = FactTable(database, self._chains)
        self._commons = Commons(database, self._chains, facts, self._edition)
        self._notes = Notes(database, self._chains, facts)
        self._similar_once = lru_cache(maxsize=_HELD_SIMILAR)(self._read_similar)
        self._named_once = lru_cache(maxsize=_HELD_NAMED)(self._read_named)

    @classmethod
    def open(cls, place: Path, afterwards: Callable[[], object] | None = None) -> IndexList:
        """Open an index for reading; ``afterwards`` is done once it is closed.

        :raises FileError: if it is missing, damaged, of another format or no index at all.
        """
        with ExitStack() as opened:
            try:
                database = sqlite3.connect(schema.address_of(values.index_at(place)), uri=True, check_same_thread=False)
                opened.callback(database.close)
                index = cls(values.checked(database, place), place, afterwards)
            except (sqlite3.Error, KeyError) as error:
                raise values.broken_index(str(place), str(error)) from error
            opened.pop_all()
            return index

    def close(self) -> None:
        """Let go of the file."""
        self._database.close()
        if self._afterwards is not None:
            self._afterwards()

    @property
    def edition(self) -> Edition:
        return self._edition

    @property
    def size(self) -> int:
        """The number of names."""
        found = self._database.execute("SELECT value FROM meta WHERE name = 'names'").fetchone()
        return int(found[0])

    def whole(self) -> WholeList:
        """All its names, while it is open."""
        return WholeList(self._database)

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        return self._replies(names, hinting=True)

    def ask_firmly(self, names: Sequence[str]) -> Iterator[Reply]:
        return self._replies(names, hinting=False)

    def _replies(self, names: Sequence[str], *, hinting: bool) -> Iterator[Reply]:
        for name in names:
            try:
                yield self._answer(name, hinting=hinting)
            except (FileError, sqlite3.Error) as error:
                yield Failure(self._edition, name, FailureKind.BROKEN, str(error))

    def _answer(self, name: str, *, hinting: bool) -> Answer:
        statements = self._decisive(self.named(name))
        hinting = hinting and not statements
        hints = tuple(near.statement for near in self.similar(name, _HINTS)) if hinting else ()
        keys = chain_keys(name, statements)
        return Answer(
            self._edition,
            name,
            statements,
            hints,
            self._notes.misuses(keys),
            self._notes.divisions(keys),
            self._notes.disputes(keys),
        )

    def _decisive(self, statements: tuple[Statement, ...]) -> tuple[Statement, ...]:
        """Those of the best row of contract section 1; row 3 only where one name folds so."""
        if not statements:
            return ()
        best = statements[0].match
        kept = tuple(statement for statement in statements if statement.match is best)
        if best is Match.LETTERS and len({statement.subject.name for statement in kept}) > 1:
            return ()
        return kept

    def named(self, name: str) -> tuple[Statement, ...]:
        return self._named_once(name)

    def _read_named(self, name: str) -> tuple[Statement, ...]:
        genus, rest = split_name(name)
        same = self._database.execute(_EQUAL, (genus, rest)).fetchall()
        if same or not rest:
            return self._chains.statements(name, ordered([(Match.SAME, NameRow._make(row)) for row in same]))
        readings = [reading.partition(" ") for reading in plain_keys(name)]
        readings = [reading for reading in readings if self._commons.has_names(reading[0])]
        for query, key, match in (
            (_BY_ENDING, epithet_ending_key, Match.ENDING),
            (_BY_LETTERS, epithet_letter_key, Match.LETTERS),
        ):
            rows = [
                row
                for genus, _, rest in readings
                for row in self._database.execute(query, (genus, by_word(key, rest))).fetchall()
            ]
            if rows:
                found = [NameRow._make(row) for row in dict.fromkeys(rows)]
                return self._chains.statements(name, ordered([(grade(name, row, match), row) for row in found]))
        return ()

    def abbreviated(self, genus_start: str, epithet: str) -> tuple[Statement, ...]:
        start = folded(genus_start.rstrip("."))
        asked = f"{genus_start.rstrip('.')}. {epithet}"
        rows = [row for row in self._with_ending(epithet) if row.genus.startswith(start)]
        return self._chains.statements(asked, graded_epithets(epithet, rows))

    def clipped(self, genus_start: str, epithet_start: str, limit: int = 20) -> tuple[Statement, ...]:
        genus, rest = folded(genus_start), folded(epithet_start)
        rows = self._database.execute(
            f"SELECT {COLUMNS} FROM name n WHERE n.rest >= ? AND n.rest < ? AND n.genus >= ? AND n.genus < ?"  # noqa: S608
            " AND n.rest NOT LIKE '% %' ORDER BY n.status <> 'accepted', n.genus, n.rest LIMIT ?",
            (rest, rest + _LAST, genus, genus + _LAST, limit),
        ).fetchall()
        asked = f"{genus_start}. {epithet_start}"
        return tuple(self._chains.statement(asked, Match.SAME, NameRow._make(row)) for row in rows)

    def with_epithet(self, epithet: str) -> tuple[Statement, ...]:
        return self._chains.statements(epithet, graded_epithets(epithet, self._with_ending(epithet)))

    def knows_epithet(self, epithet: str) -> bool:
        found = self._database.execute("SELECT 1 FROM epithet WHERE ending = ? LIMIT 1", (endings_of(folded(epithet)),))
        return found.fetchone() is not None or bool(not epithet.isascii() and self.with_epithet(epithet))

    def _with_ending(self, epithet: str) -> list[NameRow]:
        keys = dict.fromkeys(endings_of(reading) for reading in plain_keys(epithet))
        rows = [row for key in keys for row in self._database.execute(_ANY_GENUS, (key,)).fetchall()]
        return [NameRow._make(row) for row in dict.fromkeys(rows)]

    def prefixed(self, start: str, limit: int = 20) -> tuple[Statement, ...]:
        genus, space, rest = folded(start.lstrip()).partition(" ")
        if not genus:
            return ()
        if space or start.endswith(" "):
            if not self._commons.has_names(genus):
                return ()
            where = "n.genus = ? AND n.rest >= ? AND n.rest < ?"
            bounds: tuple[str, ...] = (genus, rest, rest + _LAST)
        else:
            where, bounds = "n.genus >= ? AND n.genus < ?", (genus, genus + _LAST)
        rows = self._database.execute(
            f"SELECT {COLUMNS} FROM name n WHERE {where} AND n.rest <> '' ORDER BY n.genus, n.rest LIMIT ?",  # noqa: S608
            (*bounds, limit),
        ).fetchall()
        return tuple(self._chains.statement(start, Match.SAME, NameRow._make(row)) for row in rows)

    def crowd(self, genus: str, most: int) -> int:
        key = folded(genus)
        return int(self._database.execute(_CROWD, (key, most)).fetchone()[0]) if self._commons.has_names(key) else 0

    def neighbours(self, genus: str, epithet: str, close: Closeness) -> Iterator[Statement]:
        from namekeeper.sources.lists.near import neighbours

        listed = genus if self._commons.has_names(folded(genus)) else ""
        return neighbours(self._database, self._chains, listed, epithet, close)

    def genus(self, genus: str) -> GenusRecord | None:
        return self._commons.genus(folded(genus.strip()))

    def common(self, words: str) -> tuple[CommonName, ...]:
        return self._commons.equal(words)

    def common_with(self, words: Iterable[str]) -> tuple[CommonName, ...]:
        return self._commons.holding(words)

    def similar(self, name: str, limit: int = 8) -> tuple[Near, ...]:
        return self._similar_once(name, limit)

    def _read_similar(self, name: str, limit: int) -> tuple[Near, ...]:
        from namekeeper.sources.lists.near import similar_names

        return similar_names(self._database, self._chains, name, limit)

    def similar_genus(self, genus: str, limit: int = 8) -> tuple[tuple[GenusRecord, int], ...]:
        from namekeeper.sources.lists.near import similar_words

        near = similar_words(self._database, "genus", folded(genus.strip()), 2)
        records = ((self._commons.genus(word), distance) for word, distance in near[: limit * 2])
        return tuple((record, distance) for record, distance in records if record is not None)[:limit]

    def similar_common(self, words: str, limit: int = 8) -> tuple[tuple[CommonName, float], ...]:
        from namekeeper.sources.lists.near import similar_commons

        return similar_commons(self._database, self._commons, words, limit)

    def forms(self, genus: str | None, words: str) -> tuple[TradeForm, ...]:
        return self._notes.forms(genus, words)

    def word_class(self, epithet: str) -> str | None:
        return self._notes.word_class(epithet)

    def cautions(self, taxa: Iterable[str]) -> tuple[Caution, ...]:
        return self._notes.cautions(
            dict.fromkeys(key for taxon in taxa for key in self._commons.taxa_over(folded(taxon)))
        )

    def card(self, name: str) -> NameCard | None:
        genus, rest = split_name(name)
        rows = self._database.execute(
            f"SELECT {COLUMNS} FROM name n WHERE n.genus = ? AND n.rest = ? AND n.status = 'accepted'",  # noqa: S608
            (genus, rest),
        ).fetchall()
        if not rows:
            return None
        row = NameRow._make(rows[0])
        former = [self._chains.statement(old.name, Match.SAME, old) for old in self._chains.leading_to(row.id)]
        return NameCard(
            self._chains.taxon(row),
            tuple(former),
            self._commons.of_name(row.id),
            self.cautions((row.name,)),
            self._chains.source(row.source)[0] or self._edition.citation or "",
            self._notes.sold_as(row.name),
            row.as_of,
            row.revised,
        )

    def keyed(self, identifier: str) -> Statement | None:
        """What the list says of the name with that identifier of its own; reads the whole table."""
        row = self._database.execute("SELECT id FROM name WHERE key = ? ORDER BY id LIMIT 1", (identifier,)).fetchone()
        return self.statement_of(row[0]) if row else None

    def statement_of(self, number: int) -> Statement | None:
        """What the list says of the name of one of its rows, with all rows that say something of that name."""
        row = self._chains.row(number)
        if row is None:
            return None
        if row.status == NameStatus.ACCEPTED:
            return self._chains.statement(row.name, Match.SAME, row)
        rows = [NameRow._make(each) for each in self._database.execute(_EQUAL, (row.genus, row.rest)).fetchall()]
        same = [each for each in rows if (each.name, each.authorship) == (row.name, row.authorship)]
        sunk = [(Match.SAME, each) for each in same if each.status != NameStatus.ACCEPTED]
        return self._chains.statements(row.name, sunk)[0]
