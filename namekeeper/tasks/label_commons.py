"""Which common names may stand on a label: such that mean no other species."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from namekeeper.evidence.interfaces import CommonNames, NameCard
from namekeeper.evidence.statements import CommonName
from namekeeper.sources.lists.folding import common_words


class LabelCommons:
    """Common names of species by their cards; whether a name means another species is asked of every list once."""

    def __init__(self, lists: Sequence[CommonNames]) -> None:
        self._lists = lists
        self._meanings: dict[str, frozenset[str]] = {}

    def usual(self, cards: Sequence[NameCard]) -> tuple[CommonName, ...]:
        """The names that lists mark as the usual ones, by language."""
        return tuple(name for card, name in _proper(cards) if name.usual and self._means_only(name, card))

    def on_tag(self, tag: str, cards: Sequence[NameCard]) -> str:
        """The longest common name of the species that the tag holds, as the list writes it; empty if it holds none."""
        said = common_words(tag)
        if not said or not cards:
            return ""
        held = [(card, name) for card, name in _proper(cards) if _holds(said, common_words(name.text))]
        held.sort(key=lambda one: (-len(one[1].text), one[1].text))
        return next((name.text for card, name in held if self._means_only(name, card)), "")

    def _means_only(self, name: CommonName, card: NameCard) -> bool:
        if name.text not in self._meanings:
            found = (other.taxon.name for one in self._lists for other in one.common(name.text))
            self._meanings[name.text] = frozenset(found)
        return self._meanings[name.text] <= {card.taxon.name}


def _proper(cards: Sequence[NameCard]) -> Iterator[tuple[NameCard, CommonName]]:
    """No nicknames and abbreviations."""
    return ((card, name) for card in cards for name in card.common if name.kind == "common")


def _holds(said: Sequence[str], words: Sequence[str]) -> bool:
    """Whether the words stand in what is said, in this order and together."""
    count = len(words)
    return bool(words) and any(list(said[at : at + count]) == list(words) for at in range(len(said) - count + 1))
