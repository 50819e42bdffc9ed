"""Common names of ITIS and Wikidata.

Origin of every body: ``data/README.md``. Changes to a recorded body are made in the test and visible there.
"""

from __future__ import annotations

import pytest

from namekeeper.evidence.statements import Failure
from tests.services.conftest import Bench, constructed, recorded
from tests.services.good.itis import HIERARCHY
from tests.services.local_server import Canned
from tests.services.recorded_wire import RecordedWire


def test_itis_follows_an_invalid_number_and_drops_vertebrates(bench: Bench, wire: RecordedWire) -> None:
    """A recorded search with a valid and an invalid number of one frog, and a recorded full record (a bear)."""
    record = recorded("itis-full-record-lsid")
    line = [{"rankName": "Kingdom", "taxonName": "Animalia"}, {"rankName": "Phylum", "taxonName": "Chordata"}]
    bodies = {
        "searchByCommonName": recorded("itis-search-common"),
        "getFullRecordFromTSN": record,
        "getFullHierarchyFromTSN": {"hierarchyList": line},
    }
    wire.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    assert bench.open("itis", wire.at("itis")).ask_common("american bullfrogs") == ()
    line[1]["taxonName"] = "Arthropoda"
    bench.time.days_later(365)
    (name,) = bench.open("itis", wire.at("itis")).ask_common("american bullfrogs")
    assert (name.taxon.name, name.language, name.taxon.authorship) == ("Ursus arctos", "en", "Linnaeus, 1758")


def test_itis_accepted_name_of_an_invalid_one(bench: Bench, wire: RecordedWire) -> None:
    record = recorded("itis-full-record-lsid")
    record["usage"]["taxonUsageRating"] = "invalid"
    record["acceptedNameList"] = recorded("itis-accepted-names-synonym")
    line = [{"rankName": "Kingdom", "taxonName": "Animalia"}]
    bodies = {
        "searchByCommonName": recorded("itis-search-common"),
        "getFullRecordFromTSN": record,
        "getFullHierarchyFromTSN": {"hierarchyList": line},
    }
    wire.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    (name,) = bench.open("itis", wire.at("itis")).ask_common("American Bullfrog")
    assert (name.taxon.name, name.taxon.identifier) == ("Dasiphora fruticosa", "836659")


def test_itis_names_that_only_contain_the_words_are_left_out(bench: Bench, wire: RecordedWire) -> None:
    """The search is a "contains" search: "brown bear" finds a squid first (S: getITISTerms)."""
    names = [{"commonName": "brown bear armhook squid", "language": "English", "tsn": "82428"}]
    wire.answer = lambda asked: Canned.json({"commonNames": names})
    assert bench.open("itis", wire.at("itis")).ask_common("brown bear") == ()
    assert len(wire.asked) == 1


def test_itis_unknown_number_has_only_nulls(bench: Bench, wire: RecordedWire) -> None:
    empty = {"scientificName": {"combinedName": None, "tsn": None}, "usage": {"taxonUsageRating": None}}
    bodies = {"searchByCommonName": recorded("itis-search-common"), "getFullRecordFromTSN": empty}
    wire.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    assert bench.open("itis", wire.at("itis")).ask_common("American Bullfrog") == ()


def test_itis_error_page(bench: Bench, wire: RecordedWire) -> None:
    wire.answer = lambda asked: Canned(status=400, body=recorded("itis-error-400").encode())
    reply = bench.open("itis", wire.at("itis")).ask_common("American Bullfrog")
    assert isinstance(reply, Failure)
    assert reply.why == "it does not understand the question (HTTP 400)"


def test_wikidata(bench: Bench, wire: RecordedWire) -> None:
    wire.answer = lambda asked: Canned.json(constructed("wikidata-sparql-taxon"))
    (name,) = bench.open("wikidata", wire.at("wikidata")).ask_common("Example Tarantulas")
    assert (name.text, name.language, name.taxon.name) == ("example tarantula", "en", "Novogenus exemplaris")
    assert (name.taxon.rank, name.taxon.identifier) == ("species", "Q999999991")
    wire.answer = lambda asked: Canned.json(constructed("wikidata-sparql-empty"))
    assert bench.open("wikidata", wire.at("wikidata")).ask_common("Nothing at all") == ()


