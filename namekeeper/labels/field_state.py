"""Which fields are on a label while it is being fitted, in which form, and how one gives way to the others."""

from __future__ import annotations

from dataclasses import dataclass, field

from namekeeper.labels.attempt import Arrangement
from namekeeper.labels.content import LabelContent
from namekeeper.labels.fitted import Fitted
from namekeeper.labels.layout import REQUIRED, SQUARE, Block
from namekeeper.labels.text import Variant


@dataclass(slots=True)
class FieldState:
    """Which fields are on a label while it is being fitted, and in which of their forms.

    ``variants`` holds the form in use of every field; a field not named is not on the label.
    """

    content: LabelContent
    variants: dict[str, int]
    modules: int
    left_out: list[str] = field(default_factory=list)
    shortened: list[str] = field(default_factory=list)

    def give_way(self, name: str, *, drop: bool) -> bool:
        """Take the next smaller form, or with ``drop`` leave the field out. False if nothing was given.

        The last form of a required field, such as the shortest caution, is for where nothing else helps.
        """
        if drop and name == SQUARE and self.modules and not self.content.square_wanted:
            self.modules = 0
            self.left_out.append(name)
            return True
        if name not in self.variants:
            return False
        if self._forms_left(name) > (name in REQUIRED and not drop):
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

    def narrow(self, block: Block, *, drop: bool) -> bool:
        """Make a block that is too wide narrower by the field in it that takes most. False if nothing was given.

        Before a required field takes its last form the QR code beside it goes.
        """
        there = [name for name in block.fields if name in self.variants]
        easy = [name for name in there if name not in REQUIRED or self._forms_left(name) > 1]
        for name in sorted(easy, key=self._length, reverse=True):
            if self.give_way(name, drop=drop):
                return True
        if self.give_way(SQUARE, drop=drop):
            return True
        return any(self.give_way(name, drop=drop) for name in there if name in REQUIRED)

    def fitted(self, found: Arrangement, module: float, *, centred: bool) -> Fitted:
        """The label as it came out, with what gave way; ``module`` of the QR code in mm."""
        return Fitted(
            content=self.content,
            sets=found.sets,
            module=module,
            square=found.square,
            side_width=found.side_width,
            spare=found.spare,
            lead=found.spare / 2 if centred else 0.0,
            left_out=tuple(self.left_out),
            shortened=tuple(name for name in self.shortened if name in self.variants),
        )

    def _forms_left(self, name: str) -> int:
        return len(self.content.fields[name]) - self.variants[name] - 1

    def _length(self, name: str) -> int:
        pieces = self.content.fields[name][self.variants[name]]
        return sum(len(run.text) for piece in pieces for run in piece)
