"""What recorded replies of GBIF say, one name and many at once.

Origin of every body: ``data/README.md``. Changes to a recorded body are made in the test and visible there.
"""

from __future__ import annotations

from typing import Any

import pytest

from namekeeper.evidence.statements import Answer, Failure, NameStatus
from tests.services.asking import Ask, asker, told
from tests.services.conftest import Bench, recorded
from tests.services.good.gbif import METADATA
from tests.services.local_server import Asked, Canned
from tests.services.recorded_wire import RecordedWire


@pytest.fixture
def ask(bench: Bench, wire: RecordedWire) -> Ask:
    return asker(bench, wire)


def test_gbif_accepted(ask: Ask) -> None:
    (statement,) = ask("gbif", "Agra schwarzeneggeri", recorded("gbif-v2-match-exact-authorship-atomised")).statements
    assert told(statement) == ("Agra schwarzeneggeri", "accepted", ["Agra schwarzeneggeri"])
    assert statement.subject.authorship == "Erwin, 2002"
    assert statement.subject.higher[-1] == "Insecta"
    assert (statement.edition.edition, str(statement.edition.dated)) == ("COL26.6 XR", "2026-06")
    assert statement.edition.upstream == "catalogue of life"
    assert statement.link == f"https://www.gbif.org/taxon/{statement.subject.identifier}"


def as_animal(body: Any) -> Any:
    """The recorded moss as if it were an animal: no animal synonym of v2 is on record."""
    for taxon in body["classification"]:
        if taxon["rank"] == "KINGDOM":
            taxon["name"] = "Animalia"
    return body


def test_gbif_synonym(ask: Ask) -> None:
    body = as_animal(recorded("gbif-v2-match-synonym-genus-transfer"))
    (statement,) = ask("gbif", "Anastrophyllum minutum", body).statements
    assert told(statement) == ("Anastrophyllum minutum", "synonym", ["Sphenolobus minutus"])
    assert statement.targets[0].authorship == "(Schreb. ex Cranz) Berggr."


@pytest.mark.parametrize(
    ("word", "status"),
    [
        ("PROVISIONALLY_ACCEPTED", NameStatus.DOUBTFUL),
        ("MISAPPLIED", NameStatus.MISAPPLIED),
        ("BARE_NAME", NameStatus.UNAVAILABLE),
    ],
)
def test_gbif_status_words(ask: Ask, word: str, status: NameStatus) -> None:
    """Words of the matching server (gbif/matching-ws)."""
    body = recorded("gbif-v2-match-exact-authorship-atomised")
    body["usage"]["status"] = word
    (statement,) = ask("gbif", "Agra schwarzeneggeri", body).statements
    assert (statement.status, statement.targets) == (status, ())


def test_gbif_homonyms_come_back_as_several_hints(bench: Bench, wire: RecordedWire) -> None:
    """Told only to a verbose question, which is put for homonyms alone."""
    bodies = {
        "true": recorded("gbif-v2-match-homonym-multiple-equal-verbose"),
        None: recorded("gbif-v2-match-homonym-multiple-equal"),
    }
    wire.answer = lambda asked: (
        Canned.json(METADATA) if "metadata" in asked.path else Canned.json(bodies[asked.query.get("verbose")])
    )
    (answer,) = bench.open("gbif", wire.at("gbif")).ask(["Calopteryx"])
    assert answer.statements == ()
    authors = {hint.subject.authorship for hint in answer.hints}
    assert authors >= {"Leach, 1815", "Vander Linden, 1825"}
    assert "A.C.Sm." not in authors  # the plant of that name


def test_gbif_asks_in_one_post_with_the_checklist(bench: Bench, wire: RecordedWire) -> None:
    names = ["Agra schwarzeneggeri", "Nullus nomen"]
    page = [recorded("gbif-v2-match-exact-authorship-atomised"), recorded("gbif-v2-match-none")]
    wire.answer = lambda asked: Canned.json(METADATA if "metadata" in asked.path else page)
    answers = list(bench.open("gbif", wire.at("gbif")).ask(names))
    assert [len(answer.statements) for answer in answers] == [1, 0]
    post = wire.asked[-1]
    assert (post.method, post.path) == ("POST", "/v2/species/match")
    assert post.query == {"checklistKey": "7ddf754f-d193-4cc9-b351-99906754a03b"}
    assert post.body == [{"scientificName": name, "classification": {"kingdom": "Animalia"}} for name in names]


