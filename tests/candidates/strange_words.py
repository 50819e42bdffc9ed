"""Tags on which a strange word stands beside a known common name, or a group word of other animals.

Words: the list ``eff-long`` inside the published package xkcdpass (Electronic Frontier Foundation, CC BY 3.0), drawn by
a fixed seed. Names: common names of the starter list that one species answers to, drawn by the same seed.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from importlib.resources import files

from namekeeper.evidence.interfaces import NameList
from namekeeper.tasks.lookup import look_up
from namekeeper.words.terms import AnswerKind
from tests.candidates.starter import starter_commons

SEED = 20261128
NAMES, WORDS = 75, 10


def dictionary() -> list[str]:
    """English words of plain letters."""
    text = (files("xkcdpass") / "static" / "eff-long").read_text(encoding="utf-8")
    return [word for word in text.split() if word.isalpha()]


def names_of_one_meaning(lists: Sequence[NameList], most: int = NAMES) -> list[str]:
    """Common names of two words and more to which one species answers, by the seed."""
    names = sorted({name for name, taxon in starter_commons() if " " in name and "." not in name and " " in taxon})
    random.Random(SEED).shuffle(names)
    ones = (looked.tag for looked in look_up(names, lists) if looked.lookup.answer is AnswerKind.ONE)
    return [name for name, _ in zip(ones, range(most), strict=False)]


def strange_tags(lists: Sequence[NameList]) -> list[str]:
    """750 tags: ten words for each name, before it and behind it in turn."""
    drawn = random.Random(SEED)
    words = dictionary()
    return [
        f"{word} {name}" if place % 2 else f"{name} {word}"
        for name in names_of_one_meaning(lists)
        for place, word in enumerate(drawn.sample(words, WORDS))
    ]


def answered_one(tags: Sequence[str], lists: Sequence[NameList]) -> list[str]:
    """Tags that get the answer ``one``."""
    return [looked.tag for looked in look_up(tags, lists) if looked.lookup.answer is AnswerKind.ONE]
