"""The labels of a run as one family: few sizes, the same baselines, the rule at one place."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from namekeeper.labels.attempt import SideShare
from namekeeper.labels.fit import LabelDraft
from namekeeper.labels.fitted import Fitted, Set
from namekeeper.labels.layout import PT, STEP, Layout, Zone

NAME_SIZES = 3  # at most so many sizes of a block in a run
_MOST_NAMES = 0.9  # of ten names nine are as large as that
_HALF = 0.5  # of other texts half: a long caution does not make all the others small
_LOWER = 0.86  # what does not fit at that size takes the first of a row of sizes, each so much of the one before
_SLIGHT = 1.2  # mm; so little white brings a line to its baseline unseen
_NEAR = 2.5  # mm; so much higher than half of the heads is still kept free for all
_TINY = 1e-6


def as_family(drafts: Sequence[LabelDraft], layout: Layout, drop: float) -> tuple[Fitted, ...]:
    """All labels with shared sizes and places; ``drop`` in em is how far a baseline lies below the middle of its line.

    No label gives anything up for it but size and white.
    """
    drafts = _beside(drafts)
    names = _steps((draft.most("name") for draft in drafts), _MOST_NAMES)
    first = [_made(draft, {"name": _step(names, draft.most("name"))}) for draft in drafts]
    sizes = _shared_sizes(first, names)
    second = [_snapped(draft, one, sizes) for draft, one in zip(drafts, first, strict=True)]
    grid = _Grid.of(second, layout, drop)
    return tuple(grid.kept(draft, one) for draft, one in zip(drafts, second, strict=True))


def each_largest(drafts: Iterable[LabelDraft]) -> tuple[Fitted, ...]:
    """Every label as large as it can be, whatever its neighbours look like."""
    return tuple(_made(draft, {}) for draft in drafts)


def _made(draft: LabelDraft, limits: Mapping[str, int]) -> Fitted:
    fitted = draft.fitted(limits)
    assert fitted is not None, "smaller type fits wherever larger does"
    return fitted


def _steps(sizes: Iterable[int], quorum: float) -> tuple[int, ...]:
    """At most three sizes, largest first: each the largest that the quorum of those left can have, the last for all."""
    left = sorted(sizes)
    found: list[int] = []
    while left and len(found) < NAME_SIZES - 1:
        found.append(left[math.floor((1 - quorum) * len(left) + _TINY)])
        left = [size for size in left if size < found[-1]]
    return (*found, *left[:1])


def _step(steps: Sequence[int], size: int) -> int:
    """The largest step that is not beyond the size."""
    return next((step for step in steps if step <= size), size)


def _beside(drafts: Sequence[LabelDraft]) -> Sequence[LabelDraft]:
    """Columns at the left of one width, and their texts in few sizes."""
    names = {name for draft in drafts for name in draft.side_sizes}
    if not names:
        return drafts
    steps = {
        name: _steps((draft.side_sizes[name] for draft in drafts if name in draft.side_sizes), _MOST_NAMES)
        for name in names
    }
    shares = [{name: _step(steps[name], size) for name, size in draft.side_sizes.items()} for draft in drafts]
    smaller = [draft.beside(SideShare(share, 0)) for draft, share in zip(drafts, shares, strict=True)]
    width = max((draft.side_width for draft in smaller if not draft.narrow), default=0.0)
    return [draft.beside(SideShare(share, width)) for draft, share in zip(drafts, shares, strict=True)]


def _shared_sizes(fitted: Sequence[Fitted], names: tuple[int, ...]) -> Mapping[str, tuple[int, ...]]:
    sizes: dict[str, list[int]] = defaultdict(list)
    for one in fitted:
        for block in one.sets:
            sizes[block.block.name].append(block.size)
    return {name: _ladder(_steps(found, _HALF)[0]) for name, found in sizes.items()} | {"name": names}


def _ladder(top: int) -> tuple[int, ...]:
    return tuple(dict.fromkeys(round(top * _LOWER**number) for number in range(16)))


def _snapped(draft: LabelDraft, one: Fitted, sizes: Mapping[str, tuple[int, ...]]) -> Fitted:
    limits = {block.block.name: _step(sizes[block.block.name], block.size) for block in one.sets}
    if all(limits[block.block.name] == block.size for block in one.sets):
        return one
    return _made(draft, limits)


@dataclass(frozen=True, slots=True)
class _Grid:
    """Where lines of a run stand, in mm below the padding: first baselines by block, and the height of the head."""

    baselines: Mapping[str, float]
    head: float
    drop: float
    sided: bool

    @classmethod
    def of(cls, fitted: Sequence[Fitted], layout: Layout, drop: float) -> _Grid:
        if any(block.zone is Zone.SIDE for block in layout.blocks):
            return cls({"name": _shared_baseline(fitted, drop)}, 0.0, drop, sided=True)
        depths: dict[str, list[float]] = defaultdict(list)
        for one in fitted:
            top = 0.0
            for block in _head(one):
                depths[block.block.name].append(top + _first(block, drop))
                top += block.height
        baselines = {name: sorted(found)[len(found) // 2] for name, found in depths.items()}
        grid = cls(baselines, 0.0, drop, sided=False)
        below = layout.rule is not None or any(block.zone is Zone.BODY for block in layout.blocks)
        heads = sorted(sum(block.height for block in grid._lead(one)) for one in fitted) if below else []
        return replace(grid, head=_height(heads))

    def kept(self, draft: LabelDraft, one: Fitted) -> Fitted:
        """The label on this grid as far as its height allows."""
        sizes = {block.block.name: block.size for block in one.sets}
        if self.sided:
            needed = self.baselines["name"] - _first(_named(one), self.drop)
            room = draft.fitted(sizes, needed) if needed > one.spare else None
            # What was kept free above the blocks is white again, to be shared out.
            return self._centred(replace(room, spare=room.spare + needed, head=0.0) if room else one)
        found = self._placed(one)
        if found is None and (tighter := draft.fitted(sizes, self.head)):
            found = self._placed(tighter)
        return found or one

    def _placed(self, one: Fitted) -> Fitted | None:
        before = sum(block.height for block in _head(one))
        led = self._lead(one)
        after = max(self.head, sum(block.height for block in led))
        spare = one.spare - (after - max(before, one.head))
        if spare < -_TINY:
            return None
        others = [block for block in one.sets if block.block.zone is not Zone.HEAD]
        order = [block.block.name for block in one.sets]
        sets = sorted((*led, *others), key=lambda block: order.index(block.block.name))
        return replace(one, sets=tuple(sets), spare=spare, head=self.head)

    def _lead(self, one: Fitted) -> list[Set]:
        """The blocks of the head, each with the white that brings it to its baseline."""
        found, top = [], 0.0
        for block in _head(one):
            white = self.baselines[block.block.name] - top - _first(block, self.drop)
            moves = 0 < white <= _SLIGHT or (white > 0 and block.block.name == "name")
            found.append(replace(block, lead=white) if moves else block)
            top += found[-1].height
        return found

    def _centred(self, one: Fitted) -> Fitted:
        """Name and the column beside it on one baseline, that of the run where there is room."""
        name = _named(one)
        side = next((block for block in one.sets if block.block.zone is Zone.SIDE), None)
        depth, beside = _first(name, self.drop), _first(side, self.drop) if side else 0.0
        lower, white = (side, depth - beside) if beside < depth else (name, beside - depth)
        if side is None or white > one.spare:
            lower, white = None, 0.0
        sets = tuple(replace(block, lead=white) if block is lower else block for block in one.sets)
        lead = min(max(self.baselines["name"] - max(depth, beside), 0.0), one.spare - white)
        return replace(one, sets=sets, lead=lead)


def _shared_baseline(fitted: Sequence[Fitted], drop: float) -> float:
    """In the middle of the labels, but not lower than nine of ten of them can bring it."""
    depths = [_first(_named(one), drop) for one in fitted]
    middle = sorted(one.lead + depth for one, depth in zip(fitted, depths, strict=True))
    lowest = sorted(one.spare + depth for one, depth in zip(fitted, depths, strict=True))
    if not fitted:
        return 0.0
    return min(middle[len(middle) // 2], lowest[math.floor((1 - _MOST_NAMES) * len(lowest) + _TINY)])


def _head(one: Fitted) -> list[Set]:
    return [block for block in one.sets if block.block.zone is Zone.HEAD]


def _named(one: Fitted) -> Set:
    return next(block for block in one.sets if block.block.name == "name")


def _first(block: Set, drop: float) -> float:
    """How far the first baseline of a block lies below its top."""
    size = block.size / STEP * PT
    return block.block.before + (block.block.leading / 2 + drop) * size


def _height(heads: Sequence[float]) -> float:
    """The height kept for all heads: that of the highest one that is not far beyond what half of them take."""
    usual = heads[len(heads) // 2] if heads else 0.0
    return max((head for head in heads if head <= usual + _NEAR), default=0.0)
