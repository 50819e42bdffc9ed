"""Words measured once in em, and broken into lines between words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from namekeeper.labels.fonts import Measure
from namekeeper.labels.text import SEPARATOR, Face, Glue, SetWord

SLACK = 0.12  # em kept free at a line's end: the ink of an italic leaves its advance width (f, j, Y)
_TINY = 1e-9


@dataclass(frozen=True, slots=True)
class Line:
    """One line: parts in one face each, and its width in em."""

    parts: tuple[tuple[str, Face], ...]
    width: float

    @property
    def text(self) -> str:
        return "".join(text for text, _ in self.parts)


class Paragraph:
    """Words with their widths in em."""

    def __init__(self, words: Sequence[SetWord], measure: Measure) -> None:
        self._words = words
        self._measure = measure
        space = measure.width(" ", Face.REGULAR)
        glues = {
            Glue.SPACE: space,
            Glue.SEPARATOR: 2 * space + measure.width(SEPARATOR, Face.REGULAR),
            Glue.NEW_LINE: float("inf"),
        }
        self._widths = [sum(measure.width(text, face) for text, face in word.parts) for word in words]
        self._glues = [glues[word.glue] for word in words]
        self.widest = max(self._widths, default=0.0)

    def count(self, limit: float) -> int | None:
        """How many lines of ``limit`` em the words take; None if one word alone is wider."""
        room = limit - SLACK + _TINY
        if self.widest > room:
            return None
        lines, used = 1, -float("inf")
        for wide, glue in zip(self._widths, self._glues, strict=True):
            if used == -float("inf"):
                used = wide
            elif used + glue + wide <= room:
                used += glue + wide
            else:
                lines += 1
                used = wide
        return lines

    def lines(self, limit: float) -> tuple[Line, ...]:
        """The lines themselves; only for a limit that :meth:`count` did not refuse."""
        room = limit - SLACK + _TINY
        lines: list[list[SetWord]] = []
        used = 0.0
        for word, wide, glue in zip(self._words, self._widths, self._glues, strict=True):
            if lines and used + glue + wide <= room:
                lines[-1].append(word)
                used += glue + wide
            else:
                lines.append([word])
                used = wide
        return tuple(_line(line, self._measure) for line in lines)


def _line(words: Sequence[SetWord], measure: Measure) -> Line:
    merged: list[tuple[str, Face]] = []

    def add(text: str, face: Face) -> None:
        if merged and merged[-1][1] is face:
            merged[-1] = (merged[-1][0] + text, face)
        else:
            merged.append((text, face))

    for number, word in enumerate(words):
        if number and word.glue is Glue.SEPARATOR:
            add(f" {SEPARATOR} ", Face.REGULAR)
        elif number:
            # A blank between two faces is upright, so an italic underlies only the name itself.
            same = merged[-1][1] is word.parts[0][1]
            add(" ", merged[-1][1] if same else Face.REGULAR)
        for text, face in word.parts:
            add(text, face)
    return Line(tuple(merged), sum(measure.width(text, face) for text, face in merged))
