"""The table of answers in DEVELOPERS.md is that of the code, and every rule of it is used."""

from __future__ import annotations

from pathlib import Path

import pytest

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import CommonName
from namekeeper.judging.answers import TABLE, AnswerRule
from namekeeper.judging.candidates import answer_to
from namekeeper.reading.tag import read_tag
from namekeeper.tasks.lookup import ListNames
from tests.candidates import answer_table
from tests.candidates.fake_list import FakeList

PAGE = Path(__file__).parents[2] / "DEVELOPERS.md"
#: One tag a rule; lists are the starter list, or an empty one that is complete.
TAGS = {
    "L01": "Avicularia sp.",
    "L02": "Aviculariaa sp.",
    "L03": "kein OBT",
    "L05": "Brachypelma klaasi or emilia",
    "L06": "Gottesanbeterin",
    "L07": "Brachypelma hamorii hybrid",
    "L08": "Poecilotheria orchid mantis",
    "L04": "Chaetopelma karlamani scorpion",
    "L10": "Brachypelma klaasi or zzyzxia",
    "L11": "crested orchid mantis",
    "L12": "olive keeled flat rock scorpion",
    "L13": "Brachypelma hamorii",
    "L14": "Brachypelna hamorii",
    "L15": "brachy",
    "L16": "Avicularia",
    "L17": "Hadrurrus",
    "L18": "female 5cm",
    "L20": "Zirpenlaus",
}


def rule_for(tag: str, lists: tuple[NameList, ...], online: tuple[CommonName, ...] = ()) -> AnswerRule:
    return answer_to(read_tag(tag, ListNames(lists)), lists, online=online)[0]


def test_the_page_for_developers_shows_the_table_of_the_code() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert answer_table.MARK in page, "DEVELOPERS.md has lost its table of answers"
    shown = page.split(answer_table.MARK)[1].split(answer_table.END)[0].strip()
    assert shown == answer_table.markdown().split(answer_table.MARK)[1].split(answer_table.END)[0].strip()


def test_rule_ids_are_in_order_and_unique() -> None:
    assert [rule.id for rule in TABLE] == [f"L{number:02}" for number in range(1, len(TABLE) + 1)]


@pytest.mark.parametrize("rule", TAGS)
def test_every_rule_decides_its_tag(lists: tuple[NameList, ...], rule: str) -> None:
    assert rule_for(TAGS[rule], lists).id == rule


def test_a_common_name_of_a_service_alone_is_never_one() -> None:
    known = FakeList.of("Hogna ferox")
    online = (CommonName("blushing wolf", "en", known.taxon("Hogna ferox"), "common", known.edition),)
    assert rule_for("blushing wolf spider", (known,), online).id == "L09"


def test_a_complete_list_says_that_there_is_no_such_name() -> None:
    assert rule_for("Ausia bus Smith, 1900", (FakeList.of("Hogna ferox", complete_for=("Animalia",)),)).id == "L19"
