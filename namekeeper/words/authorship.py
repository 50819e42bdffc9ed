"""Authorship of a name: who, when, in whose work, in brackets or not (Code Art. 51, Rec. 22A, 51A-51E); of a paper."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import NamedTuple

from namekeeper.words.spelling import PlainKey, plain_keys

# Compiled when the first paper is told: most look-ups tell none.
_TO_YEAR = r"(?P<authors>[^;()]*?),? \(?(?P<year>(?:1[789]|20)\d\d[a-z]?)\b\)?"
_INITIALS = r",(?: ?\b[A-ZÀ-Þ]\w{0,2}\.-?)+(?=[ ,&]|$)"


class Authorship(NamedTuple):
    """Authors and year of a name.

    ``authors`` holds one element an author, initials first ("F. O. Pickard-Cambridge"), perhaps "et al." last;
    ``year`` is as printed ("1897", "198?"); ``brackets`` says that the species stands in another genus than its
    first (Art. 51.3); ``later`` is what follows the brackets; ``imprint_year`` a wrong year on the work (Rec. 22A.2).
    """

    authors: tuple[str, ...] = ()
    year: str = ""
    brackets: bool = False
    in_work: str = ""
    later: str = ""
    imprint_year: str = ""

    def __bool__(self) -> bool:
        return bool(self.authors or self.year)

    def __str__(self) -> str:
        """Author, year in the form of the Code's recommendations; brackets as they are."""
        names = [name for name in self.authors if name != _ET_AL]
        joined = ", ".join(names[:-1]) + " & " + names[-1] if len(names) > 1 else "".join(names)
        if _ET_AL in self.authors:
            joined = f"{', '.join(names)} {_ET_AL}"
        if self.in_work:
            joined += f" in {re.sub(r', *[0-9]{4}[a-z]?$', '', self.in_work)}"
        text = f"{joined}, {self.year}" if joined and self.year else joined or self.year
        if self.imprint_year:
            text += f' ["{self.imprint_year}"]'
        text = f"({text})" if self.brackets and text else text
        return f"{text} {self.later}".strip()

    def short(self) -> str:
        """For narrow labels: surnames, three or more as "et al." (Rec. 51C), and the year; brackets kept."""
        names = [_surname(name) for name in self.authors if name != _ET_AL]
        many = len(names) > 2 or (names and _ET_AL in self.authors)
        joined = f"{names[0]} {_ET_AL}" if many else " & ".join(names)
        text = f"{joined}, {self.year}" if joined and self.year else joined or self.year
        return f"({text})" if self.brackets and text else text

    def same_author(self, other: Authorship) -> bool:
        """Whether both credit the same act: authors and year; brackets, initials, marks and "et al." do not count.

        What one side does not say (no year, no authors) cannot contradict the other.
        """
        if self.year and other.year and not _years(self) & _years(other):
            return False
        if self.authors == other.authors:
            return True
        mine, theirs = ([name for name in side.authors if name != _ET_AL] for side in (self, other))
        if not mine or not theirs:
            return True
        if len(mine) != len(theirs) and not {_ET_AL} & {*self.authors, *other.authors}:
            return False
        return all(_same_surname(a, b) for a, b in zip(mine, theirs, strict=False))


_ET_AL = "et al."


@cache
def _initials() -> re.Pattern[str]:
    return re.compile(r"^(?:(?:[A-ZÀ-Þ]\w?\.|[A-ZÀ-Þ]\.-[A-ZÀ-Þ]\.)[ -]?)+")


def _surname(author: str) -> str:
    return _initials().sub("", author).strip() or author


def _years(authorship: Authorship) -> set[str]:
    return set(re.findall(r"\d{3,4}", f"{authorship.year} {authorship.imprint_year}"))


def _same_surname(one: str, other: str) -> bool:
    ours, theirs = _surname(one), _surname(other)
    for short, long in ((ours, theirs), (theirs, ours)):
        # Linn. and Linnaeus
        stem = plain_keys(short.rstrip("."))[0]
        if short.endswith(".") and len(stem) >= 1 and plain_keys(long)[0].startswith(stem):
            return True
    return not _surname_keys(ours).isdisjoint(_surname_keys(theirs))


def _surname_keys(surname: str) -> set[PlainKey]:
    """Keys without marks, and without the generation ("Sowerby II") and particles ("von Wirth", "Wirth")."""
    bare = re.sub(r"\s(?:I{1,3}|[Jj]r\.?|[Ss]r\.?|fils|fil\.)$", "", surname)
    bare = re.sub(r"^(?:von|van|de|da|du|di|del|della|zu|zur|dos|la|le|den|der|ten|ter)\s", "", bare)
    return {*plain_keys(surname), *plain_keys(bare)}


@lru_cache(maxsize=512)
def short_citation(citation: str) -> str:
    """A paper in short: authors without initials, and the year; one without these in front stays as it is.

    >>> short_citation("Mendoza, J. & Francke, O. F. (2020). Systematic revision of Mexican Brachypelma. Zool. J.")
    'Mendoza & Francke 2020'
    """
    found = re.match(_TO_YEAR, citation)
    if found is None or not found["authors"]:
        return citation
    return f"{re.sub(_INITIALS, '', found['authors'])} {found['year']}"
