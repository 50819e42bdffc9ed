"""Who sold or bred an animal is read only behind a word that says so; places, names and all others are left alone.

Signs by language: common practice, no source; the people and shops are invented.
"""

from __future__ import annotations

import pytest

from namekeeper.evidence.interfaces import NameList
from namekeeper.reading import vocabulary as v
from namekeeper.tasks.lookup import look_up
from tests.candidates.test_silence import SPECIES, drawn

Lists = tuple[NameList, ...]
PEOPLE = ("Lindqvist", "Uwe Sonnental", "K. Lindqvist", "Juan Pérez", "Tarantula Barn", "Mygale & Co", "Jungle Jim",
          "Ines von der Aue", "Dr. H. Müller-Lüdenscheidt")  # fmt: skip
SIGNS = [sign for signs in v.SELLER_MARKS.values() for sign in signs.split("|")]
NAMES = [*drawn(SPECIES, 1), "orchid mantis"]


def tags_with(sign: str, told: str) -> list[str]:
    mark = sign if " " in sign else f"{sign}:"
    ways = ("{name} 0.1, {mark} {told}", "{mark} {told}, {name}", "{name} {mark} {told} 5cm")
    return [way.format(name=name, mark=mark, told=told) for name in NAMES for way in ways]


def test_a_seller_is_read_behind_every_sign_and_changes_no_answer(lists: Lists) -> None:
    plain = {looked.tag: looked.lookup for looked in look_up(NAMES, lists)}
    pairs = [(sign, person) for number, sign in enumerate(SIGNS) for person in PEOPLE[number % 3 :: 3]]
    for sign, person in pairs:
        for looked in look_up(tags_with(sign, person), lists):
            (name,) = (name for name in NAMES if name in looked.tag)
            assert looked.reading.seller == person, looked.tag
            assert looked.lookup.answer is plain[name].answer, looked.tag


NO_PERSONS = (
    "Ghana",
    "Minas Gerais",
    "Brachypelma hamorii",
    "B. smithi",
    "orchid mantis",
    "Weibchen",
    "0.1",
    "a friend",
    "",
)


def test_what_is_no_person_is_no_seller(lists: Lists) -> None:
    pairs = [(sign, told) for number, sign in enumerate(SIGNS) for told in NO_PERSONS[number % 3 :: 3]]
    tags = [tag for sign, told in pairs for tag in tags_with(sign, told)]
    assert [looked.tag for looked in look_up(tags, lists) if looked.reading.seller] == []


@pytest.mark.parametrize("tag", ["Brachypelma hamorii von Lindqvist", "Brachypelma hamorii de Juan",
                                 "Brachypelma hamorii from Lindqvist", "Poecilotheria metallica ex Lindqvist",
                                 "Brachypelma hamorii, breeder female", "Brachypelma hamorii leg. Lindqvist 1998",
                                 "mail joe@spider.example Brachypelma hamorii",
                                 "Züchter Brachypelma hamorii"])  # fmt: skip
def test_words_that_may_mean_a_place_or_a_former_name_are_no_sign(lists: Lists, tag: str) -> None:
    (looked,) = look_up([tag], lists)
    assert looked.reading.seller == looked.reading.locality == ""


def test_an_account_is_a_seller(lists: Lists) -> None:
    (looked,) = look_up(["Monocentropus balfouri 0.0.5 @spider.barn £20"], lists)
    assert (looked.reading.seller, looked.reading.price, looked.reading.leftover) == ("@spider.barn", "£20", "")


@pytest.mark.parametrize(
    ("tag", "place"),
    [("Phidippus regius from Florida", "Florida"), ("Brachypelma hamorii from Rio Balsas", "Rio Balsas"),
     ("OBT from Usambara", "Usambara"), ("Avicularia avicularia Fundort Saül", "Saül")],
)  # fmt: skip
def test_a_place_stays_a_place(lists: Lists, tag: str, place: str) -> None:
    (looked,) = look_up([tag], lists)
    assert (looked.reading.locality, looked.reading.seller) == (place, "")
