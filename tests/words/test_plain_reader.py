"""What is lost where the name-parsing library cannot be had: measured, and never a wrong name.

Against the names of the starter list and real name strings (``data/name_strings.csv``, which names its source).
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterator

import pytest

from namekeeper import resources
from namekeeper.words.errors import InputError
from namekeeper.words.name_parsing import read_name
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_authorship
from tests.words.test_name_strings import ROWS, differences

ARGUED = {
    "Eresus da Lin & Li, 2022": "an epithet that is a particle of surnames",
    "Leptonetela la Wang & Li, 2017": "an epithet that is a particle of surnames",
    "Zodarion van Bosmans, 2009": "an epithet that is a particle of surnames",
    "Calathus (Lindrothius) KURNAKOV 1961": "a subgenus alone is read as its genus",
    "Liopropoma sp.2 Not applicable": "as with the library (test_name_strings)",
}


@pytest.fixture
def without(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """As on a machine for which the library is not there."""
    with monkeypatch.context() as changed:
        changed.setitem(sys.modules, "nameparser", None)
        yield


def starter_names() -> list[tuple[str, str]]:
    """Names and authorships, in force and former."""
    found = []
    for table, column in (("species", "scientificName"), ("former", "formerName")):
        text = (resources.data("starter") / f"{table}.csv").read_text(encoding="utf-8")
        found += [(row[column], row["authorship"]) for row in csv.DictReader(text.splitlines())]
    return found


def read(text: str) -> ScientificName | None:
    try:
        return read_name(text)
    except InputError:
        return None


def test_names_of_the_starter_list_are_read_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    names = starter_names()
    with_it = [(read(f"{name} {author}".strip()), parse_authorship(author)) for name, author in names]
    monkeypatch.setitem(sys.modules, "nameparser", None)
    without_it = [(read(f"{name} {author}".strip()), parse_authorship(author)) for name, author in names]
    other = [text for text, one, two in zip(names, with_it, without_it, strict=True) if one != two]
    assert len(names) > 2500
    assert other == []


@pytest.mark.usefixtures("without")
def test_odd_name_strings_are_lost_and_not_misread() -> None:
    wrong = {row["input"]: found for row in ROWS if (found := differences(row))}
    misread = {text for text, found in wrong.items() if found != ["is read as no name"]}
    assert misread == set(ARGUED)
    assert len(ROWS) - len(wrong) >= 115  # of 211
