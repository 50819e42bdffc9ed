"""Chance that leaves nothing out: of a deck every card comes before any comes again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random
from typing import Generic, TypeVar

T = TypeVar("T")


@dataclass
class Deck(Generic[T]):
    """Cards that are shuffled anew whenever all were drawn; a card that is in it twice comes twice as often."""

    cards: Sequence[T]
    random: Random
    _left: list[T] = field(default_factory=list, init=False)

    def draw(self) -> T:
        if not self._left:
            self._left = self.random.sample(list(self.cards), len(self.cards))
        return self._left.pop()
