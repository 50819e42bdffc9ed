"""Genera looked up for what was published since 2010: the record of what was asked, and what the tables say of it."""

from __future__ import annotations

import csv
from collections import Counter
from functools import cache
from pathlib import Path

from tests.starter.tables import Row, genera, parts, rows, species

#: One row a genus that was looked up: "by name", or "with its group" when only lists of the group's papers were read.
SWEEP = Path(__file__).with_name("data") / "genus_sweep.csv"
SINCE = "2010"
#: Answers to the trade's questions that point to a place: a row of misuse, divisions or disputes, a note, a trade form.
PLACES = ("row", "note", "form")
#: Answers that point to none: a source says that there is nothing, or none was seen that says anything.
UNTOLD = ("no", "not known")


def swept() -> list[Row]:
    with SWEEP.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines, strict=True))


def first_words(names: list[str]) -> set[str]:
    return {name.split()[0] for name in names}


def with_acts() -> set[str]:
    """Genera that a dated act since 2010 concerns, on either side."""
    former = [row for row in rows("former") if row["year"] >= SINCE]
    moved = [row for row in rows("genera_moved") if row["year"] >= SINCE]
    split = [row for row in rows("divisions") if row["since"] >= SINCE]
    return (
        first_words([row[column] for row in former for column in ("formerName", "acceptedName")])
        | {row[column] for row in moved for column in ("formerGenus", "genus")}
        | first_words([name for row in split for name in (row["name"], *parts(row["into"]))])
    )


@cache
def told(place: str) -> set[str]:
    """Genera of which a table of this kind tells what the trade means, on either side."""
    if place == "note":
        return {name.split()[0] for name, row in species().items() if row["note"]}
    if place == "form":
        forms = [row for row in rows("forms") if row["describedAs"] or row["note"]]
        return {row["genus"] for row in forms} | first_words(
            [row["describedAs"] for row in forms if row["describedAs"]]
        )
    sides = {"misuse": "meant", "divisions": "into", "disputes": "targets"}
    return {
        name.split()[0]
        for table, column in sides.items()
        for row in rows(table)
        for name in (row["name"], *parts(row[column]))
    }


def test_each_genus_of_the_record_is_listed_and_stands_there_once() -> None:
    named = [row["genus"] for row in swept()]
    assert named == sorted(set(named))
    assert set(named) - set(genera()) == set()


def test_every_genus_with_a_species_is_in_the_record() -> None:
    # A genus that is only the first part of an old name was not asked for: its species stand under the genus in force.
    kept = first_words([name for name, row in species().items() if row["status"] == "accepted"])
    assert len(kept) >= 700
    assert sorted(kept - {row["genus"] for row in swept()}) == []


def test_the_record_says_how_it_was_asked_and_what_was_found() -> None:
    assert {row["asked"] for row in swept()} == {"by name", "with its group"}
    assert {row["answer"] for row in swept()} == {"acts", "none found"}
    assert {row["trade"] for row in swept()} <= {"", *PLACES, *UNTOLD}
    assert Counter(row["asked"] for row in swept())["by name"] >= 200


def test_an_answer_that_tells_of_acts_has_them_in_a_table() -> None:
    known = with_acts()
    assert [row["genus"] for row in swept() if row["answer"] == "acts" and row["genus"] not in known] == []


def test_what_the_trade_is_told_to_mean_stands_in_a_table() -> None:
    wrong = [row["genus"] for row in swept() if row["trade"] in PLACES and row["genus"] not in told(row["trade"])]
    assert wrong == []


def test_where_nothing_is_told_of_the_trade_the_record_says_what_was_asked() -> None:
    # The first answers, written before a remark was asked for, are the exception; no further one may join them.
    untold = [row for row in swept() if row["trade"] in UNTOLD]
    assert [row["genus"] for row in untold if row["trade"] == "no" and not row["remark"]] == []
    assert len([row for row in untold if not row["remark"]]) <= 27


def test_every_genus_with_a_species_was_asked_for_the_trade() -> None:
    kept = first_words([name for name, row in species().items() if row["status"] == "accepted"])
    assert [row["genus"] for row in swept() if not row["trade"] and row["genus"] in kept] == []
