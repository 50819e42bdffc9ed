"""Two editions of a list, name by name: what was accepted in the old one, and what the new one makes of it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

from namekeeper.evidence.statements import NameStatus, Statement, TaxonName
from namekeeper.judging.change import same_author
from namekeeper.judging.earlier import family_of, of_other_rank, of_same_epithet
from namekeeper.judging.nearness import slip
from namekeeper.sources.lists import schema
from namekeeper.sources.lists.chance import Move, Odds
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.words.spelling import Likeness, epithet_ending_key, match_of, plain_key

GONE, NEW = "gone", "new"
_MOST_OF_A_GENUS = 2000  # names of one genus that are compared one by one
#: Names of the old edition that the new one does not repeat as they are under the same identifier.
_OLD = """SELECT o.key, o.name, o.genus, o.rest, o.authorship, n.id FROM main.name o
    LEFT JOIN new.name n ON n.key = o.key AND n.key <> ''
    WHERE o.status = 'accepted' AND o.rest <> '' AND (n.id IS NULL OR n.name <> o.name OR n.status <> 'accepted'
        OR EXISTS (SELECT 1 FROM new.fact f WHERE f.kind = 'twin' AND f.key = o.key AND o.key <> ''))
    ORDER BY o.genus, o.rest, o.id"""
_BY_NAME = """SELECT id, status = 'accepted' AND name = ? FROM new.name WHERE genus = ? AND rest = ?
    ORDER BY authorship <> ?, status <> 'accepted', id LIMIT 1"""
_ADDED = """SELECT n.id, n.key, n.name, n.genus, n.rest FROM new.name n
    WHERE n.status = 'accepted' AND n.rest <> ''
    AND NOT EXISTS (SELECT 1 FROM main.name o WHERE o.key = n.key AND o.key <> '' AND o.status = 'accepted')
    AND NOT EXISTS (SELECT 1 FROM main.name o WHERE o.genus = n.genus AND o.rest = n.rest AND o.status = 'accepted')
    ORDER BY n.genus, n.rest"""


@dataclass(frozen=True, slots=True)
class EditionChange:
    """``kind`` is a standing, ``new`` or ``gone``; ``new`` holds several names, separated by '; ', if divided.

    ``by_epithet``: nothing but family and epithet connects both names.
    """

    id: str
    old: str
    new: str
    kind: str
    by_epithet: bool = field(default=False, compare=False)


def compare(old: Path, new: Path) -> Iterator[EditionChange]:
    """Changes in alphabetical order of the old names, then what is new.

    Names are found by identifier, else by name and author, so that lists without identifiers compare as well; a name
    that is gone beside a new one of the same epithet and family moved, unless that may be chance. A name that goes on
    beside the one that its identifier has now, itself or its epithet in another genus, is divided: nothing was sunk.
    """
    with (
        closing(IndexList.open(new)) as fresh,
        closing(IndexList.open(old)) as former,
        closing(_opened(old)) as database,
    ):
        database.execute("ATTACH ? AS new", (schema.address_of(new),))
        changes = _without_chance(list(_of_old(database, former, fresh)), database, former, fresh)
        yield from changes
        explained = {name for change in changes for name in change.new.split("; ")}
        for _number, key, name, genus, rest in database.execute(_ADDED):
            parent = _sunk_under(database, genus, rest)
            if parent is not None and fresh.card(parent[1]) is not None:
                yield EditionChange(parent[0], parent[1], f"{parent[1]}; {name}", "divided")
            elif name not in explained:
                yield EditionChange(key, "", name, NEW)


def _of_old(database: sqlite3.Connection, former: IndexList, fresh: IndexList) -> Iterator[EditionChange]:
    for key, name, genus, rest, authorship, by_key in database.execute(_OLD):
        number, same = by_key, False
        if number is None:
            number, same = database.execute(_BY_NAME, (name, genus, rest, authorship)).fetchone() or (None, False)
        if same:
            continue
        change = _change(key, name, fresh.statement_of(number) if number else None, _twins(database, key))
        if change is not None and change.kind in (GONE, "merged"):
            change = _followed(change, former, fresh)
        if change is not None:
            yield change


def _without_chance(
    changes: list[EditionChange], database: sqlite3.Connection, former: IndexList, fresh: IndexList
) -> list[EditionChange]:
    """The changes without moves that rest on an epithet alone and may be chance."""
    odds = Odds(database, ((_genus(one.old), _genus(one.new)) for one in changes if one.kind == "moved"))
    return [
        _by_rank(change, former, fresh) if change.by_epithet and odds.are_poor(_move(change, former, fresh)) else change
        for change in changes
    ]


def _genus(name: str) -> str:
    return plain_key(name).partition(" ")[0]


def _move(change: EditionChange, former: IndexList, fresh: IndexList) -> Move:
    subject = _subject(change.old, former)
    epithet = change.new.partition(" ")[2]
    bearers = sum(said.status is NameStatus.ACCEPTED for said in fresh.with_epithet(epithet))
    return Move(_genus(change.old), _genus(change.new), family_of(subject) if subject else "", bearers)


def _by_rank(change: EditionChange, former: IndexList, fresh: IndexList) -> EditionChange:
    """The change by the same genus and last word, if there is one such name, else a name that is gone."""
    subject = _subject(change.old, former)
    beside = [taxon.name for taxon in of_other_rank(subject, former, fresh)] if subject else []
    if len(beside) == 1:
        return EditionChange(change.id, change.old, beside[0], "moved")
    return EditionChange(change.id, change.old, "", GONE)


def _subject(name: str, origin: IndexList) -> TaxonName | None:
    return next((said.subject for said in origin.named(name) if said.subject.name == name), None)


def _opened(index: Path) -> sqlite3.Connection:
    return sqlite3.connect(schema.address_of(index), uri=True)


def _twins(database: sqlite3.Connection, key: str) -> list[str]:
    """Further names under the same identifier in the new edition."""
    if not key:
        return []
    query = "SELECT json_extract(content, '$.name') FROM new.fact WHERE kind = 'twin' AND key = ?"
    return [name for (name,) in database.execute(query, (key,)).fetchall()]


def _sunk_under(database: sqlite3.Connection, genus: str, rest: str) -> tuple[str, str] | None:
    """Identifier and name under which the old edition had sunk a name."""
    found: tuple[str, str] | None = database.execute(
        "SELECT t.key, t.name FROM main.name o JOIN main.name t ON t.id = o.target"
        " WHERE o.genus = ? AND o.rest = ? AND t.status = 'accepted'",
        (genus, rest),
    ).fetchone()
    return found


def _change(key: str, old: str, now: Statement | None, twins: list[str]) -> EditionChange | None:
    if now is None:
        return EditionChange(key, old, "", GONE)
    targets = [target.name for target in now.targets]
    for twin in twins:
        if twin not in targets:
            targets.append(twin)
    if targets == [old]:
        return None
    return EditionChange(key, old, "; ".join(targets), kind_of(old, now.status, targets))


def _followed(change: EditionChange, former: IndexList, fresh: IndexList) -> EditionChange:
    """The change with what else the new edition has of the old name: itself, or its epithet in another genus."""
    subject = _subject(change.old, former)
    if subject is None:
        return change
    still = [change.old] if change.kind == "merged" and _goes_on(fresh, subject) else []
    taxa = [] if still else list(of_same_epithet(subject, former, fresh))
    beside = still or [taxon.name for taxon in taxa]
    if change.kind == "merged":
        both = "; ".join(dict.fromkeys((change.new, *beside)))
        return EditionChange(change.id, change.old, both, "divided") if beside else change
    if not beside:
        letters = [name for name in _spelt_alike(change.old, fresh) if not _equal(former, name)]
        return EditionChange(change.id, change.old, letters[0], "respelled") if len(letters) == 1 else change
    if len(beside) > 1:
        return change
    other_genus = _genus(beside[0]) != _genus(change.old)
    sure = same_author(subject.authorship, taxa[0].authorship) is True
    return EditionChange(change.id, change.old, beside[0], "moved", by_epithet=other_genus and not sure)


def _spelt_alike(name: str, fresh: IndexList) -> list[str]:
    """Names of the same genus in force that are spelt so but for a slip."""
    genus, _, rest = plain_key(name).partition(" ")
    return [
        said.subject.name
        for said in fresh.prefixed(f"{genus} ", _MOST_OF_A_GENUS)
        if said.status is NameStatus.ACCEPTED and slip(plain_key(said.subject.name).partition(" ")[2], rest)
    ]


def _goes_on(origin: IndexList, taxon: TaxonName) -> bool:
    """Whether the name is accepted there, and not a homonym by another author."""
    return any(
        said.subject.name == taxon.name
        and said.status is NameStatus.ACCEPTED
        and same_author(said.subject.authorship, taxon.authorship) is not False
        for said in origin.named(taxon.name)
    )


def _equal(origin: IndexList, name: str) -> bool:
    return any(said.subject.name == name for said in origin.named(name))


def kind_of(old: str, status: NameStatus, targets: list[str]) -> str:
    """The standing (contract section 4) that leads from an accepted name to what a list says now."""
    if len(targets) > 1:
        return "divided"
    if not targets:
        return "open" if status is NameStatus.UNAVAILABLE else "doubtful"
    if targets == [old]:
        return "current"
    if status is NameStatus.REPLACED:
        return "renamed"
    if match_of(old, targets[0]) is not Likeness.SIMILAR or (
        status is NameStatus.ACCEPTED and _is_slip(old, targets[0])
    ):
        return "respelled"
    if _epithets(old) == _epithets(targets[0]):
        return "moved"
    return "merged"


def _is_slip(old: str, new: str) -> bool:
    """Whether the identifier bears a name of the same genus now, spelt so but for a slip."""
    (genus, _, rest), (own, _, written) = (plain_key(name).partition(" ") for name in (new, old))
    return genus == own and slip(rest, written)


def _epithets(name: str) -> list[str]:
    words = name.split(" ")[1:]
    # A subspecies raised, or a species lowered, keeps its last word.
    return [epithet_ending_key(words[-1])] if words else []
