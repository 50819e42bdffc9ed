"""What recorded and constructed replies of iNaturalist say: active, swapped, split and dropped taxa.

Origin of every body: ``data/README.md``. Changes to a recorded body are made in the test and visible there.
"""

from __future__ import annotations

from typing import Any

import pytest

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import Failure, NameStatus
from namekeeper.words.terms import Verification
from tests.services.asking import Ask, asker, told
from tests.services.conftest import Bench, constructed, recorded
from tests.services.local_server import Canned
from tests.services.recorded_wire import RecordedWire


@pytest.fixture
def ask(bench: Bench, wire: RecordedWire) -> Ask:
    return asker(bench, wire)


def test_inaturalist_active(ask: Ask) -> None:
    answer = ask("inaturalist", "Nicrophorus vespillo", recorded("inat-taxa-search"))
    (statement,) = answer.statements
    assert told(statement) == ("Nicrophorus vespillo", "accepted", ["Nicrophorus vespillo"])
    assert statement.link == "https://www.inaturalist.org/taxa/131878"
    assert answer.hints == ()  # names that only begin alike are not even hints


def successor(number: int, name: str, **more: Any) -> dict[str, Any]:
    above = [48460, 1, 47120]
    return {"id": number, "name": name, "rank": "species", "is_active": True, "ancestor_ids": above} | more


def test_inaturalist_swap(ask: Ask) -> None:
    page = {"results": [successor(123, "Exemplum novum")]}
    (statement,) = ask(
        "inaturalist", "Exemplum vetus", constructed("inat-taxa-inactive-swap"), {"taxa/123": page}
    ).statements
    assert told(statement) == ("Exemplum vetus", "synonym", ["Exemplum novum"])
    assert statement.note == "swapped or merged there: which of both is not told"
    assert statement.verification is Verification.COMPUTED  # so it is never taken unseen on this word alone


def test_inaturalist_successor_on_the_same_page_needs_no_further_question(
    ask: Ask, bench: Bench, wire: RecordedWire
) -> None:
    body = constructed("inat-taxa-inactive-swap")
    body["results"].append(successor(123, "Exemplum novum", matched_term="Exemplum vetus"))
    answer = ask("inaturalist", "Exemplum vetus", body)
    assert [told(one)[2] for one in answer.statements] == [["Exemplum novum"]]
    assert len(wire.asked) == 1


def test_inaturalist_split(ask: Ask) -> None:
    page = {"results": [successor(1, "Exemplum primum"), successor(2, "Exemplum secundum")]}
    (statement,) = ask(
        "inaturalist", "Exemplum divisum", constructed("inat-taxa-inactive-split"), {"taxa/1,2": page}
    ).statements
    assert told(statement) == ("Exemplum divisum", "ambiguous", ["Exemplum primum", "Exemplum secundum"])


@pytest.mark.parametrize("ids", ["absent", None, []])
def test_inaturalist_drop_is_no_opinion(ask: Ask, ids: Any) -> None:
    body = constructed("inat-taxa-inactive-drop")
    if ids != "absent":
        body["results"][0]["current_synonymous_taxon_ids"] = ids
    answer = ask("inaturalist", "Exemplum omissum", body)
    assert answer.statements == ()
    assert [hint.note for hint in answer.hints] == ["retired there, without a successor"]


def test_inaturalist_successor_that_is_gone_is_a_fault_of_its_data(ask: Ask) -> None:
    (statement,) = ask(
        "inaturalist",
        "Exemplum vetus",
        constructed("inat-taxa-inactive-swap"),
        {"taxa/123": recorded("inat-empty-page")},
    ).statements
    assert (statement.targets, statement.fault) == ((), "its own data do not lead to an active taxon")


def test_inaturalist_old_name_of_an_active_taxon_is_a_hint(ask: Ask) -> None:
    """The recorded page has an active taxon found by an old name; that name may as well be a mistaken use."""
    body = recorded("inat-v2-old-name-matched-term")
    old = [hit for hit in body["results"] if hit["rank"] == "genus" and hit["matched_term"] != hit["name"]]
    assert [(hit["name"], hit["matched_term"]) for hit in old] == [("Trichosomus", "Vespicula")]
    for hit in old:
        hit["ancestor_ids"] = [48460, 1, 47120]  # recorded as a fish; moved into the group that is kept
    answer = ask("inaturalist", "Vespicula", body)
    assert answer.statements == ()
    assert [told(hint)[2] for hint in answer.hints] == [["Trichosomus"]]


def test_inaturalist_common_name_keeps_its_language(bench: Bench, wire: RecordedWire) -> None:
    body = recorded("inat-taxa-preferred-place")  # a plant and a moth, both found by this name
    body["results"][1]["names"] = [
        {"name": "Epiblema sticticana", "locale": "sci", "is_valid": True},
        {"name": "Huflattichwickler", "locale": "de", "is_valid": True},
        {"name": "Colt's-foot Bell", "locale": "en", "is_valid": True},
    ]
    wire.answer = lambda asked: Canned.json(body)
    service = bench.open("inaturalist", wire.at("inaturalist"))
    (english,) = service.ask_common("coltsfoot bell")
    (german,) = service.ask_common("Huflattichwickler")
    assert (english.taxon.name, english.language) == ("Epiblema sticticana", "en")
    assert (german.text, german.language) == ("Huflattichwickler", "de")
    assert service.ask_common("colt's-foot") == ()  # the plant
    assert {asked.query["taxon_id"] for asked in wire.asked} == {"1"}


def test_inaturalist_card(bench: Bench, wire: RecordedWire) -> None:
    wire.answer = lambda asked: Canned.json(recorded("inat-taxon-by-id"))
    card = bench.open("inaturalist", wire.at("inaturalist")).about("Nicrophorus vespilloides")
    assert isinstance(card, NameCard)
    assert [(name.text, name.language) for name in card.common] == [("Lesser Vespillo Burying Beetle", "en")]
    assert "Canada" in card.taxon.range
    assert "North America" not in card.taxon.range  # countries, not continents


def test_too_many_identifiers_is_a_failure(bench: Bench, wire: RecordedWire) -> None:
    body = Canned.json(constructed("inat-error-422"))
    wire.answer = lambda asked: Canned(status=422, body=body.body)
    (reply,) = bench.open("inaturalist", wire.at("inaturalist")).ask(["Exemplum vetus"])
    assert isinstance(reply, Failure)
    assert reply.why == "it does not understand the question (HTTP 422)"


def test_inaturalist_retired_name_whose_successor_has_the_same_name_is_in_force(ask: Ask) -> None:
    page = {"results": [successor(123, "Exemplum vetus")]}
    (statement,) = ask(
        "inaturalist", "Exemplum vetus", constructed("inat-taxa-inactive-swap"), {"taxa/123": page}
    ).statements
    assert told(statement) == ("Exemplum vetus", "accepted", ["Exemplum vetus"])
    assert statement.targets[0].identifier == "123"


def test_inaturalist_provisional_taxon_is_doubtful(ask: Ask) -> None:
    body = {"results": [successor(5, "Exemplum dubium", provisional=True)]}
    (statement,) = ask("inaturalist", "Exemplum dubium", body).statements
    assert (statement.status, statement.targets) == (NameStatus.DOUBTFUL, ())
