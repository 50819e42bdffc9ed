"""Whether a word of a tag looks like a genus or an epithet; lists decide where they know."""

from __future__ import annotations

from namekeeper.reading.draft import TagWord
from namekeeper.reading.lexicon import Kind, KnownNames, kinds_of
from namekeeper.reading.vocabulary import ABBREVIATIONS

# Endings of Latin and latinized nouns, adjectives and genitives (Latin grammar; no list of the Code).
_EPITHET = ("us", "a", "um", "is", "i", "ae", "orum", "arum", "ens", "ans", "or", "ceps", "es", "os", "x", "ense")
_GENUS = ("us", "a", "um", "is", "es", "os", "as", "ys", "on", "ax", "ix", "yx", "ops", "e", "u", "tl")
_LOOSE_EPITHET = tuple("aeiouysxrmn")
_BLOCKING = frozenset(Kind) - {Kind.PLACE_MARK}
#: Words of these kinds stand as epithets too ("B. dubia", "M. rhinoceros") where a list has them
_ALSO_EPITHETS = frozenset({Kind.NAME_WORD, Kind.PLACE, Kind.ANIMAL, Kind.CONDITION, Kind.SIZE})
_EPITHETS_LIKE_TRADE_WORDS = frozenset({"para", "mas", "regina", "gigas", "atlas", "macho"})


def is_blocked(key: str) -> bool:
    """Whether the word means something else in the trade or in common names."""
    return bool(kinds_of(key) & _BLOCKING)


def _is_one_word(word: TagWord) -> bool:
    """Latin letters, with capitals at the start, behind an apostrophe (``o'Harai``) or throughout."""
    if not (word.key.isascii() and word.key.isalpha()):
        return False
    text = word.text
    return text[1:].islower() or text.isupper() or all(p.istitle() or p.islower() for p in text.split("'"))


def could_be_genus(word: TagWord) -> bool:
    """By form alone: no word of the trade, and a Latin ending; a short one only with a capital of its own."""
    if not _is_one_word(word):
        return False
    if len(word.key) in (3, 4):
        return word.text.istitle() and not is_blocked(word.key)
    return len(word.key) >= 5 and word.key.endswith(_GENUS) and not is_blocked(word.key)


def could_be_epithet(word: TagWord, genus: str, names: KnownNames, *, firm: bool, short: bool = False) -> bool:
    """Whether ``word`` behind ``genus`` is an epithet; ``firm``: the genus is known, ``short``: it is abbreviated."""
    key = word.key
    if len(key) < 2 or word.text in ABBREVIATIONS or not _is_one_word(word):
        return False
    if not short and names.is_name(f"{genus} {key}"):
        return True
    if word.text.istitle() and names.is_genus(word.text):
        return False
    if short and key in _EPITHETS_LIKE_TRADE_WORDS:
        return True
    if short and firm and kinds_of(key) <= _ALSO_EPITHETS and len(key) > 3 and names.is_epithet(key):
        return True
    if len(key) < 3 or is_blocked(key):
        return False
    if key.endswith(_EPITHET):
        return len(key) >= 4 or firm
    if not firm:
        return False
    return word.text.islower() or key.endswith(_LOOSE_EPITHET)
