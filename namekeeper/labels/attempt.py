"""One try at setting given texts in a room: columns, caps of size, and growth as far as the height allows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from namekeeper.labels.columns import Columns, Text, largest
from namekeeper.labels.fitted import QUIET, Room, Set, height_of
from namekeeper.labels.layout import STEP, Block, Layout, Zone

_GROWTH = 24  # steps between the least and the largest sizes
_GOOD = (7 * STEP, 6 * STEP, 0)  # sizes of the text beside a name, in quarters of a point, the first that fits
_TINY = 1e-6


@dataclass(frozen=True, slots=True)
class _Placed:
    """A text in a column of known width, with its range of sizes there."""

    text: Text
    width: float
    cap: int
    roomy: int = 0  # the size it may grow to where height is left over

    def size(self, growth: int) -> int:
        low = self.text.least
        return min(self.cap, low + max(0, self.text.block.most - low) * growth // _GROWTH)

    def height(self, size: int) -> float:
        return height_of(self.text.block, self.text.count(self.width, size) or 0, size)


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Blocks set in a room, with the QR code's side, the left column's width and the height left over, in mm."""

    sets: tuple[Set, ...]
    square: float
    side_width: float
    spare: float


class Ready:
    """Texts that fit at their least sizes, in columns of known widths; how large each is set is still open."""

    def __init__(self, columns: Columns, side: Sequence[Set], placed: Sequence[_Placed], order: Sequence[str]) -> None:
        self._columns = columns
        self._side = side
        self._placed = placed
        self._order = order
        self.side_width = max((one.width for one in side), default=0.0)

    def most(self, name: str) -> int:
        """The largest size of a block of the main column while all others are good to read, or have their least."""
        number = next(number for number, one in enumerate(self._placed) if one.text.block.name == name)
        for good in _GOOD:
            sizes = [max(one.text.least, min(one.cap, good)) for one in self._placed]
            sizes[number] = self._placed[number].text.least
            if self._spare_at(sizes) >= -_TINY:
                break
        return self._grown(sizes, number, self._placed[number].cap)[number]

    def side_sizes(self) -> dict[str, int]:
        """Sizes in the column at the left, by block."""
        return {one.block.name: one.size for one in self._side}

    def arranged(self, limits: Mapping[str, int], head: float = 0.0) -> Arrangement | None:
        """All blocks as large as the height allows; the name has its limit first, where it has one.

        ``limits`` are largest sizes by block, ``head`` the height kept for the head: None if there is none left for it.
        """
        tight = Ready(self._columns.with_head(head), self._side, self._limited(limits), self._order)
        sizes = tight._sizes(fixed="name" in limits)
        if sizes is None:
            return None
        sets = [one.text.set(one.width, size) for one, size in zip(tight._placed, sizes, strict=True)]
        return Arrangement(
            sets=tuple(sorted((*self._side, *sets), key=lambda one: self._order.index(one.block.name))),
            square=self._columns.square,
            side_width=self.side_width,
            spare=min(tight._spare_at(sizes), self._columns.height - sum(one.height for one in self._side)),
        )

    def _limited(self, limits: Mapping[str, int]) -> list[_Placed]:
        """Nothing gets larger than its limit, nor than the name's."""
        found = []
        for one in self._placed:
            limit = min(limits.get(key, one.cap) for key in ("name", one.text.block.name))
            roomy = min(one.roomy, limits.get(one.text.block.name, one.roomy))
            found.append(replace(one, cap=max(one.text.block.least, min(one.cap, limit)), roomy=roomy))
        return found

    def _sizes(self, *, fixed: bool) -> list[int] | None:
        """All blocks grow together as far as the height allows, then the name alone; a ``fixed`` name has its size."""
        name = next((number for number, one in enumerate(self._placed) if one.text.block.name == "name"), None)

        def at(growth: int) -> list[int]:
            return [
                one.cap if fixed and number == name else one.size(growth) for number, one in enumerate(self._placed)
            ]

        growth = largest(0, _GROWTH, lambda step: self._spare_at(at(step)) >= -_TINY)
        if growth is None:
            return None
        sizes = at(growth)
        if name is not None and not fixed:
            sizes = self._grown(sizes, name, self._placed[name].cap)
        return self._roomy(sizes)

    def _roomy(self, sizes: list[int]) -> list[int]:
        """What height is left over goes to the blocks that ask for it; none gets larger than the name."""
        top = max(sizes, default=0)
        for number, one in enumerate(self._placed):
            most = min(one.roomy, top)
            cap = one.text.cap(one.width, most) if most > sizes[number] else None
            if cap is not None and cap > sizes[number]:
                sizes = self._grown(sizes, number, cap)
        return sizes

    def _grown(self, sizes: list[int], number: int, cap: int) -> list[int]:
        """One block as large as the height allows, up to ``cap``."""

        def at(size: int) -> list[int]:
            return [*sizes[:number], size, *sizes[number + 1 :]]

        found = largest(sizes[number], cap, lambda size: self._spare_at(at(size)) >= -_TINY)
        return sizes if found is None else at(found)

    def _spare_at(self, sizes: Sequence[int]) -> float:
        return self._columns.spare(
            [(one.text.block, one.height(size)) for one, size in zip(self._placed, sizes, strict=True)]
        )


