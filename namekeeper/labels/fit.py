"""What stands on a label, in which form and how large, decided before anything is drawn; arithmetic on widths."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from namekeeper.labels.attempt import Attempt, Ready, SideShare
from namekeeper.labels.columns import Text
from namekeeper.labels.content import LabelContent
from namekeeper.labels.field_state import FieldState
from namekeeper.labels.fitted import QUIET, Fitted, Misfit, Room
from namekeeper.labels.fonts import Measure
from namekeeper.labels.layout import PT, REQUIRED, SQUARE, STEP, Block, Layout, Zone, wished_name_size
from namekeeper.labels.text import Variant, Weight, words_of
from namekeeper.labels.wrap import Paragraph
from namekeeper.words.terms import MisfitReason

_COMFORT = 6 * STEP  # good to read at arm's length: the letter x is 1.1 mm high
_COMFORT_NAME = 10 * STEP


@dataclass(frozen=True, slots=True)
class _Terms:
    """What is asked of a fit: least sizes of the name and of the rest, a narrow left column, fields left out."""

    name: int
    others: int
    narrow: bool
    drop: bool


class LabelDraft:
    """A label of which it is known what stands on it, in which words and columns, but not yet how large."""

    def __init__(
        self, state: FieldState, attempt: Attempt, texts: Sequence[Text], ready: Ready, *, module: float
    ) -> None:
        self._state = state
        self._attempt = attempt
        self._texts = texts
        self._ready = ready
        self._module = module

    def most(self, name: str) -> int:
        """The largest size of a block of the main column in quarters of a point, see :meth:`Ready.most`."""
        return self._ready.most(name)

    @property
    def side_width(self) -> float:
        """Width of the column at the left in mm, 0 without one."""
        return self._ready.side_width

    @property
    def side_sizes(self) -> dict[str, int]:
        """Sizes of the texts in the column at the left."""
        return self._ready.side_sizes()

    @property
    def narrow(self) -> bool:
        """Whether the column at the left is as narrow as its least sizes."""
        return self._attempt.narrow

    def beside(self, share: SideShare) -> LabelDraft:
        """The same beside a column at the left as a run shares it, where that leaves room enough."""
        ready = self._attempt.made(self._texts, share)
        if not isinstance(ready, Ready):
            return self
        return LabelDraft(self._state, self._attempt, self._texts, ready, module=self._module)

    def fitted(self, limits: Mapping[str, int], head: float = 0.0) -> Fitted | None:
        """The label with all as large as its room allows, see :meth:`Ready.arranged`."""
        found = self._ready.arranged(limits, head)
        if found is None:
            return None
        return replace(self._state.fitted(found, self._module, centred=self._attempt.centred), head=head)


class Fitter:
    """Fits contents into one layout in one room."""

    def __init__(self, layout: Layout, room: Room, measure: Measure) -> None:
        self._layout = layout
        self._room = room
        self._measure = measure
        # Names, places and cautions are the same on many labels: words are measured, and lines counted, once.
        self._known: dict[tuple[str, int, Variant], Text] = {}
        self._undrawn: dict[tuple[Weight, tuple[Variant, ...]], str] = {}
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
        """Sizes and lines for the content, each as large as it can be, see :meth:`draft`."""
        found = self.draft(content, modules)
        if isinstance(found, Misfit):
            return found
        fitted = found.fitted({})
        assert fitted is not None, "what is ready fits at its least sizes"
        return fitted

    def draft(self, content: LabelContent, modules: int = 0) -> LabelDraft | Misfit:
        """What stands on the label; ``modules`` is the width of its QR symbol, 0 for none.

        First everything is kept, in shorter words where need be, at sizes that are good to read. Then what does not
        fit gives way in the order of the layout: the name is set with an x-height of 1.2 mm wherever that makes room
        for it, the column at the left is as wide as it should be, and nothing falls below the least size of its block.
        """
        state = FieldState(content, {}, 0)
        for terms in self._terms:
            state = FieldState(content, self._variants(content), modules if self._layout.square else 0)
            order = iter(self._layout.gives_way)
            while True:
                found = self._attempt(state, terms)
                if isinstance(found, LabelDraft):
                    return found
                if isinstance(found, Block) and state.narrow(found, drop=terms.drop):
                    continue
                if not any(state.give_way(name, drop=terms.drop) for name in order):
                    break
        return self._misfit(state)

    def fits(self, content: LabelContent, modules: int = 0) -> bool:
        """Whether there is a label of this content, see :meth:`draft`; quick to say no."""
        return self._may_fit(content, modules) and isinstance(self.draft(content, modules), LabelDraft)

    def _may_fit(self, content: LabelContent, modules: int) -> bool:
        """Whether there is room at least for what is never left out, in any of its forms."""
        needed = [name for name in content.fields if name in REQUIRED and name in self._shown]
        kept = modules if content.square_wanted and self._layout.square else 0
        smallest = self._terms[-1]
        return any(
            isinstance(
                self._attempt(FieldState(content, dict(zip(needed, forms, strict=True)), kept), terms), LabelDraft
            )
            for terms in dict.fromkeys((smallest, replace(smallest, narrow=False)))
            for forms in product(*(range(len(content.fields[name])) for name in needed))
        )

    def drawable(self, content: LabelContent) -> LabelContent | Misfit:
        """The content without optional fields that hold a character no shipped type has; a misfit if it must stand."""
        undrawn: dict[str, str] = {}
        for block in self._layout.blocks:
            for name in block.fields:
                missing = self._missing(content.fields.get(name, ()), block)
                if missing and name in REQUIRED:
                    return Misfit(content, MisfitReason.CHARACTER, self._room, name, missing)
                if missing:
                    undrawn[name] = missing
        if not undrawn:
            return content
        fields = {name: forms for name, forms in content.fields.items() if name not in undrawn}
        return replace(content, fields=fields, undrawn=undrawn)

    def _missing(self, forms: Sequence[Variant], block: Block) -> str:
        """The first character that no shipped type has, empty if there is none."""
        key = (block.weight, tuple(forms))
        if key not in self._undrawn:
            self._undrawn[key] = self._first_missing(forms, block)
        return self._undrawn[key]

    def _first_missing(self, forms: Sequence[Variant], block: Block) -> str:
        for variant in forms:
            for word in words_of(variant, block.weight):
                for text, face in word.parts:
                    if missing := self._measure.missing(text, face):
                        return missing[0]
        return ""

    def _variants(self, content: LabelContent) -> dict[str, int]:
        brief = self._layout.brief
        return {
            name: len(forms) - 1 if name in brief else 0
            for name, forms in content.fields.items()
            if name in self._shown
        }

    def _attempt(self, state: FieldState, terms: _Terms) -> LabelDraft | Block | None:
        """A label that fits, or the block that is too wide, or None if the whole is too high."""
        too_wide: Block | None = None
        texts = self._texts(state, terms)
        for module in self._modules(state):
            attempt = Attempt(self._layout, self._room, state.modules, module, narrow=terms.narrow)
            found = attempt.made(texts)
            if isinstance(found, Ready):
                return LabelDraft(state, attempt, texts, found, module=module)
            too_wide = found
        return too_wide

    def _texts(self, state: FieldState, terms: _Terms) -> list[Text]:
        found = []
        for block in self._layout.blocks:
            if pieces := state.pieces(block):
                wanted = terms.name if block.name == "name" else terms.others
                key = (block.name, max(block.least, min(wanted, block.most)), pieces)
                if key not in self._known:
                    words = words_of(pieces, block.weight, stacked=block.stacked)
                    self._known[key] = Text(block, Paragraph(words, self._measure), key[1])
                found.append(self._known[key])
        return found

    def _modules(self, state: FieldState) -> Sequence[float]:
        if not state.modules or self._layout.square is None:
            return (0.0,)
        least, best = self._layout.square
        return (best, least) if best > least else (least,)

    def _misfit(self, state: FieldState) -> Misfit:
        """What was still too large when nothing more could give way."""
        if state.modules and self._layout.square:
            side = self._layout.square[0] * (state.modules + 2 * QUIET)
            return Misfit(state.content, MisfitReason.QR, self._room, SQUARE, square=side)
        for text in self._texts(state, self._terms[-1]):
            widest = text.paragraph.widest * text.block.least / STEP * PT
            if text.block.name in REQUIRED and widest > self._room.width:
                return Misfit(state.content, MisfitReason.WORD, self._room, text.block.name)
        return Misfit(state.content, MisfitReason.TEXT, self._room)
