"""Rows of an index as values of evidence."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from pathlib import Path

from namekeeper.evidence.statements import CommonName, Edition, TaxonName
from namekeeper.files.reading import refused_stat
from namekeeper.sources.lists import schema
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, Place
from namekeeper.words.terms import Verification

Fact = Mapping[str, str]


def decoded(content: str) -> Fact:
    """A fact as the index keeps it."""
    import json

    fact: Fact = json.loads(content)
    return fact


def verification_of(memory: int) -> Verification:
    """The index keeps one bit: recalled or seen."""
    return Verification.MEMORY if memory else Verification.VERIFIED


def parts(cell: str) -> tuple[str, ...]:
    """Values of a cell that holds several, separated by ';'."""
    return tuple(part.strip() for part in cell.split(";") if part.strip())


def edition_of(database: sqlite3.Connection) -> Edition:
    """What the list says of itself."""
    meta = dict(database.execute("SELECT name, value FROM meta"))
    return Edition(
        source=meta["source"],
        title=meta["title"],
        upstream=meta["upstream"],
        edition=meta.get("edition"),
        dated=date_of(meta.get("dated", "")),
        licence=meta.get("licence"),
        citation=meta.get("citation"),
        link=meta.get("link"),
        complete_for=tuple(meta.get("complete_for", "").split("\n")) if meta.get("complete_for") else (),
    )


def common_of(row: tuple[str, str, str, int, int], citation: str, taxon: TaxonName, edition: Edition) -> CommonName:
    """A common name: text, language, kind, memory bit and usual bit, with what it names."""
    text, language, kind, memory, usual = row
    return CommonName(text, language, taxon, kind, edition, citation, verification_of(memory), bool(usual))


def index_at(place: Path) -> Path:
    """The place, if a file is there: SQLite would wait for a pipe.

    :raises FileError: if there is none.
    """
    if why := refused_stat(place):
        raise broken_index(str(place), why)
    if not place.is_file():
        raise broken_index(str(place), "it is no file" if place.exists() else "there is no such file")
    return place


def broken_index(place: str, why: str) -> FileError:
    """The one error for an index that cannot be used."""
    return FileError(
        f"the index cannot be read: {why}", remedy="add the list again: namekeeper lists add", place=Place(place)
    )


def date_of(text: str) -> PartialDate | None:
    """A date as an index keeps it; None where it says nothing."""
    try:
        return PartialDate.parse(text) if text.strip() else None
    except ValueError:
        return None


def checked(database: sqlite3.Connection, place: Path) -> sqlite3.Connection:
    """The same connection, ready for reading, if it is to an index of this format."""
    application = database.execute("PRAGMA application_id").fetchone()[0]
    version = database.execute("PRAGMA user_version").fetchone()[0]
    if application != schema.APPLICATION:
        raise broken_index(str(place), "it is no index of names")
    if version != schema.FORMAT:
        raise broken_index(str(place), f"it has format {version}, this program reads {schema.FORMAT}")
    database.execute("PRAGMA cache_size = -8192")
    database.execute("PRAGMA query_only = ON")
    return database
