"""Patterns for what stands inside and beside a scientific name on a tag; the rare ones are compiled when needed."""

from __future__ import annotations

import re
from functools import cache

_SIGN = r"(?:cf|aff|nr|near|prox|ex gr|gr|confer)"
#: Between genus and epithet: a quotation mark, a query, a qualifier, the genus once more ("cf. T. lepturus")
BETWEEN = re.compile(
    rf" ?(?P<quote>\")? ?(?P<doubt>\?)? ?(?:(?P<sign>{_SIGN})(?![^\W\d_])\.? ?(?:[A-Z][a-z]{{0,3}}\. ?)?)?", re.I
)
#: Behind the whole name: ``B. boehmei cf.``; "nr" would be a number
TRAILING = re.compile(r" ?\(?(?P<sign>cf|aff)(?![^\W\d_])\.?\)?(?! ?[^\W\d_]{2})", re.I)
#: A species cut to its initial before its subspecies: ``Lucanus c. cervus``
INITIAL = re.compile(r" (?P<initial>[a-z])\.? ?(?=[a-z]{3})")
SUBGENUS = re.compile(r" ?\((?P<word>[A-Za-z][a-z]{3,})\) ?(?=[A-Za-z])")
RANK = re.compile(r" (?:ssp|subsp|var|f)(?![^\W\d_])\.? ?")
CROSS = re.compile(r" ?(?:×| x | X ) ?")
#: A cross whose other parent is not named: ``boehmei x sp.``, ``boehmei x``
OPEN_CROSS = re.compile(r" ?(?:×| [xX]) ?(?:spp?(?![^\W\d_])\.?|\?+|$)|[ -]cross(?:ed)?(?!\w)", re.I)
DOUBT = re.compile(r" ?\(?\?+\)?")
COMPLEX = re.compile(
    r"(?: (?:complex|komplex|agg\.?|species group|sensu lato|s\. ?l\.)|-(?:complex|komplex|group|gruppe|groupe))(?!\w)",
    re.I,
)

_FORMER = frozenset(
    (
        "ex", "formerly", "früher", "ehemals", "ehem", "olim", "syn", "synonym", "fka", "vormals", "antes", "dříve",
        "anciennement", "dawniej", "vroeger", "was", "prev", "previously",
    )
)  # fmt: skip
_SIGNS_BEFORE = {"cf": "cf.", "aff": "aff.", "nr": "nr.", "near": "nr."}


def former_mark(before: str) -> str:
    """The end of ``before`` that says a former name follows ("ex ", "syn. ", "= "), or nothing."""
    bare = before.rstrip(" .:-")
    word = _last_word(bare)
    if len(before) - len(bare) > 2:
        return ""
    if bare.endswith("="):
        return before[len(bare) - 1 :]
    return before[len(bare) - len(word) :] if word.lower() in _FORMER else ""


def sign_before(before: str) -> tuple[str, str]:
    """A qualifier at the end of ``before``, in full form, and as it stands there; ("", "") if there is none."""
    bare = before.rstrip(" .")
    word = _last_word(bare)
    sign = _SIGNS_BEFORE.get(word.lower(), "")
    return (sign, before[len(bare) - len(word) :]) if sign else ("", "")


def _last_word(text: str) -> str:
    start = len(text)
    while start and text[start - 1].isalpha():
        start -= 1
    return text[start:]


def moved_genus(text: str, start: int) -> re.Match[str] | None:
    """A genus in brackets that replaces or once was the one before it: ``(now Tliltocatl)``."""
    return _moved().match(text, start) if "(" in text[start : start + 2] else None


def authorship_behind(text: str) -> re.Match[str] | None:
    """Authors with a year, or a known author alone, at the start of ``text``; group ``text``."""
    if not any(letter.isupper() or letter in "&(" for letter in text[:6]):
        return None
    return _dated_authorship(text) or _bare_author().match(text)


def _dated_authorship(text: str) -> re.Match[str] | None:
    """Authors with a year at the start of ``text``; group ``text``."""
    return _authorship().match(text)


@cache
def undetermined() -> re.Pattern[str]:
    """Behind a genus or group: ``sp.``, ``spec. cf.``; groups ``sign`` and ``more``."""
    return re.compile(
        r"[ .]?(?P<sign>(?:n\. ?)?spp?|spec|species|indet)(?![^\W\d_])\.?"
        rf"(?: ?(?P<more>{_SIGN})\.? (?:[A-Z]\. ?)?(?=[a-z]{{4}}))?",
        re.I,
    )


@cache
def _moved() -> re.Pattern[str]:
    return re.compile(r" ?\((?:now|jetzt|ex|formerly|früher|syn\.?|=)[ -]{0,2}[A-Z][a-z]{3,}\) ?(?=[A-Za-z])", re.I)


_CAPITAL = "[A-ZÀ-ÖØ-ÞĀĂĄĆČĎĐĒĖĘĚĞĢĪİĶĻŁĽĹŃŅŇŌŐŒŔŘŚŞŠŢŤŪŮŰŹŻŽȘȚ]"  # of European alphabets


@cache
def _authorship() -> re.Pattern[str]:
    word = (
        rf"(?:(?:[DOdo]')?{_CAPITAL}[^\W\d_A-Z][\w'-]*\.?|(?:{_CAPITAL}\.[ -]?)+|{_CAPITAL}[a-z]?{_CAPITAL}[\w'-]{{2,}}"
        r"|&|et|and|in|ex|von|van|de|da|du|del|der|la|le|zur|al\.?|y)"
    )
    return re.compile(rf" {{0,2}},? ?(?P<text>\(?{word}(?:[, ]{{1,2}}{word}){{0,12}},? ?(?:1[789]|20)\d\d\)?)")


@cache
def _bare_author() -> re.Pattern[str]:
    """Authors of many kept species, who stand without a year on tags."""
    return re.compile(
        r" \(?(?P<text>(?:(?:C|L)\. ?){0,2}(?:Pocock|Simon|Ausserer|Koch|Linnaeus|Linné|Latreille|Walckenaer|Strand"
        r"|Schmidt|Chamberlin|Mello-Leitão|Hirst|Purcell|Karsch|Thorell|Smith|Gallon|Perty|Gray|Brandt|Fabricius|Herbst"
        r"|White|Valerio))\)?(?![\w.-])"
    )
