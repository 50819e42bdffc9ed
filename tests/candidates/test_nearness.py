"""Many listed names compared with a written one at once: the same as one after the other."""

from __future__ import annotations

import random

import pytest

from namekeeper.judging.nearness import WrittenName, close_enough, close_names, epithet_edits
from namekeeper.words.spelling import plain_key
from tests.candidates.misspellings import CLASSES, misspelt
from tests.candidates.starter import starter_names


@pytest.mark.no_cover
@pytest.mark.parametrize("crowd", [3, 30])
def test_many_at_once_as_one_by_one(crowd: int) -> None:
    chance = random.Random(4)
    names = starter_names()
    shown = 0
    for kind in CLASSES:
        name = chance.choice(names)
        asked = misspelt(name, kind, 1, chance) or name
        listed = [*chance.sample(names, 40), *(one for one in names if one.split()[0] == name.split()[0]), name]
        each = {one for one in listed if close_enough(asked, one, crowd)}
        assert close_names(asked, listed, crowd) == each
        assert WrittenName.of(asked).close(map(plain_key, listed), crowd) == {plain_key(one) for one in each}
        shown += len(each)
    assert shown >= len(CLASSES) // 2


def test_no_name_is_near_none() -> None:
    assert close_names("Brachypelma smithi", [], 0) == frozenset()


@pytest.mark.parametrize(
    ("one", "other", "edits"),
    [
        ("smithi", "smithi", 0),
        ("smithi", "smithii", 1),
        ("robustum", "robubustum", 1),  # a syllable written twice
        ("hirsutum", "hirsutus", 1),  # gender ending
        ("modestum", "rnodestum", 1),  # rn for m
        ("phoenix", "fenix", 1),  # letters of Art. 58.1 and 58.9
        ("vagans", "regalis", 4),
    ],
)
def test_edits_of_epithets(one: str, other: str, edits: int) -> None:
    assert epithet_edits(one, other) == epithet_edits(other, one) == edits
