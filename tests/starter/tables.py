"""The starter list's tables as plain rows, read here and not by the product, so that the tests judge the files."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest

STARTER = Path(__file__).parents[2] / "namekeeper" / "data" / "starter"
#: Material beside the checkout that is not shipped; tests that need it skip without it.
REFERENCE = Path(__file__).parents[3] / "shared" / "reference"

TABLES = (
    "species", "former", "misuse", "divisions", "disputes", "common", "genera", "genera_moved", "epithets", "forms",
    "cautions", "taxa", "sources",
)  # fmt: skip

Row = dict[str, str]


def text(table: str) -> str:
    return (STARTER / f"{table}.csv").read_text(encoding="utf-8")


@cache
def rows(table: str) -> tuple[Row, ...]:
    with (STARTER / f"{table}.csv").open(encoding="utf-8", newline="") as lines:
        return tuple(csv.DictReader(lines, strict=True))


def reference(file: str) -> list[Row]:
    """Rows of a reference table, or the test skips."""
    place = REFERENCE / file
    if not place.is_file():
        pytest.skip(f"{file} is not beside this checkout")
    with place.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def parts(cell: str) -> list[str]:
    return [part for part in cell.split(";") if part]


@cache
def species() -> dict[str, Row]:
    return {row["scientificName"]: row for row in rows("species")}


@cache
def former() -> dict[str, Row]:
    return {row["formerName"]: row for row in rows("former")}


@cache
def genera() -> dict[str, Row]:
    return {row["genus"]: row for row in rows("genera")}


@cache
def taxa() -> dict[str, Row]:
    return {row["taxon"]: row for row in rows("taxa")}


def accepted() -> list[Row]:
    return [row for row in rows("species") if row["status"] == "accepted"]


def name_in_force(name: str) -> str:
    """End of the chain of former names; the chains are finite by a test of their own."""
    for _ in range(len(former())):
        if name not in former():
            return name
        name = former()[name]["acceptedName"]
    return name


def author_and_year(authorship: str) -> tuple[str, str, bool]:
    """Authors, year, and whether the pair stands in brackets (Art. 51.3); empty where no open source gives them."""
    bare = authorship.strip("()")
    author, _, year = bare.rpartition(", ")
    return author, year, authorship != bare
