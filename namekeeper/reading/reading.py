"""What a seller's tag says, as a value: every field, where it stood, and what was left over."""

from __future__ import annotations

from enum import StrEnum, unique
from typing import NamedTuple

from namekeeper.words.names import ScientificName


@unique
class ClueLink(StrEnum):
    """How a scientific clue stands to the clue before it."""

    ALONE = "alone"
    OR = "or"  # "regalis/ornata": the seller does not know which
    CROSSED = "crossed"  # "A × B": a hybrid of both
    FORMER = "former"  # "ex Haplopelma", "syn. ...": an older name of the animal


HYBRID = "hybrid"  # the qualifier of a cross


class Clue(NamedTuple):
    """A scientific name on a tag; ``start`` and ``end`` are characters of the tag."""

    name: ScientificName
    start: int
    end: int
    link: ClueLink = ClueLink.ALONE

    @property
    def text(self) -> str:
        """The name without qualifier, capitals as the Code has them."""
        return self.name.canonical


class CommonClue(NamedTuple):
    """Words of a tag that may be a common name; ``generic`` where all of them only name a group of animals."""

    text: str
    start: int
    end: int
    generic: bool = False


class Word(NamedTuple):
    """A word of a tag and its place."""

    text: str
    start: int
    end: int


class GroupWord(NamedTuple):
    """A word of a tag that names a group of animals, the group as a taxon, and where the word stands."""

    text: str
    taxon: str
    start: int
    end: int


class Span(NamedTuple):
    """Characters ``start`` to ``end`` (exclusive) of the tag that were read as ``field``."""

    start: int
    end: int
    field: str


class Reading(NamedTuple):
    """A tag as read (contract section 2). Empty text means: the tag does not say."""

    tag: str
    clues: tuple[Clue, ...] = ()
    commons: tuple[CommonClue, ...] = ()
    qualifier: str = ""
    uncertain: bool = False
    trade_form: str = ""
    locality: str = ""
    sex: str = ""  # male.female.unsexed
    size_cm: tuple[float, float] | None = None
    size_of: str = ""  # body, legspan
    stage: str = ""
    instar: str = ""
    source_mark: str = ""
    price: str = ""
    seller: str = ""  # who sold or bred it, where a word of the tag says so
    leftover: str = ""
    spans: tuple[Span, ...] = ()
    group_words: tuple[GroupWord, ...] = ()
    unheard: tuple[Word, ...] = ()  # words that are in no lexicon and no name that a list has; places, too
    negated: bool = False  # the tag says that it is not the named animal, or only looks like it
    alternatives: tuple[Word, ...] = ()  # what stands behind an "or" and is no name that a list has

    @property
    def groups(self) -> tuple[str, ...]:
        """The animal groups that words of the tag name, as taxa, each once."""
        return tuple(dict.fromkeys(word.taxon for word in self.group_words))

    @property
    def group(self) -> str:
        """The animal group a word of the tag names, as a taxon; of several the first, and tarantulas before all."""
        return "Theraphosidae" if "Theraphosidae" in self.groups else next(iter(self.groups), "")

    @property
    def scientific(self) -> tuple[str, ...]:
        """Scientific names in the order of the tag, former names left out."""
        return tuple(dict.fromkeys(clue.text for clue in self.clues if clue.link is not ClueLink.FORMER))

    @property
    def former(self) -> tuple[str, ...]:
        """Names that the tag gives as former ones."""
        return tuple(dict.fromkeys(clue.text for clue in self.clues if clue.link is ClueLink.FORMER))

    @property
    def common(self) -> tuple[str, ...]:
        """Common-name clues in the order of the tag, as written."""
        return tuple(dict.fromkeys(clue.text for clue in self.commons))
