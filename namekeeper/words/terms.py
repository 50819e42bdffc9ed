"""The closed sets of words that files, JSON and judgement share (contract sections 2 and 4)."""

from __future__ import annotations

from enum import StrEnum, unique

THE_KEEPER = "keeper"  # who decided, where no name was given
AS_PROPOSED = ", as a safe proposal"  # after who let a check's safe proposals be taken unseen


@unique
class Standing(StrEnum):
    """What a check says of the name on a label."""

    CURRENT = "current"
    MOVED = "moved"
    RESPELLED = "respelled"
    MERGED = "merged"
    RENAMED = "renamed"
    DIVIDED = "divided"
    MISAPPLIED = "misapplied"
    DOUBTFUL = "doubtful"
    OPEN = "open"
    DISPUTED = "disputed"
    UNNAMED = "unnamed"
    UNKNOWN = "unknown"
    UNASKED = "unasked"


@unique
class EntryStanding(StrEnum):
    """Words that stand in a name entry beside those of :class:`Standing`."""

    AS_LABELLED = "as-labelled"
    CHOSEN = "chosen"
    CORRECTED = "corrected"  # in place of a name that was wrong from the start
    UNDONE = "undone"


@unique
class AnswerKind(StrEnum):
    """How far a tag could be read to a species."""

    ONE = "one"
    SEVERAL = "several"
    GUESS = "guess"
    GENUS = "genus"
    NONE = "none"
    UNASKED = "unasked"


@unique
class How(StrEnum):
    """By what a candidate was found, firmest first."""

    ACCEPTED = "accepted"
    FORMER = "former"
    EQUIVALENT = "equivalent"
    ABBREVIATED = "abbreviated"
    COMMON = "common"
    MISAPPLIED = "misapplied"
    DOUBTFUL = "doubtful"
    GENUS = "genus"
    SIMILAR = "similar"


@unique
class Verification(StrEnum):
    """How well a row is founded: its source was seen, recalled, or it was computed by a rule."""

    VERIFIED = "verified"
    MEMORY = "memory"
    COMPUTED = "computed"


@unique
class LabelOrder(StrEnum):
    """By what labels of one run are ordered; animals that are alike in it by their id."""

    ID = "id"
    NAME = "name"
    PLACE = "place"


@unique
class DrawingEngine(StrEnum):
    """How labels become a PDF: directly from their fit, or by way of HTML, which is slower and needs more libraries."""

    DIRECT = "direct"
    HTML = "html"


@unique
class MisfitReason(StrEnum):
    """Why a label cannot be printed at the size asked for."""

    CHARACTER = "character"  # no shipped type has it
    QR = "qr"  # the code the keeper asked for, beside name and id
    WORD = "word"  # a single word is wider than the label
    TEXT = "text"  # what must stand on the label is too much in all
