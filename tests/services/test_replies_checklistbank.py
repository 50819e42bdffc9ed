"""What recorded replies of ChecklistBank say: statements for what was asked, hints for what only looks like it.

Origin of every body: ``data/README.md``. Changes to a recorded body are made in the test and visible there.
"""

from __future__ import annotations

from typing import Any

import pytest

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import Failure, FailureKind, Match, NameStatus
from namekeeper.words.dates import PartialDate
from tests.services.asking import Ask, asker, told
from tests.services.conftest import Bench, constructed, recorded
from tests.services.good.checklistbank import DATASET
from tests.services.local_server import Canned
from tests.services.recorded_wire import RecordedWire


@pytest.fixture
def ask(bench: Bench, wire: RecordedWire) -> Ask:
    return asker(bench, wire)


def test_checklistbank_synonym(ask: Ask) -> None:
    answer = ask("checklistbank", "Anergates atratulus", recorded("clb-match-synonym-genus-transfer"))
    (statement,) = answer.statements
    assert told(statement) == ("Anergates atratulus", "synonym", ["Tetramorium atratulum"])
    assert statement.match is Match.SAME
    assert statement.subject.authorship == statement.targets[0].authorship == "(Schenck, 1852)"
    assert statement.targets[0].identifier == "CMV7J"
    assert statement.targets[0].kingdom == "Animalia"
    assert statement.targets[0].higher == ("Formicidae", "Hymenoptera", "Insecta")
    assert statement.link == "https://www.checklistbank.org/dataset/3LXR/nameusage/DY5M"
    assert (statement.edition.edition, statement.edition.dated) == ("COL26.6 XR", PartialDate.parse("2026-06-15"))
    assert statement.edition.licence == "CC BY 4.0"
    assert answer.hints == ()


def test_checklistbank_none_is_an_answer_without_statements(ask: Ask) -> None:
    answer = ask("checklistbank", "Nullus nomen", constructed("clb-match-none"))
    assert (answer.statements, answer.hints) == ((), ())
    assert answer.edition.complete_for == ()


def test_checklistbank_ambiguous_never_speaks_and_keeps_all(ask: Ask) -> None:
    answer = ask("checklistbank", "Exemplum commune", constructed("clb-match-ambiguous"))
    assert answer.statements == ()
    assert [hint.subject.authorship for hint in answer.hints] == ["Primus, 1850", "Secundus, 1901"]


def clb_match(**changes: Any) -> Any:
    """The recorded synonym with changes to its usage or its type."""
    body = recorded("clb-match-synonym-genus-transfer")
    body["type"] = changes.pop("type", "exact")
    body["usage"] |= changes
    return body


@pytest.mark.parametrize(
    ("word", "status", "targets"),
    [
        ("accepted", NameStatus.ACCEPTED, ["Anergates atratulus"]),
        ("provisionally accepted", NameStatus.DOUBTFUL, []),
        ("synonym", NameStatus.SYNONYM, ["Tetramorium atratulum"]),
        ("misapplied", NameStatus.MISAPPLIED, ["Tetramorium atratulum"]),
        ("bare name", NameStatus.UNAVAILABLE, []),
    ],
)
def test_checklistbank_status_words(ask: Ask, word: str, status: NameStatus, targets: list[str]) -> None:
    """Words of the ColDP vocabulary (CatalogueOfLife/coldp)."""
    (statement,) = ask("checklistbank", "Anergates atratulus", clb_match(status=word)).statements
    assert (statement.status, [target.name for target in statement.targets]) == (status, targets)


def test_a_synonym_of_several_of_which_one_is_told_does_not_speak(ask: Ask) -> None:
    """CatalogueOfLife/checklistbank#1501: else it would look like a plain synonym of the one."""
    answer = ask("checklistbank", "Anergates atratulus", clb_match(status="ambiguous synonym"))
    assert answer.statements == ()
    assert [(hint.status, hint.match) for hint in answer.hints] == [(NameStatus.AMBIGUOUS, Match.SIMILAR)]
    body = recorded("gbif-v2-match-exact-authorship-atomised")
    body["usage"]["status"] = "AMBIGUOUS_SYNONYM"
    assert ask("gbif", "Agra schwarzeneggeri", body).statements == ()


@pytest.mark.parametrize("kind", ["ambiguous", "higherrank", "a new word"])
def test_checklistbank_other_match_types_are_hints(ask: Ask, kind: str) -> None:
    answer = ask("checklistbank", "Anergates atratulus", clb_match(type=kind))
    assert answer.statements == ()
    assert [hint.note for hint in answer.hints] == [f"the service calls this match '{kind}'"]


