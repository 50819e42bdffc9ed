"""A name from its parts, as tables give them: genus, subgenus, epithets, author and year in columns of their own."""

from __future__ import annotations

from typing import NamedTuple

#: What tables write where nothing is known (common practice; "\\N" is that of database dumps).
NOTHING = frozenset({"na", "n/a", "null", "none", "-", "--", "\\n", "nan", "."})
_TRUE = frozenset({"1", "true", "yes", "y", "t"})


class NameParts(NamedTuple):
    """Cells of one row, empty where the table has no such column.

    ``genus`` is the genus word of the name; ``brackets`` says in a word whether the authorship stands in brackets.
    """

    genus: str = ""
    subgenus: str = ""
    epithet: str = ""
    infraspecific: str = ""
    author: str = ""
    year: str = ""
    brackets: str = ""


def whole_name(name: str, parts: NameParts) -> str:
    """The name as text: as it stands, or put together where it is empty or lacks the genus that stands beside it.

    A word in lower case beside a genus is an epithet, never a name (the Code, Art. 28); an epithet's column may hold
    the whole name.
    """
    given, genus = _said(name), _said(parts.genus)
    if not genus:
        return given
    if not given or given.casefold() == genus.casefold():
        return _composed(genus, parts) or given
    if given[0].islower() and genus[0].isupper():
        return _composed(genus, parts._replace(epithet=given))
    return given


def whole_authorship(authorship: str, parts: NameParts) -> str:
    """The authorship as it stands, else from author, year and the sign for brackets."""
    given = _said(authorship) or ", ".join(filter(None, (_said(parts.author), _said(parts.year))))
    if given and parts.brackets.strip().casefold() in _TRUE and not given.startswith("("):
        return f"({given})"
    return given


def _composed(genus: str, parts: NameParts) -> str:
    epithet, below, subgenus = _said(parts.epithet), _said(parts.infraspecific), _said(parts.subgenus).strip("()")
    words = epithet.split()
    if len(words) > 1 and (words[0] == genus or _begins_name(words)):
        return epithet  # the whole name, genus and all
    if len(words) > 1 and _shortens(words[0], genus):
        epithet = " ".join(words[1:])
    if not epithet:
        return genus
    if below and below.casefold().startswith(f"{epithet.casefold()} "):
        below = below[len(epithet) :].strip()  # "avicularia variegata" in the column of subspecies
    between = f"({subgenus})" if subgenus.isalpha() and subgenus.casefold() != genus.casefold() else ""
    return " ".join(filter(None, (genus, between, epithet, below)))


def _begins_name(words: list[str]) -> bool:
    return words[0].isalpha() and words[0][0].isupper() and len(words[0]) > 1 and words[1][:1].islower()


def _shortens(word: str, genus: str) -> bool:
    return word.endswith(".") and genus.casefold().startswith(word[:-1].casefold()) and word[0].isupper()


def _said(cell: str) -> str:
    text = " ".join(cell.split())
    return "" if text.casefold() in NOTHING else text
