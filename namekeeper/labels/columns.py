"""Texts and the columns they stand in: how many lines a text takes, how large it may be, what height is left over."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from namekeeper.labels.fitted import Set, em, height_of
from namekeeper.labels.layout import Block, Zone
from namekeeper.labels.wrap import Paragraph


class Text:
    """A block with its words, and the least size it may have now."""

    def __init__(self, block: Block, paragraph: Paragraph, least: int) -> None:
        self.block = block
        self.paragraph = paragraph
        self.least = least
        self._counts: dict[tuple[float, int], int | None] = {}
        self._caps: dict[tuple[float, int], int | None] = {}

    def count(self, width: float, size: int) -> int | None:
        """How many lines it takes in ``width`` mm; None if a word is wider."""
        key = (width, size)
        if key not in self._counts:
            self._counts[key] = self.paragraph.count(em(width, size))
        return self._counts[key]

    def least_height(self, width: float) -> float | None:
        """Height at the least size in ``width`` mm; None if the block needs more lines than it may have."""
        count = self.count(width, self.least)
        if count is None or count > self.block.lines:
            return None
        return height_of(self.block, count, self.least)

    def cap(self, width: float, most: int = 0) -> int | None:
        """The largest size at which the block keeps to its lines in ``width`` mm, up to ``most`` (0: its own)."""
        most = max(self.least, most or self.block.most)
        if (width, most) not in self._caps:
            self._caps[width, most] = self._cap(width, most)
        return self._caps[width, most]

    def _cap(self, width: float, most: int) -> int | None:
        block = self.block

        def keeps(size: int, lines: int = block.lines) -> bool:
            count = self.count(width, size)
            return count is not None and count <= lines

        if block.one_line and block.lines > 1:
            single = largest(self.least, most, lambda size: keeps(size, 1))
            if single is not None and single >= block.one_line:
                return single
        return largest(self.least, most, keeps)

    def set(self, width: float, size: int) -> Set:
        """The block set at a size."""
        return Set(self.block, size, self.paragraph.lines(em(width, size)))


@dataclass(frozen=True, slots=True)
class Columns:
    """Where blocks stand in a room: its height, the gap below the head, the side of the QR code as far as it counts."""

    height: float
    gap: float
    wide_body: bool
    square: float
    square_y: float
    head: float = 0.0  # height kept for the head

    def with_head(self, head: float) -> Columns:
        return replace(self, head=head) if head else self

    def above(self, block: Block) -> bool:
        """Whether a block runs the full width, above the QR code."""
        return block.zone is Zone.HEAD or (block.zone is Zone.BODY and self.wide_body)

    def spare(self, heights: Sequence[tuple[Block, float]]) -> float:
        """Height left over, negative if too high; beside a QR code the part below the head is at least its height."""
        head = body = lower = 0.0
        for block, height in heights:
            if block.zone is Zone.HEAD:
                head += height
            elif self.above(block):
                body += height
            else:
                lower += height
        upper = max(head, self.head) + body
        lower = max(lower, self.square_y)
        return self.height - upper - lower - (self.gap if upper and lower else 0.0)


def largest(low: int, high: int, holds: Callable[[int], bool]) -> int | None:
    """The largest number of a range for which a falling condition holds, None if it never does."""
    if not holds(low):
        return None
    if holds(high):
        return max(low, high)
    while low < high:
        middle = (low + high + 1) // 2
        if holds(middle):
            low = middle
        else:
            high = middle - 1
    return low
