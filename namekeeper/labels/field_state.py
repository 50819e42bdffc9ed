"""Which fields are on a label while it is being fitted, and in which of their forms."""

from __future__ import annotations

from dataclasses import dataclass, field

from namekeeper.labels.content import LabelContent
from namekeeper.labels.layout import REQUIRED, SQUARE, Block
from namekeeper.labels.text import Variant


@dataclass(slots=True)
class FieldState:
    """The variant in use of every field; a field not named is not on the label."""

    content: LabelContent
    variants: dict[str, int]
    modules: int
    left_out: list[str] = field(default_factory=list)
    shortened: list[str] = field(default_factory=list)

    def give_way(self, name: str, *, drop: bool) -> bool:
        """Take the next smaller form, or with ``drop`` leave the field out. False if nothing was given.

        The last form of a required field, such as a caution of one word, is for where nothing else helps.
        """
        if drop and name == SQUARE and self.modules and not self.content.square_wanted:
            self.modules = 0
            self.left_out.append(name)
            return True
        if name not in self.variants:
            return False
        left = len(self.content.fields[name]) - self.variants[name] - 1
        if left > (name in REQUIRED and not drop):
            self.variants[name] += 1
            if name not in self.shortened:
                self.shortened.append(name)
            return True
        if not drop or name in REQUIRED:
            return False
        del self.variants[name]
        self.left_out.append(name)
        return True

    def pieces(self, block: Block) -> Variant:
        return tuple(
            piece
            for name in block.fields
            if name in self.variants
            for piece in self.content.fields[name][self.variants[name]]
        )

    def widest(self, block: Block) -> str:
        """Of the fields of a block that is too wide, the one that takes most."""
        return max((name for name in block.fields if name in self.variants), key=self._length, default="")

    def _length(self, name: str) -> int:
        pieces = self.content.fields[name][self.variants[name]]
        return sum(len(run.text) for piece in pieces for run in piece)
