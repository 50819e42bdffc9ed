"""What recorded replies say: statements for what was asked, hints for what only looks like it.

Origin of every body: ``data/README.md``. Changes to a recorded body are made in the test and visible there.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import Answer, Failure, FailureKind, Match, NameStatus, Statement
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import Verification
from tests.services.conftest import Bench, constructed, recorded
from tests.services.good_replies import CLB_DATASET, GBIF_METADATA
from tests.services.local_server import Asked, Canned, LocalServer

Ask = Callable[..., Answer]


@pytest.fixture
def ask(bench: Bench, server: LocalServer) -> Ask:
    """``ask("gbif", "Name", body)``: the answer to that name if the service sends that body."""

    def call(key: str, name: str, body: Any, more: dict[str, Any] | None = None) -> Answer:
        def answer(asked: Asked) -> Canned:
            for path, document in {**(more or {}), "3LXR": CLB_DATASET, "metadata": GBIF_METADATA}.items():
                if asked.path.endswith(path):
                    return Canned.json(document)
            return Canned.json([body] if isinstance(asked.body, list) else body)

        server.answer = answer
        (reply,) = bench.open(key, server.base).ask([name])
        assert isinstance(reply, Answer), reply
        return reply

    return call


def told(statement: Statement) -> tuple[str, str, list[str]]:
    return statement.subject.name, statement.status.value, [target.name for target in statement.targets]


# ChecklistBank


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


@pytest.mark.parametrize("kind", ["variant", "ambiguous", "higherrank", "a new word"])
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


def test_an_unknown_status_word_is_a_failure(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: Canned.json(clb_match(status="splendid"))
    (reply,) = bench.open("checklistbank", server.base).ask(["Anergates atratulus"])
    assert isinstance(reply, Failure)
    assert (reply.kind, "splendid" in reply.why) == (FailureKind.BAD_REPLY, True)


def test_checklistbank_common_name_of_the_group(bench: Bench, server: LocalServer) -> None:
    """Constructed on the recorded search page: the recorded hits carry no common names."""
    body = recorded("clb-2020-nameusage-search")
    for hit in body["result"]:
        hit["vernacularNames"] = [{"name": "Honey-Bees", "language": "eng"}, {"name": "Bienen", "language": "deu"}]
    body["result"][1]["classification"][0]["name"] = "Plantae"
    server.answer = lambda asked: Canned.json(body)
    names = bench.open("checklistbank", server.base).ask_common("honey bee")
    assert {(name.text, name.language, name.taxon.name) for name in names} == {("Honey-Bees", "en", "Apis")}
    (asked,) = server.asked
    assert asked.query["content"] == "VERNACULAR_NAME"


def test_checklistbank_card(bench: Bench, server: LocalServer) -> None:
    bodies = {
        "3LXR": CLB_DATASET,
        "nameusage": recorded("clb-match-synonym-genus-transfer"),
        "synonyms": constructed("clb-taxon-synonyms"),
        "vernacular": [{"name": "ejemplo", "language": "spa"}],
        "distribution": constructed("clb-taxon-distribution"),
    }
    server.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    card = bench.open("checklistbank", server.base).about("Anergates atratulus")
    assert isinstance(card, NameCard)
    assert (card.taxon.name, card.taxon.range) == ("Tetramorium atratulum", ("Mexico", "Panama to Colombia"))
    assert [(one.subject.name, one.status.value) for one in card.former] == [
        ("Priorgenus exemplaris", "objective synonym"),
        ("Novogenus junior", "synonym"),
    ]
    assert [(name.text, name.language) for name in card.common] == [("ejemplo", "es")]


# GBIF


def test_gbif_accepted(ask: Ask) -> None:
    (statement,) = ask("gbif", "Agra schwarzeneggeri", recorded("gbif-v2-match-exact-authorship-atomised")).statements
    assert told(statement) == ("Agra schwarzeneggeri", "accepted", ["Agra schwarzeneggeri"])
    assert statement.subject.authorship == "Erwin, 2002"
    assert statement.subject.higher[-1] == "Insecta"
    assert (statement.edition.edition, str(statement.edition.dated)) == ("COL26.6 XR", "2026-06")
    assert statement.edition.upstream == "catalogue of life"
    assert statement.link == (
        "https://api.gbif.org/v2/species/match?scientificName=Agra+schwarzeneggeri&kingdom=Animalia"
        "&checklistKey=7ddf754f-d193-4cc9-b351-99906754a03b"
    )


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


def test_gbif_homonyms_come_back_as_several_hints(bench: Bench, server: LocalServer) -> None:
    """Told only to a verbose question, which is put for homonyms alone."""
    bodies = {
        "true": recorded("gbif-v2-match-homonym-multiple-equal-verbose"),
        None: recorded("gbif-v2-match-homonym-multiple-equal"),
    }
    server.answer = lambda asked: (
        Canned.json(GBIF_METADATA) if "metadata" in asked.path else Canned.json(bodies[asked.query.get("verbose")])
    )
    (answer,) = bench.open("gbif", server.base).ask(["Calopteryx"])
    assert answer.statements == ()
    authors = {hint.subject.authorship for hint in answer.hints}
    assert authors >= {"Leach, 1815", "Vander Linden, 1825"}
    assert "A.C.Sm." not in authors  # the plant of that name


def test_gbif_asks_in_one_post_with_the_checklist(bench: Bench, server: LocalServer) -> None:
    names = ["Agra schwarzeneggeri", "Nullus nomen"]
    page = [recorded("gbif-v2-match-exact-authorship-atomised"), recorded("gbif-v2-match-none")]
    server.answer = lambda asked: Canned.json(GBIF_METADATA if "metadata" in asked.path else page)
    answers = list(bench.open("gbif", server.base).ask(names))
    assert [len(answer.statements) for answer in answers] == [1, 0]
    post = server.asked[-1]
    assert (post.method, post.path) == ("POST", "/v2/species/match")
    assert post.query == {"checklistKey": "7ddf754f-d193-4cc9-b351-99906754a03b"}
    assert post.body == [{"scientificName": name, "kingdom": "Animalia"} for name in names]


@pytest.mark.parametrize("status", [404, 405, 415, 500])
def test_gbif_without_the_post_is_asked_one_by_one(bench: Bench, server: LocalServer, status: int) -> None:
    body = recorded("gbif-v2-match-none")
    server.answer = lambda asked: Canned(status=status) if asked.method == "POST" else Canned.json(body)
    names = [f"Agra {'a' * length}" for length in range(3, 53)]  # more than go into one batch
    answers = list(bench.open("gbif", server.base).ask(names))
    assert all(isinstance(answer, Answer) for answer in answers)
    gets = [asked for asked in server.asked if asked.method == "GET" and "metadata" not in asked.path]
    assert [asked.query["checklistKey"] for asked in gets] == ["7ddf754f-d193-4cc9-b351-99906754a03b"] * 50
    assert sum(asked.method == "POST" for asked in server.asked) == 1  # not tried again


def test_gbif_answers_of_another_order_do_not_speak(bench: Bench, server: LocalServer) -> None:
    """The order of a batch is from memory only: an answer in the wrong place is a hint, never a statement."""
    page = [recorded("gbif-v2-match-none"), recorded("gbif-v2-match-exact-authorship-atomised")]
    server.answer = lambda asked: Canned.json(GBIF_METADATA if "metadata" in asked.path else page)
    answers = list(bench.open("gbif", server.base).ask(["Agra schwarzeneggeri", "Nullus nomen"]))
    assert [answer.statements for answer in answers] == [(), ()]


def test_gbif_card_of_the_old_backbone(bench: Bench, server: LocalServer) -> None:
    """Recorded for the house sparrow; its phylum is removed, because vertebrates are outside the group kept."""
    synonyms = recorded("gbif-v1-synonyms-homotypic")
    for row in synonyms["results"]:
        row["phylum"] = "Arthropoda"
    usage = synonyms["results"][0] | {
        "key": 5231190, "acceptedKey": None, "accepted": None, "canonicalName": "Passer domesticus",
        "taxonomicStatus": "ACCEPTED",
    }  # fmt: skip
    bodies = {
        "species": {"results": [usage]},
        "synonyms": synonyms,
        "vernacularNames": recorded("gbif-v1-vernacularnames"),
        "distributions": recorded("gbif-v1-distributions"),
    }
    server.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    card = bench.open("gbif", server.base).about("Passer domesticus")
    assert isinstance(card, NameCard)
    assert [(one.subject.name, one.status.value) for one in card.former] == [
        ("Fringilla domestica", "objective synonym")
    ]
    assert ("Gorrión Común", "es") in {(name.text, name.language) for name in card.common}
    assert ("English sparrow", "und") in {(name.text, name.language) for name in card.common}
    assert "Reunion" not in card.taxon.range  # introduced there
    assert card.citation == "GBIF backbone (no longer kept up)"


# iNaturalist


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
    ask: Ask, bench: Bench, server: LocalServer
) -> None:
    body = constructed("inat-taxa-inactive-swap")
    body["results"].append(successor(123, "Exemplum novum", matched_term="Exemplum vetus"))
    answer = ask("inaturalist", "Exemplum vetus", body)
    assert [told(one)[2] for one in answer.statements] == [["Exemplum novum"]]
    assert len(server.asked) == 1


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


def test_inaturalist_common_name_keeps_its_language(bench: Bench, server: LocalServer) -> None:
    body = recorded("inat-taxa-preferred-place")  # a plant and a moth, both found by this name
    body["results"][1]["names"] = [
        {"name": "Epiblema sticticana", "locale": "sci", "is_valid": True},
        {"name": "Huflattichwickler", "locale": "de", "is_valid": True},
        {"name": "Colt's-foot Bell", "locale": "en", "is_valid": True},
    ]
    server.answer = lambda asked: Canned.json(body)
    service = bench.open("inaturalist", server.base)
    (english,) = service.ask_common("coltsfoot bell")
    (german,) = service.ask_common("Huflattichwickler")
    assert (english.taxon.name, english.language) == ("Epiblema sticticana", "en")
    assert (german.text, german.language) == ("Huflattichwickler", "de")
    assert service.ask_common("colt's-foot") == ()  # the plant
    assert {asked.query["taxon_id"] for asked in server.asked} == {"1"}


def test_inaturalist_card(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: Canned.json(recorded("inat-taxon-by-id"))
    card = bench.open("inaturalist", server.base).about("Nicrophorus vespilloides")
    assert isinstance(card, NameCard)
    assert [(name.text, name.language) for name in card.common] == [("Lesser Vespillo Burying Beetle", "en")]
    assert "Canada" in card.taxon.range
    assert "North America" not in card.taxon.range  # countries, not continents


def test_too_many_identifiers_is_a_failure(bench: Bench, server: LocalServer) -> None:
    body = Canned.json(constructed("inat-error-422"))
    server.answer = lambda asked: Canned(status=422, body=body.body)
    (reply,) = bench.open("inaturalist", server.base).ask(["Exemplum vetus"])
    assert isinstance(reply, Failure)
    assert reply.why == "it does not understand the question (HTTP 422)"


# ITIS and Wikidata


def test_itis_follows_an_invalid_number_and_drops_vertebrates(bench: Bench, server: LocalServer) -> None:
    """A recorded search with a valid and an invalid number of one frog, and a recorded full record (a bear)."""
    record = recorded("itis-full-record-lsid")
    line = [{"rankName": "Kingdom", "taxonName": "Animalia"}, {"rankName": "Phylum", "taxonName": "Chordata"}]
    bodies = {
        "searchByCommonName": recorded("itis-search-common"),
        "getFullRecordFromTSN": record,
        "getFullHierarchyFromTSN": {"hierarchyList": line},
    }
    server.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    assert bench.open("itis", server.base).ask_common("american bullfrogs") == ()
    line[1]["taxonName"] = "Arthropoda"
    bench.time.days_later(365)
    (name,) = bench.open("itis", server.base).ask_common("american bullfrogs")
    assert (name.taxon.name, name.language, name.taxon.authorship) == ("Ursus arctos", "en", "Linnaeus, 1758")


def test_itis_accepted_name_of_an_invalid_one(bench: Bench, server: LocalServer) -> None:
    record = recorded("itis-full-record-lsid")
    record["usage"]["taxonUsageRating"] = "invalid"
    record["acceptedNameList"] = recorded("itis-accepted-names-synonym")
    line = [{"rankName": "Kingdom", "taxonName": "Animalia"}]
    bodies = {
        "searchByCommonName": recorded("itis-search-common"),
        "getFullRecordFromTSN": record,
        "getFullHierarchyFromTSN": {"hierarchyList": line},
    }
    server.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    (name,) = bench.open("itis", server.base).ask_common("American Bullfrog")
    assert (name.taxon.name, name.taxon.identifier) == ("Dasiphora fruticosa", "836659")


def test_itis_names_that_only_contain_the_words_are_left_out(bench: Bench, server: LocalServer) -> None:
    """The search is a "contains" search: "brown bear" finds a squid first (S: getITISTerms)."""
    names = [{"commonName": "brown bear armhook squid", "language": "English", "tsn": "82428"}]
    server.answer = lambda asked: Canned.json({"commonNames": names})
    assert bench.open("itis", server.base).ask_common("brown bear") == ()
    assert len(server.asked) == 1


def test_itis_unknown_number_has_only_nulls(bench: Bench, server: LocalServer) -> None:
    empty = {"scientificName": {"combinedName": None, "tsn": None}, "usage": {"taxonUsageRating": None}}
    bodies = {"searchByCommonName": recorded("itis-search-common"), "getFullRecordFromTSN": empty}
    server.answer = lambda asked: Canned.json(bodies[asked.path.rpartition("/")[2]])
    assert bench.open("itis", server.base).ask_common("American Bullfrog") == ()


def test_itis_error_page(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: Canned(status=400, body=recorded("itis-error-400").encode())
    reply = bench.open("itis", server.base).ask_common("American Bullfrog")
    assert isinstance(reply, Failure)
    assert reply.why == "it does not understand the question (HTTP 400)"


def test_wikidata(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: Canned.json(constructed("wikidata-sparql-taxon"))
    (name,) = bench.open("wikidata", server.base).ask_common("Example Tarantulas")
    assert (name.text, name.language, name.taxon.name) == ("example tarantula", "en", "Novogenus exemplaris")
    assert (name.taxon.rank, name.taxon.identifier) == ("species", "Q999999991")
    server.answer = lambda asked: Canned.json(constructed("wikidata-sparql-empty"))
    assert bench.open("wikidata", server.base).ask_common("Nothing at all") == ()


@pytest.mark.parametrize("words", ['red" } DROP ALL #', "back\\slash", "line\nbreak", "{name} {", "\ud800"])
def test_nothing_typed_leaves_its_quotes_in_a_query(bench: Bench, server: LocalServer, words: str) -> None:
    server.answer = lambda asked: Canned.json(constructed("wikidata-sparql-empty"))
    assert bench.open("wikidata", server.base).ask_common(words) == ()
    query = server.asked[0].query["query"]
    inside = query.split("VALUES ?common {", 1)[1].split("}\n", 1)[0]
    outside_quotes = "".join(inside.replace("\\\\", "").replace('\\"', "").split('"')[::2])
    assert set(outside_quotes.replace("@", " ").split()) <= {
        "en", "de", "fr", "es", "pt", "it", "nl", "pl", "cs", "sv", "da", "ja"
    }  # fmt: skip


# World Spider Catalog (constructed bodies only: the data carry a non-commercial licence)


def test_spidercatalog_valid(ask: Ask) -> None:
    body = constructed("wsc-lsid-valid")
    body["taxon"]["genus"] = "Exemplum"
    (statement,) = ask("spidercatalog", "Exemplum nava", body).statements
    assert told(statement) == ("Exemplum nava", "accepted", ["Exemplum nava"])
    assert statement.edition.upstream == "world spider catalog"
    assert statement.link == "https://wsc.nmbe.ch/lsid/urn:lsid:nmbe.ch:spidersp:001720"


def wsc(status: str, valid: str | None = None) -> Any:
    body = constructed("wsc-lsid-homonym-replaced")
    body["taxon"] |= {"genus": "Exemplum", "species": "vetus", "status": status}
    body["validTaxon"] = {"_href": f"https://wsc.nmbe.ch/api/lsid/{valid}"} if valid else None
    return body


@pytest.mark.parametrize(
    ("word", "status"), [("SYNONYM", NameStatus.SYNONYM), ("HOMONYM_REPLACED", NameStatus.REPLACED)]
)
def test_spidercatalog_points_to_the_valid_name(ask: Ask, word: str, status: NameStatus) -> None:
    valid = constructed("wsc-lsid-valid")
    valid["taxon"] |= {"genus": "Exemplum"}
    end = "urn:lsid:nmbe.ch:spidersp:000001"
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


def test_spidercatalog_does_not_ask_what_it_cannot_search(bench: Bench, server: LocalServer) -> None:
    service = bench.open("spidercatalog", server.base, identifier_of=lambda name: None)
    (answer,) = service.ask(["Exemplum ignotum"])
    assert isinstance(answer, Answer)
    assert (answer.statements, answer.retrieved, server.asked) == ((), None, [])


def test_spidercatalog_updates_page_by_page(bench: Bench, server: LocalServer) -> None:
    from datetime import date

    last = {"updates": ["urn:lsid:nmbe.ch:spidersp:000002"], "_links": {}}
    pages = {"1": constructed("wsc-updates-page"), "2": last}
    server.answer = lambda asked: Canned.json(pages[asked.query["page"]])
    assert bench.open("spidercatalog", server.base).updates(date(2026, 1, 1)) == (
        "urn:lsid:nmbe.ch:spidersp:001720",
        "urn:lsid:nmbe.ch:spidergen:00195",
        "urn:lsid:nmbe.ch:spidersp:000002",
    )


# Upstreams


def test_a_copy_of_the_spider_catalogue_shares_its_vote(ask: Ask) -> None:
    body = recorded("gbif-v2-match-exact-authorship-atomised")
    for taxon in body["classification"]:
        if taxon["rank"] == "ORDER":
            taxon["name"] = "Araneae"
    answer = ask("gbif", "Agra schwarzeneggeri", body)
    assert answer.edition.upstream == answer.statements[0].edition.upstream == "world spider catalog"


# Corners


def test_gbif_little_confidence_is_a_hint(ask: Ask) -> None:
    body = recorded("gbif-v2-match-exact-authorship-atomised")
    body["diagnostics"]["confidence"] = 79
    answer = ask("gbif", "Agra schwarzeneggeri", body)
    assert [hint.note for hint in answer.hints] == ["the service has little confidence in this match"]
    assert answer.statements == ()


def test_gbif_unknown_status_word_is_a_failure(bench: Bench, server: LocalServer) -> None:
    body = recorded("gbif-v2-match-exact-authorship-atomised")
    body["usage"]["status"] = "SPLENDID"
    server.answer = lambda asked: Canned.json(body)
    (reply,) = bench.open("gbif", server.base).ask(["Agra schwarzeneggeri"])
    assert isinstance(reply, Failure)
    assert "SPLENDID" in reply.why


@pytest.mark.parametrize(
    ("alias", "dated"),
    [("COL26.6 XR", "2026-06"), ("COL24", "2024"), ("COL2024", "2024"), ("Another", None), ("COL26.13", None)],
)
def test_gbif_date_of_the_release(bench: Bench, server: LocalServer, alias: str, dated: str | None) -> None:
    metadata = {"mainIndex": {"datasetAlias": alias}}
    body = recorded("gbif-v2-match-none")
    server.answer = lambda asked: Canned.json(metadata if "metadata" in asked.path else body)
    (answer,) = bench.open("gbif", server.base).ask(["Agra una"])
    found = answer.edition.dated
    assert (answer.edition.edition, found and str(found)) == (alias, dated)


@pytest.mark.parametrize("issued", ["", "soon", "2026-13-45"])
def test_checklistbank_without_a_date(bench: Bench, server: LocalServer, issued: str) -> None:
    dataset = CLB_DATASET | {"issued": issued}
    body = constructed("clb-match-none")
    server.answer = lambda asked: Canned.json(dataset if asked.path.endswith("3LXR") else body)
    (answer,) = bench.open("checklistbank", server.base).ask(["Nullus nomen"])
    assert (answer.edition.edition, answer.edition.dated) == ("COL26.6 XR", None)


@pytest.mark.parametrize(
    ("key", "body"),
    [
        ("checklistbank", constructed("clb-match-none")),
        ("gbif", recorded("gbif-v1-usage-no-results")),
        ("inaturalist", recorded("inat-empty-page")),
    ],
)
def test_no_card_of_a_name_that_is_not_known(bench: Bench, server: LocalServer, key: str, body: Any) -> None:
    server.answer = lambda asked: Canned.json(CLB_DATASET if asked.path.endswith("3LXR") else body)
    assert bench.open(key, server.base).about("Nullus nomen") is None


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


def test_spidercatalog_without_a_key(bench: Bench, server: LocalServer) -> None:
    from dataclasses import replace

    service = bench.open("spidercatalog", server.base)
    service = replace(service, desk=replace(service.desk, secret=()))
    (reply,) = service.ask(["Exemplum nava"])
    assert isinstance(reply, Failure)
    assert (reply.kind, reply.why) == (FailureKind.REFUSED, "it needs the keeper's own free key")
    probe = service.probe()
    assert probe is not None
    assert probe.why == reply.why
    assert server.asked == []


def test_spidercatalog_updates_that_fail_are_a_failure(bench: Bench, server: LocalServer) -> None:
    from datetime import date

    server.answer = lambda asked: Canned(status=403)
    reply = bench.open("spidercatalog", server.base).updates(date(2026, 1, 1))
    assert isinstance(reply, Failure)
    assert reply.why == "it refuses this question (HTTP 403)"


@pytest.mark.parametrize(
    "href", ["https://elsewhere.example.org/", "urn:lsid:another:1", "https://wsc.nmbe.ch/api/lsid/"]
)
def test_spidercatalog_never_follows_an_address_from_a_reply(bench: Bench, server: LocalServer, href: str) -> None:
    body = wsc("SYNONYM", "x") | {"validTaxon": {"_href": href}}
    server.answer = lambda asked: Canned.json(body)
    (reply,) = bench.open("spidercatalog", server.base).ask(["Exemplum vetus"])
    assert isinstance(reply, Failure)
    assert len(server.asked) == 1


def test_wikidata_rows_without_a_common_name_are_skipped(bench: Bench, server: LocalServer) -> None:
    body = constructed("wikidata-sparql-taxon")
    row = dict(body["results"]["bindings"][0])
    del row["common"]
    body["results"]["bindings"].insert(0, row)
    server.answer = lambda asked: Canned.json(body)
    assert len(bench.open("wikidata", server.base).ask_common("example tarantula")) == 1
