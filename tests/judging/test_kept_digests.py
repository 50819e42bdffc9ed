"""The digest of a verdict, which keepers' files hold with every name they kept, stays what it was.

``data/kept_digests.csv`` was written by the code of commit 6695a3d, the last whose verdicts held sentences; it is never
written anew: a digest that changes opens a kept name again. So that rows of the starter list may change,
``data/list_of_then`` keeps those that these labels need, as they were in that commit.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.evidence.interfaces import NameList
from namekeeper.judging.votes import View
from namekeeper.records.specimen import Collection, NameEntry, Settings, Specimen
from namekeeper.sources.lists.starter import open_starter
from namekeeper.storage.collection_folder import load_collection
from namekeeper.tasks.check import check_collection
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NOWHERE
from tests.judging.scenarios import SCENARIOS
from tests.judging.test_judging_scenarios import EXTRA

TODAY = date(2026, 11, 25)
DATA = Path(__file__).parent / "data"


@pytest.fixture(scope="module")
def then(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[NameList, ...]]:
    """The starter list of that commit, as far as the labels need it."""
    starter = open_starter(DATA / "list_of_then", tmp_path_factory.mktemp("then"), lambda words: None)
    yield (starter,)
    starter.close()


def written(kind: str) -> dict[str, str]:
    with (DATA / "kept_digests.csv").open(encoding="utf-8", newline="") as file:
        return {row["what"]: row["digest"] for row in csv.DictReader(file) if row["kind"] == kind}


def digests(collection: Collection, lists: Sequence[NameList]) -> dict[str, str]:
    report = check_collection(collection, lists, TODAY)
    return {finding.specimen.id: finding.verdict.digest for finding in report.findings}


def test_of_labels_written_by_hand() -> None:
    assert {scenario.title: scenario.judge().digest for scenario in (*SCENARIOS, *EXTRA)} == written("scenario")


def test_of_the_sample_collection(then: tuple[NameList, ...]) -> None:
    sample = load_collection(resources.sample_collection(), TODAY)
    found = digests(sample, then)
    assert {identifier: found.get(identifier) for identifier in written("sample")} == written("sample")


@pytest.mark.parametrize("what", written("label"))
def test_of_a_label(what: str, then: tuple[NameList, ...]) -> None:
    name, qualifier, since = what.split("|")
    entry = NameEntry(name, "", PartialDate.parse(since) if since else None, qualifier=qualifier)
    one = Collection("", Settings(), (Specimen("A", NOWHERE, names=(entry,)),), ())
    assert digests(one, then) == {"A": written("label")[what]}


def test_views_keep_their_words() -> None:
    """They are hashed."""
    assert [view.value for view in View] == [
        "one name in force", "several names in force", "no name in force", "no available name",
        "used for another species", "contradicts itself", "no usable answer",
    ]  # fmt: skip
