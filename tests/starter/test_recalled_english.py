"""English common names that no source was seen for: each stands on record with what was asked and seen."""

from __future__ import annotations

import csv
from pathlib import Path

from tests.starter.tables import Row, rows

#: One row a recalled English name: how it was looked up, and what was seen instead.
ASKED = Path(__file__).with_name("data") / "recalled_english.csv"
COLUMNS = ("vernacularName", "scientificName")


def asked() -> list[Row]:
    with ASKED.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines, strict=True))


def test_each_recalled_english_name_was_looked_up() -> None:
    recalled = [row for row in rows("common") if (row["confidence"], row["kind"]) == ("memory", "common")]
    expected = {tuple(row[key] for key in COLUMNS) for row in recalled if row["language"] == "en"}
    written = [tuple(row[key] for key in COLUMNS) for row in asked()]
    assert written == sorted(set(written))
    assert set(written) ^ expected == set()


def test_the_record_says_what_was_seen_instead() -> None:
    assert {row["answer"] for row in asked()} == {"not found", "near form seen"}  # none was left unasked
    assert [row for row in asked() if not row["remark"]] == []
