"""How large every line of a label is set, decided before anything is drawn; pure arithmetic on measured widths."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from namekeeper.labels.attempt import Attempt, Text
from namekeeper.labels.content import LabelContent
from namekeeper.labels.field_state import FieldState
from namekeeper.labels.fitted import QUIET, Fitted, Misfit, Room
from namekeeper.labels.fonts import Measure
from namekeeper.labels.layout import PT, REQUIRED, STEP, Block, Layout, Zone, wished_name_size
from namekeeper.labels.text import Variant, words_of
from namekeeper.labels.wrap import Paragraph

_COMFORT = 6 * STEP  # good to read at arm's length: the letter x is 1.1 mm high
_COMFORT_NAME = 10 * STEP
_Paragraphs = dict[tuple[str, Variant], Paragraph]


@dataclass(frozen=True, slots=True)
class _Terms:
    """What is asked of a fit: least sizes of the name and of the rest, a narrow left column, fields left out."""

    name: int
    others: int
    narrow: bool
    drop: bool


class Fitter:
    """Fits contents into one layout in one room."""

    def __init__(self, layout: Layout, room: Room, measure: Measure) -> None:
        self._layout = layout
        self._room = room
        self._measure = measure
        self._shown = frozenset(name for block in layout.blocks for name in block.fields)
        wished = wished_name_size(measure)
        sided = any(block.zone is Zone.SIDE for block in layout.blocks)
        self._terms = (
            _Terms(_COMFORT_NAME, _COMFORT, narrow=False, drop=False),
            _Terms(wished, 0, narrow=False, drop=True),
            *((_Terms(wished, 0, narrow=True, drop=True),) if sided else ()),
            _Terms(0, 0, narrow=sided, drop=True),
        )

    def fit(self, content: LabelContent, modules: int = 0) -> Fitted | Misfit:
        """Sizes and lines for the content; ``modules`` is the width of its QR symbol, 0 for none.

        First everything is kept, in shorter words where need be, at sizes that are good to read. Then what does not
        fit gives way in the order of the layout: the name is set with an x-height of 1.2 mm wherever that makes room
        for it, the column at the left is as wide as it should be, and nothing falls below the least size of its block.
        """
        state = FieldState(content, {}, 0)
        paragraphs: _Paragraphs = {}
        for terms in self._terms:
            state = FieldState(content, self._variants(content), modules if self._layout.square else 0)
            order = iter(self._layout.gives_way)
            while True:
                found = self._attempt(state, terms, paragraphs)
                if isinstance(found, Fitted):
                    return found
                if isinstance(found, Block) and state.give_way(state.widest(found), drop=terms.drop):
                    continue
                if not any(state.give_way(name, drop=terms.drop) for name in order):
                    break
        return Misfit(content, self._refusal(state))

    def _variants(self, content: LabelContent) -> dict[str, int]:
        brief = self._layout.brief
        return {
            name: len(forms) - 1 if name in brief else 0
            for name, forms in content.fields.items()
            if name in self._shown
        }

    def _attempt(self, state: FieldState, terms: _Terms, known: _Paragraphs) -> Fitted | Block | None:
        """A fitted label, or the block that is too wide, or None if the whole is too high."""
        found: Fitted | Block | None = None
        texts = self._texts(state, terms, known)
        for module in self._modules(state):
            found = Attempt(self._layout, self._room, state, module, narrow=terms.narrow).made(texts)
            if isinstance(found, Fitted):
                break
        return found

    def _texts(self, state: FieldState, terms: _Terms, known: _Paragraphs) -> list[Text]:
        found = []
        for block in self._layout.blocks:
            if pieces := state.pieces(block):
                key = (block.name, pieces)
                if key not in known:
                    known[key] = Paragraph(words_of(pieces, block.weight, stacked=block.stacked), self._measure)
                wanted = terms.name if block.name == "name" else terms.others
                found.append(Text(block, known[key], max(block.least, min(wanted, block.most))))
        return found

    def _modules(self, state: FieldState) -> Sequence[float]:
        if not state.modules or self._layout.square is None:
            return (0.0,)
        least, best = self._layout.square
        return (best, least) if best > least else (least,)

    def _refusal(self, state: FieldState) -> str:
        room = f"{max(0.0, self._room.width):.1f} x {max(0.0, self._room.height):.1f} mm"
        if state.modules and self._layout.square:
            side = self._layout.square[0] * (state.modules + 2 * QUIET)
            return f"a QR code of {side:.1f} mm beside name and id does not fit into {room}"
        for text in self._texts(state, self._terms[-1], {}):
            widest = text.paragraph.widest * text.block.least / STEP * PT
            if text.block.name in REQUIRED and widest > self._room.width:
                return f"a word of the {text.block.name} is wider than {room} allows"
        return f"name, id and caution do not fit into {room}"
