"""Finds scientific names in a tag by their form, helped by what lists know; see :class:`NameFinder`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from namekeeper.reading import name_patterns as p
from namekeeper.reading.draft import TAKEN, Draft, TagWord
from namekeeper.reading.latin import could_be_epithet, could_be_genus, is_blocked
from namekeeper.reading.lexicon import Kind, KnownNames, kinds_of
from namekeeper.reading.reading import HYBRID, Clue, ClueLink
from namekeeper.words.authorship import Authorship
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_authorship
from namekeeper.words.spelling import plain_key


@dataclass(slots=True)
class NameFinder:
    """Walks once over the words of a tag; each method tries one shape of a name."""

    draft: Draft
    names: KnownNames
    clues: list[Clue] = field(default_factory=list)
    words: list[TagWord] = field(default_factory=list)
    qualifier: str = ""
    doubted: bool = False
    _at: int = 0
    _end: int = 0  # of the last name

    def find(self) -> None:
        """Fills ``clues`` in the order of the tag and claims their characters."""
        self.words = list(_joined(self.draft.words(), self.draft.open_text, self.names))
        while self._at < len(self.words):
            if self.draft.owner[self.words[self._at].start]:
                self._at += 1  # an author, claimed with the name
            elif self._shortened() or self._full():
                self._others()
            elif not (self._undetermined() or self._genus_alone()):
                self._at += 1

    def _text(self) -> str:
        return self.draft.text

    def _next_word(self, start: int) -> int | None:
        """Index of the word that begins at ``start``."""
        for number in range(self._at, min(self._at + 6, len(self.words))):
            if self.words[number].start == start:
                return number
        return None

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

    def _undetermined(self) -> bool:
        """``Phormictopus sp.``, ``Euathlus spec. cf. truculentus``; any word may stand before the sign."""
        word, text = self.words[self._at], self._text()
        found = p.UNDETERMINED.match(text, word.end)
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
            return False
        subgenus = p.SUBGENUS.match(text, word.end)
        bracket = subgenus or p.moved_genus(text, word.end)
        between = p.BETWEEN.match(text, bracket.end() if bracket else word.end)
        if between is None or (between.end() == word.end) or TAKEN in self.draft.piece(word.end, between.end()):
            return False
        number = self._next_word(between.end())
        if number is None or between["quote"]:
            return False
        sure = known or bool(between["sign"]) or self._before_known_epithet(word)
        if not could_be_epithet(self.words[number], word.text, self.names, firm=sure):
            return False
        if not known and self.names.is_common(text[word.start : self.words[number].end]):
            return False
        self._take(word.text.capitalize(), subgenus["word"].capitalize() if subgenus else "", number, between)
        return True

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
        self._add(ScientificName(word.text.capitalize(), rank="genus", verbatim=word.text), word.start, word.end)
        self._at += 1
        return True

    def _take(self, genus: str, subgenus: str, number: int, between: re.Match[str]) -> None:
        """A genus and the epithet at ``number``, with all that hangs on them."""
        start, text = self.words[self._at].start, self._text()
        epithet = self.words[number]
        end, third, last = self._third_word(genus, epithet, number)
        sign = f"{between['sign'].lower()}." if between["sign"] else "?" if between["doubt"] else ""
        sign = {"near.": "nr.", "confer.": "cf.", "gr.": "ex gr."}.get(sign, sign)
        authorship, end = self._authorship(end)
        group = p.COMPLEX.match(text, end)
        if group:
            sign, end = "complex", group.end()
        trailing = None if sign else p.TRAILING.match(text, end)
        if trailing:
            sign, end = f"{trailing['sign'].lower()}.", trailing.end()
        name = ScientificName(
            genus, subgenus, epithet.text.lower(), third, "subspecies" if third else "species", authorship, sign,
            qualifier_at="species" if sign else "", verbatim=text[start:end],
        )  # fmt: skip
        before, written = p.sign_before(self.draft.piece(start - 6, start))
        if before and not sign:
            sign = before
            name = replace(name, qualifier=sign, qualifier_at="species")
            start -= len(written)
        self._at = last + 1
        self.qualifier = self.qualifier or sign
        self._add(name, start, end)

    def _third_word(self, genus: str, epithet: TagWord, number: int) -> tuple[int, str, int]:
        """End of the name, subspecies if there is one, and the index of its last word."""
        text = self._text()
        marked = p.RANK.match(text, epithet.end)
        begin = marked.end() if marked else epithet.end + (text[epithet.end : epithet.end + 1] == " ")
        following = next(
            (n for n in (number + 1, number + 2) if n < len(self.words) and self.words[n].start == begin), None
        )
        if following is None or not self.draft.open[begin].islower():
            return epithet.end, "", number
        word = self.words[following]
        name = f"{genus} {epithet.text.lower()} {word.text.lower()}"
        plausible = could_be_epithet(word, genus, self.names, firm=False) and len(word.text) > 4
        if self.names.is_name(name) or (
            plausible and (marked or (not genus.endswith(".") and not self.names.is_common(word.text)))
        ):
            return word.end, word.text.lower(), following
        return epithet.end, "", number

    def _authorship(self, end: int) -> tuple[Authorship | None, int]:
        behind = self.draft.piece(end, end + 160)
        found = p.authorship_behind(behind)
        if found is None or any(is_blocked(plain_key(word)) for word in re.findall(r"[^\W\d_]{3,}", found["text"])):
            return None, end
        return parse_authorship(found["text"]), end + found.end()

    def _others(self) -> None:
        """Alternatives and partners behind the last name: ``regalis/ornata?``, ``boehmei x vagans``."""
        end = self._doubt(self._end)
        while True:
            crossed = p.CROSS.match(self._text(), end)
            found = crossed or p.OR.match(self._text(), end)
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
        if self._text()[word.end : word.end + 1] == "." or self.names.is_genus(word.text):
            self._at = number
            if self._shortened() or self._full():
                self.clues[-1] = self.clues[-1]._replace(link=link)
                return True
            self._at = before
            return False
        if not could_be_epithet(word, name.genus, self.names, firm=link is ClueLink.OR):
            return False
        other = replace(
            name, epithet=word.text.lower(), infraspecific="", authorship=None, verbatim=word.text, rank="species"
        )
        self._add(other, word.start, word.end, link)
        self._at = number + 1
        return True

    def _doubt(self, end: int) -> int:
        found = p.DOUBT.match(self.draft.piece(end, end + 12))
        if not found:
            return end
        self.draft.claim("qualifier", end, end + found.end())
        self.qualifier, self.doubted = self.qualifier or "?", True
        return end + found.end()

    def _add(self, name: ScientificName, start: int, end: int, link: ClueLink = ClueLink.ALONE) -> None:
        before = p.former_mark(self.draft.piece(start - 16, start))
        begin = start
        if before and link is ClueLink.ALONE and (self.clues or before.strip(" =")):
            link, begin = ClueLink.FORMER, start - len(before)
        first, last = self.draft.place(start, end)
        self.draft.claim("scientific", begin, end)
        self._end = end
        self.clues.append(Clue(name, first, last, link))


_NUMERAL = re.compile(r"(?<![\w.,/-])\d{1,2}-?$")


def _joined(words: Sequence[TagWord], text: str, names: KnownNames) -> Iterator[TagWord]:
    """The words, with ``tredecim-guttatus`` and ``13-guttatus`` as one where some list has that epithet.

    A hyphen does not count in a name, and a numeral is written out (contract section 1, row 1; Art. 32.5.2).
    """
    at = 0
    while at < len(words):
        first, last = words[at], at
        numeral = _NUMERAL.search(text, max(first.start - 4, 0), first.start)
        start = numeral.start() if numeral else first.start
        while last + 1 < len(words) and text[words[last].end : words[last + 1].start] == "-":
            last += 1
        written = text[start : words[last].end].lower()
        if written != first.text.lower() and names.is_epithet(key := plain_key(written)):
            yield TagWord(written, key, start, words[last].end)
            at = last
        else:
            yield first
        at += 1
