"""Where it can hurt: who has a caution, and of whom a listing in a law speaks."""

from __future__ import annotations

import pytest

from tests.starter.tables import accepted, genera, rows

LAWS = ("law_cites", "law_eu", "law_us_esa", "law_us", "law_other")
#: Genera that a law lists as a whole.
WHOLE_GENERA = {
    "law_cites": {"Brachypelma", "Tliltocatl", "Poecilotheria"},  # CITES, Appendix II (Poecilotheria since 2019-11-26)
    "law_eu": {"Brachypelma", "Tliltocatl", "Poecilotheria"},  # Annex B of Council Regulation (EC) No 338/97
    # Dangerous Wild Animals Act 1976, Schedule (Modification Order 2007), and the Mexican list NOM-059
    "law_other": {"Atrax", "Latrodectus", "Loxosceles", "Phoneutria", "Brachypelma", "Tliltocatl"},
}


def test_every_genus_of_tarantulas_has_its_subfamily() -> None:
    # Cautions about urticating hairs hang on it.
    tarantulas = [row for row in genera().values() if row["family"] == "Theraphosidae" and row["status"] == "accepted"]
    assert tarantulas
    assert [row["genus"] for row in tarantulas if not row["subfamily"]] == []


def test_every_genus_of_buthid_scorpions_has_a_word_on_venom() -> None:
    told = {row["taxon"].split()[0] for row in rows("cautions") if row["topic"] == "venom_report"}
    kept = {row["scientificName"].split()[0] for row in accepted() if row["family"] == "Buthidae"}
    assert len(kept) >= 10
    assert sorted(kept - told) == []


@pytest.mark.parametrize("topic", LAWS)
def test_a_law_speaks_of_a_genus_only_where_it_lists_the_whole_genus(topic: str) -> None:
    found = {row["taxon"] for row in rows("cautions") if row["topic"] == topic and row["rank"] == "genus"}
    assert found <= WHOLE_GENERA.get(topic, set())


def test_a_row_about_a_law_says_of_when_it_is_or_where_to_look() -> None:
    laws = [row for row in rows("cautions") if row["topic"].startswith("law_")]
    assert len(laws) >= 50
    assert [row["taxon"] for row in laws if not row["year"] and not row["note"]] == []
