"""``aka``: every name a species has carried, from the starter list."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import CommonName
from namekeeper.judging.aka import also_known, search_expression
from namekeeper.words.authorship import short_citation
from tests.conftest import Outcome
from tests.contract.schemas import DOCUMENTS
from tests.judging.build import act, edition, says, taxon

Command = Callable[..., Outcome]


def document(command: Command, *words: str) -> dict[str, Any]:
    outcome = command("aka", *words, "--json")
    assert outcome.code == 0, outcome.err
    found: dict[str, Any] = json.loads(outcome.out)
    return found


def test_a_former_name_leads_to_the_species_and_all_its_names(command: Command) -> None:
    import jsonschema

    found = document(command, "Brachypelma vagans")
    jsonschema.validate(found, DOCUMENTS["aka"])
    # Mendoza & Francke 2020; described by Ausserer 1875 as Eurypelma vagans (World Spider Catalog)
    assert (found["name"], found["authorship"]) == ("Tliltocatl vagans", "(Ausserer, 1875)")
    former = {row["name"]: row["year"] for row in found["former"]}
    assert former["Brachypelma vagans"] == "2020"
    assert found["search"].startswith('"Tliltocatl vagans" OR "Brachypelma vagans"')
    assert found["described_in"] == "Eurypelma vagans Ausserer, 1875"
    assert "Mexico" in found["range"]
    assert {"gbif.org", "inaturalist.org"} <= {
        link["url"].split("/")[2].removeprefix("www.") for link in found["links"]
    }
    assert all(link["url"].startswith("https://") and " " not in link["url"] for link in found["links"])


def test_the_report_for_a_person_names_what_led_there(command: Command) -> None:
    outcome = command("aka", "Avicularia", "versicolor")
    assert outcome.code == 0
    assert "Avicularia versicolor is now Caribena versicolor" in outcome.out
    assert '"Caribena versicolor" OR ' in outcome.out


def test_names_of_others_it_was_sold_under_are_told_but_not_searched(command: Command) -> None:
    # Mendoza & Francke 2017, Invertebrate Systematics 31(2): 157-179
    found = document(command, "Brachypelma hamorii")
    assert {row["name"]: row["cleared"] for row in found["sold_as"]} == {"Brachypelma smithi": "2017"}
    assert "smithi" not in found["search"]
    assert "Brachypelma smithi, cleared up 2017 (Mendoza & Francke 2017)" in command("aka", "Brachypelma hamorii").out


def test_cautions_are_told_with_their_source_and_as_no_advice(command: Command) -> None:
    # Mendoza & Francke 2020 (as in sources.csv): the CITES listing of Brachypelma holds for Tliltocatl
    found = document(command, "Tliltocatl vagans")
    assert "Brachypelma" in {row["listed_as"] for row in found["cautions"] if row["topic"] == "law_cites"}
    told = " ".join(command("aka", "Tliltocatl vagans").out.split())
    assert "papers may carry the name Brachypelma" in told
    assert "Urticating hairs: " in told
    assert "no advice" in told
    recalled = [row for row in document(command, "Brachypelma hamorii")["cautions"] if not row["verified"]]
    assert recalled
    assert "(recalled, no source seen)" in " ".join(command("aka", "Brachypelma hamorii").out.split())


def test_several_names_at_once_are_refused(command: Command) -> None:
    outcome = command("aka", "Poecilotheria metallica", "Brachypelma smithi")
    assert (outcome.code, outcome.out) == (2, "")
    assert "one at a time" in outcome.err


def test_an_ambiguous_common_name_is_not_guessed(command: Command) -> None:
    outcome = command("aka", "red knee")
    assert outcome.code == 2
    assert "Brachypelma hamorii" in outcome.err
    assert "Brachypelma smithi" in outcome.err


@pytest.mark.parametrize("words", ["Aphonopelma radinum", "Nosuchgenus nosuchspecies", "", "\x1b[31m", "1.1 5cm"])
def test_what_has_no_name_in_force_is_a_clear_error(command: Command, words: str) -> None:
    outcome = command("aka", words)
    assert outcome.code == 2
    assert outcome.err.startswith("namekeeper: ")
    assert "\x1b" not in outcome.err
    assert outcome.out == ""


def card(source: str, name: str, *former: str, common: tuple[tuple[str, str], ...] = ()) -> NameCard:
    of = edition(source)
    named = taxon(name)
    olds = tuple(
        says(taxon(old).name, old, name, by=of, acts=(act("transfer", taxon(old).name, named.name, "2017"),))
        for old in former
    )
    commons = tuple(CommonName(text, language, named, "common", of) for text, language in common)
    return NameCard(named, olds, commons, (), "as published")


def test_cards_of_several_lists_become_one() -> None:
    # Fukushima & Bertani 2017, ZooKeys 659: 1-185
    one = card(
        "starter", "Caribena versicolor", "Avicularia versicolor (Walckenaer, 1837)", common=(("pink toe", "en"),)
    )
    two = card("mine", "Caribena versicolor (Walckenaer, 1837)", "Avicularia versicolor (Walckenaer, 1837)",
               "Mygale versicolor Walckenaer, 1837", common=(("Pink-toe", "en"), ("pinktoe", "und")))  # fmt: skip
    found = also_known([one, two])
    assert found.taxon.authorship == "(Walckenaer, 1837)"
    assert [old.name for old in found.former] == ["Avicularia versicolor", "Mygale versicolor"]
    assert [(name.text, name.language) for name in found.common] == [
        ("pink toe", "en"),
        ("Pink-toe", "en"),
        ("pinktoe", "und"),
    ]
    assert found.search == '"Caribena versicolor" OR "Avicularia versicolor" OR "Mygale versicolor"'


def test_a_search_expression_names_each_name_once() -> None:
    assert search_expression(["Aus bus", "Cus bus", "Aus bus"]) == '"Aus bus" OR "Cus bus"'


@pytest.mark.parametrize(
    ("citation", "short"),
    [
        ("Mendoza, J. & Francke, O. F. (2020). Systematic revision. Zool. J. 188(1): 82-147", "Mendoza & Francke 2020"),
        (
            "Pérez-Miles, F., Bonaldo, A. B. & Miglio, L. T. (2014). Bumba. ZooKeys 448",
            "Pérez-Miles, Bonaldo & Miglio 2014",
        ),
        (
            "Common practice among keepers and sellers, no source",
            "Common practice among keepers and sellers, no source",
        ),
        ("", ""),
        ("(2020)", "(2020)"),
    ],
)
def test_short_citations(citation: str, short: str) -> None:
    assert short_citation(citation) == short
