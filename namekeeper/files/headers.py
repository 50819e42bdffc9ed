"""Which column of a table is meant: by the header the keeper names, or guessed from words that mean a field.

The words are data (``header_words``), the same for lists, imports and tables.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import cache

from namekeeper.files.header_words import HEADER_WORDS

#: Letters with a stroke are no letter and mark in Unicode, but are typed as if they were.
_STROKES = str.maketrans({"ł": "l", "ø": "o", "đ": "d", "ı": "i"})
_SIGNS = str.maketrans({"♂": " males ", "♀": " females "})
_BESIDE = re.compile(
    r"\([^()]*\)|\[[^\[\]]*\]|(?:\s(?:in|en|w)\s)?\s*(?:€|£|\$|\bcm\b|\bmm\b|\bEUR\b|\bUSD\b|\bPLN\b)\s*$", re.I
)
#: Words that name a genus in one sentence and the sex in another.
_GENUS_OR_SEX = frozenset({"genre", "genero"})


def header_key(header: str) -> str:
    """A header without case, marks, blanks and signs: "Nr." is "nr", "Züchter" is "zuchter", "Sold as" is "soldas"."""
    plain = unicodedata.normalize("NFKD", header.translate(_SIGNS).casefold().translate(_STROKES))
    return "".join(sign for sign in plain if sign.isalnum())


def _header_keys(header: str) -> Iterator[str]:
    """The keys under which a header may be known, surest first.

    As it stands; without a prefix ("dwc:sex") or as the end of an IRI; without what stands in brackets, and without a
    unit ("Größe (cm)", "Preis in €").
    """
    yield header_key(header)
    bare = header.strip()
    if re.match(r"https?://", bare):
        bare = re.split(r"[/#]", bare.rstrip("/#"))[-1]
        yield header_key(bare)
    elif ":" in bare.rstrip(":"):
        bare = bare.rpartition(":")[2]
        yield header_key(bare)
    if key := header_key(_BESIDE.sub("", bare)):
        yield key


def column_named(headers: Sequence[str], wanted: str) -> int | None:
    """Index of the column of that header: exactly so, else ignoring case and outer blanks, else by its key."""
    if wanted in headers:
        return headers.index(wanted)
    for spelt in (_trimmed, header_key):
        spellings = [spelt(header) for header in headers]
        if spelt(wanted) and spelt(wanted) in spellings:
            return spellings.index(spelt(wanted))
    return None


def columns_guessed(
    headers: Sequence[str], words: Mapping[str, Collection[str]], known: Mapping[str, int]
) -> dict[str, int]:
    """Fields with their columns (from 0): those ``known``, and for each other field the first of its words found.

    ``words`` holds words by field in the order in which they are tried; a column stands for one field only.
    """
    columns = dict(known)
    keyed: dict[str, list[int]] = {}
    for rank in range(3):
        for index, header in enumerate(headers):
            keys = list(_header_keys(header))
            if rank < len(keys) and keys[rank]:
                keyed.setdefault(keys[rank], []).append(index)
    for field, names in words.items():
        if field not in columns:
            taken = set(columns.values())
            found = (index for name in names for index in keyed.get(_key_of(name), ()) if index not in taken)
            if (first := next(found, None)) is not None:
                columns[field] = first
    return columns


def columns_understood(
    headers: Sequence[str], meanings: Mapping[str, Sequence[str]], known: Mapping[str, int]
) -> dict[str, int]:
    """Columns (from 0) by the fields of a command, whose meanings are keys of ``HEADER_WORDS``, first one first.

    A column of species holds epithets where there is one of genera, else names; what may hold a name ("Tier") is taken
    for one only if nothing better is there.
    """
    words = {field: tuple(word for one in fits for word in HEADER_WORDS[one]) for field, fits in meanings.items()}
    words |= {meaning: HEADER_WORDS[meaning] for meaning in ("species", "any name")}
    columns = columns_guessed(headers, words, known)
    species, fallback = columns.pop("species", None), columns.pop("any name", None)
    if species is not None:
        columns.setdefault("epithet" if "genus" in columns and "genus" in meanings else "name", species)
    genus = columns.get("genus")
    if genus is not None and genus not in known.values() and "epithet" not in columns:
        _genus_alone(columns, headers[genus], meanings)
    if fallback is not None and "epithet" not in columns:
        columns.setdefault("name", fallback)
    return columns


def is_known_word(header: str) -> bool:
    """Whether a cell is a word by which some table calls a column."""
    return any(key in _all_keys() for key in _header_keys(header) if key)


def _genus_alone(columns: dict[str, int], header: str, meanings: Mapping[str, Sequence[str]]) -> None:
    """A column of genera with no epithets beside it: the sex in another language, or all there is of a name."""
    if header_key(header) in _GENUS_OR_SEX:
        index = columns.pop("genus")
        if "sex" in meanings:
            columns.setdefault("sex", index)


@cache
def _all_keys() -> frozenset[str]:
    return frozenset(_key_of(word) for meaning, words in HEADER_WORDS.items() if meaning != "total" for word in words)


@cache
def _key_of(word: str) -> str:
    return header_key(word)


def _trimmed(header: str) -> str:
    return header.strip().casefold()
