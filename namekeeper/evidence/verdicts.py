"""What a check says of one label, as values: the verdict with its choices, its grounds and who said what."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from namekeeper.evidence.statements import TaxonName
from namekeeper.words.terms import Standing


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
