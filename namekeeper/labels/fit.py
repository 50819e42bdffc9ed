"""How large every line of a label is set, decided before anything is drawn; pure arithmetic on measured widths."""

from __future__ import annotations

from collections.abc import Sequence

from namekeeper.labels.attempt import Attempt, Text
from namekeeper.labels.content import LabelContent
from namekeeper.labels.field_state import FieldState
from namekeeper.labels.fitted import QUIET, Fitted, Misfit, Room
from namekeeper.labels.fonts import Measure
from namekeeper.labels.layout import PT, REQUIRED, STEP, Block, Layout, Zone, wished_name_size
from namekeeper.labels.text import words_of
from namekeeper.labels.wrap import Paragraph


class Fitter:
    """Fits contents into one layout in one room."""

    def __init__(self, layout: Layout, room: Room, measure: Measure) -> None:
        self._layout = layout
        self._room = room
        self._measure = measure
        self._shown = frozenset(name for block in layout.blocks for name in block.fields)
        self._wished = wished_name_size(measure)

    def fit(self, content: LabelContent, modules: int = 0) -> Fitted | Misfit:
        """Sizes and lines for the content; ``modules`` is the width of its QR symbol, 0 for none.

        What does not fit gives way in the order of the layout. The name is set with an x-height of 1.2 mm wherever
        leaving out other fields makes room for that, and never below the least size of its block.
        """
        state = FieldState(content, {}, 0)
        for name_least in (self._wished, 0):
            variants = {
                name: len(forms) - 1 if name in self._layout.brief else 0
                for name, forms in content.fields.items()
                if name in self._shown
            }
            state = FieldState(content, variants, modules if self._layout.square else 0)
            order = iter(self._layout.gives_way)
            while True:
                found = self._attempt(state, name_least)
                if isinstance(found, Fitted):
                    return found
                if isinstance(found, Block) and state.give_way(state.widest(found)):
                    continue
                if not any(state.give_way(name) for name in order):
                    break
        return Misfit(content, self._refusal(state))

    def _attempt(self, state: FieldState, name_least: int) -> Fitted | Block | None:
        """A fitted label, or the block that is too wide, or None if the whole is too high."""
        found: Fitted | Block | None = None
        paragraphs = self._paragraphs(state, name_least)
        for module in self._modules(state):
            for narrow in (False, True) if any(one.block.zone is Zone.SIDE for one in paragraphs) else (False,):
                found = Attempt(self._layout, self._room, state, module, narrow).made(paragraphs)
                if isinstance(found, Fitted):
                    return found
        return found

    def _paragraphs(self, state: FieldState, name_least: int) -> list[Text]:
        found = []
        for block in self._layout.blocks:
            if pieces := state.pieces(block):
                words = words_of(pieces, block.weight, stacked=block.stacked)
                least = max(block.least, name_least) if block.name == "name" else block.least
                found.append(Text(block, Paragraph(words, self._measure), least))
        return found

    def _modules(self, state: FieldState) -> Sequence[float]:
        if not state.modules or self._layout.square is None:
            return (0.0,)
        least, best = self._layout.square
        return (best, least) if best > least else (least,)

    def _refusal(self, state: FieldState) -> str:
        room = f"{self._room.width:.1f} x {self._room.height:.1f} mm"
        if state.modules and self._layout.square:
            side = self._layout.square[0] * (state.modules + 2 * QUIET)
            return f"a QR code of {side:.1f} mm beside name and id does not fit into {room}"
        for text in self._paragraphs(state, 0):
            widest = text.paragraph.widest * text.block.least / STEP * PT
            if text.block.name in REQUIRED and widest > self._room.width:
                return f"a word of the {text.block.name} is wider than {room} allows"
        return f"name, id and caution do not fit into {room}"
