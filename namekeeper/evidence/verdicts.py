"""What a check says of one label, as values: standing, choices, grounds and who said what.

Nothing here is a sentence: every reason and every ground is a code with what it is about, told in ``faces.telling``.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum, unique
from typing import NamedTuple

from namekeeper.evidence.candidates import Candidate
from namekeeper.evidence.statements import (
    Act,
    Caution,
    Dispute,
    Division,
    Edition,
    Failure,
    GenusRecord,
    Misuse,
    Statement,
    TaxonName,
    TradeForm,
)
from namekeeper.words.terms import Standing


class Position(NamedTuple):
    """What one source holds of a name: those of its statements that count."""

    edition: Edition
    statements: tuple[Statement, ...]


class Silence(NamedTuple):
    """A source that was asked ``asked`` and does not list it."""

    edition: Edition
    asked: str

    @property
    def link(self) -> str | None:
        return self.edition.link


class Claims(NamedTuple):
    """Sources that claim to list every name of the group."""

    editions: tuple[Edition, ...]


@unique
class GroundCode(StrEnum):
    """What speaks for a choice; beside each the words that it holds, or what it is about."""

    CLUE = "clue"  # about the candidate for a tag
    BY_SOURCE = "by-source"  # about the edition, as for the next three
    MEANT_BY = "meant-by"
    ONE_READING = "one-reading"
    SPELT_SIMILARLY = "spelt-similarly"
    PROPER_SENSE = "proper-sense"  # the name on the label; about the edition
    ONE_SIDE = "one-side"  # about the dispute
    SOLD_AS = "sold-as"  # about the misuse
    COVERED = "covered"  # about the division
    DESCRIBED_FORM = "described-form"  # about the trade form
    FOLLOWS_GENUS = "follows-genus"
    COMPUTED = "computed"
    STANDS_THERE = "stands-there"
    COMMON_NAME = "common-name"  # the common name; about the edition
    GENUS_PART = "genus-part"  # about the record of the genus
    GENUS_REST = "genus-rest"
    GENUS_SUNK = "genus-sunk"  # the genus; about the edition
    SAME_IDENTIFIER = "same-identifier"  # about the newer edition, as for the next one
    SAME_EPITHET = "same-epithet"
    NATIVE_RANGE = "native-range"  # the places


class Ground(NamedTuple):
    """One thing that speaks for a choice."""

    code: GroundCode
    words: tuple[str, ...] = ()
    about: Candidate | Edition | Dispute | Misuse | Division | TradeForm | GenusRecord | None = None


class Choice(NamedTuple):
    """A name the keeper may choose, and what speaks for it: facts, no identification."""

    name: str
    authorship: str
    grounds: tuple[Ground, ...]
    range: tuple[str, ...] = ()


class Said(NamedTuple):
    """One source on the name: its statement, its silence, or why it could not be asked; and how old that is."""

    told: Statement | Silence | Failure
    retrieved: datetime | None = None
    stale: bool = False
    lagging: bool = False

    @property
    def source(self) -> str:
        """The key of the source."""
        return self.told.edition.source

    @property
    def edition(self) -> str | None:
        return self.told.edition.edition

    @property
    def licence(self) -> str | None:
        return self.told.edition.licence

    @property
    def link(self) -> str | None:
        """Where the statement can be read, else the source."""
        return self.told.link or (self.told.edition.link if isinstance(self.told, Statement) else None)


@unique
class ReasonCode(StrEnum):
    """Why a verdict is as it is; beside each the words that its reason holds, or what it is about."""

    # what a row of the decision table found
    GENUS_MOVED = "genus-moved"  # old genus, new genus
    GENUS_DIVIDED = "genus-divided"  # the genus
    OPEN = "open"  # the qualifier
    OPEN_FORM = "open-form"
    OPEN_GENUS = "open-genus"
    FORM_DESCRIBED = "form-described"  # about the trade form
    MISUSE = "misuse"  # day on the label; about the misuse
    MISUSE_UNDATED = "misuse-undated"  # about the misuse, the label bears no date
    MISUSE_BY_SOURCE = "misuse-by-source"  # about the position
    DIVISION = "division"  # day on the label; about the division
    DIVISION_UNDATED = "division-undated"  # about the division, the label bears no date
    DISPUTE = "dispute"  # about the dispute
    UNKNOWN = "unknown"  # the name; about the claims
    COMPUTED = "computed"  # the name, the computed one, its genus
    TAKEN = "taken"  # the new genus; about the taxon that has the name there
    NO_COMPLETE_SOURCE = "no-complete-source"  # the name
    COMMON_NAME = "common-name"  # the name
    NO_LONGER_LISTED = "no-longer-listed"  # the name, the edition that had it; about the newer edition
    SUCCESSOR = "successor"  # the name, the earlier edition, the name found; about the newer edition
    NAMESAKE_EPITHET = "same-epithet"  # as for the one before
    ABBREVIATED = "abbreviated"
    FAILED = "failed"  # about the failure
    BROKEN = "broken"  # about the position
    CONTRADICTION = "contradiction"  # about the position
    DIFFER = "differ"
    POSITION = "position"  # about the position, as for the next eight
    DOUBTFUL = "doubtful"
    UNAVAILABLE = "unavailable"
    SEVERAL = "several"
    CURRENT = "current"
    RESPELLED = "respelled"
    RENAMED = "renamed"
    MOVED = "moved"
    MERGED = "merged"
    ACT = "act"  # about the act
    BRACKETS_DUE = "brackets-due"  # printed, right; about the edition
    BRACKETS_NOT_DUE = "brackets-not-due"  # printed, right; about the edition
    SPELLING_ACT = "spelling-act"  # the source's spelling, as for the next three
    MARKS_ONLY = "marks-only"
    ENDING_ONLY = "ending-only"
    LETTERS_ONLY = "letters-only"
    MAY_BE_OWN = "may-be-own"  # the name on the label, in letters that no list here has
    TAG_ONLY = "tag-only"  # how far the tag leads (AnswerKind), and UNCERTAIN_TAG where it says that it is not sure
    HYBRID = "hybrid"
    PARENT = "parent"  # the parent, its standing; about the reason of its verdict
    # beside every row
    MISUSE_GOES_ON = "misuse-warning"  # about the misuse
    UNCERTAIN = "uncertain"  # the qualifier
    LINE_KEEPS_NAME = "form"  # the kept name
    LAGGING = "lagging"  # about the position
    DOUBTED = "doubted"  # about the position
    LISTED_AS = "listed-as"  # about the caution
    OTHERS_SILENT = "others-silent"  # the name; about a newer edition, complete for the group
    # why a proposal is not safe
    UNSAFE_TYPE = "unsafe-type"
    UNSAFE_MEANING = "unsafe-meaning"
    UNSAFE_OTHER_DATE = "unsafe-other-date"  # about a misuse or division recorded for another date
    UNSAFE_DOUBTED = "unsafe-doubted"  # about the edition
    UNSAFE_TARGET_DOUBTED = "unsafe-target-doubted"  # the new name; about the edition
    UNSAFE_TARGET_DENIED = "unsafe-target-denied"  # the new name; about the position
    UNSAFE_UNCERTAIN = "unsafe-uncertain"  # the qualifier
    UNSAFE_TRADE_FORM = "unsafe-trade-form"
    UNSAFE_OUTDATED = "unsafe-outdated"  # year the status was followed to, year of the newer revision
    UNSAFE_NO_AUTHORSHIP = "unsafe-no-authorship"  # the name
    UNSAFE_UNFOUNDED = "unsafe-unfounded"


#: Beside the answer to a tag that itself is not sure of its animal.
UNCERTAIN_TAG = "uncertain"


class Reason(NamedTuple):
    """Why a verdict is as it is, or why a proposal is not to be taken unseen."""

    code: ReasonCode
    words: tuple[str, ...] = ()
    about: (
        Position | Claims | Edition | Act | Failure | Misuse | Division | Dispute | Caution | TradeForm | TaxonName
        | Reason | None
    ) = None  # fmt: skip


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a check says of one label.

    ``rule`` is the row of the decision table that decided. ``proposed`` is None unless there is exactly one target.
    ``reasons`` begin with the deciding one. ``failed``: sources that were meant to be asked and could not be.
    ``digest`` changes only when something new is said, not with the day, the edition or the order of the sources.
    """

    standing: Standing
    rule: str
    proposed: TaxonName | None
    safe: bool
    choices: tuple[Choice, ...]
    statements: tuple[Said, ...]
    reasons: tuple[Reason, ...]
    failed: tuple[str, ...]
    digest: str
