"""Where it can hurt: who has a caution, and of whom a listing in a law speaks."""

from __future__ import annotations

import re

import pytest

from tests.starter.tables import genera, rows

LAWS = ("law_cites", "law_eu", "law_us_esa", "law_us", "law_other")
#: Dangerous Wild Animals Act 1976, Schedule (Modification Order 2007, SI 2007/2465): the first five. Gifttiergesetz of
#: North Rhine-Westphalia (2021): spiders; ordinance of Berlin (2017): spiders and scorpions, as pages tell them.
DANGEROUS = {
    "Atrax", "Buthidae", "Latrodectus", "Loxosceles", "Phoneutria",
    "Hadronyche", "Hexophthalma", "Missulena", "Poecilotheria", "Sicarius",
    "Androctonus", "Buthus", "Centruroides", "Compsobuthus", "Grosphus", "Hottentotta", "Leiurus", "Mesobuthus",
    "Odontobuthus", "Orthochirus", "Parabuthus", "Tityus",
}  # fmt: skip
#: Genera, families and orders that a law lists as a whole.
WHOLE_TAXA = {
    # CITES, Appendix II: Brachypelma with the species that were split off as Tliltocatl (Mendoza & Francke 2020),
    # Poecilotheria since 2019-11-26 (18th conference, proposal 46)
    "law_cites": {"Brachypelma", "Tliltocatl", "Poecilotheria"},
    "law_eu": {"Brachypelma", "Tliltocatl", "Poecilotheria"},  # Annex B of Council Regulation (EC) No 338/97
    "law_other": DANGEROUS,
    # 7 CFR 330: giant African land snails, foreign stick and leaf insects
    "law_us": {"Achatinidae", "Phasmatodea"},
}
#: Bodies whose law a keeper's animal may fall under, as the rows name them.
BODIES = {
    "CITES", "European Union", "Great Britain", "Germany", "Mexico", "New Zealand", "Australia", "United States",
    "Atlantic States Marine Fisheries Commission", "Germany, North Rhine-Westphalia", "Germany, Berlin",
    "Japan, Kumamoto Prefecture",
}  # fmt: skip


def test_every_genus_of_tarantulas_has_its_subfamily() -> None:
    # Cautions about urticating hairs hang on it.
    tarantulas = [row for row in genera().values() if row["family"] == "Theraphosidae" and row["status"] == "accepted"]
    assert tarantulas
    assert [row["genus"] for row in tarantulas if not row["subfamily"]] == []


@pytest.mark.parametrize("topic", LAWS)
def test_a_law_speaks_of_a_genus_or_family_only_where_it_lists_the_whole(topic: str) -> None:
    found = {row["taxon"] for row in rows("cautions") if row["topic"] == topic and row["rank"] != "species"}
    assert found <= WHOLE_TAXA.get(topic, set())


def test_no_law_of_one_country_speaks_for_a_whole_genus_that_other_rows_list_by_species() -> None:
    # NOM-059 of Mexico and the US Endangered Species Act name species; a genus row put their line on every relative.
    by_species = {
        (row["list"], row["taxon"].split()[0]) for row in rows("cautions") if row["list"] and row["rank"] == "species"
    }
    genera_told = {(row["list"], row["taxon"]) for row in rows("cautions") if row["list"] and row["rank"] == "genus"}
    # the first listing of 1985 stays beside that of the genus: older papers name it
    assert by_species & genera_told == {("Appendix II", "Brachypelma")}


def laws() -> list[dict[str, str]]:
    return [row for row in rows("cautions") if row["topic"].startswith("law_")]


def test_a_row_about_a_law_names_body_list_and_the_year_of_its_text_and_says_where_to_look() -> None:
    assert len(laws()) >= 50
    assert {row["body"] for row in laws()} == BODIES
    assert [row for row in laws() if not row["list"] or not row["textOf"]] == []
    assert [row["taxon"] for row in laws() if "look at " not in row["note"]] == []
    assert [row for row in laws() if row["year"] and row["textOf"] < row["year"]] == []


def test_what_is_said_of_a_law_names_it_and_its_text_and_is_no_advice() -> None:
    # It is read alone, as a sentence in a check and on the phone, without the columns beside it.
    starts = {"Germany": "Germany, Bundesartenschutzverordnung", "CITES": "CITES Appendix"}
    for row in laws():
        assert row["statement"].startswith(starts.get(row["body"], f"{row['body']}, ")), row
        assert f", as of {row['textOf']}" in row["statement"], row
        assert row["statement"].endswith("; look at the list in force"), row
        assert not re.search(r"\b(you|must|(?<!may )need|needs|allowed|(il)?legal|safe)\b", row["statement"]), row


def test_the_year_of_a_listing_is_not_the_year_of_the_text_that_was_seen() -> None:
    # Labels print the year as that of the listing: in these two texts of 2013 no animal's own year was seen.
    texts = ("Bundesartenschutzverordnung", "Directive 92/43/EEC")
    seen = [row for row in laws() if row["list"].startswith(texts)]
    assert len(seen) >= 30
    assert [row["taxon"] for row in seen if row["year"]] == []


def test_only_a_row_about_a_law_names_a_body() -> None:
    others = [row for row in rows("cautions") if not row["topic"].startswith("law_")]
    assert [row for row in others if row["body"] or row["list"] or row["textOf"]] == []


def test_of_the_newest_conference_only_what_was_seen_is_claimed() -> None:
    # CITES: the 20th conference met in November 2025; press releases of December 2025 tell of Grammostola rosea and 14
    # more tarantulas without their names, its other decisions were not seen, and the rows say so.
    cites = [row for row in laws() if row["body"] == "CITES"]
    assert cites
    assert {row["taxon"] for row in cites if row["textOf"] >= "2025"} == {"Grammostola rosea"}
    assert [row for row in cites if "20th conference" not in row["note"]] == []


def test_what_a_caution_weighs_is_data_and_absences_are_never_about_venom() -> None:
    # Where no report of a serious sting was found, the animal is no less a scorpion of its family: the word stays.
    weighed = {row["weight"] for row in rows("cautions")}
    assert weighed == {"", "mild", "none"}
    assert {row["topic"] for row in rows("cautions") if row["weight"] == "none"} == {"urticating_setae"}
    assert {row["topic"] for row in rows("cautions") if row["weight"] == "mild"} == {"venom_report"}
    worded = [row for row in rows("cautions") if row["statement"].casefold().startswith(("none", "old world: none"))]
    assert [row for row in worded if row["weight"] != "none"] == []
