"""How large every line of a label is set, decided before anything is drawn; pure arithmetic on measured widths."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from namekeeper.labels.content import LabelContent
from namekeeper.labels.fonts import Measure
from namekeeper.labels.layout import PT, REQUIRED, SQUARE, STEP, WISHED_X, Block, Layout, Zone
from namekeeper.labels.text import Face, Variant, words_of
from namekeeper.labels.wrap import Line, Paragraph

QUIET = 4  # modules of white around a QR code, ISO/IEC 18004
_GROWTH = 24  # steps between the least and the largest sizes
_TINY = 1e-6


@dataclass(frozen=True, slots=True)
class Room:
    """The inside of a label in mm, and the padding around it."""

    width: float
    height: float
    pad_x: float
    pad_y: float


@dataclass(frozen=True, slots=True)
class Set:
    """A block as it will be printed; ``size`` in quarters of a point."""

    block: Block
    size: int
    lines: tuple[Line, ...]

    @property
    def height(self) -> float:
        return _height(self.block, len(self.lines), self.size)

    @property
    def width(self) -> float:
        return max(line.width for line in self.lines) * self.size / STEP * PT


@dataclass(frozen=True, slots=True)
class Fitted:
    """A label that fits: its blocks, the QR code's module and side in mm (0: none), what was left out or shortened."""

    content: LabelContent
    sets: tuple[Set, ...]
    module: float
    square: float
    side_width: float
    spare: float
    left_out: tuple[str, ...]
    shortened: tuple[str, ...]

    def lines(self) -> tuple[str, ...]:
        return tuple(line.text for one in self.sets for line in one.lines)

    def size_of(self, name: str) -> float:
        """Size in pt of the block that shows the field, 0 if it is not on the label."""
        return next((one.size / STEP for one in self.sets if name in one.block.fields), 0.0)


@dataclass(frozen=True, slots=True)
class Misfit:
    """A label that cannot be printed at this size."""

    content: LabelContent
    why: str


class Fitter:
    """Fits contents into one layout in one room."""

    def __init__(self, layout: Layout, room: Room, measure: Measure) -> None:
        self._layout = layout
        self._room = room
        self._measure = measure
        self._shown = frozenset(name for block in layout.blocks for name in block.fields)
        self._wished = math.ceil(WISHED_X / PT / measure.x_height(Face.REGULAR) * STEP)

    def fit(self, content: LabelContent, modules: int = 0) -> Fitted | Misfit:
        """Sizes and lines for the content; ``modules`` is the width of its QR symbol, 0 for none.

        What does not fit gives way in the order of the layout. The name is set with an x-height of 1.2 mm wherever
        leaving out other fields makes room for that, and never below the least size of its block.
        """
        state = _State(content, {}, 0)
        for name_least in (self._wished, 0):
            variants = {
                name: len(forms) - 1 if name in self._layout.brief else 0
                for name, forms in content.fields.items()
                if name in self._shown
            }
            state = _State(content, variants, modules if self._layout.square else 0)
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

    def _attempt(self, state: _State, name_least: int) -> Fitted | Block | None:
        """A fitted label, or the block that is too wide, or None if the whole is too high."""
        found: Fitted | Block | None = None
        paragraphs = self._paragraphs(state, name_least)
        for module in self._modules(state):
            for narrow in (False, True) if any(one.block.zone is Zone.SIDE for one in paragraphs) else (False,):
                found = _Attempt(self._layout, self._room, state, module, narrow).made(paragraphs)
                if isinstance(found, Fitted):
                    return found
        return found

    def _paragraphs(self, state: _State, name_least: int) -> list[_Text]:
        found = []
        for block in self._layout.blocks:
            if pieces := state.pieces(block):
                words = words_of(pieces, block.weight, stacked=block.stacked)
                least = max(block.least, name_least) if block.name == "name" else block.least
                found.append(_Text(block, Paragraph(words, self._measure), least))
        return found

    def _modules(self, state: _State) -> Sequence[float]:
        if not state.modules or self._layout.square is None:
            return (0.0,)
        least, best = self._layout.square
        return (best, least) if best > least else (least,)

    def _refusal(self, state: _State) -> str:
        room = f"{self._room.width:.1f} x {self._room.height:.1f} mm"
        if state.modules and self._layout.square:
            side = self._layout.square[0] * (state.modules + 2 * QUIET)
            return f"a QR code of {side:.1f} mm beside name and id does not fit into {room}"
        for text in self._paragraphs(state, 0):
            widest = text.paragraph.widest * text.block.least / STEP * PT
            if text.block.name in REQUIRED and widest > self._room.width:
                return f"a word of the {text.block.name} is wider than {room} allows"
        return f"name, id and caution do not fit into {room}"


@dataclass(slots=True)
class _State:
    """The variant in use of every field; a field not named is not on the label."""

    content: LabelContent
    variants: dict[str, int]
    modules: int
    left_out: list[str] = field(default_factory=list)
    shortened: list[str] = field(default_factory=list)

    def give_way(self, name: str) -> bool:
        """Take the next smaller variant, or leave the field out. False if there was nothing to give."""
        if name == SQUARE and self.modules and not self.content.square_wanted:
            self.modules = 0
            self.left_out.append(name)
            return True
        if name not in self.variants:
            return False
        if self.variants[name] + 1 < len(self.content.fields[name]):
            self.variants[name] += 1
            if name not in self.shortened:
                self.shortened.append(name)
            return True
        if name in REQUIRED:
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


