"""A walk over the words of a tag for scientific names: where it stands, what it has found, and how a name is taken."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from namekeeper.reading import name_patterns as p
from namekeeper.reading.draft import Draft, TagWord
from namekeeper.reading.latin import could_be_epithet, is_blocked
from namekeeper.reading.lexicon import Kind, KnownNames, kinds_of
from namekeeper.reading.reading import Clue, ClueLink
from namekeeper.words.authorship import Authorship
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_authorship
from namekeeper.words.spelling import plain_key


class NameWalk:
    """The words of a tag in order; ``clues`` are the names found, whose characters are claimed."""

    def __init__(self, draft: Draft, names: KnownNames, qualifier: str = "") -> None:
        self.draft = draft
        self.names = names
        self.clues: list[Clue] = []
        self.words: list[TagWord] = []
        self.qualifier = qualifier
        self.doubted = False
        self._at = 0
        self._end = 0  # of the last name

    def _text(self) -> str:
        return self.draft.text

    def _next_word(self, start: int) -> int | None:
        """Index of the word that begins at ``start``."""
        for number in range(self._at, min(self._at + 6, len(self.words))):
            if self.words[number].start == start:
                return number
        return None

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
            name = name._replace(qualifier=sign, qualifier_at="species")
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
        if found is None or not _names_authors(found["text"]):
            return None, end
        return parse_authorship(found["text"]), end + found.end()

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


def _names_authors(text: str) -> bool:
    """Whether the words before a year are people: capitals that mean nothing else, or, in the Code's form, a colour.

    There a word of prices with one capital is a person too: Ono, but not ONO, "or nearest offer".
    """
    dated = re.search(r", ?\d{4}\)?$", text) is not None
    words = [word for word in re.findall(r"[^\W\d_][^\W\d_-]{2,}(?:-[^\W\d_]+)*", text) if word[0].isupper()]
    return not any(
        kinds_of(key) - (_also_people(word) if dated else frozenset()) and is_blocked(key)
        for word, key in ((word, plain_key(word)) for word in words)
    )


def _also_people(word: str) -> frozenset[Kind]:
    kinds = {Kind.NAME_WORD, Kind.ANIMAL} | ({Kind.PRICE} if word.istitle() else set())
    return frozenset(kinds)


_NUMERAL = re.compile(r"(?<![\w.,/-])\d{1,2}-?$")


def joined_words(words: Sequence[TagWord], text: str, names: KnownNames) -> Iterator[TagWord]:
    """The words, with ``tredecim-guttatus``, ``13-guttatus``, ``Pseudo-nitzschia`` as one where some list has them.

    A hyphen does not count in a name, and a numeral is written out (contract section 1, row 1; Art. 32.5.2).
    """
    at = 0
    while at < len(words):
        first, last = words[at], at
        numeral = _NUMERAL.search(text, max(first.start - 4, 0), first.start)
        start = numeral.start() if numeral else first.start
        while last + 1 < len(words) and text[words[last].end : words[last + 1].start] == "-":
            last += 1
        written = text[start : words[last].end]
        key = plain_key(written) if written != first.text else first.key
        if key != first.key and (names.is_epithet(key) or names.is_genus(written)):
            yield TagWord(written, key, start, words[last].end)
            at = last
        else:
            yield first
        at += 1
