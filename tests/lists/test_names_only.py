"""What is no name does not enter by a list: the row is told and left out, the others are there (ICZN Art. 4, 5, 11)."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.name_rows import parted
from namekeeper.words.errors import InputError

NO_NAMES = (
    "Aus bus<script>", "Aus b<us", "Aus bus</", "<b>Aus bus", "Aus bus\x1b[31m", "Aus\x00bus", "Aus bu\u200bs",
    "\u202eAus bus", "Aus bus\ud800", "=1+2", '=HYPERLINK("x")', "@SUM(A1)", "../etc/passwd", "C:/temp/x",
    "Aus bus2", "Aus8 bus", "Брахи пельма",
)  # fmt: skip


@pytest.mark.parametrize("text", NO_NAMES)
def test_it_is_refused_in_words(text: str) -> None:
    with pytest.raises(InputError) as refused:
        parted(text, "")
    assert refused.value.what.isprintable()


@pytest.mark.parametrize(
    ("text", "authorship", "name", "author"),
    [
        ("<i>Aus bus</i> White, 1856", "", "Aus bus", "White, 1856"),
        ("<em>Aus</em> <em>bus</em>", "White, 1856", "Aus bus", "White, 1856"),
        ("Aus bus Koch &amp; Berendt, 1854", "", "Aus bus", "Koch & Berendt, 1854"),
        ("†Aus bus", "", "Aus bus", ""),  # extinct
        ("Aus\u00a0bus", "", "Aus bus", ""),
    ],
)
def test_the_marks_of_a_page_around_a_name_are_no_part_of_it(
    text: str, authorship: str, name: str, author: str
) -> None:
    assert parted(text, authorship) == (name, author)


def test_the_other_rows_are_there_and_an_odd_author_is_left_out(
    tmp_path: Path, index: Callable[..., IndexList]
) -> None:
    rows = [
        UsageRow(2, "1", "Aus bus", "White\x1b[31m, 1856"),
        UsageRow(3, "2", "Aus <script>", "White, 1856"),
        UsageRow(4, "3", "Aus cus", "White, 1856", status="synonym", accepted_name="Aus b<us"),
        UsageRow(5, "4", "Aus dus", "White, 1856"),
    ]
    listed = index(tmp_path / "index", *rows)
    assert [said.subject.name for said in listed.prefixed("Aus ")] == ["Aus bus", "Aus dus"]
    assert [said.subject.authorship for said in listed.prefixed("Aus ")] == ["", "White, 1856"]