@dataclass(frozen=True, slots=True)
class _Text:
    """A block with its words, and the least size it may have now."""

    block: Block
    paragraph: Paragraph
    least: int

    def cap(self, width: float) -> int | None:
        """The largest size at which the block keeps to its number of lines in ``width`` mm."""
        block = self.block

        def keeps(size: int, lines: int = block.lines) -> bool:
            count = self.paragraph.count(_em(width, size))
            return count is not None and count <= lines

        most = max(self.least, block.most)
        if block.one_line and block.lines > 1:
            single = _largest(self.least, most, lambda size: keeps(size, 1))
            if single is not None and single >= block.one_line:
                return single
        return _largest(self.least, most, keeps)

    def set(self, width: float, size: int) -> Set:
        return Set(self.block, size, self.paragraph.lines(_em(width, size)))


@dataclass(frozen=True, slots=True)
class _Placed:
    """A text in a column of known width, with its range of sizes there."""

    text: _Text
    width: float
    cap: int

    def size(self, growth: int) -> int:
        low = self.text.least
        return min(self.cap, low + max(0, self.text.block.most - low) * growth // _GROWTH)

    def height(self, size: int) -> float:
        return _height(self.text.block, self.text.paragraph.count(_em(self.width, size)) or 0, size)


class _Attempt:
    """One try with given fields and a given QR code."""

    def __init__(self, layout: Layout, room: Room, state: _State, module: float, narrow: bool) -> None:  # noqa: FBT001
        self._layout = layout
        self._room = room
        self._state = state
        self._module = module
        self._narrow = narrow
        self._square = module * (state.modules + 2 * QUIET) if module else 0.0
        # The white around the code may lie in the padding: its dark modules end where the text ends.
        self._square_x = max(0.0, self._square - min(QUIET * module, room.pad_x))
        self._square_y = max(0.0, self._square - min(QUIET * module, room.pad_y))

    def made(self, texts: Sequence[_Text]) -> Fitted | Block | None:
        side = self._side([text for text in texts if text.block.zone is Zone.SIDE])
        if isinstance(side, Block):
            return side
        side_width = max((one.width for one in side), default=0.0)
        inner = self._room.width - (side_width + self._layout.side_gap if side else 0.0)
        placed = []
        for text in texts:
            if text.block.zone is Zone.SIDE:
                continue
            width = inner - (0.0 if self._above(text.block) else self._square_x)
            cap = text.cap(width)
            if cap is None:
                return text.block
            placed.append(_Placed(text, width, cap))
        sizes = self._sizes(placed)
        if sizes is None:
            return None
        sets = [one.text.set(one.width, size) for one, size in zip(placed, sizes, strict=True)]
        order = [text.block.name for text in texts]
        return Fitted(
            content=self._state.content,
            sets=tuple(sorted((*side, *sets), key=lambda one: order.index(one.block.name))),
            module=self._module,
            square=self._square,
            side_width=side_width,
            spare=min(self._spare(placed, sizes), self._room.height - sum(one.height for one in side)),
            left_out=tuple(self._state.left_out),
            shortened=tuple(name for name in self._state.shortened if name in self._state.variants),
        )

    def _sizes(self, placed: Sequence[_Placed]) -> list[int] | None:
        """All blocks grow together as far as the height allows, then the name alone."""

        def at(growth: int) -> list[int]:
            return [one.size(growth) for one in placed]

        growth = _largest(0, _GROWTH, lambda step: self._spare(placed, at(step)) >= -_TINY)
        if growth is None:
            return None
        sizes = at(growth)
        name = next((number for number, one in enumerate(placed) if one.text.block.name == "name"), None)
        if name is not None:

            def with_name(size: int) -> list[int]:
                return [*sizes[:name], size, *sizes[name + 1 :]]

            cap = placed[name].cap
            size = _largest(sizes[name], cap, lambda size: self._spare(placed, with_name(size)) >= -_TINY)
            sizes[name] = size if size is not None else sizes[name]
        return sizes

    def _spare(self, placed: Sequence[_Placed], sizes: Sequence[int]) -> float:
        """Height left over, negative if too high; beside a QR code the part below the head is at least its height."""
        head = lower = 0.0
        for one, size in zip(placed, sizes, strict=True):
            if self._above(one.text.block):
                head += one.height(size)
            else:
                lower += one.height(size)
        lower = max(lower, self._square_y)
        return self._room.height - head - lower - (self._layout.gap if head and lower else 0.0)

    def _above(self, block: Block) -> bool:
        return block.zone is Zone.HEAD or (block.zone is Zone.BODY and self._layout.wide_body)

    def _side(self, texts: Sequence[_Text]) -> list[Set] | Block:
        """The column at the left: as wide as its share allows, or as narrow as its least sizes."""
        sizes: list[_Placed] = []
        for text in texts:
            width = self._room.width * self._layout.side_share
            cap = None if self._narrow else text.cap(width)
            if cap is None:
                width = self._room.width
                count = text.paragraph.count(_em(width, text.least))
                if count is None or count > text.block.lines:
                    return text.block
                cap = text.least
            sizes.append(_Placed(text, width, cap))
        sets = [one.text.set(one.width, one.cap) for one in sizes]
        while sum(one.height for one in sets) > self._room.height + _TINY:
            number = max(range(len(sets)), key=lambda at: sets[at].size - texts[at].least)
            if sets[number].size <= texts[number].least:
                return sets[number].block
            sets[number] = texts[number].set(sizes[number].width, sets[number].size - 1)
        return sets


def _height(block: Block, lines: int, size: int) -> float:
    return block.before + lines * size / STEP * PT * block.leading


def _em(width: float, size: int) -> float:
    return width / (size / STEP * PT)


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
