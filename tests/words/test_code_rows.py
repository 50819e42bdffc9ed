"""The Code's rules on form, marks, spelling, Art. 58 and open nomenclature, row by row (``data/code_rows.csv``).

Every row names its source; a row that is no question of reading or spelling says why.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from namekeeper.words.errors import InputError
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_name
from namekeeper.words.spelling import match_of

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "code_rows.csv").read_text(encoding="utf-8").splitlines()))


def of_check(kind: str) -> list[dict[str, str]]:
    return [row for row in ROWS if row["check"] == kind]


def shown(row: dict[str, str]) -> str:
    return f"{row['id']} {row['input']}"


def field_of(name: ScientificName, field: str) -> str:
    if field in ("year", "authors"):
        found = getattr(name.authorship, field)
        return found if isinstance(found, str) else "|".join(found)
    return str(getattr(name, field))


@pytest.mark.parametrize("row", of_check("read"), ids=shown)
def test_a_name_is_read_as_the_code_has_it(row: dict[str, str]) -> None:
    name = parse_name(row["input"])
    for part in row["expected"].split("; "):
        field, _, value = part.partition("=")
        assert field_of(name, field) == value, part


@pytest.mark.parametrize("row", of_check("same"), ids=shown)
def test_two_spellings_compare_by_the_rows_of_the_contract(row: dict[str, str]) -> None:
    one, other = row["input"].split(" | ")
    assert match_of(one, other).value == row["expected"]
    assert match_of(other, one).value == row["expected"]


@pytest.mark.parametrize("row", of_check("none"), ids=shown)
def test_what_is_no_name_is_refused(row: dict[str, str]) -> None:
    with pytest.raises(InputError, match=row["input"]):
        parse_name(row["input"])


def test_every_row_says_what_is_checked_or_why_not() -> None:
    assert {row["check"] for row in ROWS} == {"read", "same", "none", "argued"}
    assert all(row["source"] for row in ROWS)
    assert all(row["argument"] for row in of_check("argued"))
    assert len({row["id"] for row in ROWS}) == 79  # all rows of the seven topics
