"""Similar spelling against the reference: optimal string alignment of rapidfuzz over every name."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rapidfuzz import process
from rapidfuzz.distance import OSA

from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.near import similar_words
from tests.lists.making import bare, written

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it

MakeIndex = Callable[..., IndexList]

_SYLLABLES = (
    "ba",
    "bra",
    "chy",
    "pel",
    "ma",
    "smi",
    "thi",
    "tho",
    "ra",
    "pho",
    "sa",
    "lo",
    "ni",
    "us",
    "a",
    "xen",
    "ko",
)


def invented_names(count: int, seed: int) -> list[str]:
    """Names of few syllables, so that many are near each other: harder than any real list."""
    chance = random.Random(seed)
    found: set[str] = set()
    while len(found) < count:
        words = ["".join(chance.choices(_SYLLABLES, k=chance.randint(1, 4))) for _word in range(2)]
        if min(map(len, words)) > 1:  # Art. 11.8.1, 11.9.1: a name is a word of two letters or more
            found.add(f"{words[0].capitalize()} {words[1]}")
    return sorted(found)


@pytest.fixture(scope="module")
def crowded(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[IndexList, list[str]]]:
    listed = invented_names(1500, seed=6)
    place = written(tmp_path_factory.mktemp("near") / "i", *bare(*listed))
    with closing(IndexList.open(place)) as found:
        yield found, [name.lower() for name in listed]


LETTERS = "abcdefghijklmnopqrstuvwxyz"


@st.composite
def damage(draw: st.DrawFn) -> list[tuple[int, int, str]]:
    """One or two errors: kind, place, letter."""
    one = st.tuples(st.integers(0, 3), st.integers(0, 40), st.sampled_from(LETTERS + " "))
    return draw(st.lists(one, min_size=1, max_size=2))


def damaged(name: str, errors: list[tuple[int, int, str]]) -> str:
    for kind, place, letter in errors:
        at = place % max(len(name), 1)
        name = (
            name[:at] + name[at + 1 :],
            name[:at] + letter + name[at:],
            name[:at] + letter + name[at + 1 :],
            name[:at] + name[at + 1 : at + 2] + name[at : at + 1] + name[at + 2 :],
        )[kind]
    return " ".join(name.split())


@settings(max_examples=400, deadline=None)
@given(number=st.integers(0, 1499), errors=damage())
def test_no_name_is_nearer_than_the_one_given(
    crowded: tuple[IndexList, list[str]], number: int, errors: list[tuple[int, int, str]]
) -> None:
    index, listed = crowded
    asked = damaged(listed[number], errors)
    best = process.extractOne(asked, listed, scorer=OSA.distance)
    first = asked.partition(" ")[0]
    if len(first) < 2 or best is None or best[1] > 2:
        return  # a genus of one letter is an abbreviation
    found = index.similar(asked)
    assert found, (asked, best)
    assert found[0].distance <= best[1], (asked, best, found[0])
    if " " in asked:
        assert found[0].distance == OSA.distance(asked, found[0].statement.subject.name.lower())


@settings(max_examples=200, deadline=None)
@given(number=st.integers(0, 1499), errors=damage())
def test_words_within_one_edit_are_all_found(
    crowded: tuple[IndexList, list[str]], number: int, errors: list[tuple[int, int, str]]
) -> None:
    index, listed = crowded
    genera = sorted({name.partition(" ")[0] for name in listed})
    asked = damaged(listed[number].partition(" ")[0], errors[:1]).replace(" ", "")
    expected = {genus for genus in genera if OSA.distance(asked, genus) <= 1}
    if asked:
        assert {word for word, _ in similar_words(index._database, "genus", asked, 1)} == expected


@settings(max_examples=200, deadline=None)
@given(number=st.integers(0, 1499), errors=damage())
def test_words_within_two_edits_hold_those_within_one(
    crowded: tuple[IndexList, list[str]], number: int, errors: list[tuple[int, int, str]]
) -> None:
    index, listed = crowded
    asked = damaged(listed[number].partition(" ")[0], errors).replace(" ", "")
    one, two = (similar_words(index._database, "genus", asked, most) for most in (1, 2))
    assert set(one) <= set(two)
    assert all(OSA.distance(asked, word) == distance <= 2 for word, distance in two)
    assert two == sorted(two, key=lambda pair: (pair[1], pair[0]))


#: Kinds of error and examples as reported by Rees (posts of 2008-2010) and measured on the vetted names of
#: Zermoglio et al. 2016 (PLoS ONE 11(1): e0146894): transposition, dropped letter, doubled letter, look-alike letters.
REPORTED = [
    ("Tyrranus savana", "Tyrannus savana"),
    ("Dicaem agile", "Dicaeum agile"),
    ("Tarsiger yunnnanensis", "Tarsiger yunnanensis"),
    ("Arborophila pequensis", "Arborophila peguensis"),
    ("Neosarmatium meinerti", "Meosarmatium meinerti"),
    ("Arcopaginula inflata", "Acropaginula inflata"),
]


@pytest.mark.parametrize(("wrong", "right"), REPORTED)
def test_reported_kinds_of_error(wrong: str, right: str, tmp_path: Path, names: MakeIndex) -> None:
    listed = names(tmp_path / "i", right, "Brachypelma smithi", "Aphonopelma chalcodes")
    assert [near.statement.subject.name for near in listed.similar(wrong)] == [right]


@pytest.mark.parametrize(
    ("asked", "distance"),
    [("B. smithy", 1), ("B smitti", 1), ("smithy", 1), ("Brachypelmasmithi", 1), ("Brachypelm asmithi", 1),
     ("Brachy pelma smithi", 1), ("Brachypelmaxsmithi", 1), ("Brachypelma smithi", 0), ("Brahypelma smiti", 2)],
)  # fmt: skip
def test_shortened_and_torn_names(asked: str, distance: int, tmp_path: Path, names: MakeIndex) -> None:
    found = names(tmp_path / "i", "Brachypelma smithi", "Grammostola rosea").similar(asked)
    assert [(near.statement.subject.name, near.distance) for near in found] == [("Brachypelma smithi", distance)]


@pytest.mark.parametrize("asked", ["", " ", ".", "a", "B.", "é", "x" * 5000, "Nullum simile"])
def test_nothing_near_is_no_error(asked: str, tmp_path: Path, names: MakeIndex) -> None:
    assert names(tmp_path / "i", "Brachypelma smithi").similar(asked) == ()


def test_similar_genera_and_common_names(tmp_path: Path, names: MakeIndex) -> None:
    listed = names(tmp_path / "i", "Brachypelma smithi", "Aphonopelma chalcodes")
    assert [(record.genus, distance) for record, distance in listed.similar_genus("Brachipelma")] == [
        ("Brachypelma", 1)
    ]
    assert listed.similar_common("mexcan redkne") == ()
