"""The rows of a list and the cells of a keeper's table come of one reading of how a table is written."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.files.delimited import rows, style_of
from namekeeper.tables.delimited import take_apart
from namekeeper.words.errors import InputError

cell = st.text(
    st.characters(codec="utf-8", exclude_characters="\x00\ufeff\ufffd", exclude_categories=["Cs"]), max_size=6
)
table = st.integers(2, 4).flatmap(
    lambda width: st.lists(st.lists(cell, min_size=width, max_size=width), min_size=3, max_size=6)
)


def streamed(content: bytes) -> list[list[str]]:
    stream = io.BytesIO(content)
    style = style_of(stream)
    stream.seek(0)
    left: list[tuple[int, str, str]] = []
    found = [cells for _, cells in rows(stream, style.dialect, lambda *told: left.append(told), "t.csv")]
    assert left == []
    return found


def taken_apart(content: bytes) -> list[list[str]]:
    return [[field.text for field in record] for record in take_apart(content).records]


@given(written=table, separator=st.sampled_from(",;\t|"), encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]))
def test_both_readers_give_the_cells_that_were_written(written: list[list[str]], separator: str, encoding: str) -> None:
    # Written by the reference writer of RFC 4180 in Python's csv module.
    target = io.StringIO(newline="")
    header = [f"Header {number}" for number in range(len(written[0]))]
    csv.writer(target, delimiter=separator, quoting=csv.QUOTE_ALL, lineterminator="\n").writerows([header, *written])
    content = f"sep={separator}\n{target.getvalue()}".encode(encoding)
    assert streamed(content) == taken_apart(content) == [header, *written]


@pytest.mark.parametrize("announced", ["sep=;\r\n", "sep=;\n", ""])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1250"])
def test_a_separator_that_is_announced_is_no_row(announced: str, encoding: str) -> None:
    content = (announced + "Name;Author\nEresus moravicus;Řezáč, 2008\n").encode(encoding)
    assert streamed(content) == taken_apart(content) == [["Name", "Author"], ["Eresus moravicus", "Řezáč, 2008"]]


def test_a_separator_is_the_sign_that_cuts_all_rows_alike() -> None:
    # More commas than semicolons in the rows, none in the header.
    content = b"Name;Author\n" + b"Aus bus;Roe, Doe, 1900\n" * 3
    assert style_of(io.BytesIO(content)).separator == ";"
    assert str(style_of(io.BytesIO(b"a\tb\n1\t2\n"))) == "utf-8, delimiter tab"


def test_damage_is_told_with_its_line() -> None:
    content = "a;ü\nb;ü\n".encode() + b"c;\xfc\n"
    with pytest.raises(InputError, match="is no text in utf-8") as refused:
        take_apart(content)
    assert refused.value.place.line == 3
    stream = io.BytesIO(content)
    left: list[int] = []
    dialect = style_of(stream).dialect
    stream.seek(0)
    assert len(list(rows(stream, dialect, lambda line, _why, _file: left.append(line), "t"))) == 2
    assert left == [3]