def test_checklistbank_nomen_dubium_weighs_more_than_accepted(ask: Ask) -> None:
    body = clb_match(status="accepted", nomStatus="doubtful")
    (statement,) = ask("checklistbank", "Anergates atratulus", body).statements
    assert (statement.status, statement.targets) == (NameStatus.DOUBTFUL, ())


def test_checklistbank_synonym_of_a_synonym_is_followed(ask: Ask) -> None:
    """CatalogueOfLife/data#1392."""
    body = recorded("clb-match-synonym-genus-transfer")
    line = body["usage"]["classification"]
    between = line[0] | {"id": "BETWEEN", "name": "Medius atratulus", "status": "synonym"}
    body["usage"]["classification"] = [between, *line]
    (statement,) = ask("checklistbank", "Anergates atratulus", body).statements
    assert told(statement)[2] == ["Tetramorium atratulum"]


def test_checklistbank_broken_chain_has_no_target_and_says_so(ask: Ask) -> None:
    body = recorded("clb-match-synonym-genus-transfer")
    del body["usage"]["classification"][0]  # straight to the genus
    (statement,) = ask("checklistbank", "Anergates atratulus", body).statements
    assert statement.targets == ()
    assert statement.fault == "its own data do not lead to an accepted name"


def test_an_unknown_status_word_is_a_failure(bench: Bench, wire: RecordedWire) -> None:
    wire.answer = lambda asked: Canned.json(clb_match(status="splendid"))
    (reply,) = bench.open("checklistbank", wire.at("checklistbank")).ask(["Anergates atratulus"])
    assert isinstance(reply, Failure)
    assert (reply.kind, "splendid" in reply.why) == (FailureKind.BAD_REPLY, True)


def test_checklistbank_common_name_of_the_group(bench: Bench, wire: RecordedWire) -> None:
    """Constructed on the recorded search page: the recorded hits carry no common names."""
    body = recorded("clb-2020-nameusage-search")
    for hit in body["result"]:
        hit["vernacularNames"] = [{"name": "Honey-Bees", "language": "eng"}, {"name": "Bienen", "language": "deu"}]
    body["result"][1]["classification"][0]["name"] = "Plantae"
    wire.answer = lambda asked: Canned.json(body)
    names = bench.open("checklistbank", wire.at("checklistbank")).ask_common("honey bee")
    assert {(name.text, name.language, name.taxon.name) for name in names} == {("Honey-Bees", "en", "Apis")}
    (asked,) = wire.asked
    assert asked.query["content"] == "VERNACULAR_NAME"


def test_checklistbank_card(bench: Bench, wire: RecordedWire) -> None:
    bodies = {
        "3LXR": DATASET,
        "nameusage": recorded("clb-match-synonym-genus-transfer"),
        "synonyms": constructed("clb-taxon-synonyms"),
        "vernacular": [{"name": "ejemplo", "language": "spa"}],
        "distribution": constructed("clb-taxon-distribution"),
    }
    wire.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    card = bench.open("checklistbank", wire.at("checklistbank")).about("Anergates atratulus")
    assert isinstance(card, NameCard)
    assert (card.taxon.name, card.taxon.range) == ("Tetramorium atratulum", ("Mexico", "Panama to Colombia"))
    assert [(one.subject.name, one.status.value) for one in card.former] == [
        ("Priorgenus exemplaris", "objective synonym"),
        ("Novogenus junior", "synonym"),
    ]
    assert [(name.text, name.language) for name in card.common] == [("ejemplo", "es")]


@pytest.mark.parametrize("issued", ["", "soon", "2026-13-45"])
def test_checklistbank_without_a_date(bench: Bench, wire: RecordedWire, issued: str) -> None:
    dataset = DATASET | {"issued": issued}
    body = constructed("clb-match-none")
    wire.answer = lambda asked: Canned.json(dataset if asked.path.endswith("3LXR") else body)
    (answer,) = bench.open("checklistbank", wire.at("checklistbank")).ask(["Nullus nomen"])
    assert (answer.edition.edition, answer.edition.dated) == ("COL26.6 XR", None)


@pytest.mark.parametrize(
    ("key", "body"),
    [
        ("checklistbank", constructed("clb-match-none")),
        ("inaturalist", recorded("inat-empty-page")),
    ],
)
def test_no_card_of_a_name_that_is_not_known(bench: Bench, wire: RecordedWire, key: str, body: Any) -> None:
    wire.answer = lambda asked: Canned.json(DATASET if asked.path.endswith("3LXR") else body)
    assert bench.open(key, wire.at(key)).about("Nullus nomen") is None
