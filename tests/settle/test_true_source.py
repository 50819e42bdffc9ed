"""The source that the history names for a taken name is one that gives it, never one that doubts or denies it."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from namekeeper.evidence.statements import Edition, Failure, FailureKind, NameStatus
from namekeeper.evidence.verdicts import Said, Silence
from namekeeper.records.specimen import Collection, NameEntry, Settings
from namekeeper.tasks.settle import plan
from namekeeper.tasks.settle_orders import Orders
from tests.conftest import Outcome
from tests.settle.findings import entry, finding, specimen, statement, verdict

Command = Callable[..., Outcome]
MINE = Edition("mine", "mine", "mine", "2025", licence="CC0")
TRUE = Said(statement("Tliltocatl vagans", Edition("true", "true", "true", "2024", licence="CC0")))
NEW = "Tliltocatl vagans"


@pytest.mark.parametrize(
    "first",
    [
        Said(statement("", MINE, NameStatus.DOUBTFUL, subject=NEW)),
        Said(statement(NEW, MINE, NameStatus.DOUBTFUL)),
        Said(statement(NEW, MINE, NameStatus.UNAVAILABLE, subject=NEW)),
        Said(statement("Brachypelma vagans", MINE, subject=NEW)),
        Said(statement("", MINE, subject=NEW)),
        Said(statement("Tliltocatl vagans minor", MINE)),
        Said(statement(NEW, MINE)._replace(fault="its chain is a circle")),
        Said(statement(NEW, MINE), lagging=True),
        Said(Silence(MINE, NEW)),
        Said(Failure(MINE, NEW, FailureKind.BROKEN, f"no index for {NEW}")),
    ],
    ids=[
        "doubts it", "doubts the old name", "calls it unavailable", "sends it back", "leads nowhere", "a longer name",
        "cannot be followed", "lags", "is silent on it", "could not be asked",
    ],
)  # fmt: skip
def test_who_does_not_give_the_name_is_passed_over(first: Said) -> None:
    found = finding(specimen("A1", entry()), replace(verdict(safe=True), statements=(first, TRUE)))
    everyone = Collection("", Settings(), (found.specimen,), ())
    (change,) = plan(everyone, [found], Orders(take_safe=True), (), date(2026, 11, 25))
    assert change.insertion is not None
    assert isinstance(change.insertion.entry, NameEntry)
    assert change.insertion.entry.source == "true 2024"
    (alone,) = plan(
        everyone,
        [replace(found, verdict=replace(found.verdict, statements=(first,)))],
        Orders(take_safe=True),
        (),
        date(2026, 11, 25),
    )
    assert alone.insertion is not None
    assert isinstance(alone.insertion.entry, NameEntry)
    assert (alone.insertion.entry.source, alone.insertion.entry.retrieved) == ("", "")


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    """One label of 2014 that moved in 2020 (Mendoza & Francke 2020, Zool. J. Linn. Soc. 188(1): 82-147)."""
    folder = tmp_path / "animals" / "specimens"
    folder.mkdir(parents=True)
    (folder / "A.yaml").write_text(
        "tag: x\nnames:\n- name: Brachypelma vagans\n  authorship: (Ausserer, 1875)\n  since: 2014-05-03\n"
    )
    return folder / "A.yaml"


@pytest.mark.parametrize(
    ("row", "order"),
    [
        ('Tliltocatl vagans,"(Ausserer, 1875)",doubtful,\n', ""),
        ('Tliltocatl vagans,"(Ausserer, 1875)",doubtful,\n', "trust_order: [mine, starter]\n"),
        ('Tliltocatl vagans,"(Ausserer, 1875)",doubtful,\n', "trust_order: [starter, mine]\n"),
        ('Tliltocatl vagans,"(Ausserer, 1875)",nomen nudum,\n', ""),
        (
            'Tliltocatl vagans,"(Ausserer, 1875)",synonym,Aus vagans\nAus vagans,"(Ausserer, 1875)",accepted,\n',
            "trust_order: [starter, mine]\n",
        ),
    ],
    ids=["any list", "trusted above the starter list", "trusted below it", "not available", "sent elsewhere"],
)
def test_a_list_against_the_new_name(command: Command, animals: Path, row: str, order: str) -> None:
    before = animals.read_text(encoding="utf-8")
    (animals.parent.parent / "collection.yaml").write_text(order)
    (safe,) = json.loads(command("check", "animals", "--offline", "--json").out)["results"]
    assert safe["safe"] is True
    (animals.parent.parent.parent / "mine.csv").write_text(f"name,authorship,status,accepted_name\n{row}")
    added = command("lists", "add", "mine.csv", "--as", "mine", "--edition", "2025", "--licence", "CC0-1.0")
    assert added.code == 0, added.err
    (found,) = json.loads(command("check", "animals", "--offline", "--json").out)["results"]
    assert (found["standing"], found["proposed"]["name"], found["safe"]) == ("moved", NEW, False)
    assert any(words.startswith("not to be taken unseen: ") and NEW in words for words in found["why"])
    command("settle", "animals", "--offline", "--take-safe", "--write")
    assert animals.read_text(encoding="utf-8") == before
    assert command("settle", "animals", "--offline", "--take", f"A={NEW}", "--write").code in (0, 1)
    entries = json.loads(command("history", "animals", "A", "--json").out)["specimens"][0]["entries"]
    taken = entries[-1]
    assert (taken["name"], taken["according_to"]) == (NEW, "Mendoza & Francke 2020")
    assert (taken["source"].split()[0], taken["licence"]) == ("starter", "CC0-1.0")
    assert taken["link"].startswith("https://doi.org/")