@pytest.mark.parametrize("words", ['red" } DROP ALL #', "back\\slash", "line\nbreak", "{name} {", "\ud800"])
def test_nothing_typed_leaves_its_quotes_in_a_query(bench: Bench, wire: RecordedWire, words: str) -> None:
    wire.answer = lambda asked: Canned.json(constructed("wikidata-sparql-empty"))
    assert bench.open("wikidata", wire.at("wikidata")).ask_common(words) == ()
    query = wire.asked[0].query["query"]
    inside = query.split("VALUES ?common {", 1)[1].split("}\n", 1)[0]
    outside_quotes = "".join(inside.replace("\\\\", "").replace('\\"', "").split('"')[::2])
    assert set(outside_quotes.replace("@", " ").split()) <= {
        "en", "de", "fr", "es", "pt", "it", "nl", "pl", "cs", "sv", "da", "ja"
    }  # fmt: skip


def test_wikidata_rows_without_a_common_name_are_skipped(bench: Bench, wire: RecordedWire) -> None:
    body = constructed("wikidata-sparql-taxon")
    row = dict(body["results"]["bindings"][0])
    del row["common"]
    body["results"]["bindings"].insert(0, row)
    wire.answer = lambda asked: Canned.json(body)
    assert len(bench.open("wikidata", wire.at("wikidata")).ask_common("example tarantula")) == 1


@pytest.mark.parametrize(
    ("above", "told"),
    [
        (["Q1358", "Q729"], True),
        (["Q729", "Q10915"], False),  # a vertebrate
        (["Q756"], False),  # a plant
        ([], False),
        (None, False),
    ],
)
def test_wikidata_is_judged_by_what_lies_above(
    bench: Bench, wire: RecordedWire, above: list[str] | None, told: bool
) -> None:
    """Constructed: the service only lists the ancestors (P171); to ask it for what lies below would time out there."""
    body = constructed("wikidata-sparql-taxon")
    row = body["results"]["bindings"][0]
    if above is None:
        del row["line"]
    else:
        row["line"]["value"] = " ".join(f"http://www.wikidata.org/entity/{one}" for one in above)
    wire.answer = lambda asked: Canned.json(body)
    assert len(bench.open("wikidata", wire.at("wikidata")).ask_common("example tarantula")) == told
    (asked,) = wire.asked
    assert "wdt:P171* ?above" in asked.query["query"]
    assert "P171* wd:" not in asked.query["query"]


@pytest.mark.parametrize(
    ("rating", "accepted", "told"),
    [
        ("valid", [None], ["Exemplum vulgare"]),
        ("invalid", [("Novogenus vulgare", "2")], ["Novogenus vulgare"]),
        ("invalid", [("Novogenus vulgare", "2"), ("Novogenus alterum", "3")], []),
        ("invalid", [None], []),
        ("accepted", [None], []),  # words for plants and fungi
        ("not accepted", [None], []),
        ("a new word", [None], []),
    ],
)
def test_itis_ratings(
    bench: Bench, wire: RecordedWire, rating: str, accepted: list[tuple[str, str] | None], told: list[str]
) -> None:
    """Constructed after the glossary of ITIS (taxonUsageRating) and the recorded full record; names are invented."""
    names = [one and {"acceptedName": one[0], "acceptedTsn": one[1], "author": ""} for one in accepted]
    bodies = {
        "searchByCommonName": {"commonNames": [{"commonName": "example ant", "language": "English", "tsn": "1"}]},
        "getFullRecordFromTSN": {
            "scientificName": {"combinedName": "Exemplum vulgare", "author": "", "tsn": "1"},
            "kingdom": {"kingdomName": "Animalia"}, "taxRank": {"rankName": "Species"},
            "usage": {"taxonUsageRating": rating}, "acceptedNameList": {"acceptedNames": names},
        },
        "getFullHierarchyFromTSN": HIERARCHY,
    }  # fmt: skip
    wire.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    found = bench.open("itis", wire.at("itis")).ask_common("example ant")
    assert [name.taxon.name for name in found] == told
