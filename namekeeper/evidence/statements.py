"""What one source says about one name, as values; no source's own types reach beyond its module."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from enum import StrEnum, unique
from types import MappingProxyType
from typing import NamedTuple

from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import Verification


@unique
class Match(StrEnum):
    """How the spelling in the source relates to the one asked (contract section 1)."""

    SAME = "same"  # row 1: equal but for capitals, white space, marks, ligature, hyphen, apostrophe
    ENDING = "ending"  # row 2: gender ending, -i/-ii, -ae/-iae
    LETTERS = "letters"  # row 3: a letter class of Article 58, guarded
    SIMILAR = "similar"  # a guess
    HIGHER_RANK = "higher-rank"  # only a parent of what was asked

    @property
    def speaks(self) -> bool:
        """Whether a statement with this match may decide anything."""
        return self in (Match.SAME, Match.ENDING, Match.LETTERS)


@unique
class NameStatus(StrEnum):
    """Standing of a name in a source (Darwin Core taxonomicStatus, in our words where that has none)."""

    ACCEPTED = "accepted"
    SYNONYM = "synonym"
    OBJECTIVE_SYNONYM = "objective synonym"  # same type, by the source's own word
    REPLACED = "replaced"  # a homonym, or the name that a replacement name stands for
    AMBIGUOUS = "ambiguous"  # pro parte: several accepted targets
    MISAPPLIED = "misapplied"
    DOUBTFUL = "doubtful"  # nomen dubium, species inquirenda
    UNAVAILABLE = "unavailable"  # nomen nudum, manuscript or bare name


@unique
class ActKind(StrEnum):
    """What a nomenclatural or taxonomic act did."""

    TRANSFER = "transfer"
    SYNONYMY = "synonymy"
    OBJECTIVE_SYNONYMY = "objective_synonymy"
    REPLACEMENT = "replacement"
    SPELLING = "spelling"
    RANK = "rank"
    REVIVAL = "revival"
    SPLIT = "split"
    DOUBT = "doubt"


class Edition(NamedTuple):
    """A source at one edition. ``upstream`` groups copies of one catalogue: they share one vote."""

    source: str  # key, such as "starter" or "checklistbank"
    title: str
    upstream: str
    edition: str | None = None
    dated: PartialDate | None = None  # date of the edition's content, never the time of fetching
    licence: str | None = None
    citation: str | None = None
    link: str | None = None
    complete_for: tuple[str, ...] = ()  # taxa for which the source claims to list every name
    by_service: bool = False  # whether a service on the network is the source, and not a list on this machine


class ListWishes(NamedTuple):
    """What the keeper says of a list; it wins over what the file says. ``columns``: header by field, for tables."""

    columns: Mapping[str, str] = MappingProxyType({})
    edition: str | None = None
    licence: str | None = None
    citation: str | None = None
    complete_for: tuple[str, ...] = ()
    upstream: str | None = None
    encoding: str = ""  # of a table; empty: found out


class TaxonName(NamedTuple):
    """A name as a source prints it; ``name`` is canonical (no authorship)."""

    name: str
    authorship: str = ""
    rank: str = "species"
    original_genus: str | None = None
    identifier: str | None = None
    kingdom: str | None = None
    higher: tuple[str, ...] = ()  # family, order, class as far as known, nearest first
    range: tuple[str, ...] = ()


class Act(NamedTuple):
    """A published act between two names of a chain."""

    kind: ActKind
    old: str
    new: str
    year: str = ""
    citation: str = ""
    link: str = ""
    verification: Verification = Verification.VERIFIED


class Statement(NamedTuple):
    """One source on one name: the name it matched, its status there, and the end(s) of its chain.

    ``targets`` is empty where the source gives no name in force (doubtful, broken chain), has one element in
    the ordinary case (the subject itself when accepted) and several where the source itself is undecided.
    ``fault`` says in words what is wrong with the source's own data (a cycle, a missing end), else None.
    ``as_of`` is the year up to which the source of the status of its one name in force was followed, and ``revised``
    the year of a newer revision of that genus, if the list knows one: then the status is not verified.
    """

    edition: Edition
    asked: str
    match: Match
    subject: TaxonName
    status: NameStatus
    targets: tuple[TaxonName, ...]
    acts: tuple[Act, ...] = ()
    verification: Verification = Verification.VERIFIED
    retrieved: datetime | None = None
    stale: bool = False
    link: str | None = None
    note: str | None = None
    fault: str | None = None
    as_of: str = ""
    revised: str = ""


class Successor(NamedTuple):
    """What a newer edition may have instead of a name that it no longer lists: computed, never a statement of it.

    ``by_identifier``: the newer edition gives it the identifier that the name had in the earlier one; else it has the
    same epithet and family, and the earlier edition did not have it.
    """

    taxon: TaxonName
    earlier: Edition
    newer: Edition
    by_identifier: bool


class Misuse(NamedTuple):
    """A name used in the trade for other species; dates None where not known (contract section 4)."""

    name: str
    authorship: str
    meant: tuple[TaxonName, ...]
    start: PartialDate | None
    cleared: PartialDate | None
    ended: PartialDate | None
    citation: str
    verification: Verification
    note: str = ""


class Division(NamedTuple):
    """A name that on a label older than ``since`` may mean any of ``into`` (a split, or a revival)."""

    name: str
    into: tuple[TaxonName, ...]
    kind: ActKind  # SPLIT or REVIVAL
    since: PartialDate | None
    sunk: PartialDate | None
    citation: str
    verification: Verification
    note: str = ""


class Dispute(NamedTuple):
    """Published sources that differ on where a name goes, kept side by side in one list."""

    name: str
    targets: tuple[TaxonName, ...]
    citation: str
    verification: Verification
    note: str = ""


class TradeForm(NamedTuple):
    """A name in open nomenclature used in trade; ``described_as`` where it was described since."""

    genus: str
    form: str
    described_as: TaxonName | None
    citation: str
    verification: Verification
    note: str = ""


class GenusRecord(NamedTuple):
    """What a list knows of a genus word: its gender, standing, and where it moved as a whole or in part."""

    genus: str
    family: str | None
    gender: str | None  # masculine, feminine, neuter, uncertain
    accepted: bool
    moved_to: tuple[str, ...] = ()
    moved_whole: bool = False
    moved_year: str = ""  # of the last move; "" where the year of any is not known
    citation: str = ""
    species_listed: int = 0
    higher: tuple[str, ...] = ()  # family, order, class as far as known, nearest first


class CommonName(NamedTuple):
    """A common name, nickname or trade abbreviation of a taxon; ``usual``: marked as the one most people say."""

    text: str
    language: str  # ISO 639-1, "und" if unknown
    taxon: TaxonName
    kind: str  # common, nickname, abbreviation
    edition: Edition
    citation: str = ""
    verification: Verification = Verification.VERIFIED
    usual: bool = False

    @property
    def recalled(self) -> bool:
        """Whether no source was seen for it; nicknames and abbreviations of the trade stand on common practice."""
        return self.verification is Verification.MEMORY and self.kind == "common"


@unique
class CautionWeight(StrEnum):
    """How far a caution warns; its source decides, never the words of its statement."""

    WARNS = ""
    MILD = "mild"  # mild on the whole: told, and not printed
    NONE = "none"  # a published absence


class Caution(NamedTuple):
    """A published report or listing on a taxon; never advice."""

    taxon: str
    rank: str
    topic: str
    statement: str
    listed_as: str
    year: str
    citation: str
    verification: Verification
    weight: CautionWeight = CautionWeight.WARNS


class Answer(NamedTuple):
    """What a source says when asked one name: statements that speak, hints that never do, and notes on usage."""

    edition: Edition
    asked: str
    statements: tuple[Statement, ...] = ()
    hints: tuple[Statement, ...] = ()
    misuses: tuple[Misuse, ...] = ()
    divisions: tuple[Division, ...] = ()
    disputes: tuple[Dispute, ...] = ()
    retrieved: datetime | None = None
    stale: bool = False


@unique
class FailureKind(StrEnum):
    """Why a source could not be asked."""

    OFFLINE = "offline"  # the keeper's choice
    UNREACHABLE = "unreachable"
    REFUSED = "refused"  # too many requests, missing key, blocked
    BAD_REPLY = "bad reply"
    BROKEN = "broken"  # a local index or cache that cannot be read


class Failure(NamedTuple):
    """A source that could not be asked; never the same as "not found"."""

    edition: Edition
    asked: str
    kind: FailureKind
    why: str
    link: str | None = None


Reply = Answer | Failure
