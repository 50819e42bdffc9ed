"""What the reader of tags knows, handed out for a reader elsewhere: keys of text, phrases, patterns, folded letters."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from typing import NamedTuple, NewType

from namekeeper.reading.amounts import instar_pattern, price_pattern, size_pattern
from namekeeper.reading.counts import NOTATION, TIMES
from namekeeper.reading.lexicon import Kind, every_phrase
from namekeeper.reading.plain import SIGNS, plain_tag
from namekeeper.reading.vocabulary import ABBREVIATIONS, ORIGINS_CAPITALS
from namekeeper.words.spelling import plain_key

#: Words, numbers and signs of a text, folded each by itself and joined by one blank.
TokenKey = NewType("TokenKey", str)

TOKEN = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*|\d+|[♀♂⚥]+")
#: Letters whose folding is more than to drop a mark are looked for here: Latin, Greek, Cyrillic, Latin additional.
_ALPHABETS = (range(0xA0, 0x530), range(0x1E00, 0x1F00))


class TradePhrase(NamedTuple):
    """Words of the lexicon; ``value`` is what they stand for, for a group of animals its taxon."""

    key: TokenKey
    kind: Kind
    value: str


class Handout(NamedTuple):
    """The reader's knowledge as plain data.

    ``capitals`` are abbreviations that count only as written; ``patterns`` claim what carries a number; ``signs`` are
    characters and what they stand for; ``letters`` those that fold to something else than themselves without marks;
    ``kept_marks`` are marks that are parts of a letter and stay when all others are dropped.
    """

    phrases: tuple[TradePhrase, ...]
    capitals: tuple[str, ...]
    patterns: tuple[re.Pattern[str], ...]
    signs: Mapping[str, str]
    letters: Mapping[str, str]
    kept_marks: str


def handout() -> Handout:
    """All of it, in a fixed order."""
    phrases = {TradePhrase(key, kind, value) for kind, value, words in every_phrase() if (key := token_key(words))}
    return Handout(
        tuple(sorted(phrases)),
        tuple(sorted({*ABBREVIATIONS, *ORIGINS_CAPITALS.split("|")})),
        (
            price_pattern(),
            size_pattern(),
            NOTATION,
            instar_pattern(),
            TIMES,
            re.compile(r"(?<![\w.])F ?[0-9](?![\w.,])"),
        ),
        SIGNS,
        dict(_folded_letters()),
        _kept_marks(),
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
