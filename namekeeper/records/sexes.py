"""The sex of animals as keepers write it in a field of its own, in one place for tables and commands."""

from __future__ import annotations

import re
import unicodedata
from types import MappingProxyType

from namekeeper.records.specimen import Sex

# How keepers write one animal's sex in English, German, Spanish, French, Polish, Italian, Dutch and Portuguese (common
# practice, no source), without marks; signs are Unicode U+2642 and U+2640; "undetermined" is of GBIF's vocabulary.
_MALE = "m male males mannchen maennchen mannlich maennlich bock macho machos masculin samiec maschio man ♂"
_FEMALE = (
    "f w female females weibchen weiblich hembra hembras femelle femelles femea feminin samica femmina vrouw fem ♀"
)
_UNSEXED = (
    "u unsexed unsex us ns nn unknown undetermined indetermined indet juvenile unbestimmt unbekannt n/a na ? - -- "
    "indeterminado indetermine nieoznaczony nieznana mixed gemischt"
)
_PAIR = "pair paar couple pareja para mf m/f m+f ♂♀ ♀♂ 1,1"
_COUNTS = MappingProxyType(
    {
        **dict.fromkeys(_MALE.split(), (1, 0, 0)),
        **dict.fromkeys(_FEMALE.split(), (0, 1, 0)),
        **dict.fromkeys(_UNSEXED.split(), (0, 0, 1)),
        **dict.fromkeys(_PAIR.split(), (1, 1, 0)),
    }
)
#: Counts with a comma, a slash or blanks between; a date or a price does not stand in a field for the sex.
_NOTATION = re.compile(r"(\d{1,4})\s*([.,/:])\s*(\d{1,4})(?:\s*\2\s*(\d{1,4}))?", re.ASCII)
_COUNTED = re.compile(r"(\d{1,4})\s*[x×]?\s*([^\d\s].*)")


def read_sex(text: str) -> Sex | None:
    """Counts, or a word or sign for the sex; a doubtful one ("f?") is unsexed. None for an empty text.

    :raises ValueError: for anything else.
    """
    clean = text.strip()
    if not clean:
        return None
    found = _NOTATION.fullmatch(clean)
    if found:
        return Sex.parse(f"{found[1]}.{found[3]}.{found[4] or 0}")
    counts = _counted(clean)
    return Sex(".".join(map(str, counts)), *counts) if counts else Sex.parse(clean)


def sex_of_count(sex: Sex | None, count: int) -> Sex:
    """The sex of ``count`` animals where a field of its own gives the sex of one of them; unsexed if it is not known.

    :raises ValueError: if the sex is given as counts that add up to something else.
    """
    if sex is None:
        return Sex(f"0.0.{count}", 0, 0, count)
    if sex.total == count:
        return sex
    if sex.total == 1:
        counts = [number * count for number in (sex.male, sex.female, sex.unsexed)]
        return Sex(".".join(map(str, counts)), *counts)
    message = f"the sex {sex.text} and the count {count} do not agree"
    raise ValueError(message)


def _counted(text: str) -> tuple[int, int, int] | None:
    numbered = _COUNTED.fullmatch(text)
    number, word = (int(numbered[1]), numbered[2]) if numbered else (1, text)
    doubted = len(word) > 1 and word.endswith("?")
    found = _COUNTS.get(_plain(word.rstrip("? ")) if doubted else _plain(word))
    if found is None:
        return None
    male, female, unsexed = (number * each for each in found)
    return (0, 0, male + female + unsexed) if doubted else (male, female, unsexed)


def _plain(word: str) -> str:
    decomposed = unicodedata.normalize("NFKD", word.strip().casefold())
    return "".join(sign for sign in decomposed if not unicodedata.combining(sign)).rstrip(".")
