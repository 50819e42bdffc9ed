"""No wrong match ever speaks: recorded answers that are about something else than what was asked.

Bodies and their origin: ``data/README.md``. The answers of the older match v1 are put into the shape of v2, which is
what we ask: the matches are those recorded, only the keys change.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from namekeeper.evidence.statements import Answer, Failure, FailureKind
from tests.services.conftest import DATA, Bench, recorded
from tests.services.good import checklistbank, gbif
from tests.services.local_server import Canned, LocalServer

NAME_SERVICES = ("checklistbank", "inaturalist", "gbif", "spidercatalog")
V1_MATCHES = sorted(path.stem for path in (DATA / "recorded").glob("gbif-v1-match-*.json"))
_RANKS = ("kingdom", "phylum", "class", "order", "family")
_MATCH_TYPES = {"FUZZY": "VARIANT", "PARTIAL": "AMBIGUOUS"}


def as_v2(v1: dict[str, Any]) -> dict[str, Any]:
    """A flat v1 match as v2 says it."""
    kind = v1.get("matchType", "NONE")
    diagnostics = {
        "matchType": _MATCH_TYPES.get(kind, kind),
        "confidence": v1.get("confidence", 0),
        "note": v1.get("note", ""),
        "alternatives": [
            as_v2(one | {"matchType": one.get("matchType", "EXACT")}) for one in v1.get("alternatives", [])
        ],
    }
    if "usageKey" not in v1:
        return {"diagnostics": diagnostics}
    status = v1.get("status", "ACCEPTED")  # the oldest bodies have none
    status = {"DOUBTFUL": "PROVISIONALLY_ACCEPTED"}.get(status, status)
    usage = {"key": str(v1["usageKey"]), "canonicalName": v1.get("canonicalName"), "name": v1["scientificName"]}
    line = [{"rank": rank.upper(), "name": v1[rank]} for rank in _RANKS if rank in v1]
    return {
        "usage": usage | {"rank": v1["rank"], "status": status},
        "classification": line,
        "diagnostics": diagnostics,
    }


def answer_to(bench: Bench, server: LocalServer, key: str, name: str, body: Any) -> Answer | Failure:
    def reply(asked: Any) -> Canned:
        if asked.path.endswith("metadata"):
            return Canned.json(gbif.METADATA)
        if asked.path.endswith("3LXR"):
            return Canned.json(checklistbank.DATASET)
        return Canned.json(body)

    server.answer = reply
    (said,) = bench.open(key, server.base).ask([name])
    assert isinstance(said, Answer | Failure)
    return said


#: Recorded body, name asked, and whether the service knew that name at all.
WRONG = [
    ("gbif-v1-match-fuzzy-wrong-kingdom", "Fungi"),  # gbif/checklistbank#226: a coral genus for the fungi
    ("gbif-v2-match-higherrank-wrong-hint", "Calopteryx splendens"),  # a plant genus for a damselfly
    ("gbif-v2-match-higherrank-wrong-hint", "Calopteryx"),  # and the same genus, in another kingdom
    ("gbif-v2-match-verbose-alternatives", "Calopteryx splendens"),
    ("gbif-v2-match-higherrank-kingdom-partial", "Ortolis guttata"),  # gbif/gbif-api#190: a kingdom for a species
    ("gbif-v2-match-none", "Calopteryx fakeus"),  # confidence 100 is no score here
    ("gbif-v2-match-none-low-confidence-strict", "Calopteryx splendens"),
    ("gbif-v2-match-none-strict-verbose-alternative", "Calopteryx splendens"),
    ("gbif-v2-match-homonym-multiple-equal", "Calopteryx"),
    ("gbif-v2-match-homonym-multiple-equal-verbose", "Calopteryx"),
    ("gbif-v2-match-colxr-exact-labelled-higherrank", "Aves"),
    ("gbif-v2-match-exact-accepted-animal", "Panthera leo"),  # right, but no animal of this group
    ("gbif-v2-match-exact-accepted-plant", "Helianthus annuus"),
    ("gbif-v2-match-synonym-genus-transfer", "Anastrophyllum minutum"),
    ("gbif-v1-match-2026-pseudacris", "Pseudacris"),
    ("gbif-v1-match-2026-sorberacea", "Sorberacea"),  # a phylum, confidence 100
    ("gbif-v1-match-2026-dugongidae", "Dugongidae"),
    ("gbif-v1-match-homonym-kingdom-vs-spider-genus", "Archaea"),
    ("gbif-v1-match-homonym-with-spider-synonym-genus", "Amphissa"),
    ("gbif-v1-match-none-low-confidence", "Aso"),
    ("gbif-v1-match-none-strict", "Helianthu"),
    ("gbif-v1-match-none-multiple", "Helianthu"),
]


@pytest.mark.parametrize(("body", "name"), WRONG)
def test_a_wrong_match_never_speaks(bench: Bench, server: LocalServer, body: str, name: str) -> None:
    document = recorded(body)
    said = answer_to(bench, server, "gbif", name, as_v2(document) if "-v1-" in body else document)
    assert isinstance(said, Answer)
    assert said.statements == ()
    # What is offered as spelt alike is at least an animal of the group.
    assert {hint.subject.kingdom for hint in said.hints} <= {None, "Animalia"}
    assert not any("Chordata" in (*hint.subject.higher, hint.subject.name) for hint in said.hints)


def test_an_exact_match_of_another_name_is_no_answer(bench: Bench, server: LocalServer) -> None:
    """All names ignored, confidence 100: nobody can tell what the service has of the name asked."""
    said = answer_to(bench, server, "gbif", "Calopteryx", recorded("gbif-v2-match-colxr-usagekey"))
    assert isinstance(said, Failure)
    assert said.kind is FailureKind.BAD_REPLY
    assert said.why.endswith("and not about Calopteryx")
    assert not [path for path in bench.kept() if "Calopteryx" in path.read_text(encoding="utf-8")]


@pytest.mark.parametrize("body", [name for name in V1_MATCHES if "fuzzy" in name or "higherrank" in name])
def test_a_fuzzy_or_higher_match_never_speaks_whatever_was_asked(bench: Bench, server: LocalServer, body: str) -> None:
    """The names asked are not on record: the name answered, one letter off, and a species below it are tried."""
    document = recorded(body)
    answered = document["canonicalName"]
    for name in (answered[:-1] + "x", f"{answered} altera"):
        said = answer_to(bench, server, "gbif", name, as_v2(document))
        assert isinstance(said, Answer)
        assert said.statements == ()
    if "fuzzy" in body:
        said = answer_to(bench, server, "gbif", answered, as_v2(document))
        assert isinstance(said, Answer)
        assert said.statements == ()


def speaking(bench: Bench, server: LocalServer, key: str, path: Path) -> list[object]:
    """What an adapter lets a recorded body say of names that are not in it."""
    document = json.loads(path.read_text(encoding="utf-8"))
    if "-v1-match" in path.name and isinstance(document, dict):
        document = as_v2(document)
    asked = [(body, name) for body in (document, [document]) for name in ("Brachypelma hamorii", "Brachypelma")]
    replies = [answer_to(bench, server, key, name, body) for body, name in asked]
    return [said for reply in replies if not isinstance(reply, Failure) for said in reply.statements]


@pytest.mark.parametrize("key", NAME_SERVICES)
def test_no_body_on_record_speaks_of_a_name_that_is_not_in_it(bench: Bench, server: LocalServer, key: str) -> None:
    """Every body to every adapter, also those of other services: nothing speaks, nothing is raised."""
    paths = sorted(DATA.rglob("*.json"))
    assert len(paths) > 80
    for path in paths:
        assert "Brachypelma" not in path.read_text(encoding="utf-8")
        assert speaking(bench, server, key, path) == [], path.name


@pytest.mark.parametrize("key", NAME_SERVICES)
def test_the_same_bodies_where_more_are_at_hand(bench: Bench, server: LocalServer, key: str) -> None:
    """The project's whole set of samples, if it lies beside the checkout."""
    samples = Path(__file__).parents[3] / "shared" / "services" / "samples"
    if not samples.is_dir():
        pytest.skip("no further samples here")
    for path in sorted(samples.rglob("*.json")):
        assert speaking(bench, server, key, path) == [], path.name
