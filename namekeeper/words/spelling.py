"""When two spellings are the same name: the keys of contract section 1, one a row.

Articles are those of the International Code of Zoological Nomenclature, 4th edition (1999). Keys are for comparing,
never for printing. A key works on a canonical name (genus, epithet, perhaps subspecies), on one word, or on any text.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Sequence
from enum import StrEnum, unique
from functools import cache
from itertools import filterfalse, product
from types import MappingProxyType
from typing import NewType

#: Keys of the three rows. Each is a type of its own: a key is compared with keys of its own row only.
PlainKey = NewType("PlainKey", str)
EndingKey = NewType("EndingKey", str)
LetterKey = NewType("LetterKey", str)


@unique
class Likeness(StrEnum):
    """How one spelling relates to another; the words of ``evidence.Match``."""

    SAME = "same"
    ENDING = "ending"
    LETTERS = "letters"
    SIMILAR = "similar"


# Letters that do not decompose into a Latin letter and a mark. Art. 32.5.2: a mark is deleted, a ligature resolved.
_LETTERS = str.maketrans(
    {
        "æ": "ae", "œ": "oe", "ß": "ss", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i", "ħ": "h",
        "ŋ": "n", "ĳ": "ij", "ſ": "s", "_": " ", "\u00a0": " ", "・": " ",
    }
)  # fmt: skip
_DROPPED = re.compile(r"['’‘`´ʻʼ′＇\u00ad\u200b-\u200f\u2060\ufeff]|(?<=\w)\s?[-‐‑‒–—−]\s?(?=\w)|[-‐‑‒–—−]")
_UMLAUT = {"a\u0308": "ae", "o\u0308": "oe", "u\u0308": "ue"}  # Art. 32.5.2.1
_NUMERAL = re.compile(r"\b(\d{1,2})(?=[a-z]{3})")
# Art. 32.5.2.6: a numeral is written out in Latin and joined; 4 and 6 take the form used in compounds.
_LATIN_NUMERALS = {
    "1": "uni", "2": "bi", "3": "tri", "4": "quadri", "5": "quinque", "6": "sex", "7": "septem", "8": "octo",
    "9": "novem", "10": "decem", "11": "undecim", "12": "duodecim", "13": "tredecim", "14": "quatuordecim",
    "15": "quindecim", "16": "sedecim", "18": "duodeviginti", "20": "viginti", "22": "vigintiduo",
    "24": "vigintiquatuor",
}  # fmt: skip


def plain_key(text: str) -> PlainKey:
    """Row 1: equal for spellings that differ in capitals, white space, marks, ligatures, hyphens, apostrophes."""
    if _is_plain(text):
        return PlainKey(" ".join(text.lower().split()))
    return _plain(_decomposed(text))


def plain_keys(text: str) -> tuple[PlainKey, ...]:
    """Row 1 with every reading of umlauts (Art. 32.5.2.1: ``ü`` is ``u`` or ``ue``); the first is :func:`plain_key`.

    At most 16 readings: a text with more than four umlauts is no name.
    """
    if _is_plain(text):
        return (plain_key(text),)
    decomposed = _decomposed(text)
    places = [found.start() for found in re.finditer("[aou]\u0308", decomposed)][:4]
    if not places:
        return (_plain(decomposed),)
    readings = []
    for choice in product((False, True), repeat=len(places)):
        letters = list(decomposed)
        for place, german in zip(places, choice, strict=True):
            if german:
                letters[place] = _UMLAUT[decomposed[place : place + 2]]
        readings.append(_plain("".join(letters)))
    return tuple(dict.fromkeys(readings))


def ending_key(text: str) -> EndingKey:
    """Row 2: row 1, and gender ending (31.2, 34.2) or -i/-ii, -ae/-iae (33.4) of the epithets; genus untouched."""
    return _ending(plain_key(text))


def _ending_keys(text: str) -> tuple[EndingKey, ...]:
    """Row 2 with every reading of umlauts; the first is :func:`ending_key`."""
    return tuple(dict.fromkeys(_ending(key) for key in plain_keys(text)))


def letter_key(text: str) -> LetterKey:
    """Row 3: row 2, and the letter classes of Art. 58 in the epithets; genus untouched. Guard it: see contract."""
    return _letters_of_name(ending_key(text))


def _letter_keys(text: str) -> tuple[LetterKey, ...]:
    """Row 3 with every reading of umlauts; the first is :func:`letter_key`."""
    return tuple(dict.fromkeys(_letters_of_name(key) for key in _ending_keys(text)))


def match_of(asked: str, listed: str) -> Likeness:
    """The first row of contract section 1 by which two spellings are one name, else ``SIMILAR``.

    ``LETTERS`` still needs its guard: the genus written out, and one name only in all lists with that key.
    """
    if not set(plain_keys(asked)).isdisjoint(plain_keys(listed)):
        return Likeness.SAME
    if not set(_ending_keys(asked)).isdisjoint(_ending_keys(listed)):
        return Likeness.ENDING
    if not set(_letter_keys(asked)).isdisjoint(_letter_keys(listed)):
        return Likeness.LETTERS
    return Likeness.SIMILAR


def epithet_ending_key(epithet: str) -> EndingKey:
    """Row 2 for one epithet without its genus."""
    return ending_of_folded(plain_key(epithet))


def epithet_letter_key(epithet: str) -> LetterKey:
    """Row 3 for one epithet without its genus."""
    return letters_of_ending(epithet_ending_key(epithet))


def ending_of_folded(epithets: PlainKey) -> EndingKey:
    """Row 2 for epithets that are folded by row 1 already, separated by a blank."""
    endings = " ".join(map(_epithet_ending, epithets.split(" "))) if " " in epithets else _epithet_ending(epithets)
    return EndingKey(endings)


def letters_of_ending(epithets: EndingKey) -> LetterKey:
    """Row 3 for epithets that are folded by row 2 already, separated by a blank."""
    return LetterKey(_letters(epithets))


def letters_of_endings(many: Sequence[EndingKey]) -> list[LetterKey]:
    """:func:`letters_of_ending` of each; all are folded as one text, which costs little more than a single one."""
    return [LetterKey(line) for line in _letters("\n".join(many)).split("\n")] if many else []


def _is_plain(text: str) -> bool:
    """Whether only capitals and white space can be folded: nearly every name of a catalogue, so worth a short way."""
    return text.isascii() and text.replace(" ", "").isalpha()


def _decomposed(text: str) -> str:
    if not text.isascii():
        # Half a character, from an argument in another encoding, could not be written anywhere.
        text = text.encode("utf-8", "replace").decode("utf-8")
    return unicodedata.normalize("NFKD", text.casefold().translate(_LETTERS)).casefold().translate(_LETTERS)


def _plain(decomposed: str) -> PlainKey:
    letters = "".join(filterfalse(unicodedata.combining, decomposed))
    # Signs go first: a numeral counts as one by what stands behind it in the key.
    letters = _DROPPED.sub("", _joined_numeral(letters))
    letters = _NUMERAL.sub(lambda found: _LATIN_NUMERALS.get(found[1], found[1]), letters)
    return PlainKey(" ".join(letters.split()))


def _joined_numeral(letters: str) -> str:
    return re.sub(r"\b(\d{1,2})\s?[-‐‑‒–]\s?(?=[a-z]{3})", r"\1", letters)


def _ending(plain: PlainKey) -> EndingKey:
    genus, blank, epithets = plain.partition(" ")
    return EndingKey(f"{genus} {ending_of_folded(PlainKey(epithets))}" if blank else genus)


# Adjectives of the third declension whose masculine ends in -er (acer, acris, acre); all others are -er/-ra/-rum.
_THIRD_IN_ER = re.compile(r"(?:ester|^(?:acer|alacer|celer|celeber|saluber|paluster|volucer|puter|sub?acer))$")


def _epithet_ending(epithet: str) -> str:
    """The epithet with one ending for all that the Code holds equal; -us stands for -us/-a/-um/-er, -is for -is/-e.

    A catalogue has hundreds of thousands of epithets: the last letter tells at once which endings can apply.
    """
    rule = _RULE_BY_LAST_LETTER.get(epithet[-1:])
    return rule(epithet) if rule and len(epithet) > 3 else epithet


def _first_or_second(stem: str) -> str:
    # asper, aspera and niger, nigra: the e before r is kept in some words and lost in others
    return (re.sub(r"(?<=[^aeiou])er$", "r", stem) if stem.endswith("er") else stem) + "us"


def _ending_in_a(epithet: str) -> str:
    return _first_or_second(epithet[:-1])


def _ending_in_e(epithet: str) -> str:
    if epithet.endswith("ae"):
        return epithet[:-3] + "ae" if epithet.endswith("iae") and len(epithet) > 4 else epithet
    return _ending_in_s(epithet[:-1] + "is")


def _ending_in_i(epithet: str) -> str:
    return epithet.rstrip("i") + "i"


def _ending_in_m(epithet: str) -> str:
    if epithet.endswith(("iorum", "iarum")) and len(epithet) > 6:
        epithet = epithet[:-5] + epithet[-4:]
    return _first_or_second(epithet[:-2]) if epithet.endswith("um") else epithet


def _ending_in_r(epithet: str) -> str:
    if epithet.endswith("er"):
        return epithet[:-2] + ("ris" if _THIRD_IN_ER.search(epithet) else "rus")
    return epithet[:-2] + "us" if epithet.endswith(("ior", "jor")) or epithet == "minor" else epithet


def _ending_in_s(epithet: str) -> str:
    if epithet.endswith("us"):
        return _first_or_second(epithet[:-2])
    return epithet[:-4] + "ris" if epithet.endswith("eris") and len(epithet) > 5 else epithet


_RULE_BY_LAST_LETTER = MappingProxyType(
    {
        "a": _ending_in_a, "e": _ending_in_e, "i": _ending_in_i, "m": _ending_in_m, "r": _ending_in_r,
        "s": _ending_in_s,
    }
)  # fmt: skip


def _letters_of_name(ending: EndingKey) -> LetterKey:
    genus, blank, epithets = ending.partition(" ")
    return LetterKey(f"{genus}{blank}{_letters(epithets)}")


# Art. 58.12, another connecting vowel in a compound: only behind first parts that are plainly such.
_FIRST_PARTS = (
    "nigr", "rubr", "ruf", "alb", "albi", "flav", "fusc", "aur", "atr", "cyane", "long", "brev", "lat", "angust",
    "mult", "purpure", "violace", "brunne", "ferrugine", "cinere", "grise", "pallid", "leuc", "melan", "chrys",
    "viridi", "line", "spin", "corn", "pil", "setos", "macul", "punct", "fasc", "crass", "gracil", "parv", "magn",
    "sanguine", "aene",
)  # fmt: skip


@cache
def _classes() -> tuple[tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]], ...]:
    """The letter classes of Art. 58 in their order, compiled when a name is compared by row 3.

    None reaches over white space, so a text of many epithets is folded at once. No text with a group is put in: Python
    takes that apart anew for every word.
    """
    first_parts = "|".join(sorted(_FIRST_PARTS, key=len, reverse=True))
    compound = rf"(?<!\S)({first_parts})[oaeu](?=[bcdfghjklmnpqrstvwxz]\w{{3}})"
    return (
        (re.compile(compound), lambda found: f"{found[1]}i"),  # 58.12
        (re.compile("ae|oe"), "e"),  # 58.1
        (re.compile("ei|ej|ij|y|j"), "i"),  # 58.2, 58.3, 58.13
        (re.compile("ii+"), "i"),  # 58.14 between the parts of a compound
        (re.compile("v"), "u"),  # 58.4
        (re.compile("k"), "c"),  # 58.5
        (re.compile("ph"), "f"),  # 58.9
        (re.compile("(?<=[bcdgkprt])h"), ""),  # 58.6, 58.10, 58.11
        (re.compile("ct"), "t"),  # 58.8
        (re.compile(r"(?<=([bcdfglmnpqrstxz]))\1+"), ""),  # 58.7
        (re.compile(r"(?<=[^aeiou\s])i(?=(?:ensis|anus)(?!\S))"), ""),  # 58.15, on the endings of row 2
    )


def _letters(epithets: str) -> str:
    folded = epithets
    for letters, one in _classes():
        folded = letters.sub(one, folded)
    return folded
