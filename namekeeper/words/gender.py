"""Gender agreement of species-group names (Articles 30, 31.2 and 34.2 of the Code).

Three facts decide and none is in the string: the gender of the genus, the word class of the epithet, and for words in
-er the stem. Where the class is undecided the epithet stays as it is, as if it were a noun (Art. 31.2.2).
"""

from __future__ import annotations

import re
from enum import StrEnum, unique

#: Genders of genus names (Art. 30), as lists write them.
_GENDERS = ("masculine", "feminine", "neuter")


@unique
class WordClass(StrEnum):
    """What kind of word an epithet is (Art. 11.9.1); only the adjective agrees with its genus."""

    ADJECTIVE = "adjective"
    NOUN = "noun"
    GENITIVE = "genitive"
    INVARIABLE = "invariable"  # not Latin, or an adjective of one ending
    UNDECIDED = "undecided"


# Adjectives in -er of the first two declensions that keep their e (asper, aspera), and those of the third with three
# endings (silvester, silvestris, silvestre): Latin grammar.
_KEEPS_E = re.compile(r"(?:asper|tener|miser|liber|lacer|prosper|gibber|fer|(?<!ni)(?<!pi)(?<!inte)(?<!ae)ger)$")
_THIRD = {"acer": "acr", "alacer": "alacr", "celer": "celer", "celeber": "celebr", "saluber": "salubr"}
_ESTER = re.compile(r"(?:silvest|sylvest|campest|palust|terrest|alpest|rupest|pedest|equest)(?:er|ris|re)$")
_DROPS_E = ("nigr", "atr", "pulchr", "rubr", "scabr", "glabr", "macr", "pigr", "sacr", "integr", "aegr", "sinistr")

# One ending for all genders: -ns, -x, -color (its older form), -ceps, -pes, -par and the like.
_ONE_ENDING = re.compile(r"(?:ns|x|color|ceps|pes|par|fex|cors|sors|dens|felix|memor|inops|teres|dives|vetus)$")
# Nouns by their last part (31.2.1): dwellers, agents, body parts, and names that look like adjectives.
_NOUNS = re.compile(
    r"(?:cola|gena|tor|trix|femur|soma|stoma|cephalus|gaster|pus|opsis|thrix|oides|ides|gigas|rex|imperator|hercules"
    r"|atlas|perda|fuga|cida)$"
)
_GENITIVE = re.compile(r"(?:[^aeo]i|ii|ei|ae|orum|arum)$")
_PLACE = re.compile(r"[ei]ens(?:is|e)$|ens(?:is|e)$")


def word_class_of(epithet: str) -> WordClass:
    """The class that the form alone proves; ``UNDECIDED`` for everything that needs a source.

    -us, -a and -um prove nothing (``emeraldus``, ``irminia``, ``antinous``), nor does -fer (``phobifer``, 31.2.2).
    """
    if _PLACE.search(epithet):
        return WordClass.ADJECTIVE
    if _ONE_ENDING.search(epithet):
        return WordClass.INVARIABLE
    if _NOUNS.search(epithet):
        return WordClass.NOUN
    if _GENITIVE.search(epithet):
        return WordClass.GENITIVE
    return WordClass.UNDECIDED


def agree(epithet: str, genus_gender: str, word_class: WordClass) -> str:
    """The epithet as it stands in a genus of that gender.

    :param genus_gender: masculine, feminine or neuter; anything else counts as uncertain.
    :return: ``epithet`` itself unless it is an adjective, the gender is known, and its ending is one that changes.
    """
    if word_class is not WordClass.ADJECTIVE or genus_gender not in _GENDERS:
        return epithet
    if _ONE_ENDING.search(epithet):
        return epithet
    forms = forms_of(epithet)
    return forms[_GENDERS.index(genus_gender)] if forms else epithet


def forms_of(epithet: str) -> tuple[str, str, str] | None:
    """Masculine, feminine and neuter of an adjective, given in any of them; None if it has no such endings."""
    for reading in (_comparative, _third_in_er, _second_in_er, _first_and_second, _third):
        forms = reading(epithet)
        if forms:
            return forms
    return None


def _comparative(epithet: str) -> tuple[str, str, str] | None:
    if epithet.endswith("ior") or re.search(r"(?:maj|min)or$", epithet):
        return epithet, epithet, epithet[:-2] + "us"
    if re.search(r"(?:maj|min)us$", epithet) or epithet in ("parvius", "brunnius", "iodius", "longius", "latius"):
        return epithet[:-2] + "or", epithet[:-2] + "or", epithet
    return None


def _third_in_er(epithet: str) -> tuple[str, str, str] | None:
    if _ESTER.search(epithet):
        stem = re.sub(r"(?:er|ris|re)$", "", epithet)
        return stem + "er", stem + "ris", stem + "re"
    for masculine, stem in _THIRD.items():
        if epithet in (masculine, stem + "is", stem + "e"):
            return masculine, stem + "is", stem + "e"
    return None


def _second_in_er(epithet: str) -> tuple[str, str, str] | None:
    if epithet.endswith("er"):
        stem = epithet if _KEEPS_E.search(epithet) else epithet[:-2] + "r"
        return epithet, stem + "a", stem + "um"
    found = re.fullmatch(r"(.*r)(?:a|um)", epithet)
    if not found:
        return None
    stem = found[1]
    if _KEEPS_E.search(stem):
        return stem, stem + "a", stem + "um"
    if stem.endswith(_DROPS_E):
        return stem[:-1] + "er", stem + "a", stem + "um"
    return None


def _first_and_second(epithet: str) -> tuple[str, str, str] | None:
    for ending in ("us", "um", "a"):
        if epithet.endswith(ending) and len(epithet) > len(ending) + 2:
            stem = epithet[: -len(ending)]
            return stem + "us", stem + "a", stem + "um"
    found = re.fullmatch(r"(.{3,})(?:os|on)", epithet)  # Greek leucos, leuca, leucon
    return (found[1] + "os", found[1] + "a", found[1] + "on") if found else None


def _third(epithet: str) -> tuple[str, str, str] | None:
    if epithet.endswith("is"):
        return epithet, epithet, epithet[:-2] + "e"
    if epithet.endswith("e") and len(epithet) > 3:
        return epithet[:-1] + "is", epithet[:-1] + "is", epithet
    return None
