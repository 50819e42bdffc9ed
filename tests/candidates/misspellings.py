"""Misspellings as they really happen, by class, seeded: for measuring, never shown to anyone as real names.

Classes and examples: Rees 2008-2014 (PLoS ONE 9(9): e107510 and the author's posts), Zermoglio, Guralnick & Wieczorek
2016 (PLoS ONE 11(1): e0146894, open data), ICZN Art. 31.2, 33.4, 58. Each function changes one word and returns None
where the word offers no place for that error.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable

Slip = Callable[[str, random.Random], str | None]
_LETTERS = "abcdefghilmnoprstuvxy"
_ENDINGS = (("us", "a"), ("us", "um"), ("a", "us"), ("a", "um"), ("um", "us"), ("um", "a"), ("is", "e"), ("e", "is"))
_CLASSES = (
    ("ae", "e"), ("oe", "e"), ("y", "i"), ("i", "y"), ("k", "c"), ("c", "k"), ("ph", "f"), ("f", "ph"), ("th", "t"),
    ("rh", "r"), ("ch", "c"), ("v", "u"), ("j", "i"), ("ct", "t"), ("ii", "i"),
)  # fmt: skip
_LOOK_ALIKE = (
    ("rn", "m"), ("m", "rn"), ("n", "u"), ("u", "n"), ("m", "n"), ("n", "m"), ("l", "i"), ("i", "l"), ("o", "a"),
    ("a", "o"), ("c", "e"), ("e", "c"), ("q", "g"), ("g", "q"), ("h", "b"), ("v", "r"), ("t", "l"),
)  # fmt: skip
_KEYS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")


def gender_ending(word: str, rng: random.Random) -> str | None:
    fitting = [(a, b) for a, b in _ENDINGS if word.endswith(a) and len(word) > len(a) + 3 and not word.endswith("ae")]
    if not fitting:
        return None
    old, new = rng.choice(fitting)
    return word[: -len(old)] + new


def genitive(word: str, rng: random.Random) -> str | None:
    if word.endswith("ii"):
        return word[:-1]
    if word.endswith("iae"):
        return word[:-3] + "ae"
    if word.endswith("i") and len(word) > 4 and word[-2] not in "aeiou":
        return word + "i"
    return None


def art_58(word: str, rng: random.Random) -> str | None:
    places = [(m.start(), a, b) for a, b in _CLASSES for m in re.finditer(a, word[:-1]) if m.start() > 0]
    doubles = [m.start() for m in re.finditer(r"([bcdfglmnprst])(?!\1)", word[:-1]) if 0 < m.start() < len(word) - 2]
    if places and (not doubles or rng.random() < 0.7):
        place, old, new = rng.choice(places)
        return word[:place] + new + word[place + len(old) :]
    if doubles:
        place = rng.choice(doubles)
        if word[place - 1] == word[place]:
            return word[:place] + word[place + 1 :]
        return word[:place] + word[place] + word[place:]
    return None


def transposed(word: str, rng: random.Random) -> str | None:
    places = [i for i in range(1, len(word) - 1) if word[i] != word[i + 1]]
    if not places:
        return None
    i = rng.choice(places)
    return word[:i] + word[i + 1] + word[i] + word[i + 2 :]


def dropped(word: str, rng: random.Random) -> str | None:
    i = rng.randrange(1, len(word))
    return word[:i] + word[i + 1 :] if len(word) > 4 else None


def doubled(word: str, rng: random.Random) -> str | None:
    i = rng.randrange(1, len(word))
    return word[:i] + word[i] + word[i:]


def added(word: str, rng: random.Random) -> str | None:
    i = rng.randrange(1, len(word) + 1)
    return word[:i] + rng.choice(_LETTERS) + word[i:]


def neighbour_key(word: str, rng: random.Random) -> str | None:
    i = rng.randrange(1, len(word))
    for row in _KEYS:
        at = row.find(word[i])
        if at >= 0:
            other = row[at - 1] if at and (at + 1 == len(row) or rng.random() < 0.5) else row[at + 1]
            return word[:i] + other + word[i + 1 :]
    return None


def look_alike(word: str, rng: random.Random) -> str | None:
    places = [(m.start(), a, b) for a, b in _LOOK_ALIKE for m in re.finditer(a, word) if m.start() > 0]
    if not places:
        return None
    place, old, new = rng.choice(places)
    return word[:place] + new + word[place + len(old) :]


def repeated_syllable(word: str, rng: random.Random) -> str | None:
    places = [m.start() for m in re.finditer("[bcdfglmnprstv][aeiou]", word) if m.start() > 1]
    if not places:
        return None
    i = rng.choice(places)
    return word[: i + 2] + word[i:]


def lost_syllable(word: str, rng: random.Random) -> str | None:
    places = [m.start() for m in re.finditer("[bcdfglmnprstv][aeiou]", word) if 1 < m.start() < len(word) - 3]
    if not places or len(word) < 8:
        return None
    i = rng.choice(places)
    return word[:i] + word[i + 2 :]


def first_letter(word: str, rng: random.Random) -> str | None:
    return rng.choice(_LETTERS.replace(word[0], "")) + word[1:]


CLASSES: dict[str, Slip] = {
    "gender ending": gender_ending,
    "-i/-ii, -ae/-iae": genitive,
    "letter class of Art. 58": art_58,
    "swapped neighbours": transposed,
    "dropped letter": dropped,
    "doubled letter": doubled,
    "added letter": added,
    "neighbouring key": neighbour_key,
    "look-alike letters": look_alike,
    "repeated syllable": repeated_syllable,
    "lost syllable": lost_syllable,
    "first letter": first_letter,
}
_REGULATED = ("gender ending", "-i/-ii, -ae/-iae")  # these only concern the epithet


def misspelt(name: str, kind: str, errors: int, rng: random.Random) -> str | None:
    """``name`` (genus and epithet) with one error of ``kind``, and another of any class where ``errors`` is 2."""
    words = name.lower().split(" ")
    place = len(words) - 1 if kind in _REGULATED or rng.random() < 0.75 else 0
    wrong = CLASSES[kind](words[place], rng)
    if wrong is None:
        return None
    words[place] = wrong
    if errors == 2:
        place = rng.choice((0, 1, 1))
        other = rng.choice([k for k in CLASSES if k not in _REGULATED])
        wrong = CLASSES[other](words[place], rng)
        if wrong is None:
            return None
        words[place] = wrong
    changed = " ".join(words)
    return None if changed == name.lower() else changed.capitalize()
