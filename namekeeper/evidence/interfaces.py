"""The shapes of a source: one that is asked names, and the parts of a list that is searched on this machine."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Iterator, Sequence, Set
from typing import NamedTuple, Protocol

from namekeeper.evidence.statements import (
    Caution,
    CommonName,
    Edition,
    Failure,
    GenusRecord,
    Misuse,
    Reply,
    Statement,
    TaxonName,
    TradeForm,
)
from namekeeper.words.spelling import PlainKey, plain_key


class NameSource(ABC):
    """Asked a scientific name, says what it knows; what goes wrong outside this machine is a Failure, never raised."""

    @property
    @abstractmethod
    def edition(self) -> Edition:
        """The source as it is in use now."""

    @abstractmethod
    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        """One reply a name, in order; ``names`` are canonical two- or three-word names, or one genus word."""


class CommonNameSource(ABC):
    """Asked a common name, returns the taxa it may mean."""

    @property
    @abstractmethod
    def edition(self) -> Edition:
        """The source as it is in use now."""

    @abstractmethod
    def ask_common(self, words: str) -> tuple[CommonName, ...] | Failure:
        """Taxa that carry the common name ``words``."""


class Near(NamedTuple):
    """A listed name that is spelt similarly to what was asked; ``distance`` in edits, ``score`` 0 to 1."""

    statement: Statement
    distance: int
    score: float


class NameCard(NamedTuple):
    """Everything a list knows about one accepted species, for ``aka`` and labels."""

    taxon: TaxonName
    former: tuple[Statement, ...]
    common: tuple[CommonName, ...]
    cautions: tuple[Caution, ...]
    citation: str
    sold_as: tuple[Misuse, ...] = ()  # names of other species under which the trade has sold it
    as_of: str = ""  # year up to which the source of its status was followed
    revised: str = ""  # year of a newer revision of its genus known to the list


class ScientificNames(Protocol):
    """Scientific names of a list as they are written. Searches touch an index on disk, nothing is loaded whole."""

    @property
    @abstractmethod
    def edition(self) -> Edition:
        """The list as it is in use now."""

    @abstractmethod
    def named(self, name: str) -> tuple[Statement, ...]:
        """Statements on names equal to ``name``; only if none is, on those of the next row of contract section 1."""

    @abstractmethod
    def genus(self, genus: str) -> GenusRecord | None:
        """The genus word as this list knows it, row 1 of contract section 1 only."""


class SimilarNames(Protocol):
    """Names spelt similarly."""

    @abstractmethod
    def similar(self, name: str, limit: int = 8) -> tuple[Near, ...]:
        """Names spelt similarly, nearest first; genus may be abbreviated ("B. smithy") or only an epithet be given."""

    @abstractmethod
    def similar_genus(self, genus: str, limit: int = 8) -> tuple[tuple[GenusRecord, int], ...]:
        """Genus words spelt similarly with their distance, nearest first."""


#: Names of one genus that are compared one by one.
MOST_OF_A_GENUS = 2000

#: Chooses among many names, each folded by row 1 of contract section 1; asked once for all of them.
Closeness = Callable[[Iterable[PlainKey]], Set[PlainKey]]


class NameSearch(Protocol):
    """Names by a part of them, as tags have them."""

    @abstractmethod
    def ask_firmly(self, names: Sequence[str]) -> Iterator[Reply]:
        """One reply a name, in order, without hints: for those who look for similar names by themselves."""

    @abstractmethod
    def abbreviated(self, genus_start: str, epithet: str) -> tuple[Statement, ...]:
        """Names with (an equivalent of) ``epithet`` whose genus begins with ``genus_start`` ("B", "Br")."""

    def clipped(self, genus_start: str, epithet_start: str, limit: int = 20) -> tuple[Statement, ...]:
        """Names of two words whose genus and epithet begin so ("P met")."""
        return ()

    @abstractmethod
    def with_epithet(self, epithet: str) -> tuple[Statement, ...]:
        """Names of any genus with that epithet."""

    def knows_epithet(self, epithet: str) -> bool:
        """Whether a name of any genus has that epithet."""
        return bool(self.with_epithet(epithet))

    def keyed(self, identifier: str) -> Statement | None:
        """What the list says of the name with that identifier of its own; None if it has none."""
        return None

    @abstractmethod
    def prefixed(self, start: str, limit: int = 20) -> tuple[Statement, ...]:
        """Names that begin with ``start``, in alphabetical order."""

    def crowd(self, genus: str, most: int) -> int:
        """How many names, written differently, the genus has; counted no further than ``most``."""
        return min(most, len({said.subject.name for said in self.prefixed(f"{genus} ", MOST_OF_A_GENUS)}))

    def neighbours(self, genus: str, epithet: str, close: Closeness) -> Iterator[Statement]:
        """What :meth:`prefixed` finds for a whole genus, then :meth:`with_epithet`, of the names that are close."""
        found = (*self.prefixed(f"{genus} ", MOST_OF_A_GENUS), *self.with_epithet(epithet))
        kept = close(plain_key(said.subject.name) for said in found)
        return (said for said in found if plain_key(said.subject.name) in kept)


class CommonNames(Protocol):
    """Common names of a list, as written and misspelt."""

    @abstractmethod
    def common(self, words: str) -> tuple[CommonName, ...]:
        """Common names equal to ``words`` after folding case, marks, hyphens, word order and plural."""

    @abstractmethod
    def common_with(self, words: Iterable[str]) -> tuple[CommonName, ...]:
        """Common names that contain every one of ``words`` (partial, such as "red knee")."""

    @abstractmethod
    def similar_common(self, words: str, limit: int = 8) -> tuple[tuple[CommonName, float], ...]:
        """Common names spelt similarly with a score from 0 to 1, best first."""


class UsageNotes(Protocol):
    """What a list records of how names are used: in the trade, on papers, in grammar."""

    @abstractmethod
    def forms(self, genus: str | None, words: str) -> tuple[TradeForm, ...]:
        """Trade forms of that genus (any genus if None) named ``words`` after folding."""

    @abstractmethod
    def cautions(self, taxa: Iterable[str]) -> tuple[Caution, ...]:
        """Cautions on any of these taxa or on the higher taxa that hold them."""

    def word_class(self, epithet: str) -> str | None:
        """What kind of word an epithet is, as in ``words.gender.WordClass``; None where the list does not tell."""
        return None


class SpeciesCards(Protocol):
    """All that a list knows of a species in force, on one card."""

    @abstractmethod
    def card(self, name: str) -> NameCard | None:
        """All about the accepted species of that exact canonical name."""


class NameList(ScientificNames, SimilarNames, NameSearch, CommonNames, UsageNotes, SpeciesCards, NameSource):
    """A whole list on this machine; who needs less of one asks for one of its parts."""

    def ask_firmly(self, names: Sequence[str]) -> Iterator[Reply]:
        return self.ask(names)
