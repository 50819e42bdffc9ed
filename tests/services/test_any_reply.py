"""Whatever JSON a service sends: its readers give a value or say what is wrong, and raise nothing else."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.evidence.statements import Edition, Failure, Statement, TaxonName
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.replies import WebReply
from namekeeper.sources.services import (
    checklistbank_replies,
    gbif_replies,
    inaturalist_replies,
    itis,
    spidercatalog,
    wikidata,
)
from namekeeper.sources.services.registry import KEYS, SERVICES
from namekeeper.sources.services.service import CommonNameService, DetailService, NameService
from namekeeper.sources.services.weighing import Found, Group, weigh
from tests.services.conftest import Bench, FakeTime, constructed, recorded
from tests.services.good import gbif as good_gbif
from tests.services.good.itis import HIERARCHY
from tests.services.good_replies import good
from tests.services.local_server import Asked

ENCODINGS = {kind.profile.key: kind.profile.encoding for kind in SERVICES}
#: How a fault of a reply begins: a shape that nobody knows, or a shape that is right around what is no answer.
UNUSABLE = ("its reply has another shape: reply", "its reply cannot be used: it ")
TAXON = TaxonName("Exemplum vulgare")
ASKED = "Exemplum vulgare"


def weighed(found: Iterable[Found]) -> list[Statement]:
    edition = Edition("source", "title", "upstream")
    return [weigh(one, ASKED, Group(), edition) for one in found]


def read_inaturalist(body: object) -> list[Statement]:
    """All of the way from a page to statements, as if every name had been asked."""
    hits = inaturalist_replies.read_page(body)
    known = {hit.taxon.identifier or "": hit for hit in hits}
    return weighed([inaturalist_replies.opinion(hit, known) for hit in hits])


READERS: dict[str, tuple[Callable[[object], object], Any]] = {
    "clb match": (
        lambda body: weighed(checklistbank_replies.read_match(body, "Anergates atratulus").found),
        recorded("clb-match-synonym-genus-transfer"),
    ),
    "clb search": (checklistbank_replies.read_search, recorded("clb-2020-nameusage-search")),
    "clb synonyms": (
        lambda body: tuple(checklistbank_replies.read_synonyms(body, TAXON)),
        constructed("clb-taxon-synonyms"),
    ),
    "clb vernacular": (
        lambda body: checklistbank_replies.read_vernacular(body, TAXON),
        constructed("clb-vernacular-search"),
    ),
    "clb distribution": (checklistbank_replies.read_distribution, constructed("clb-taxon-distribution")),
    "gbif match": (
        lambda body: weighed(gbif_replies.read_match(body, "Anastrophyllum minutum").found),
        recorded("gbif-v2-match-synonym-genus-transfer"),
    ),
    "gbif spelling": (gbif_replies.spelt_in, recorded("gbif-v2-match-exact-authorship-atomised")),
    "gbif release": (gbif_replies.read_release, good_gbif.METADATA),
    "inat page": (read_inaturalist, recorded("inat-taxa-all-names")),
    "inat taxon": (inaturalist_replies.read_page, recorded("inat-taxon-by-id")),
    "itis search": (itis.read_common_names, recorded("itis-search-common")),
    "itis record": (itis.read_record, recorded("itis-full-record-lsid")),
    "itis hierarchy": (itis.read_hierarchy, HIERARCHY),
    "wikidata": (wikidata.read_bindings, constructed("wikidata-sparql-taxon")),
    "wsc updates": (spidercatalog.read_updates, constructed("wsc-updates-page")),
    "wsc entry": (
        lambda body: spidercatalog.read_entry(body, "urn:lsid:nmbe.ch:spidersp:000000"),
        constructed("wsc-lsid-homonym-replaced"),
    ),
}

JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


def places(document: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The path of every value in a document."""
    found = [path]
    if isinstance(document, dict):
        found += [place for key, value in document.items() for place in places(value, (*path, key))]
    elif isinstance(document, list):
        found += [place for number, value in enumerate(document) for place in places(value, (*path, number))]
    return found


def changed(document: Any, path: tuple[Any, ...], value: Any) -> Any:
    """The document with another value at one place."""
    if not path:
        return value
    head, *rest = path
    copy = dict(document) if isinstance(document, dict) else list(document)
    copy[head] = changed(document[head], tuple(rest), value)
    return copy


def shape_fault(read: Callable[[object], object], body: object) -> bool | None:
    """None if the body could be read; else whether the fault tells of a shape. Any other error fails the test."""
    try:
        read(body)
    except UnansweredError as fault:
        return fault.why.startswith(UNUSABLE)
    return None


@pytest.mark.parametrize("reader", READERS)
def test_the_body_itself_is_read(reader: str) -> None:
    read, body = READERS[reader]
    assert read(body)


@pytest.mark.parametrize("reader", READERS)
@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_one_value_changed_to_anything(reader: str, data: st.DataObject) -> None:
    read, body = READERS[reader]
    path = data.draw(st.sampled_from(places(body)))
    assert shape_fault(read, changed(body, path, data.draw(JSON))) in (None, True)


@pytest.mark.parametrize("key", KEYS)
@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_one_value_of_a_good_reply_changed_to_anything(key: str, data: st.DataObject) -> None:
    """All of the way from a question to what the service says; the place drawn is that of one of its replies."""
    changes = st.none() | st.tuples(st.integers(0, 10_000), JSON)

    def send(question: WebQuestion, body: object = None, *others: object) -> WebReply:
        asked = Asked("GET" if body is None else "POST", f"/{question.path}", dict(question.params), body, {})
        document = json.loads(good(key, asked).body.decode(ENCODINGS[key]))
        change = data.draw(changes)
        if change is None:
            return WebReply(document)
        paths = places(document)
        return WebReply(changed(document, paths[change[0] % len(paths)], change[1]))

    with TemporaryDirectory() as folder:
        service = Bench(Path(folder), FakeTime()).open(key, "http://127.0.0.1:9")
        service.desk.http.send = send
        for said in everything(service):
            if isinstance(said, Failure):
                assert said.why.startswith(UNUSABLE), said


def everything(service: Any) -> list[object]:
    """What a service says to every kind of question that it is fit for."""
    said: list[object] = []
    if isinstance(service, NameService):
        said += service.ask([ASKED, "Exemplum rarum"])
    if isinstance(service, CommonNameService):
        said.append(service.ask_common("example tarantula"))
    if isinstance(service, DetailService):
        said.append(service.about(ASKED))
    assert said
    return said


@pytest.mark.parametrize("reader", READERS)
@given(body=JSON)
@settings(max_examples=40, deadline=None)
def test_anything_at_all(reader: str, body: Any) -> None:
    read, _ = READERS[reader]
    assert shape_fault(read, body) in (None, True)
