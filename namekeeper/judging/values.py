"""What is asked of judgement and what it returns, as values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from namekeeper.evidence.statements import Caution, GenusRecord, TaxonName, TradeForm
from namekeeper.words.dates import PartialDate
from namekeeper.words.gender import WordClass
from namekeeper.words.terms import Standing


@dataclass(frozen=True, slots=True)
class Question:
    """A name on a label, with all that may change its meaning.

    ``name`` is canonical ("Genus epithet", "Genus epithet subspecies"; only "Genus" where no species was given).
    ``parents`` are the canonical names of a hybrid's parents. ``genus_records`` holds the genus as the lists on this
    machine know it and every genus it leads to (see :func:`namekeeper.judging.asking.genera`); ``trade_forms`` the
    recorded forms of that name; ``cautions`` those of the taxon, for the name that a permit carries.
    ``namesakes``: names that lists have where the whole genus would take this one (see :attr:`Facts.taken_by`).
    ``decided_once``: the keeper has kept or chosen this very name after its misuse was cleared up.
    """

    name: str
    authorship: str = ""
    label_date: PartialDate | None = None
    qualifier: str = ""
    trade_form: str = ""
    form: str = ""
    locality: str = ""
    decided_once: bool = False
    parents: tuple[str, ...] = ()
    genus_records: tuple[GenusRecord, ...] = ()
    trade_forms: tuple[TradeForm, ...] = ()
    cautions: tuple[Caution, ...] = ()
    word_class: WordClass = WordClass.UNDECIDED
    namesakes: tuple[TaxonName, ...] = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """A name the keeper may choose, and what speaks for it: facts, no identification."""

    name: str
    authorship: str
    why: str
    range: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Said:
    """One line on one source: what it says of the name, or why it could not be asked."""

    source: str
    edition: str | None
    asked: datetime | None
    stale: bool
    lagging: bool
    says: str
    link: str | None
    licence: str | None


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a verdict is as it is: a fixed word for programs, a sentence for the keeper, the paper in short if one."""

    code: str
    words: str
    cited: str = ""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a check says of one label.

    ``rule`` is the row of the decision table that decided. ``proposed`` is None unless there is exactly one target.
    ``failed``: sources that were meant to be asked and could not be. ``digest`` changes only when something new is
    said, not with the day, the edition or the order of the sources.
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

    @property
    def why(self) -> tuple[str, ...]:
        """The reasons in words, the deciding one first."""
        return tuple(reason.words for reason in self.reasons)
