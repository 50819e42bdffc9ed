"""Bare words, sizes and the order of words: no surer than what they say.

The animals are those of the starter list; that tags are written so is common practice, no source.
"""

from __future__ import annotations

import pytest

from namekeeper.evidence.interfaces import NameList
from namekeeper.reading.areas import lies_within
from namekeeper.reading.vocabulary import ANIMALS, ANY_ANIMAL
from namekeeper.tasks.lookup import look_up
from namekeeper.words.terms import AnswerKind

Lists = tuple[NameList, ...]


def shown(tag: str, lists: Lists) -> tuple[AnswerKind, set[str]]:
    (looked,) = look_up([tag], lists)
    return looked.lookup.answer, {candidate.name for candidate in looked.lookup.candidates}


@pytest.mark.parametrize("tag", ["German", "americana", "tobacco", "Carolina", "panthère", "edible"])
def test_one_word_is_no_short_form_of_a_longer_name(lists: Lists, tag: str) -> None:
    assert shown(tag, lists)[0] is AnswerKind.GUESS


@pytest.mark.parametrize(
    ("tag", "group"),
    [
        ("Vogelspinne groß", "Theraphosidae"),
        ("large cockroach", "Blattodea"),
        ("Fliege klein", "Diptera"),  # no Dorcus parallelipipedus, which a longer name calls small
        ("ゴキブリ 大", "Blattodea"),
    ],
)
def test_a_group_beside_a_size_is_that_group(lists: Lists, tag: str, group: str) -> None:
    assert shown(tag, lists) == (AnswerKind.GENUS, {group})


def test_a_size_before_a_name_may_be_part_of_it(lists: Lists) -> None:
    # The large and the small wax moth are two animals: a size is never left out in silence.
    assert shown("GBB", lists)[0] is AnswerKind.ONE
    assert shown("large GBB", lists)[0] is AnswerKind.GUESS


def test_a_size_does_not_hide_a_name_with_another_group_word(lists: Lists) -> None:
    # Listed is "hissing cockroach".
    assert shown("large hissing roach", lists) == shown("hissing roach", lists)
    assert shown("hissing roach", lists)[0] is AnswerKind.SEVERAL


def test_a_name_in_the_order_written_goes_first(lists: Lists) -> None:
    assert shown("wasp spider", lists) == (AnswerKind.ONE, {"Argiope bruennichi"})
    assert "Argiope bruennichi" not in shown("spider wasp", lists)[1]


@pytest.mark.parametrize("tag", ["tarántula azul", "mygale noire"])
def test_a_group_word_is_no_genus_that_is_out_of_use(lists: Lists, tag: str) -> None:
    assert not {"Tarantula", "Mygale"} & shown(tag, lists)[1]


@pytest.mark.parametrize("tag", ["チリアン・コモン", "チリアン･コモン", "チリアン コモン"])
def test_the_middle_dot_parts_words(lists: Lists, tag: str) -> None:
    assert shown(tag, lists) == (AnswerKind.ONE, {"Grammostola rosea"})


def test_an_introduction_does_not_make_every_place_fit() -> None:
    # Regions after the UN geoscheme (M49).
    assert lies_within("Germany", ["Europe by introduction"])
    assert not lies_within("Thailand", ["Europe by introduction"])
    assert lies_within("Thailand", ["introduced elsewhere"])
    assert lies_within("Algeria", ["North Africa"])


@pytest.mark.parametrize("tag", ["mantis shrimp", "butterfly mantis", "tick spider", "scorpion fly"])
def test_an_order_is_a_guess_beside_a_word_for_other_animals(lists: Lists, tag: str) -> None:
    # Mantis shrimps are Stomatopoda, scorpionflies Mecoptera (Catalogue of Life): neither is on the list.
    assert shown(tag, lists)[0] is AnswerKind.GUESS


def test_a_compound_that_the_list_has_of_a_group_is_that_group(lists: Lists) -> None:
    assert shown("spider wasp", lists) == (AnswerKind.GENUS, {"Hymenoptera"})


def test_no_word_for_an_animal_is_dropped_beside_one_for_a_group(lists: Lists) -> None:
    # Some words for animals are parts of names, too ("crab spider", "dubia roach").
    assert shown("butterfly crab", lists) == (AnswerKind.SEVERAL, {"Brachyura", "Lepidoptera"})
    assert shown("cricket dubia", lists) == (AnswerKind.SEVERAL, {"Gryllidae", "Blaptica dubia"})


def test_a_name_of_a_moth_is_not_only_the_roach_with_its_first_words(lists: Lists) -> None:
    assert "Acherontia atropos" in shown("death's head moth", lists)[1]


def test_a_name_in_small_letters_may_be_a_common_name_of_a_group(lists: Lists) -> None:
    # Spanish for any mantis, too (Multilingual Central Repository).
    assert shown("mantis religiosa", lists) == (AnswerKind.SEVERAL, {"Mantis religiosa", "Mantodea"})
    assert shown("Mantis religiosa", lists) == (AnswerKind.ONE, {"Mantis religiosa"})
    assert shown("musca domestica house fly", lists) == (AnswerKind.ONE, {"Musca domestica"})


def test_a_common_name_that_begins_like_a_scientific_one_is_read_whole(lists: Lists) -> None:
    answer, names = shown("mantis religiosa gigante", lists)
    assert answer is AnswerKind.SEVERAL
    assert {"Hierodula membranacea", "Idolomantis diabolica"} <= names
    assert "Mantis religiosa" not in names


@pytest.mark.parametrize("tag", ["keizerschorpioen", "Kaiserskorpion"])
def test_a_common_name_of_few_species_brings_what_the_trade_meant_by_theirs(lists: Lists, tag: str) -> None:
    # Pandinus roeseli was sold as imperator (misuse.csv names the paper).
    assert {"Pandinus imperator", "Pandinus roeseli"} <= shown(tag, lists)[1]


def test_a_species_is_no_subspecies_spelt_nearly_so(lists: Lists) -> None:
    assert shown("Callibia diana giant", lists) == (AnswerKind.ONE, {"Callibia diana"})


def test_every_word_for_a_group_brings_its_group(lists: Lists) -> None:
    words = [word for taxon, text in ANIMALS.items() if taxon != ANY_ANIMAL for word in text.split("|")]
    tags = [word for word in words if len(word) >= 3 or not word.isascii()]
    assert len(tags) > 250
    kinds = {AnswerKind.GENUS, AnswerKind.SEVERAL}
    assert [tag for tag in tags if shown(tag, lists)[0] not in kinds] == ["T's"]  # one letter says too little
