"""What the reader of tags knows, handed out for a reader elsewhere: keys of text, phrases, patterns, folded letters."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from typing import NamedTuple, NewType

from namekeeper.reading.amounts import instar_pattern, price_pattern, size_pattern
from namekeeper.reading.counts import NOTATION, TIMES
from namekeeper.reading.doubts import ABOUT_SIGN, NOT_SIGN
from namekeeper.reading.lexicon import Kind, every_phrase
from namekeeper.reading.name_patterns import COMPLEX, OPEN_CROSS
from namekeeper.reading.plain import MARKS, SIGNS, plain_tag
from namekeeper.reading.rest import GENERATION
from namekeeper.reading.vocabulary import ABBREVIATIONS, ORIGINS_CAPITALS
from namekeeper.words.spelling import plain_key

#: Words, numbers and signs of a text, folded each by itself and joined by one blank.
TokenKey = NewType("TokenKey", str)

TOKEN = re.compile(rf"[^\W\d_]+(?:[{MARKS}]+[^\W\d_]*)*(?:'[^\W\d_]+)*|\d+|[♀♂⚥]+")
#: Letters whose folding is more than to drop a mark are looked for here: Latin, Greek, Cyrillic, Latin additional.
_ALPHABETS = (range(0xA0, 0x530), range(0x1E00, 0x1F00))


#: Words that say that the name may not be the animal's.
_DOUBTS = frozenset(
    {
        Kind.QUALIFIER, Kind.HYBRID, Kind.FORM, Kind.OR, Kind.MAYBE, Kind.NEGATION, Kind.LIKENESS, Kind.MANNER,
        Kind.COMPARISON, Kind.UNKNOWN,
    }
)  # fmt: skip
#: Words that say something of the animal and nothing of its name.
_TRAITS = frozenset({Kind.SEX, Kind.STAGE, Kind.SIZE_KIND, Kind.PRICE, Kind.ORIGIN, Kind.COUNT})
#: Words that may fit an animal or not.
_WEIGHED = frozenset({Kind.PLACE, Kind.ANIMAL, Kind.NAME_WORD, Kind.SIZE})


class Handout(NamedTuple):
    """The reader's knowledge as plain data.

    Keys of words of the trade by what they do to an answer: ``heard`` nothing, ``doubts`` make it a guess, ``traits``
    are those heard that speak of the animal alone, ``weighed`` fit an animal or not; ``groups``: the taxon that a word
    for a group of animals means. ``capitals`` are abbreviations that count only as written; ``patterns`` claim what
    carries a number, ``doubting`` ones find what makes an answer a guess; ``signs`` are characters and what they stand
    for; ``letters`` those that fold to something else than themselves without marks; ``kept_marks`` are marks that are
    parts of a letter and stay when others are dropped; ``inner_marks`` (as in a class of a pattern) part no words.
    """

    heard: tuple[TokenKey, ...]
    doubts: tuple[TokenKey, ...]
    traits: tuple[TokenKey, ...]
    weighed: tuple[TokenKey, ...]
    groups: Mapping[TokenKey, str]
    capitals: tuple[str, ...]
    patterns: tuple[re.Pattern[str], ...]
    doubting: tuple[re.Pattern[str], ...]
    signs: Mapping[str, str]
    letters: Mapping[str, str]
    kept_marks: str
    inner_marks: str


def handout() -> Handout:
    """All of it, in a fixed order."""
    phrases = [(kind, value, key) for kind, value, words in every_phrase() if (key := token_key(words))]

    def of(kinds: frozenset[Kind]) -> tuple[TokenKey, ...]:
        return tuple(sorted({key for kind, _value, key in phrases if kind in kinds}))

    return Handout(
        heard=of(frozenset(Kind) - _DOUBTS - _WEIGHED),
        doubts=of(_DOUBTS),
        traits=of(_TRAITS),
        weighed=of(_WEIGHED),
        groups={key: value for kind, value, key in phrases if kind is Kind.ANIMAL},
        capitals=tuple(sorted({*ABBREVIATIONS, *ORIGINS_CAPITALS.split("|")})),
        patterns=(price_pattern(), size_pattern(), NOTATION, instar_pattern(), TIMES, GENERATION),
        doubting=(COMPLEX, OPEN_CROSS, NOT_SIGN, ABOUT_SIGN),
        signs=SIGNS,
        letters=dict(_folded_letters()),
        kept_marks=_kept_marks(),
        inner_marks=MARKS,
    )


def token_key(text: str) -> TokenKey:
    """``B. smithi`` as ``b smithi``: what is left of a text when only its words and numbers count."""
    return TokenKey(" ".join(filter(None, (plain_key(token) for token in TOKEN.findall(plain_tag(text).text)))))


def _folded_letters() -> Iterator[tuple[str, str]]:
    for letters in _ALPHABETS:
        for letter in map(chr, letters):
            folded = plain_key(letter)
            bare = "".join(c for c in unicodedata.normalize("NFKD", letter.lower()) if not unicodedata.combining(c))
            if letter.isalpha() and folded != bare:
                yield letter.lower(), folded


def _kept_marks() -> str:
    """Marks without a combining class into which letters fall apart, as those of Thai."""
    parts = {part for code in range(0xA0, 0x3000) for part in unicodedata.normalize("NFKD", chr(code))}
    return "".join(sorted(c for c in parts if unicodedata.category(c)[0] == "M" and not unicodedata.combining(c)))
