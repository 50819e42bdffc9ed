"""Text to values: one scientific name, one authorship. Forms that are not plain go to ``name_parsing``."""

from __future__ import annotations

import re
from functools import cache

from namekeeper.words.authorship import Authorship
from namekeeper.words.errors import InputError
from namekeeper.words.names import ScientificName


def parse_name(text: str) -> ScientificName:
    """Read a text that is known to be one scientific name, such as a name in a record or a list.

    :raises InputError: if no scientific name can be read; the message quotes the text.
    """
    from namekeeper.words.name_parsing import read_name

    return read_name(text)


def parse_typed_name(text: str) -> ScientificName:
    """Read a name that a person typed or wrote into a table: what is pasted from a page may hold more than is seen.

    :raises InputError: as :func:`parse_name`, and for markup and signs that are not seen.
    """
    from namekeeper.words.forms import strange_signs

    signs = strange_signs(text)
    if signs:
        plain = "".join(letter if letter.isprintable() else " " for letter in text)
        what = f"'{plain}' holds what stands in no name: {' '.join(signs)}"
        raise InputError(what, remedy="type the name alone, such as Brachypelma hamorii")
    return parse_name(text)


def parse_authorship(text: str) -> Authorship:
    """Read an authorship such as ``(F. O. Pickard-Cambridge, 1897)``; empty text gives an empty value.

    Never fails: what cannot be read stands whole, as one author, in ``authors``.
    """
    stripped = " ".join(text.split())
    if not stripped:
        return Authorship()
    inner, brackets = (stripped[1:-1], True) if _bracketed(stripped) else (stripped, False)
    plain = _plain().fullmatch(inner)
    if plain:
        authors = tuple(re.split(r", | & | and ", plain["authors"]))
        return Authorship(authors, plain["year"], brackets)
    # The reader of all other forms takes long to load, and most names need it never.
    from namekeeper.words.name_parsing import authorship_of

    return authorship_of(stripped) or Authorship((inner,), "", brackets)


@cache
def _plain() -> re.Pattern[str]:
    """Surnames, perhaps of two words, behind initials or a particle, and a year, and nothing else."""
    word = r"[A-ZÀ-ÖØ-ÞŘŠČŽŁŚ][\w'’-]+"
    before = r"(?:(?:[A-Z]\. )+|(?:[Dd]e|[Vv]an|von) )?"
    name = f"{before}{word}(?: (?:(?:de|von) )?{word})?"
    return re.compile(
        rf"(?P<authors>(?:{name}|[A-ZÀ-ÖØ-Þ][\w'’.-]+)(?:(?:, | & | and ){name})*),? (?P<year>(?:1[789]|20)\d\d)"
    )


def _bracketed(text: str) -> bool:
    return text.startswith("(") and text.endswith(")") and ")" not in text[1:-1]
