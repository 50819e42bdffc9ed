"""The tag while it is read: its plain text and which characters are claimed by which field."""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_left
from collections.abc import Iterable
from typing import NamedTuple

from namekeeper.reading.plain import MARKS, plain_tag
from namekeeper.reading.reading import Span
from namekeeper.words.spelling import plain_key

TAKEN = "\x1f"  # stands in the open text for claimed characters: no rule's pattern crosses it
WORD = re.compile(rf"[^\W\d_]+(?:[{MARKS}]+[^\W\d_]*)*(?:'[^\W\d_]+)*|[♀♂⚥]+")


class TagWord(NamedTuple):
    """A run of letters in the open text; ``key`` is folded by row 1 of the contract's section 1."""

    text: str
    key: str
    start: int
    end: int


class Draft:
    """Rules claim characters once; a later rule sees only what is open."""

    def __init__(self, tag: str) -> None:
        self.plain = plain_tag(tag)
        self.text = self.plain.text
        self.open = list(self.text)
        self.owner = [""] * len(self.text)
        self.spans: list[Span] = []
        # Made anew only after characters were claimed:
        self._open_text: str | None = None
        self._words: list[TagWord] | None = None

    @property
    def open_text(self) -> str:
        """The text with claimed characters replaced; same length and places as ``text``."""
        if self._open_text is None:
            self._open_text = "".join(self.open)
        return self._open_text

    def piece(self, start: int, end: int) -> str:
        """A few characters of the open text; rules that look beside a place use it, so that time stays linear."""
        return "".join(self.open[max(start, 0) : end])

    def fields_near(self, start: int, end: int, reach: int) -> set[str]:
        """Fields that have claimed characters at most ``reach`` away from a place."""
        near = (*range(max(start - reach, 0), start), *range(end, min(end + reach, len(self.owner))))
        return {owner for at in near if (owner := self.owner[at])}

    def claim(self, name: str, start: int, end: int) -> None:
        """Give plain characters ``start`` to ``end`` to a field, without blanks at the rims."""
        while start < end and self.text[start] == " ":
            start += 1
        while end > start and self.text[end - 1] == " ":
            end -= 1
        if start >= end:
            return
        self._words = self._open_text = None
        self.open[start:end] = TAKEN * (end - start)
        self.owner[start:end] = [name] * (end - start)
        self.spans.append(Span(self.plain.starts[start], self.plain.ends[end - 1], name))

    def place(self, start: int, end: int) -> tuple[int, int]:
        """The place in the tag of plain characters ``start`` to ``end``."""
        return self.plain.starts[start], self.plain.ends[end - 1]

    def plain_place(self, place: int) -> int:
        """The plain character at or behind a place of the tag."""
        return bisect_left(self.plain.starts, place)

    def words_in(self, start: int, end: int) -> list[TagWord]:
        """Words between two places of the tag, claimed or not."""
        first, last = self.plain_place(start), self.plain_place(end)
        return [
            TagWord(m[0], plain_key(m[0]), first + m.start(), first + m.end())
            for m in WORD.finditer(self.text[first:last])
        ]

    def words(self) -> list[TagWord]:
        """Open words in order."""
        if self._words is None:
            self._words = [TagWord(m[0], plain_key(m[0]), m.start(), m.end()) for m in WORD.finditer(self.open_text)]
        return list(self._words)

    def leftover(self) -> str:
        """What no field claimed, as in the tag: all that is not white space, or punctuation standing alone."""
        taken = bytearray(len(self.plain.tag))
        for span in self.spans:
            taken[span.start : span.end] = b"\x01" * (span.end - span.start)
        rest = "".join(" " if used else letter for letter, used in zip(self.plain.tag, taken, strict=True))
        return " ".join(piece for piece in map(_without_rims, rest.split()) if piece)


def _without_rims(piece: str) -> str:
    letters = [i for i, letter in enumerate(piece) if unicodedata.category(letter)[0] != "P"]
    return piece[letters[0] : letters[-1] + 1] if letters else ""


def without_overlap(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Spans in order; entities can make two claims meet in one character of the tag, which the first keeps."""
    kept: list[Span] = []
    for span in sorted(spans):
        start = max(span.start, kept[-1].end) if kept else span.start
        if start < span.end:
            kept.append(Span(start, span.end, span.field))
    return tuple(kept)
