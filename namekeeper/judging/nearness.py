"""How alike two spellings are, judged as names really go wrong; genus and epithet apart.

Limits: Zermoglio, Guralnick & Wieczorek 2016 (PLoS ONE 11(1): e0146894), re-counted on their open data: 58 % of real
misspellings are one edit away, 84 % two, 94 % three. Within one genus two edits meet another epithet in 1.7 % of all
epithets, three in 9.5 % (World Spider Catalog synonym table, 2020); a genus word meets another within two in 12 %.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache
from typing import NamedTuple

from namekeeper.words.spelling import PlainKey, ending_of_folded, letter_key, letters_of_endings, plain_key

_ALIKE = 0.88  # Jaro-Winkler
SMALL_GENUS = 10  # listed names; in a bigger genus words far apart are more likely two names


class WrittenName(NamedTuple):
    """A name as it is compared with many others: what of it is folded is folded once."""

    genus: FoldedWord
    epithet: FoldedEpithet

    @classmethod
    def of(cls, name: str) -> WrittenName:
        genus, _, rest = plain_key(name).partition(" ")
        return cls(FoldedWord.of(genus), FoldedEpithet.of(rest))

    def close(self, listed: Iterable[PlainKey], crowd: int) -> frozenset[PlainKey]:
        """Those of many listed names that are worth showing as guesses; see :func:`close_enough`."""
        parted = [(name, *name.partition(" ")[::2]) for name in listed]
        genera = FoldedWord.of_all(dict.fromkeys(genus for _, genus, _ in parted))
        rests = FoldedEpithet.of_all(dict.fromkeys(rest for _, _, rest in parted))
        return frozenset(name for name, genus, rest in parted if self._is_close(genera[genus], rests[rest], crowd))

    def _is_close(self, own_genus: FoldedWord, own_rest: FoldedEpithet, crowd: int) -> bool:
        genus, rest = self.genus.text, self.epithet.plain.text
        other_genus, other_rest = own_genus.text, own_rest.plain.text
        if not rest or not other_rest:
            return False
        if genus.endswith("."):
            return other_genus.startswith(genus.rstrip(".")) and self.epithet.edits(own_rest) <= _short_limit(rest)
        genus_edits = 0 if genus == other_genus else self.genus.edits(own_genus)
        if genus_edits > 2 and rest != other_rest:
            return False
        rest_edits = 0 if rest == other_rest else self.epithet.edits(own_rest)
        if genus_edits + rest_edits == 0:
            return False
        if genus_edits == 0:
            near = rest_edits <= _limit(min(len(rest), len(other_rest)))
            return near and (rest_edits < 3 or crowd <= SMALL_GENUS or _only_slips(rest, other_rest))
        if rest_edits == 0:
            limit = _limit(min(len(genus), len(other_genus))) if len(rest) > 4 else 1
            return genus_edits <= limit and (genus_edits < 3 or _only_slips(genus, other_genus))
        together = 4 if len(genus) > 6 and len(rest) > 6 else 3
        return genus_edits <= _genus_limit(genus) and rest_edits <= 2 and genus_edits + rest_edits <= together


class FoldedWord(NamedTuple):
    """A folded word, the same without a syllable written twice, and with ``rn`` read as ``m``."""

    text: str
    single: str
    look: str

    @classmethod
    def of(cls, text: str) -> FoldedWord:
        return cls(text, without_stutter(text), text.replace("rn", "m"))

    @classmethod
    def of_all(cls, texts: Iterable[str]) -> dict[str, FoldedWord]:
        """Each by its text; they are folded as one, a line each."""
        lines = "\n".join(texts)
        columns = [text.split("\n") for text in (lines, without_stutter(lines), lines.replace("rn", "m"))]
        return {text: cls(text, single, look) for text, single, look in zip(*columns, strict=True)}

    def edits(self, other: FoldedWord) -> int:
        """Edits to another word; a syllable written twice and letters that look alike (m, rn) are one each."""
        distance = _distance()
        found = distance(self.text, other.text)
        if found < 2:
            return found
        # Where a folding changes neither word, its distance is the same.
        if self.single != self.text or other.single != other.text:
            found = min(found, distance(self.single, other.single) + 1)
        if self.look != self.text or other.look != other.text:
            found = min(found, distance(self.look, other.look) + 1)
        return found


class FoldedEpithet(NamedTuple):
    """What stands behind a genus, folded by row 1, by row 2, and by row 3 of contract section 1."""

    plain: FoldedWord
    ended: FoldedWord
    lettered: FoldedWord

    @classmethod
    def of(cls, rest: str) -> FoldedEpithet:
        return cls.of_all((rest,))[rest]

    @classmethod
    def of_all(cls, rests: Iterable[str]) -> dict[str, FoldedEpithet]:
        """Each by its text, which is folded by row 1 already."""
        plain = tuple(map(PlainKey, rests))
        ended = tuple(map(ending_of_folded, plain))
        lettered = letters_of_endings(ended)
        words = FoldedWord.of_all(dict.fromkeys((*plain, *ended, *lettered)))
        return {
            rest: cls(words[rest], words[ending], words[letters])
            for rest, ending, letters in zip(plain, ended, lettered, strict=True)
        }

    def edits(self, other: FoldedEpithet) -> int:
        """Edits to another; those that the Code regulates (endings, letters of Art. 58) count one together."""
        found = self.plain.edits(other.plain)
        if found < 2:
            return found
        if self.ended.text != self.plain.text or other.ended.text != other.plain.text:
            found = min(found, self.ended.edits(other.ended) + 1)
        if self.lettered.text != self.ended.text or other.lettered.text != other.ended.text:
            found = min(found, self.lettered.edits(other.lettered) + 1)
        return found


def close_enough(asked: str, listed: str, crowd: int) -> bool:
    """Whether a listed name is worth showing as a guess for ``asked``, whose genus has ``crowd`` listed names."""
    return bool(WrittenName.of(asked).close((plain_key(listed),), crowd))


def close_names(asked: str, listed: Iterable[str], crowd: int) -> frozenset[str]:
    """Those of many listed names that are; see :func:`close_enough`."""
    keys = {name: plain_key(name) for name in listed}
    close = WrittenName.of(asked).close(keys.values(), crowd)
    return frozenset(name for name, key in keys.items() if key in close)


def epithet_edits(one: str, other: str) -> int:
    """Edits between two folded epithets; see :meth:`FoldedEpithet.edits`."""
    return FoldedEpithet.of(one).edits(FoldedEpithet.of(other))


def slip(one: str, other: str) -> bool:
    """Whether two folded words of a common name are one word, written badly once: a plural, or an edit or two."""
    shorter = min(len(one), len(other))
    return FoldedWord.of(one).edits(FoldedWord.of(other)) <= (0 if shorter < 4 else 1 if shorter < 8 else 2)


def nearness(asked: str, listed: str) -> float:
    """1 for equal names, less for every edit; an edit of a known class (Art. 58, endings) counts half."""
    from rapidfuzz.distance import OSA

    one, other = str(plain_key(asked)), str(plain_key(listed))
    if one.partition(" ")[0].endswith("."):
        one, other = one.partition(" ")[2], other.partition(" ")[2]
    plain = float(OSA.normalized_similarity(one, other))
    folded = float(OSA.normalized_similarity(letter_key(f"x {one}"), letter_key(f"x {other}")))
    return (plain + max(plain, folded)) / 2


def _only_slips(one: str, other: str) -> bool:
    """Whether words three or four edits apart look like one word written badly, and not like two words.

    Two real epithets of a genus mostly begin otherwise or differ in a whole part; in a slip letters are lost, added or
    swapped between the same ends. Of real names of one genus that far apart, 1 in 28 passes; of misspellings 4 in 5
    (51,000 names of the NCBI Taxonomy, misspelt by the documented classes; ``tests/candidates``).
    """
    from rapidfuzz.distance import JaroWinkler

    if JaroWinkler.similarity(one, other) >= _ALIKE:
        return True
    short, long = sorted((letter_key(f"x {without_stutter(word)}")[2:] for word in (one, other)), key=len)
    letters = iter(long)
    return one[:2] == other[:2] and all(letter in letters for letter in short)


def without_stutter(text: str) -> str:
    """``robubustum`` as ``robustum``: a syllable written twice, a slip found in museum records."""
    # Hardly any word has one, and looking costs a quarter of replacing by a template.
    return _stutter().sub(r"\1", text) if _stutter().search(text) else text


@cache
def _stutter() -> re.Pattern[str]:
    return re.compile(r"([bcdfghjklmnpqrstvwxz]{1,2}[aeiouy]|[aeiouy][bcdfghjklmnpqrstvwxz]{1,2})\1+")


@cache
def _distance() -> Callable[[str, str], int]:
    """Optimal string alignment; the library is loaded when names are compared."""
    from rapidfuzz.distance import OSA

    return OSA.distance


def _limit(length: int) -> int:
    """Edits in one word whose partner is right; two slips of a syllable each need four."""
    return 1 if length < 4 else 2 if length < 7 else 3 if length < 10 else 4


def _short_limit(epithet: str) -> int:
    """Edits in an epithet behind an abbreviated genus, where any genus may be meant."""
    return 0 if len(epithet) < 5 else 1 if len(epithet) < 9 else 2


def _genus_limit(genus: str) -> int:
    return 1 if len(genus) < 7 else 2
