"""Plain binomens and authorships take a short way round the name library; it leads to the same place."""

from __future__ import annotations

import csv

import pytest

from namekeeper import resources
from namekeeper.words.errors import InputError
from namekeeper.words.name_parsing import authorship_of
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_authorship, parse_name


def read(text: str) -> ScientificName | str:
    try:
        return parse_name(text)
    except InputError:
        return "no name"


def test_every_species_of_the_starter_list_reads_the_same_both_ways() -> None:
    # A blank in front keeps a text off the short way and changes nothing else.
    with (resources.data("starter") / "species.csv").open(encoding="utf-8", newline="") as file:
        names = [row[0] for row in csv.reader(file)][1:]
    assert len(names) > 500
    assert [name for name in names if read(name) != read(f" {name}")] == []


def test_every_authorship_of_the_starter_list_reads_the_same_both_ways() -> None:
    texts = set()
    for table in ("species.csv", "former.csv", "misuse.csv"):
        with (resources.data("starter") / table).open(encoding="utf-8", newline="") as file:
            texts |= {row["authorship"] for row in csv.DictReader(file) if row["authorship"]}
    assert len(texts) > 500
    assert {text for text in texts if parse_authorship(text) != (authorship_of(text) or text)} == set()


@pytest.mark.parametrize(
    "word",
    [
        "aggregate", "complex", "group", "hybrid", "indet", "indeterminate", "nomen", "sensu", "species", "uncultured",
        "undescribed", "undetermined", "unidentified", "unknown", "forma", "morph", "juvenile", "variety", "subspecies",
    ],
)  # fmt: skip
def test_a_word_that_is_no_epithet_is_read_as_before(word: str) -> None:
    assert read(f"Brachypelma {word}") == read(f" Brachypelma {word}")
