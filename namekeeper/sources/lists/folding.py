"""Foldings of the index that are no rules of names: common names by words, status words of the standards."""

from __future__ import annotations

import re
from functools import lru_cache

from namekeeper.evidence.statements import NameStatus
from namekeeper.sources.lists.status_words import CODE_STATUS_WORDS, STATUS_WORDS
from namekeeper.words.spelling import PlainKey, plain_key

_SIMPLE = re.compile("[A-Za-z][a-z]*(?: [a-z]+)*", re.ASCII)
_WORDS = re.compile(r"[^\W_]+")


@lru_cache(maxsize=8192)
def folded(text: str) -> PlainKey:
    """Row 1 of a canonical name; the plain case, most of any catalogue, costs no more than ``lower``."""
    return PlainKey(text.lower()) if _SIMPLE.fullmatch(text) else plain_key(text)


def split_name(text: str) -> tuple[str, str]:
    """Genus word and the rest of a canonical name, both folded."""
    genus, _, rest = folded(text).partition(" ")
    return genus, rest


def common_words(text: str) -> tuple[str, ...]:
    """Words of a common name, folded: case, marks, hyphens (two words), possessives and the plural.

    Both sides of a comparison are folded alike, so a word may lose a letter that is no plural; that is harmless.
    """
    # A hyphen parts words here; plain_key joins, as the Code wants it of epithets.
    parted = re.sub(r"(?<=\w)['’]s\b", "", text).replace("-", " ").replace("/", " ")
    return tuple(_singular(word) for word in _WORDS.findall(plain_key(parted)))


def _singular(word: str) -> str:
    if len(word) < 4 or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "sses", "xes")):
        return word[:-2]
    if word.endswith("s"):
        return word[:-1]
    # German: Vogelspinne, Vogelspinnen
    return word[:-1] if word.endswith("nen") else word


@lru_cache(maxsize=1024)
def status_of(word: str) -> NameStatus | None:
    """A status word of Darwin Core, GBIF, ColDP or zoologists' use; None if nobody uses it so."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])|[_.-]+", " ", word.strip())
    return STATUS_WORDS.get(" ".join(plain_key(parted).split()) if parted else "")


def code_status_of(word: str) -> NameStatus | None:
    """What a status by the Code means for a name, where it means that the name is not in force."""
    return CODE_STATUS_WORDS.get(" ".join(re.sub("[_.-]+", " ", word).casefold().split()))
