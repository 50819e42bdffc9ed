"""What a tag may mean, as values (contract section 2); the sentences are made in ``faces.telling``."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum, unique
from types import MappingProxyType
from typing import NamedTuple

from namekeeper.evidence.statements import Division, Misuse, TaxonName, TradeForm
from namekeeper.words.spelling import PlainKey, plain_key
from namekeeper.words.terms import AnswerKind, How

HOW_ORDER = tuple(How)
# How sure a way of finding is by itself; an order, no probability.
WEIGHT = MappingProxyType(
    {
        How.ACCEPTED: 1.0, How.FORMER: 0.99, How.EQUIVALENT: 0.98, How.ABBREVIATED: 0.97, How.COMMON: 0.95,
        How.MISAPPLIED: 0.9, How.DOUBTFUL: 0.8, How.GENUS: 0.6, How.SIMILAR: 0.6,
    }
)  # fmt: skip
SPECIES_RANKS = frozenset({"species", "subspecies", "variety", "form"})


@unique
class NoteCode(StrEnum):
    """What there is to say of a candidate; beside each the words that its note holds, or what it is about."""

    CROSS_PARENT = "cross-parent"
    TRADE_FORM = "trade-form"  # about the recorded form
    TRADE_USE = "trade-use"  # about the misuse
    STILL_IN_USE = "still-in-use"  # about the misuse that was cleared up
    DIVIDED = "divided"  # about the division
    DISPUTED = "disputed"  # the name on which sources differ
    SOURCE_REMARK = "source-remark"  # the source's own words
    SOURCE_FAULT = "source-fault"  # what is wrong with the source's data, in its own words
    NO_NAME_IN_FORCE = "no-name-in-force"
    NO_NAME_GIVEN = "no-name-given"
    LISTED_AS = "listed-as"  # the former name
    NAME_RECALLED = "name-recalled"  # the former name, which stands in a list from memory alone
    SPELT_BY_SOURCE = "spelt-by-source"  # its spelling of the same name
    SPELT_SIMILARLY = "spelt-similarly"  # the listed spelling
    SUBSPECIES_UNLISTED = "subspecies-unlisted"  # the subspecies
    FORMER_GENUS = "former-genus"  # the genus
    GENUS_WENT = "genus-went"  # the genus, the genus it went to
    PART_OF_COMMON = "part-of-common"  # the whole common name
    LIKE_COMMON = "like-common"  # the common name
    ONLY_EPITHET = "only-epithet"
    TOO_GENERAL = "too-general"
    RECALLED = "recalled"  # the common name stands in a list from memory alone
    WORD_NOT_HEARD = "word-not-heard"  # words beside a common name that nobody here knows
    OTHER_ANIMAL = "other-animal"  # the word of the tag for a group of animals
    DENIED = "denied"  # the tag says that it is not this, or only looks like it
    UNLISTED_BESIDE = "unlisted-beside"  # names or alternatives on the tag that no list has
    LEFT_OUT = "left-out"  # words of the tag, and what they mean among other animals
    MAY_BE_REAL = "may-be-real"  # the written name may be one that no list here has


class Note(NamedTuple):
    """One thing to say of a candidate."""

    code: NoteCode
    words: tuple[str, ...] = ()
    about: Misuse | Division | TradeForm | None = None


MAY_BE_REAL = Note(NoteCode.MAY_BE_REAL)


class Candidate(NamedTuple):
    """A taxon that a tag may mean: how it was found, what on the tag matched, and who says so.

    ``score`` is 0 to 1 and only orders; ``clues`` counts the clues of the tag that agree on this taxon.
    """

    name: str
    authorship: str
    rank: str
    how: How
    matched: str
    score: float
    range: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    clues: int = 1
    family: str | None = None
    higher: tuple[str, ...] = ()  # the taxa that hold it, nearest first
    rival: bool = False  # another meaning of the written name, behind the written one

    @property
    def key(self) -> PlainKey:
        return plain_key(self.name)

    @property
    def firm(self) -> bool:
        """Whether the spelling alone says so (contract section 1), not a guess."""
        return self.how is not How.SIMILAR

    @property
    def is_species(self) -> bool:
        return self.rank in SPECIES_RANKS

    @classmethod
    def of(
        cls, taxon: TaxonName, how: How, matched: str, source: str, *, notes: Iterable[Note] = (),
        score: float | None = None,
    ) -> Candidate:  # fmt: skip
        family = next((higher for higher in taxon.higher if higher.endswith("idae")), None)
        return cls(
            taxon.name, taxon.authorship, taxon.rank, how, matched, WEIGHT[how] if score is None else score,
            taxon.range, (source,), tuple(notes), 1, family, taxon.higher,
        )  # fmt: skip

    def noted(self, notes: Iterable[Note]) -> Candidate:
        """The same candidate with more notes, each once."""
        return self._replace(notes=tuple(dict.fromkeys((*self.notes, *notes))))

    def merged(self, other: Candidate) -> Candidate:
        """One candidate of two findings of the same taxon by the same clue: the firmer, with the sources of both."""
        first, second = sorted(
            (self, other), key=lambda found: (not found.firm, HOW_ORDER.index(found.how), -found.score)
        )
        return first._replace(
            sources=tuple(dict.fromkeys((*first.sources, *second.sources))),
            range=first.range or second.range,
            authorship=first.authorship or second.authorship,
        ).noted(second.notes)


def merge(candidates: Iterable[Candidate]) -> list[Candidate]:
    """Candidates by taxon, in the order of their first finding."""
    found: dict[PlainKey, Candidate] = {}
    for candidate in candidates:
        known = found.get(candidate.key)
        found[candidate.key] = candidate if known is None else known.merged(candidate)
    return list(found.values())


class Lookup(NamedTuple):
    """The answer to a tag: how far it could be read, and every taxon it may mean, best first."""

    answer: AnswerKind
    candidates: tuple[Candidate, ...] = ()
