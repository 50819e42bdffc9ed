"""From a name in an index to what the list says of it: the chain of names to its end, with the acts on the way."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from namekeeper.evidence.statements import (
    Act,
    ActKind,
    Edition,
    Match,
    NameStatus,
    Statement,
    TaxonName,
)
from namekeeper.sources.lists.values import parts, verification_of
from namekeeper.words.terms import Verification

COLUMNS = (
    "n.id, n.name, n.authorship, n.rank, n.status, n.key, n.target, n.lineage, n.original_genus, n.range,"
    " n.source, n.memory, n.note, n.genus, n.rest, n.parent, n.target_ref, n.target_name, n.as_of, n.revised"
)
_BY_ID = f"SELECT {COLUMNS} FROM name n WHERE n.id = ?"  # noqa: S608 - columns are ours
_LEADING_TO = f"SELECT {COLUMNS} FROM name n WHERE n.target = ? ORDER BY n.genus, n.rest"  # noqa: S608
#: Statuses for which a list gives no name in force, whatever they point to.
_NO_NAME = (NameStatus.DOUBTFUL, NameStatus.UNAVAILABLE)
#: Ranks kept in ``TaxonName.higher``.
_HIGHER = ("family", "order", "class")
_DEEPEST = 60


class NameRow(NamedTuple):
    """A row of the table ``name``."""

    id: int
    name: str
    authorship: str
    rank: str
    status: str
    key: str
    target: int | None
    lineage: int
    original_genus: str
    range: str
    source: int
    memory: int
    note: str
    genus: str
    rest: str
    parent: int | None
    target_ref: str
    target_name: str
    as_of: str
    revised: str


class _End(NamedTuple):
    targets: tuple[TaxonName, ...]
    acts: tuple[Act, ...]
    memory: int
    fault: str | None
    as_of: str = ""
    revised: str = ""


class Chains:
    """Makes statements of rows; reads further rows as the chains lead."""

    def __init__(self, database: sqlite3.Connection, edition: Edition) -> None:
        self._database = database
        self._edition = edition
        self._has_acts = database.execute("SELECT 1 FROM act LIMIT 1").fetchone() is not None
        self.source = lru_cache(maxsize=512)(self._read_source)
        self._lineage = lru_cache(maxsize=512)(self._read_lineage)
        self._above = lru_cache(maxsize=512)(self._read_above)

    def row(self, number: int) -> NameRow | None:
        """The row of that number."""
        found = self._database.execute(_BY_ID, (number,)).fetchone()
        return None if found is None else NameRow._make(found)

    def leading_to(self, number: int) -> list[NameRow]:
        """All names whose chains end here, those that lead here directly first."""
        found: dict[int, NameRow] = {}
        ahead = [number]
        while ahead:
            rows = self._database.execute(_LEADING_TO, (ahead.pop(0),)).fetchall()
            for row in map(NameRow._make, rows):
                if row.id not in found and row.id != number:
                    found[row.id] = row
                    ahead.append(row.id)
        return list(found.values())

    def taxon(self, row: NameRow) -> TaxonName:
        """The name of a row as a value."""
        higher, kingdom = self._classified(row.lineage, row.parent)
        return TaxonName(
            row.name,
            row.authorship,
            row.rank,
            row.original_genus or None,
            row.key or None,
            kingdom,
            higher,
            parts(row.range) if row.range else (),
        )

    def higher(self, lineage: int, parent: int | None) -> tuple[str, ...]:
        """Family, order, class of a row with that lineage or parent."""
        return self._classified(lineage, parent)[0]

    def _classified(self, lineage: int, parent: int | None) -> tuple[tuple[str, ...], str | None]:
        if lineage:
            return self._lineage(lineage)
        if parent is not None:
            return self._above(parent)
        # The genera of a table without higher taxa belong to the one taxon for which it is said to be complete.
        stated = self._edition.complete_for
        return (stated if len(stated) == 1 else (), None)

    def statements(self, asked: str, rows: Sequence[tuple[Match, NameRow]]) -> tuple[Statement, ...]:
        """One statement a name; rows of one name with several ends are one undecided statement."""
        if len(rows) == 1:
            return (self.statement(asked, *rows[0]),)
        groups: dict[tuple[str, str, bool], list[tuple[Match, NameRow]]] = {}
        for match, row in rows:
            accepted = row.status == NameStatus.ACCEPTED
            groups.setdefault((row.name, row.authorship, accepted), []).append((match, row))
        return tuple(self._of_one_name(asked, group) for group in groups.values())

    def statement(self, asked: str, match: Match, row: NameRow) -> Statement:
        """What the list says of the name of one row."""
        subject = self.taxon(row)
        status = NameStatus(row.status)
        end = self._end(row, subject, status)
        link = self.source(row.source)[1] if row.source else ""
        return Statement(
            self._edition,
            asked,
            match,
            subject,
            status,
            end.targets,
            end.acts,
            Verification.MEMORY if end.memory else Verification.VERIFIED,
            None,
            False,
            link or None,
            row.note or None,
            end.fault,
            end.as_of,
            end.revised,
        )

    def _of_one_name(self, asked: str, rows: Sequence[tuple[Match, NameRow]]) -> Statement:
        whole = [self.statement(asked, match, row) for match, row in rows]
        first = whole[0]
        targets = tuple(dict.fromkeys(target for statement in whole for target in statement.targets))
        if len({target.name for target in targets}) < 2:
            return first
        memory = any(statement.verification is Verification.MEMORY for statement in whole)
        return Statement(
            self._edition,
            asked,
            first.match,
            first.subject,
            NameStatus.AMBIGUOUS,
            targets,
            tuple(dict.fromkeys(act for statement in whole for act in statement.acts)),
            verification_of(memory),
            link=first.link,
            note=first.note,
            fault=next((statement.fault for statement in whole if statement.fault), None),
        )

    def _end(self, row: NameRow, subject: TaxonName, status: NameStatus) -> _End:
        if row.target is None and not row.target_ref and not row.target_name:
            if status is NameStatus.ACCEPTED:
                return _End((subject,), (), row.memory, None, row.as_of, row.revised)
            fault = None if status in _NO_NAME or status is NameStatus.MISAPPLIED else "the list gives no accepted name"
            return _End((), (), row.memory, fault)
        if status is NameStatus.ACCEPTED:
            return _End((), (), row.memory, "the list accepts the name and yet points to another")
        return self._follow(row)

    def _follow(self, row: NameRow) -> _End:
        acts: list[Act] = []
        seen = {row.id}
        memory = row.memory
        outdated = row if row.revised else None  # a link that a newer revision of its genus may have undone
        while row.target is not None:
            following = self.row(row.target)
            if following is None:
                break
            if self._has_acts:
                acts.extend(self._acts(row, following))
            if following.id in seen:
                return _End((), tuple(acts), memory, f"the list leads from {row.name} in a circle")
            seen.add(following.id)
            row = following
            outdated = outdated or (row if row.revised else None)
            if row.status == NameStatus.ACCEPTED and row.target is None:
                spoken = outdated or row
                return _End((self.taxon(row),), tuple(acts), memory, None, spoken.as_of, spoken.revised)
            memory |= row.memory
        if row.target_ref or row.target_name:
            missing = row.target_ref or row.target_name
            return _End((), tuple(acts), memory, f"the list leads to '{missing}', which it does not have")
        if NameStatus(row.status) in _NO_NAME:
            return _End((), tuple(acts), memory, None)
        return _End((), tuple(acts), memory, f"the list leads to {row.name}, which it does not accept")

    def _acts(self, old: NameRow, new: NameRow) -> list[Act]:
        found = self._database.execute(
            "SELECT kind, year, source, memory FROM act WHERE old = ? AND new = ?",
            (f"{old.genus} {old.rest}".rstrip(), f"{new.genus} {new.rest}".rstrip()),
        )
        acts = []
        for kind, year, source, memory in found.fetchall():
            citation, link = self.source(source)
            acts.append(Act(ActKind(kind), old.name, new.name, year, citation, link, verification_of(memory)))
        return acts

    def _read_source(self, number: int) -> tuple[str, str]:
        if not number:
            return "", ""
        found = self._database.execute("SELECT citation, link FROM source WHERE id = ?", (number,)).fetchone()
        return ("", "") if found is None else (found[0], found[1])

    def _read_lineage(self, number: int) -> tuple[tuple[str, ...], str | None]:
        found = self._database.execute("SELECT higher, kingdom FROM lineage WHERE id = ?", (number,)).fetchone()
        return ((), None) if found is None else (parts(found[0]), found[1] or None)

    def _read_above(self, number: int) -> tuple[tuple[str, ...], str | None]:
        """Family, order, class and kingdom by the parents; at most so many steps, for a list may run in a circle."""
        higher: list[str] = []
        kingdom = None
        upper: int | None = number
        for _step in range(_DEEPEST):
            if upper is None:
                break
            found = self._database.execute("SELECT name, rank, parent FROM name WHERE id = ?", (upper,)).fetchone()
            if found is None:
                break
            name, rank, upper = found
            if rank in _HIGHER:
                higher.append(name)
            elif rank == "kingdom":
                kingdom = name
        return tuple(higher), kingdom
