"""Shapes of scientific names that are cut short: ``B. smithi``, ``Lucanus c. cervus``, ``P met``."""

from __future__ import annotations

from namekeeper.reading import name_patterns as p
from namekeeper.reading.latin import could_be_epithet, could_be_genus, is_blocked
from namekeeper.reading.lexicon import Kind, kinds_of
from namekeeper.reading.name_walk import NameWalk
from namekeeper.words.names import ScientificName

_ALSO_WORDS = frozenset({"A", "I", "M", "F", "O", "E", "Y", "X"})  # a lone letter that means something else
_ALSO_CLIPPED = frozenset(
    {Kind.OR, Kind.CONDITION, Kind.FUNCTION, Kind.LIKENESS, Kind.SIZE}
)  # "met" is Dutch, "albo" Polish
_LONGEST_CLIP = 6  # letters of an epithet cut short


class ShortNames(NameWalk):
    """Each method tries one shape at the place of the walk, and takes it if it is there."""

    def _with_initial(self) -> bool:
        """``Lucanus c. cervus``: a lone initial behind a written genus is its species, the next word the subspecies."""
        word, text = self.words[self._at], self._text()
        found = p.INITIAL.match(text, word.end) if len(word.text) > 3 else None
        if found is None or not (self.names.is_genus(word.text) or could_be_genus(word)):
            return False
        number = self._next_word(found.end())
        if number is None or not could_be_epithet(self.words[number], word.text, self.names, firm=True):
            return False
        third = self.words[number]
        authorship, end = self._authorship(third.end)
        name = ScientificName(
            word.text.capitalize(), "", f"{found['initial']}.", third.text.lower(), "subspecies", authorship,
            verbatim=text[word.start : end],
        )  # fmt: skip
        self._at = number + 1
        self._add(name, word.start, end)
        return True

    def _clipped(self) -> bool:
        """``P met``, ``T. albo``: genus and epithet both cut short, as keepers write, where a list has such names."""
        word, text = self.words[self._at], self._text()
        if len(word.text) > 2 or not word.text.istitle():
            return False
        behind = 1 + (text[word.end : word.end + 2] == ". ")
        number = self._next_word(word.end + behind)
        epithet = self.words[number] if number is not None else None
        if epithet is None or not 3 <= len(epithet.text) <= _LONGEST_CLIP or not epithet.key.isascii():
            return False
        kinds = kinds_of(epithet.key)
        if not epithet.text.islower() or (kinds and (word.text in _ALSO_WORDS or kinds - _ALSO_CLIPPED)):
            return False
        if not self.names.is_clipped(word.text, epithet.key):
            return False
        name = ScientificName(
            f"{word.text}.", epithet=epithet.key, rank="species", verbatim=text[word.start : epithet.end]
        )
        self._at = (number or 0) + 1
        self._add(name, word.start, epithet.end)
        return True

    def _shortened(self) -> bool:
        """``B. smithi``, ``B.smithi``, ``Br. smithi``, ``B smithi``."""
        word, text = self.words[self._at], self._text()
        behind = text[word.end : word.end + 1]
        if behind == "." and len(word.text) <= 5 and (word.text[0].isupper() or len(word.text) == 1):
            start = word.end + 1
        elif len(word.text) == 1 and word.text.isupper() and behind in (" ", "-"):
            start = word.end
        else:
            return False
        means_else = len(word.text) > 1 and is_blocked(word.key)
        if Kind.QUALIFIER in kinds_of(word.key):
            return False
        between = p.BETWEEN.match(text, start)
        number = self._next_word(between.end()) if between else None
        if between is None or number is None or text[start : between.end()].strip(" ") == '"':
            return False
        epithet = self.words[number]
        genus = word.text.capitalize() + "."
        if means_else and not (word.text.istitle() and self.names.is_epithet(epithet.key)):
            return False  # "Juv. female", but "All. maculata"
        firm = behind == "." and len(epithet.text) >= 3
        plausible = could_be_epithet(epithet, genus, self.names, firm=firm, short=True)
        if not plausible and not (firm and self.names.is_common(text[word.start : epithet.end])):
            return False
        self._take(genus, "", number, between)
        return True
