"""What fitting a label comes to, as values; lengths in mm, sizes in quarters of a point."""

from __future__ import annotations

from dataclasses import dataclass

from namekeeper.labels.content import LabelContent
from namekeeper.labels.layout import PT, STEP, Block
from namekeeper.labels.wrap import Line
from namekeeper.words.terms import MisfitReason

QUIET = 4  # modules of white around a QR code, ISO/IEC 18004


@dataclass(frozen=True, slots=True)
class Room:
    """The inside of a label in mm, and the padding around it."""

    width: float
    height: float
    pad_x: float
    pad_y: float


@dataclass(frozen=True, slots=True)
class Set:
    """A block as it will be printed; ``size`` in quarters of a point, ``lead`` further white above it in mm."""

    block: Block
    size: int
    lines: tuple[Line, ...]
    lead: float = 0.0

    @property
    def height(self) -> float:
        return self.lead + height_of(self.block, len(self.lines), self.size)

    @property
    def width(self) -> float:
        return max(line.width for line in self.lines) * self.size / STEP * PT


@dataclass(frozen=True, slots=True)
class Fitted:
    """A label that fits: its blocks, the QR code's module and side in mm (0: none), what was left out or shortened.

    ``spare`` is the height left over, ``lead`` the white above all blocks, ``head`` the least height of the head.
    """

    content: LabelContent
    sets: tuple[Set, ...]
    module: float
    square: float
    side_width: float
    spare: float
    left_out: tuple[str, ...]
    shortened: tuple[str, ...]
    lead: float = 0.0
    head: float = 0.0

    def lines(self) -> tuple[str, ...]:
        return tuple(line.text for one in self.sets for line in one.lines)

    def size_of(self, name: str) -> float:
        """Size in pt of the block that shows the field, 0 if it is not on the label."""
        return next((one.size / STEP for one in self.sets if name in one.block.fields), 0.0)


@dataclass(frozen=True, slots=True)
class Misfit:
    """A label that cannot be printed, and why: the field and the character or the side of the QR code concerned."""

    content: LabelContent
    reason: MisfitReason
    room: Room
    field: str = ""
    character: str = ""
    square: float = 0.0


def height_of(block: Block, lines: int, size: int) -> float:
    return block.before + lines * size / STEP * PT * block.leading


def em(width: float, size: int) -> float:
    return width / (size / STEP * PT)
