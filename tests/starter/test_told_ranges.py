"""Native ranges against what the first paragraphs of encyclopedia articles tell (English Wikipedia, facts only).

One row an article of a species, or of a genus that lives in few countries, in words of the list: what it tells as
native, and what it tells but the list leaves out, with why. The paragraphs were those of 2024 in a packed copy of the
NCBI Taxonomy.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest

from namekeeper.reading.areas import lies_within
from tests.starter.tables import Row, name_in_force, parts, rows, species

TOLD = Path(__file__).with_name("data") / "told_ranges.csv"

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it


@cache
def told() -> tuple[Row, ...]:
    with TOLD.open(encoding="utf-8", newline="") as lines:
        return tuple(csv.DictReader(lines, strict=True))


def test_the_record_is_of_listed_animals_and_says_why_something_is_left_out() -> None:
    keys = [(row["taxon"], row["article"]) for row in told()]
    assert keys == sorted(set(keys))
    genera = {row["scientificName"].split()[0] for row in rows("species")}
    for row in told():
        assert row["taxon"] in species() or row["taxon"] in genera, row
        assert row["article"] == row["taxon"] or name_in_force(row["article"]) == row["taxon"], row
        assert row["told"] or row["left"], row
        assert bool(row["left"]) == bool(row["remark"]), row


def test_a_range_holds_every_place_that_an_article_tells() -> None:
    of_species = [row for row in told() if row["taxon"] in species()]
    assert len(of_species) >= 550
    for row in of_species:
        areas = parts(species()[row["taxon"]]["range"])
        assert [place for place in parts(row["told"]) if place not in areas and not lies_within(place, areas)] == [], (
            row
        )
        assert set(parts(row["left"])).isdisjoint(areas), row


def test_a_species_lives_where_its_whole_genus_does() -> None:
    of_genera = {row["taxon"]: set(parts(row["told"])) for row in told() if row["taxon"] not in species()}
    assert len(of_genera) >= 50
    for row in rows("species"):
        within = of_genera.get(row["scientificName"].split()[0])
        if within is not None:
            areas = set(parts(row["range"]))
            # A genus of one area tells where each species lives; a genus of several does not tell which has which.
            assert areas or len(within) > 1, row
            assert areas <= within, row
