"""Real name strings with the fields they should be read into (``data/name_strings.csv``).

Source: test corpus of a general name-parsing library (Apache-2.0), each row read by eye; ``source`` gives its place,
``basis`` hand marks rows decided by hand against that library.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from namekeeper.words.authorship import Authorship
from namekeeper.words.errors import InputError
from namekeeper.words.name_parsing import read_name
from namekeeper.words.names import ScientificName
from namekeeper.words.spelling import plain_key, plain_keys

ROWS = list(
    csv.DictReader((Path(__file__).parent / "data" / "name_strings.csv").read_text(encoding="utf-8").splitlines())
)
ARGUED = {
    "N174": "'Not applicable' behind the label is a data base's filler; nothing in the string tells it from a label.",
}


def squeezed(text: str) -> str:
    return text.replace(". ", ".")


def differences(row: dict[str, str]) -> list[str]:
    """Fields of one row that are read otherwise."""
    try:
        name = read_name(row["input"], row["rank_hint"])
    except InputError:
        return [] if row["kind"] == "not_a_name" else ["is read as no name"]
    if row["kind"] == "not_a_name":
        # a formula of two parents is a name of two, which the table calls none
        return [] if name.parents else [f"is read as {name.canonical}"]
    expected, read = wanted(row), as_row(name, row["kind"])
    wrong = [f"{key}: {read[key]!r}, not {expected[key]!r}" for key in expected if read[key] != expected[key]]
    spelling = row["code_spelling"].split("|") if row["code_spelling"] else []
    keys = plain_keys(name.canonical)
    if spelling and not {plain_key(form) for form in spelling} & set(keys):
        wrong.append(f"code spelling: {keys}")
    return wrong


def wanted(row: dict[str, str]) -> dict[str, str]:
    plain = ("canonical", "genus", "subgenus", "species", "infraspecies", "infra_marker")
    expected = {key: row[key] for key in plain} | {"phrase": row["phrase"].replace(" ", "")}
    expected |= {"extinct": row["extinct"], "sic": row["sic"], "hybrid": row["hybrid"]}
    if row["kind"] == "name":
        authored = ("basionym_authors", "basionym_year", "imprint_year", "in_author", "usage_note", "nom_note")
        expected |= {key: row[key] for key in (*authored, "qualifier", "qualifier_at")}
        expected["later"] = "&".join(filter(None, (row["comb_authors"], row["comb_year"])))
    return expected


def as_row(name: ScientificName, kind: str) -> dict[str, str]:
    authorship = name.authorship or Authorship()
    authors = squeezed("|".join(authorship.authors))
    first = (authors, authorship.year) if authorship.brackets else ("", "")
    later = "&".join(filter(None, ("", "") if authorship.brackets else (authors, authorship.year)))
    if authorship.brackets and authorship.later:
        later = authorship.later.replace(", ", "&")
    phrase = name.phrase if kind == "name" else f"{name.qualifier} {name.phrase}"
    return {
        "canonical": name.canonical, "genus": name.genus, "subgenus": name.subgenus, "species": name.epithet,
        "infraspecies": name.infraspecific, "infra_marker": name.marker, "phrase": phrase.replace(" ", ""),
        "extinct": "1" if name.extinct else "", "sic": "sic" if name.sic else "", "hybrid": "1" if name.hybrid else "",
        "basionym_authors": first[0], "basionym_year": first[1], "later": later,
        "imprint_year": authorship.imprint_year, "in_author": authorship.in_work, "usage_note": name.usage,
        "nom_note": name.note, "qualifier": name.qualifier, "qualifier_at": name.qualifier_at,
    }  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['id']} {row['category']}")
def test_a_string_is_read_into_its_fields(row: dict[str, str]) -> None:
    wrong = differences(row)
    assert bool(wrong) == (row["id"] in ARGUED), wrong


@pytest.mark.parametrize("row", [row for row in ROWS if row["kind"] != "not_a_name"], ids=lambda row: row["id"])
def test_a_name_written_out_reads_back_to_the_same_value(row: dict[str, str]) -> None:
    name = read_name(row["input"], row["rank_hint"])
    assert read_name(str(name), row["rank_hint"]) == name
    assert hash(read_name(str(name), row["rank_hint"])) == hash(name)