@pytest.mark.parametrize("status", [404, 405, 415, 500])
def test_gbif_without_the_post_is_asked_one_by_one(bench: Bench, wire: RecordedWire, status: int) -> None:
    body = recorded("gbif-v2-match-none")
    wire.answer = lambda asked: Canned(status=status) if asked.method == "POST" else Canned.json(body)
    names = [f"Agra {'a' * length}" for length in range(3, 53)]  # more than go into one batch
    answers = list(bench.open("gbif", wire.at("gbif")).ask(names))
    assert all(isinstance(answer, Answer) for answer in answers)
    gets = [asked for asked in wire.asked if asked.method == "GET" and "metadata" not in asked.path]
    assert [asked.query["checklistKey"] for asked in gets] == ["7ddf754f-d193-4cc9-b351-99906754a03b"] * 50
    assert sum(asked.method == "POST" for asked in wire.asked) == 1  # not tried again


def test_gbif_answers_in_another_order_are_matched_by_what_they_are_about(bench: Bench, wire: RecordedWire) -> None:
    """The order of a batch is promised; once an answer stands elsewhere, one of nothing belongs to nobody."""
    found, none = recorded("gbif-v2-match-exact-authorship-atomised"), recorded("gbif-v2-match-none")

    def answer(asked: Asked) -> Canned:
        if "metadata" in asked.path:
            return Canned.json(METADATA)
        return Canned.json([none, found] if isinstance(asked.body, list) else none)

    wire.answer = answer
    answers = list(bench.open("gbif", wire.at("gbif")).ask(["Agra schwarzeneggeri", "Nullus nomen"]))
    assert [[one.subject.name for one in answer.statements] for answer in answers] == [["Agra schwarzeneggeri"], []]
    asked = [(one.method, one.query.get("scientificName")) for one in wire.asked[1:]]
    assert asked == [("POST", None), ("GET", "Nullus nomen")]


def test_a_copy_of_the_spider_catalogue_shares_its_vote(ask: Ask) -> None:
    body = recorded("gbif-v2-match-exact-authorship-atomised")
    for taxon in body["classification"]:
        if taxon["rank"] == "ORDER":
            taxon["name"] = "Araneae"
    answer = ask("gbif", "Agra schwarzeneggeri", body)
    assert answer.edition.upstream == answer.statements[0].edition.upstream == "world spider catalog"


def test_gbif_little_confidence_is_a_hint(ask: Ask) -> None:
    body = recorded("gbif-v2-match-exact-authorship-atomised")
    body["diagnostics"]["confidence"] = 79
    answer = ask("gbif", "Agra schwarzeneggeri", body)
    assert [hint.note for hint in answer.hints] == ["the service has little confidence in this match"]
    assert answer.statements == ()


def test_gbif_unknown_status_word_is_a_failure(bench: Bench, wire: RecordedWire) -> None:
    body = recorded("gbif-v2-match-exact-authorship-atomised")
    body["usage"]["status"] = "SPLENDID"
    wire.answer = lambda asked: Canned.json(body)
    (reply,) = bench.open("gbif", wire.at("gbif")).ask(["Agra schwarzeneggeri"])
    assert isinstance(reply, Failure)
    assert "SPLENDID" in reply.why


@pytest.mark.parametrize(
    ("alias", "dated"),
    [("COL26.6 XR", "2026-06"), ("COL24", "2024"), ("COL2024", "2024"), ("Another", None), ("COL26.13", None)],
)
def test_gbif_date_of_the_release(bench: Bench, wire: RecordedWire, alias: str, dated: str | None) -> None:
    metadata = {"mainIndex": {"datasetAlias": alias}}
    body = recorded("gbif-v2-match-none")
    wire.answer = lambda asked: Canned.json(metadata if "metadata" in asked.path else body)
    (answer,) = bench.open("gbif", wire.at("gbif")).ask(["Agra una"])
    found = answer.edition.dated
    assert (answer.edition.edition, found and str(found)) == (alias, dated)