@dataclass(frozen=True, slots=True)
class SideShare:
    """What a run shares of the column at the left: sizes by block and a least width in mm."""

    sizes: Mapping[str, int]
    width: float


class Attempt:
    """One try beside a QR code of ``modules`` modules of ``module`` mm, 0 for none."""

    def __init__(self, layout: Layout, room: Room, modules: int, module: float, *, narrow: bool) -> None:
        self._layout = layout
        self._room = room
        self.narrow = narrow
        self.centred = layout.centred
        square = module * (modules + 2 * QUIET) if module else 0.0
        # The white around the code may lie in the padding: its dark modules end where the text ends.
        self._square_x = max(0.0, square - min(QUIET * module, room.pad_x))
        square_y = max(0.0, square - min(QUIET * module, room.pad_y))
        self._columns = Columns(room.height - layout.fill_in.least, layout.gap, layout.wide_body, square, square_y)

    def made(self, texts: Sequence[Text], share: SideShare | None = None) -> Ready | Block | None:
        """The texts in their columns, or the block that is too wide, or None if the whole is too high."""
        side = self._side([text for text in texts if text.block.zone is Zone.SIDE], share)
        if isinstance(side, Block):
            return side
        side_width = max((one.width for one in side), default=0.0)
        if side and share:
            side_width = max(side_width, share.width)
        inner = self._room.width - (side_width + self._layout.side_gap if side else 0.0)
        main = [
            (text, inner - (0.0 if self._columns.above(text.block) else self._square_x))
            for text in texts
            if text.block.zone is not Zone.SIDE
        ]
        heights = []
        for text, width in main:
            height = text.least_height(width)
            if height is None:
                return text.block
            heights.append((text.block, height))
        if self._columns.spare(heights) < -_TINY:
            return None
        placed = [_Placed(text, width, text.cap(width) or text.least, text.block.roomy) for text, width in main]
        ready = Ready(self._columns, side, _below_the_name(placed), [text.block.name for text in texts])
        ready.side_width = side_width
        return ready

    def _side(self, texts: Sequence[Text], share: SideShare | None) -> list[Set] | Block:
        """The column at the left: as wide as its share allows, or as narrow as its least sizes."""
        sizes: list[_Placed] = []
        for text in texts:
            width = self._room.width * self._layout.side_share
            cap = None if self.narrow else text.cap(width)
            if cap is None:
                width = self._room.width
                count = text.count(width, text.least)
                if count is None or count > text.block.lines:
                    return text.block
                cap = text.least
            if share and not self.narrow:
                cap = max(text.least, min(cap, share.sizes.get(text.block.name, cap)))
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
