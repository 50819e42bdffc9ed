"""Which column of a table is meant: by the header the keeper names, or guessed from words that mean a field."""

from __future__ import annotations

import unicodedata
from collections.abc import Collection, Mapping, Sequence


def header_key(header: str) -> str:
    """A header without case, marks, blanks and signs: "Nr." is "nr", "Züchter" is "zuchter", "Sold as" is "soldas"."""
    return "".join(sign for sign in unicodedata.normalize("NFKD", header.casefold()) if sign.isalnum())


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

    ``words`` holds keys by field in the order in which they are tried; a column stands for one field only.
    """
    columns = dict(known)
    keys = [header_key(header) for header in headers]
    for field, names in words.items():
        if field not in columns:
            free = {key: index for index, key in reversed(list(enumerate(keys))) if index not in columns.values()}
            index = next((free[name] for name in names if name in free), None)
            if index is not None:
                columns[field] = index
    return columns


def _trimmed(header: str) -> str:
    return header.strip().casefold()
