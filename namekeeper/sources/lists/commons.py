"""Common names and genus words in an index."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from functools import lru_cache

from namekeeper.evidence.statements import CommonName, Edition, GenusRecord, NameStatus, TaxonName
from namekeeper.sources.lists.chains import COLUMNS, Chains, NameRow
from namekeeper.sources.lists.fact_table import FactTable
from namekeeper.sources.lists.folding import common_words, folded
from namekeeper.sources.lists.values import Fact, common_of

_SELECT = "SELECT c.text, c.language, c.kind, c.memory, c.usual, c.source, c.name FROM common c WHERE "
_ONE_WORD = f"SELECT {COLUMNS} FROM name n WHERE n.genus = ? AND n.rest = '' ORDER BY n.status <> 'accepted'"  # noqa: S608
#: A word such as "tarantula" stands in very many names; what is asked by such words alone is no question.
_MOST = 200
#: No common name is longer; a compound SELECT of SQLite has its limit, too.
_MOST_WORDS = 20
#: Genus words that are remembered: labels of a collection share them.
_HELD = 1024


class Commons:
    """Answers on common names, and what a list knows of genera and the taxa above them."""

    def __init__(self, database: sqlite3.Connection, chains: Chains, facts: FactTable, edition: Edition) -> None:
        self._database = database
        self._chains = chains
        self._facts = facts
        self.genus = lru_cache(maxsize=_HELD)(self._read_genus)
        self.has_names = lru_cache(maxsize=_HELD)(self._read_has_names)
        self._above = lru_cache(maxsize=_HELD)(self._read_above)
        self._edition = edition
        self._empty = database.execute("SELECT 1 FROM common LIMIT 1").fetchone() is None

    def equal(self, text: str) -> tuple[CommonName, ...]:
        """Names equal after folding: the same words in any order, or the same letters without white space."""
        words = common_words(text)
        if self._empty or not words:
            return ()
        return self._found("c.sorted = ? OR c.joined = ?", (" ".join(sorted(words)), "".join(words)))

    def holding(self, words: Iterable[str]) -> tuple[CommonName, ...]:
        """Names that hold every word; two words asked may be one word listed ("red knee", "redknee")."""
        asked = [part for word in words for part in common_words(word)]
        if self._empty or not asked:
            return ()
        found: dict[CommonName, None] = {}
        for tried in self._joinings(asked):
            marks = " INTERSECT ".join("SELECT common FROM common_word WHERE word = ?" for _word in tried)
            found |= dict.fromkeys(
                self._found(f"c.id IN ({marks}) ORDER BY length(c.text) LIMIT {_MOST}", tuple(tried))
            )
        return tuple(found)

    @staticmethod
    def _joinings(words: list[str]) -> Iterable[list[str]]:
        words = words[:_MOST_WORDS]
        yield words
        for place in range(len(words) - 1):
            yield [*words[:place], words[place] + words[place + 1], *words[place + 2 :]]

    def of_name(self, number: int) -> tuple[CommonName, ...]:
        """The common names of one row of ``name``, by language, the usual one first."""
        return self._found("c.name = ? ORDER BY c.language, c.usual DESC, c.text", (number,))

    def with_words(self, words: Iterable[str]) -> tuple[CommonName, ...]:
        """Names that hold one of these folded words at least."""
        listed = tuple(words)
        marks = ", ".join("?" * len(listed))
        where = f"c.id IN (SELECT common FROM common_word WHERE word IN ({marks})) LIMIT {_MOST * 10}"  # noqa: S608
        return self._found(where, listed) if listed else ()

    def _found(self, where: str, bound: tuple[object, ...]) -> tuple[CommonName, ...]:
        rows = self._database.execute(_SELECT + where, bound).fetchall()
        found = {}
        for text, language, kind, memory, usual, source, name in rows:
            for taxon in self._taxa(name):
                citation = self._chains.source(source)[0]
                found[(text, language, kind, taxon.name)] = common_of(
                    (text, language, kind, memory, usual), citation, taxon, self._edition
                )
        return tuple(found.values())

    def _taxa(self, number: int) -> tuple[TaxonName, ...]:
        """What a common name of that row means today: the end of its chain, else the name itself."""
        row = self._chains.row(number)
        if row is None:
            return ()
        if row.status == NameStatus.ACCEPTED:
            return (self._chains.taxon(row),)
        from namekeeper.evidence.statements import Match

        return self._chains.statement(row.name, Match.SAME, row).targets or (self._chains.taxon(row),)

    def _read_genus(self, key: str) -> GenusRecord | None:
        """A genus word, folded: as the list describes it, else as its names show it."""
        said = self._facts.of("genus", key)
        rows = self._database.execute(_ONE_WORD, (key,)).fetchall()
        species = self._database.execute(
            "SELECT name, lineage, parent, status = 'accepted' AND rank = 'species' FROM name"
            " WHERE genus = ? AND rest <> ''",
            (key,),
        ).fetchall()
        if not said and not rows and not species:
            return None
        own = NameRow._make(rows[0]) if rows else None
        moves = self._facts.of("moved", key)
        targets = [move.content["genus"] for move in moves] or self._moved_by(own)
        accepted = [row for row in species if row[3]]
        fact: Fact = said[0].content if said else {}
        higher = self._higher(own, species)
        return GenusRecord(
            genus=fact.get("genus") or (own.name if own else species[0][0].partition(" ")[0]),
            family=fact.get("family") or next((taxon for taxon in higher if taxon.endswith("idae")), None),
            gender=fact.get("gender") or None,
            accepted=fact["status"] == "accepted"
            if fact
            else own.status == NameStatus.ACCEPTED
            if own
            else bool(accepted),
            moved_to=tuple(targets),
            moved_whole=all(move.content["scope"] == "whole" for move in moves) if moves else bool(targets),
            moved_year=max(years) if (years := [move.content["year"] for move in moves]) and all(years) else "",
            citation=next((one.citation for one in moves or said), ""),
            species_listed=len(accepted),
            higher=higher,
        )

    def _read_has_names(self, key: str) -> bool:
        """Whether any name begins with that genus word, folded; if not, much about it need not be asked."""
        return self._database.execute("SELECT 1 FROM name WHERE genus = ? LIMIT 1", (key,)).fetchone() is not None

    def taxa_over(self, key: str) -> tuple[str, ...]:
        """A folded name and the folded names of all taxa above it, nearest first."""
        genus, _, rest = key.partition(" ")
        found = [key, genus] if rest else [key]
        words = rest.split(" ")
        if len(words) > 1:
            found.insert(1, f"{genus} {words[0]}")
        return (*found, *(upper for upper in self._above(genus) if upper not in found))

    def _read_above(self, genus: str) -> tuple[str, ...]:
        """The folded names of all taxa above a genus, nearest first."""
        found: list[str] = []
        ahead = [genus]
        while ahead:
            taxon = ahead.pop()
            above = [
                one.content.get(column, "")
                for one in self._facts.of("genus", taxon)
                for column in ("subfamily", "family")
            ]
            above += [one.content.get("parent", "") for one in self._facts.of("taxon", taxon)]
            fresh = [upper for upper in map(folded, filter(None, above)) if upper != genus and upper not in found]
            found += fresh
            ahead += fresh
        return tuple(found)

    def _moved_by(self, row: NameRow | None) -> list[str]:
        if row is None or row.status == NameStatus.ACCEPTED or row.target is None:
            return []
        target = self._chains.row(row.target)
        return [] if target is None else [target.name]

    def _higher(self, own: NameRow | None, species: list[tuple[str, int, int | None, int]]) -> tuple[str, ...]:
        """Family, order, class of a genus: by its own row, else by its first species."""
        if own is not None and (higher := self._chains.taxon(own).higher):
            return higher
        if not species:
            return ()
        _name, lineage, parent, _accepted = species[0]
        return self._chains.higher(lineage, parent)
