"""One try at setting given texts in a room: columns, caps of size, and growth as far as the height allows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from namekeeper.labels.fitted import QUIET, Room, Set, em, height_of
from namekeeper.labels.layout import Block, Layout, Zone
from namekeeper.labels.wrap import Paragraph

_GROWTH = 24  # steps between the least and the largest sizes
_TINY = 1e-6


class Text:
    """A block with its words, and the least size it may have now."""

    def __init__(self, block: Block, paragraph: Paragraph, least: int) -> None:
        self.block = block
        self.paragraph = paragraph
        self.least = least
        self._caps: dict[tuple[float, int], int | None] = {}

    def least_height(self, width: float) -> float | None:
        """Height at the least size in ``width`` mm; None if the block needs more lines than it may have."""
        count = self.paragraph.count(em(width, self.least))
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
            count = self.paragraph.count(em(width, size))
            return count is not None and count <= lines

        if block.one_line and block.lines > 1:
            single = _largest(self.least, most, lambda size: keeps(size, 1))
            if single is not None and single >= block.one_line:
                return single
        return _largest(self.least, most, keeps)

    def set(self, width: float, size: int) -> Set:
        """The block set at a size."""
        return Set(self.block, size, self.paragraph.lines(em(width, size)))


@dataclass(frozen=True, slots=True)
class _Placed:
    """A text in a column of known width, with its range of sizes there."""

    text: Text
    width: float
    cap: int

    def size(self, growth: int) -> int:
        low = self.text.least
        return min(self.cap, low + max(0, self.text.block.most - low) * growth // _GROWTH)

    def height(self, size: int) -> float:
        return height_of(self.text.block, self.text.paragraph.count(em(self.width, size)) or 0, size)


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Blocks set in a room, with the QR code's side, the left column's width and the height left over, in mm."""

    sets: tuple[Set, ...]
    square: float
    side_width: float
    spare: float


class Attempt:
    """One try beside a QR code of ``modules`` modules of ``module`` mm, 0 for none."""

    def __init__(self, layout: Layout, room: Room, modules: int, module: float, *, narrow: bool) -> None:
        self._layout = layout
        self._room = room
        self._narrow = narrow
        self._square = module * (modules + 2 * QUIET) if module else 0.0
        # The white around the code may lie in the padding: its dark modules end where the text ends.
        self._square_x = max(0.0, self._square - min(QUIET * module, room.pad_x))
        self._square_y = max(0.0, self._square - min(QUIET * module, room.pad_y))

    def made(self, texts: Sequence[Text]) -> Arrangement | Block | None:
        """The texts set, or the block that is too wide, or None if the whole is too high."""
        side = self._side([text for text in texts if text.block.zone is Zone.SIDE])
        if isinstance(side, Block):
            return side
        side_width = max((one.width for one in side), default=0.0)
        inner = self._room.width - (side_width + self._layout.side_gap if side else 0.0)
        main = [
            (text, inner - (0.0 if self._above(text.block) else self._square_x))
            for text in texts
            if text.block.zone is not Zone.SIDE
        ]
        heights = []
        for text, width in main:
            height = text.least_height(width)
            if height is None:
                return text.block
            heights.append((text.block, height))
        if self._spare(heights) < -_TINY:
            return None
        placed = [_Placed(text, width, text.cap(width) or text.least) for text, width in main]
        placed = _below_the_name(placed)
        sizes = self._sizes(placed)
        if sizes is None:
            return None
        sets = [one.text.set(one.width, size) for one, size in zip(placed, sizes, strict=True)]
        order = [text.block.name for text in texts]
        return Arrangement(
            sets=tuple(sorted((*side, *sets), key=lambda one: order.index(one.block.name))),
            square=self._square,
            side_width=side_width,
            spare=min(self._spare_at(placed, sizes), self._room.height - sum(one.height for one in side)),
        )

    def _sizes(self, placed: Sequence[_Placed]) -> list[int] | None:
        """All blocks grow together as far as the height allows, then the name alone."""

        def at(growth: int) -> list[int]:
            return [one.size(growth) for one in placed]

        growth = _largest(0, _GROWTH, lambda step: self._spare_at(placed, at(step)) >= -_TINY)
        if growth is None:
            return None
        sizes = at(growth)
        name = next((number for number, one in enumerate(placed) if one.text.block.name == "name"), None)
        if name is not None:
            sizes = self._grown(placed, sizes, name, placed[name].cap)
        return self._roomy(placed, sizes)

    def _roomy(self, placed: Sequence[_Placed], sizes: list[int]) -> list[int]:
        """What height is left over goes to the blocks that ask for it; none gets larger than the name."""
        largest = max(sizes, default=0)
        for number, one in enumerate(placed):
            most = min(one.text.block.roomy, largest)
            cap = one.text.cap(one.width, most) if most > sizes[number] else None
            if cap is None or cap <= sizes[number]:
                continue

            sizes = self._grown(placed, sizes, number, cap)
        return sizes

    def _grown(self, placed: Sequence[_Placed], sizes: list[int], number: int, cap: int) -> list[int]:
        """One block as large as the height allows, up to ``cap``."""

        def at(size: int) -> list[int]:
            return [*sizes[:number], size, *sizes[number + 1 :]]

        found = _largest(sizes[number], cap, lambda size: self._spare_at(placed, at(size)) >= -_TINY)
        return sizes if found is None else at(found)

    def _spare_at(self, placed: Sequence[_Placed], sizes: Sequence[int]) -> float:
        return self._spare([(one.text.block, one.height(size)) for one, size in zip(placed, sizes, strict=True)])

    def _spare(self, heights: Sequence[tuple[Block, float]]) -> float:
        """Height left over, negative if too high; beside a QR code the part below the head is at least its height."""
        head = lower = 0.0
        for block, height in heights:
            if self._above(block):
                head += height
            else:
                lower += height
        lower = max(lower, self._square_y)
        return self._room.height - head - lower - (self._layout.gap if head and lower else 0.0)

    def _above(self, block: Block) -> bool:
        return block.zone is Zone.HEAD or (block.zone is Zone.BODY and self._layout.wide_body)

    def _side(self, texts: Sequence[Text]) -> list[Set] | Block:
        """The column at the left: as wide as its share allows, or as narrow as its least sizes."""
        sizes: list[_Placed] = []
        for text in texts:
            width = self._room.width * self._layout.side_share
            cap = None if self._narrow else text.cap(width)
            if cap is None:
                width = self._room.width
                count = text.paragraph.count(em(width, text.least))
                if count is None or count > text.block.lines:
                    return text.block
                cap = text.least
            sizes.append(_Placed(text, width, cap))
        sets = [one.text.set(one.width, one.cap) for one in sizes]
        while sets and sum(one.height for one in sets) > self._room.height + _TINY:
            number = max(range(len(sets)), key=lambda at: sets[at].size - texts[at].least)
            if sets[number].size <= texts[number].least:
                return sets[number].block
            sets[number] = texts[number].set(sizes[number].width, sets[number].size - 1)
        return sets


def _below_the_name(placed: Sequence[_Placed]) -> list[_Placed]:
    """Nothing is set larger than the name can be."""
    most = min((one.cap for one in placed if one.text.block.name == "name"), default=0)
    return [replace(one, cap=max(one.text.least, min(one.cap, most))) if most else one for one in placed]


def _largest(low: int, high: int, holds: Callable[[int], bool]) -> int | None:
    """The largest number of a range for which a falling condition holds, None if it never does."""
    if not holds(low):
        return None
    while low < high:
        middle = (low + high + 1) // 2
        if holds(middle):
            low = middle
        else:
            high = middle - 1
    return low
