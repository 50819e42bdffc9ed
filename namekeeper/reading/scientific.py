"""Finds scientific names in a tag by their form, helped by what lists know; see :class:`NameFinder`."""

from __future__ import annotations

from namekeeper.reading import name_patterns as p
from namekeeper.reading.doubts import between_alternatives, ends_with_or
from namekeeper.reading.draft import TAKEN, TagWord
from namekeeper.reading.latin import could_be_epithet, could_be_genus, is_blocked
from namekeeper.reading.lexicon import Kind, kinds_of
from namekeeper.reading.name_walk import joined_words
from namekeeper.reading.reading import HYBRID, Clue, ClueLink
from namekeeper.reading.short_names import ShortNames
from namekeeper.words.names import ScientificName


class NameFinder(ShortNames):
    """Walks once over the words of a tag; each method tries one shape of a name."""

    def find(self) -> list[Clue]:
        """The names in the order of the tag, whose characters are claimed."""
        self.words = list(joined_words(self.draft.words(), self.draft.open_text, self.names))
        while self._at < len(self.words):
            if self.draft.owner[self.words[self._at].start]:
                self._at += 1  # an author, claimed with the name
            elif self._with_initial() or self._shortened() or self._full():
                self._others()
            elif not (self._undetermined() or self._genus_alone() or self._clipped()):
                self._at += 1
        self._epithets_ahead()
        return self.clues

    def _undetermined(self) -> bool:
        """``Phormictopus sp.``, ``Euathlus spec. cf. truculentus``; any word may stand before the sign."""
        word, text = self.words[self._at], self._text()
        found = p.undetermined().match(text, word.end)
        if not found or len(word.text) < 3 or (is_blocked(word.key) and not self.names.is_genus(word.text)):
            return False
        sign = "spp." if found["sign"].lower() == "spp" else "indet." if found["sign"].lower() == "indet" else "sp."
        end, epithet = found.end(), ""
        if found["more"]:
            number = self._next_word(found.end())
            if number is not None:
                sign, epithet, end = (
                    f"sp. {found['more'].lower()}.",
                    self.words[number].text.lower(),
                    self.words[number].end,
                )
                self._at = number
        name = ScientificName(
            word.text.capitalize(), epithet=epithet, rank="species" if epithet else "genus", qualifier=sign,
            qualifier_at="species", verbatim=text[word.start : end],
        )  # fmt: skip
        self._add(name, word.start, end)
        self.qualifier = self.qualifier or sign
        self._at += 1
        return True

    def _full(self) -> bool:
        """``Brachypelma hamorii``, ``brachypelma cf. hamorii``, ``Carabus (Tanaocarabus) hendrichsi``, misspelt too."""
        word, text = self.words[self._at], self._text()
        if len(word.text) < 3:
            return False
        known = self.names.is_genus(word.text)
        if not known and not could_be_genus(word) and not self._before_known_epithet(word):
            after = self._next_word(word.end + 1)
            if after is None or not self._proved(word, after):
                return False
        subgenus = p.SUBGENUS.match(text, word.end)
        bracket = subgenus or p.moved_genus(text, word.end)
        between = p.BETWEEN.match(text, bracket.end() if bracket else word.end)
        if between is None or (between.end() == word.end) or TAKEN in self.draft.piece(word.end, between.end()):
            return False
        number = self._next_word(between.end())
        if number is None or between["quote"]:
            return False
        if self._is_general(word, self.words[number]):
            return False
        sure = known or bool(between["sign"]) or self._before_known_epithet(word)
        if not could_be_epithet(self.words[number], word.text, self.names, firm=sure) and not self._proved(
            word, number
        ):
            return False
        if not known and self.names.is_common(text[word.start : self.words[number].end]):
            return False
        self._take(word.text.capitalize(), subgenus["word"].capitalize() if subgenus else "", number, between)
        return True

    def _proved(self, genus: TagWord, number: int) -> bool:
        """Whether authors with a year stand behind: what stands before them is a name, whatever its form."""
        epithet = self.words[number]
        if not (genus.text.istitle() and epithet.text.islower() and genus.key.isascii() and epithet.key.isascii()):
            return False
        return len(genus.key) > 3 and self._authorship(epithet.end)[0] is not None

    def _is_general(self, genus: TagWord, epithet: TagWord) -> bool:
        """``Tarantula terrarium``: a word for the animal group before a word that is no epithet of any list."""
        if Kind.ANIMAL not in kinds_of(genus.key) or self.names.is_epithet(epithet.key):
            return False
        return not self.names.is_name(f"{genus.text} {epithet.key}")

    def _before_known_epithet(self, word: TagWord) -> bool:
        """Whether a word of no known shape stands before an epithet that some list has: a misspelt genus."""
        number = self._next_word(word.end + 1)
        if number is None or len(word.key) < 5 or is_blocked(word.key):
            return False
        epithet = self.words[number]
        return len(epithet.key) > 4 and not is_blocked(epithet.key) and self.names.is_epithet(epithet.key)

    def _genus_alone(self) -> bool:
        word = self.words[self._at]
        former = bool(p.former_mark(self._text()[max(0, word.start - 16) : word.start]))
        if len(word.text) < 4 or is_blocked(word.key):
            return False
        if not (self.names.is_genus(word.text) or (former and word.text[0].isupper() and could_be_genus(word))):
            return False
        for last in range(self._at + 1, min(self._at + 3, len(self.words))):
            if self.names.is_common(self._text()[word.start : self.words[last].end]):
                return False
        if self.names.is_common(word.text):
            return False
        either = bool(self.clues) and ends_with_or(self._text()[max(0, word.start - 24) : word.start])
        name = ScientificName(word.text.capitalize(), rank="genus", verbatim=word.text)
        self._add(name, word.start, word.end, ClueLink.OR if either else ClueLink.ALONE)
        self._at += 1
        return True

    def _others(self) -> None:
        """Alternatives and partners behind the last name: ``regalis/ornata?``, ``boehmei x vagans``."""
        end = self._doubt(self._end)
        while end < len(self._text()):
            crossed = p.CROSS.match(self._text(), end)
            found = crossed or between_alternatives().match(self._text(), end)
            number = self._next_word(found.end()) if found else None
            if (
                found is None
                or number is None
                or not self._partner(number, ClueLink.CROSSED if crossed else ClueLink.OR)
            ):
                self._open_cross(end)
                return
            self.draft.claim("scientific", found.start(), found.end())
            if crossed:
                self.clues[-2] = self.clues[-2]._replace(link=ClueLink.CROSSED)
            end = self._doubt(self._end)

    def _open_cross(self, end: int) -> None:
        found = p.OPEN_CROSS.match(self._text(), end)
        if found:
            self.draft.claim("qualifier", found.start(), found.end())
            self.qualifier = self.qualifier or HYBRID

    def _partner(self, number: int, link: ClueLink) -> bool:
        """A name or a lone epithet at ``number``, tied to the name before it."""
        word, before, name = self.words[number], self._at, self.clues[-1].name
        own = word.text.islower() and self._has(name.genus, word.key)  # "T. citma / coenobita", which is a genus, too
        if self._text()[word.end : word.end + 1] == "." or (not own and self.names.is_genus(word.text)):
            self._at = number
            if self._shortened() or self._full():
                self.clues[-1] = self.clues[-1]._replace(link=link)
                return True
            self._at = before
            return False
        if not could_be_epithet(word, name.genus, self.names, firm=link is ClueLink.OR):
            return False
        other = name._replace(
            epithet=word.text.lower(), infraspecific="", authorship=None, verbatim=word.text, rank="species"
        )
        self._add(other, word.start, word.end, link)
        self._at = number + 1
        return True

    def _epithets_ahead(self) -> None:
        """Words further on that are an epithet of a genus written before: the seller does not know which is meant."""
        named = [clue for clue in self.clues if clue.name.epithet and clue.link is not ClueLink.FORMER]
        if not named:
            return
        last = self.draft.plain_place(max(clue.end for clue in named))
        for word in self.words:
            if word.start < last or self.draft.owner[word.start] or len(word.key) < _SHORTEST_ALONE:
                continue
            if not word.text.islower() or is_blocked(word.key) or self._text().count('"', 0, word.start) % 2:
                continue
            for clue in named:
                if word.key != clue.name.epithet and self._has(clue.name.genus, word.key):
                    other = clue.name._replace(
                        epithet=word.key,
                        infraspecific="",
                        authorship=None,
                        verbatim=word.text,
                        rank="species",
                    )
                    self._add(other, word.start, word.end)
                    if self.clues[-1].link is ClueLink.ALONE:
                        self.clues[-1] = self.clues[-1]._replace(link=ClueLink.OR)
                    break

    def _has(self, genus: str, epithet: str) -> bool:
        if genus.endswith("."):
            return self.names.is_clipped(genus.rstrip("."), epithet)
        return self.names.is_name(f"{genus} {epithet}")


_SHORTEST_ALONE = 4  # letters of an epithet that is taken without its genus
