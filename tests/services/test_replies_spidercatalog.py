"""The World Spider Catalog by constructed bodies only: its data carry a non-commercial licence.

Origin of every body: ``data/README.md``. Changes to a recorded body are made in the test and visible there.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from namekeeper.evidence.statements import Answer, Failure, FailureKind, NameStatus
from tests.services.asking import Ask, asker, told
from tests.services.conftest import Bench, constructed
from tests.services.local_server import Canned
from tests.services.recorded_wire import RecordedWire

ASKED = "urn:lsid:nmbe.ch:spidersp:001720"  # what the bench knows of every name


@pytest.fixture
def ask(bench: Bench, wire: RecordedWire) -> Ask:
    return asker(bench, wire)


def test_spidercatalog_valid(ask: Ask) -> None:
    body = constructed("wsc-lsid-valid")
    body["taxon"] |= {"genus": "Exemplum", "lsid": ASKED}
    (statement,) = ask("spidercatalog", "Exemplum nava", body).statements
    assert told(statement) == ("Exemplum nava", "accepted", ["Exemplum nava"])
    assert statement.edition.upstream == "world spider catalog"
    assert statement.link == "https://wsc.nmbe.ch/lsid/urn:lsid:nmbe.ch:spidersp:001720"


def wsc(status: str, valid: str | None = None) -> Any:
    body = constructed("wsc-lsid-homonym-replaced")
    body["taxon"] |= {"genus": "Exemplum", "species": "vetus", "status": status, "lsid": ASKED}
    body["validTaxon"] = {"_href": f"https://wsc.nmbe.ch/api/lsid/{valid}"} if valid else None
    return body


@pytest.mark.parametrize(
    ("word", "status"), [("SYNONYM", NameStatus.SYNONYM), ("HOMONYM_REPLACED", NameStatus.REPLACED)]
)
def test_spidercatalog_points_to_the_valid_name(ask: Ask, word: str, status: NameStatus) -> None:
    valid = constructed("wsc-lsid-valid")
    end = "urn:lsid:nmbe.ch:spidersp:000001"
    valid["taxon"] |= {"genus": "Exemplum", "lsid": end}
    (statement,) = ask("spidercatalog", "Exemplum vetus", wsc(word, end), {end: valid}).statements
    assert (statement.status, [target.name for target in statement.targets]) == (status, ["Exemplum nava"])


def test_spidercatalog_circle(ask: Ask) -> None:
    body = wsc("SYNONYM", "urn:lsid:nmbe.ch:spidersp:001720")
    (statement,) = ask("spidercatalog", "Exemplum vetus", body).statements
    assert (statement.targets, statement.fault) == ((), "its own data do not lead to a valid name")


@pytest.mark.parametrize(
    ("word", "status"), [("NOMEN_DUBIUM", NameStatus.DOUBTFUL), ("NOMEN_NUDUM", NameStatus.UNAVAILABLE)]
)
def test_spidercatalog_names_without_a_valid_one(ask: Ask, word: str, status: NameStatus) -> None:
    (statement,) = ask("spidercatalog", "Exemplum vetus", wsc(word)).statements
    assert (statement.status, statement.targets, statement.fault) == (status, (), None)


def test_spidercatalog_does_not_ask_what_it_cannot_search(bench: Bench, wire: RecordedWire) -> None:
    service = bench.open("spidercatalog", wire.at("spidercatalog"), identifier_of=lambda name: None)
    (answer,) = service.ask(["Exemplum ignotum"])
    assert isinstance(answer, Answer)
    assert (answer.statements, answer.retrieved, wire.asked) == ((), None, [])


def test_spidercatalog_without_a_key(bench: Bench, wire: RecordedWire) -> None:
    service = bench.open("spidercatalog", wire.at("spidercatalog"))
    service = replace(service, desk=replace(service.desk, secret=()))
    (reply,) = service.ask(["Exemplum nava"])
    assert isinstance(reply, Failure)
    assert (reply.kind, reply.why) == (FailureKind.REFUSED, "it needs the keeper's own free key")
    probe = service.probe()
    assert probe is not None
    assert probe.why == reply.why
    assert wire.asked == []


@pytest.mark.parametrize(
    "href", ["https://elsewhere.example.org/", "urn:lsid:another:1", "https://wsc.nmbe.ch/api/lsid/"]
)
def test_spidercatalog_never_follows_an_address_from_a_reply(bench: Bench, wire: RecordedWire, href: str) -> None:
    body = wsc("SYNONYM", "x") | {"validTaxon": {"_href": href}}
    wire.answer = lambda asked: Canned.json(body)
    (reply,) = bench.open("spidercatalog", wire.at("spidercatalog")).ask(["Exemplum vetus"])
    assert isinstance(reply, Failure)
    assert len(wire.asked) == 1
