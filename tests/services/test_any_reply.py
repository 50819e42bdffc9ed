"""Whatever JSON a service sends: its readers give a value or say what is wrong, and raise nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.evidence.statements import Edition, Statement, TaxonName
from namekeeper.sources.faults import UnansweredError
from namekeeper.sources.services import checklistbank_replies, gbif_replies, inaturalist_replies, itis, wikidata
from namekeeper.sources.services import spidercatalog_replies as spiders
from namekeeper.sources.services.weighing import Found, Group, weigh
from tests.services.conftest import constructed, recorded
from tests.services.good_replies import GBIF_METADATA, ITIS_HIERARCHY

TAXON = TaxonName("Exemplum vulgare")
ASKED = "Exemplum vulgare"
# No native area is among the recorded ones: one is added by hand.
DISTRIBUTIONS = recorded("gbif-v1-distributions")
DISTRIBUTIONS["results"].append({"locality": "Mexico", "establishmentMeans": "NATIVE"})


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
        lambda body: weighed(checklistbank_replies.read_match(body)),
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
        lambda body: weighed(gbif_replies.read_match(body).found),
        recorded("gbif-v2-match-synonym-genus-transfer"),
    ),
    "gbif alias": (gbif_replies.read_alias, GBIF_METADATA),
    "gbif usages": (gbif_replies.read_usages, recorded("gbif-v1-synonyms-homotypic")),
    "gbif vernaculars": (
        lambda body: gbif_replies.read_vernaculars(body, TAXON),
        recorded("gbif-v1-vernacularnames"),
    ),
    "gbif distributions": (gbif_replies.read_distributions, DISTRIBUTIONS),
    "inat page": (read_inaturalist, recorded("inat-taxa-all-names")),
    "inat taxon": (inaturalist_replies.read_page, recorded("inat-taxon-by-id")),
    "itis search": (itis.read_common_names, recorded("itis-search-common")),
    "itis record": (itis.read_record, recorded("itis-full-record-lsid")),
    "itis hierarchy": (itis.read_hierarchy, ITIS_HIERARCHY),
    "wikidata": (wikidata.read_bindings, constructed("wikidata-sparql-taxon")),
    "wsc entry": (spiders.read_entry, constructed("wsc-lsid-homonym-replaced")),
    "wsc updates": (spiders.read_updates, constructed("wsc-updates-page")),
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
        return fault.why.startswith("its reply has another shape: reply")
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


@pytest.mark.parametrize("reader", READERS)
@given(body=JSON)
@settings(max_examples=40, deadline=None)
def test_anything_at_all(reader: str, body: Any) -> None:
    read, _ = READERS[reader]
    assert shape_fault(read, body) in (None, True)
