"""Replace a name in one cell of an XML part: the cell's other bytes, formats included, stay."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

from namekeeper.tables.xml_spans import Chunk, Element


@dataclass(frozen=True, slots=True)
class CellSpot:
    """A cell that holds text: its place (row from 1, column from 0), its text, and why it may not be changed."""

    row: int
    column: int
    text: str
    fixed: str = ""  # empty, or the reason


@dataclass(frozen=True, slots=True)
class SheetSpots:
    """All cells of a sheet that hold anything, row by row."""

    name: str
    spots: tuple[CellSpot, ...]


Edits = Mapping[tuple[int, int], str]  # (row from 1, column from 0) -> the cell's new text
FORMULA = "a formula: it follows when the table is recalculated"
RUNS = "written in several formats; change it by hand"


class EditableTable(ABC):
    """A keeper's table in whose cells names are replaced, while every other cell, format and formula stays."""

    @abstractmethod
    def sheets(self) -> tuple[SheetSpots, ...]:
        """Cells of every sheet."""

    @abstractmethod
    def unsafe(self, sheet: str, edits: Edits) -> Mapping[tuple[int, int], str]:
        """For each cell that cannot take its new text without touching anything else: why."""

    @abstractmethod
    def replaced(self, edits: Mapping[str, Edits]) -> bytes:
        """The file's bytes with cells replaced, keyed by sheet.

        :raises InputError: if one of them is unsafe or the text does not go into the file's encoding.
        """


def text_edits(
    part: bytes, text_elements: Sequence[Element], old: str, new: str
) -> list[tuple[int, int, bytes]] | None:
    """Spans of ``part`` and new bytes that turn the elements' text from ``old`` into ``new``; None if not safe.

    What differs between the old and the new text must lie within one run of characters, so that the formats of the
    other runs stay where they are. The common beginning and end are not touched.
    """
    chunks = sorted((chunk for each in text_elements for chunk in each.all_chunks()), key=lambda chunk: chunk.start)
    if old == new or old != "".join(chunk.text for chunk in chunks):
        return None
    head, tail = _common(old, new)
    position = 0
    for chunk in chunks:
        end = position + len(chunk.text)
        if position <= head and len(old) - tail <= end and _is_literal(part, chunk):
            replaced = chunk.text[: head - position] + new[head : len(new) - tail] + old[len(old) - tail : end]
            start = chunk.start
            return [(start, start + len(chunk.text.encode("utf-8")), escape(replaced).encode("utf-8"))]
        position = end
    return None


def apply_edits(part: bytes, edits: Sequence[tuple[int, int, bytes]]) -> bytes:
    """``part`` with spans replaced."""
    pieces, position = [], 0
    for start, end, new in sorted(edits):
        pieces += [part[position:start], new]
        position = end
    return b"".join((*pieces, part[position:]))


def _common(old: str, new: str) -> tuple[int, int]:
    """Lengths of the common beginning and of the common end, which do not overlap."""
    shorter = min(len(old), len(new))
    head = next((i for i in range(shorter) if old[i] != new[i]), shorter)
    tail = next((i for i in range(shorter - head) if old[-1 - i] != new[-1 - i]), shorter - head)
    return head, tail


def _is_literal(part: bytes, chunk: Chunk) -> bool:
    """Whether the run stands in the part as it reads, without entities or CDATA around it."""
    raw = chunk.text.encode("utf-8")
    return part.startswith(raw, chunk.start) and b"&" not in raw and b"<" not in raw
