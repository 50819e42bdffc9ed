"""Bare tables are taken by the column and all others by the row: both must make the same index of the same names."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from itertools import count
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from namekeeper.evidence.statements import Edition
from namekeeper.sources.lists.folding import folded
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_writer import IndexWriter
from namekeeper.words.errors import InputError
from namekeeper.words.spelling import plain_key

_NUMBERS = count()
word = st.text("abehinorsu", min_size=2, max_size=6)
hyphened = st.tuples(word, word).map("-".join)
epithet = st.one_of(word, hyphened)
genus = st.one_of(word, word, word, hyphened).map(lambda text: text[0].upper() + text[1:])
odd = st.sampled_from(
    ["", "?", "Aus", "Aus sp.", "Aus x bus", "AUS BUS", "Aus bus\nAus cus", "Aus büs", "Aus bus cus", "12"]
)
name = st.one_of(*[st.tuples(genus, epithet).map(" ".join)] * 6, odd)


@st.composite
def usages(draw: st.DrawFn) -> list[UsageRow]:
    printed = draw(st.lists(name, min_size=1, max_size=12))
    keys = [str(number) for number in range(len(printed))]
    return [
        UsageRow(
            line,
            key,
            text,
            draw(st.sampled_from(["", "Roe, 1900", "(Roe, 1900)"])),
            accepted_key=draw(st.sampled_from(["", "", key, *keys, "gone"])),
            remarks=draw(st.sampled_from(["", "x"])),
        )
        for line, (key, text) in enumerate(zip(keys, printed, strict=True), 2)
    ]


def content(folder: Path, rows: list[UsageRow]) -> tuple[list[tuple[object, ...]], list[str]] | str:
    place = folder / f"{next(_NUMBERS)}.sqlite"
    try:
        with IndexWriter(place) as writer:
            writer.usages(rows)
            writer.finish(Edition("list", "A list", "list"))
    except InputError as error:
        return error.what
    columns = "genus, rest, name, authorship, rank, status, line, target, key, target_ref, target_name, note"
    with closing(sqlite3.connect(place)) as database:
        names = database.execute(f"SELECT {columns} FROM name ORDER BY id").fetchall()
    return names, [f"{skip.line}: {skip.why}" for skip in writer.skips.listed]


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rows=usages())
def test_by_the_column_and_by_the_row(rows: list[UsageRow], tmp_path: Path) -> None:
    # A rank that is written out makes a batch go by the row; it is the one that would be guessed.
    by_row = [row._replace(rank="species") if row.name.count(" ") == 1 else row for row in rows]
    assert content(tmp_path, rows) == content(tmp_path, by_row)


@given(text=st.tuples(genus, epithet).map(" ".join))
def test_the_short_way_of_folding_is_row_1(text: str) -> None:
    assert text.lower().replace("-", "") == plain_key(text) == folded(text)


def test_an_epithet_that_looks_like_a_particle_stays_one(tmp_path: Path) -> None:
    rows = [UsageRow(2, "0", "Aa-aa in")]
    assert content(tmp_path, rows) == content(tmp_path, [rows[0]._replace(rank="species")])
