"""Rows of an index as values of evidence."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable

from namekeeper.evidence.statements import (
    ActKind,
    Caution,
    CommonName,
    Dispute,
    Division,
    Edition,
    Misuse,
    TaxonName,
    TradeForm,
)
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, Place
from namekeeper.words.terms import Verification

Fact = dict[str, str]
Resolve = Callable[[str], TaxonName]


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
        dated=_date(meta.get("dated", "")),
        licence=meta.get("licence"),
        citation=meta.get("citation"),
        link=meta.get("link"),
        complete_for=tuple(meta.get("complete_for", "").split("\n")) if meta.get("complete_for") else (),
    )


def misuse_of(fact: Fact, citation: str, memory: int, resolve: Resolve) -> Misuse:
    """A row of ``misuse.csv``."""
    return Misuse(
        name=fact["name"],
        authorship=fact["authorship"],
        meant=tuple(map(resolve, parts(fact["meant"]))),
        start=_date(fact["from"]),
        cleared=_date(fact["cleared"]),
        ended=_date(fact["ended"]),
        citation=citation,
        verification=verification_of(memory),
        note=fact["note"],
    )


def division_of(fact: Fact, citation: str, memory: int, resolve: Resolve) -> Division:
    """A row of ``divisions.csv``."""
    return Division(
        name=fact["name"],
        into=tuple(map(resolve, parts(fact["into"]))),
        kind=ActKind(fact["kind"]),
        since=_date(fact["since"]),
        sunk=_date(fact["sunk"]),
        citation=citation,
        verification=verification_of(memory),
        note=fact["note"],
    )


def dispute_of(fact: Fact, citation: str, memory: int, resolve: Resolve) -> Dispute:
    """A row of ``disputes.csv``."""
    targets = tuple(map(resolve, parts(fact["targets"])))
    return Dispute(fact["name"], targets, citation, verification_of(memory), fact["note"])


def form_of(fact: Fact, citation: str, memory: int, resolve: Resolve) -> TradeForm:
    """A row of ``forms.csv``."""
    described = resolve(fact["describedAs"]) if fact["describedAs"] else None
    return TradeForm(fact["genus"], fact["form"], described, citation, verification_of(memory), fact["note"])


def caution_of(fact: Fact, citation: str, memory: int, resolve: Resolve) -> Caution:
    """A row of ``cautions.csv``."""
    return Caution(
        taxon=fact["taxon"],
        rank=fact["rank"],
        topic=fact["topic"],
        statement=fact["statement"],
        listed_as=fact["listedAs"],
        year=fact["year"],
        citation=citation,
        verification=verification_of(memory),
    )


def common_of(row: tuple[str, str, str, int], citation: str, taxon: TaxonName, edition: Edition) -> CommonName:
    """A common name: text, language, kind and memory bit, with what it names."""
    text, language, kind, memory = row
    return CommonName(text, language, taxon, kind, edition, citation, verification_of(memory))


def broken_index(place: str, why: str) -> FileError:
    """The one error for an index that cannot be used."""
    return FileError(
        f"the index cannot be read: {why}", remedy="add the list again: namekeeper lists add", place=Place(place)
    )


def _date(text: str) -> PartialDate | None:
    try:
        return PartialDate.parse(text) if text.strip() else None
    except ValueError:
        return None
