"""A specimen with its dated names, as values. Darwin Core: a specimen is an Organism, an entry an Identification.

A name has two time axes: on the label since, and known (recorded) since. Nothing here changes a record.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import takewhile
from typing import NamedTuple

from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Place, Problem

_SEX = re.compile(r"(\d{1,6})\.(\d{1,6})(?:\.(\d{1,6}))?", re.ASCII)


class NameEntry(NamedTuple):
    """One name that stood on the label: since when, when entered, and on what grounds."""

    name: str
    authorship: str = ""
    since: PartialDate | None = None
    recorded: PartialDate | None = None
    standing: str = "as-labelled"
    according_to: str = ""
    source: str = ""
    retrieved: str = ""
    link: str = ""
    licence: str = ""
    decided_by: str = ""
    note: str = ""
    qualifier: str = ""
    trade_form: str = ""
    form: str = ""
    undoes: str = ""  # of an entry "undone": the number of the undone entry, from 1
    line: int = 0


def _age(entry: NameEntry) -> tuple[date, date]:
    return (
        entry.since.earliest if entry.since else date.min,
        entry.recorded.earliest if entry.recorded else date.min,
    )


class Decision(NamedTuple):
    """What was done with a proposal, a label or the animals: ``kind`` is one of ``checks.DECISION_KINDS``."""

    kind: str
    recorded: PartialDate | None
    name: str = ""
    digest: str = ""  # of the statements judged: the same proposal returns only when something new is said
    proposed: str = ""
    note: str = ""
    decided_by: str = ""
    undoes: str = ""  # of a decision "unprinted": the number of the print that did not come out, from 1
    line: int = 0


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper that goes with the animal, such as a permit: of what kind, its number, day and the name on it."""

    kind: str
    number: str = ""
    date: PartialDate | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Left:
    """When and how an animal left the collection."""

    date: PartialDate | None
    how: str


@dataclass(frozen=True, slots=True)
class Sex:
    """Counts written male.female.unsexed, such as ``1.2.0`` (common practice in zoos and the trade)."""

    text: str
    male: int
    female: int
    unsexed: int

    @classmethod
    def parse(cls, text: str) -> Sex:
        """Read ``0.1.0`` or ``0.1``, where the unsexed are left out.

        :raises ValueError: for anything else.
        """
        found = _SEX.fullmatch(text.strip())
        if found is None:
            message = f"'{text}' is no count like 0.1.0 (male.female.unsexed)"
            raise ValueError(message)
        return cls(text.strip(), int(found[1]), int(found[2]), int(found[3] or 0))

    @property
    def total(self) -> int:
        """How many animals."""
        return self.male + self.female + self.unsexed

    def each_of(self, count: int) -> Sex | None:
        """What each of ``count`` animals is if all together are this; None if that does not tell."""
        if self.total == 1:
            return self
        parts = [int(part == count) for part in (self.male, self.female, self.unsexed)]
        return Sex(".".join(map(str, parts)), *parts) if self.total == count and sum(parts) == 1 else None


@dataclass(frozen=True, slots=True)
class Specimen:
    """One animal or one group kept under one label.

    ``revision`` tells one state of its file from another: a digest of its bytes, empty where there is no file.
    """

    id: str
    place: Place
    tag: str = ""
    acquired: PartialDate | None = None
    sex: Sex | None = None
    locality: str = ""
    common: str = ""
    stage: str = ""
    origin: tuple[str, ...] = ()  # key "from": a seller, or the ids of the parents
    stands_at: str = ""  # key "place"
    note: str = ""
    caution: str = ""
    size: str = ""
    price: str = ""
    papers: tuple[Paper, ...] = ()
    left: Left | None = None
    names: tuple[NameEntry, ...] = ()
    decisions: tuple[Decision, ...] = ()
    revision: str = field(default="", compare=False)

    def live_entries(self) -> tuple[NameEntry, ...]:
        """Name entries that stand, in file order: neither undone nor found to be wrong from the start."""
        held = self.held_entries()
        if all(entry.standing != "corrected" for entry in held):
            return held
        live: list[NameEntry] = []
        for entry in held:
            if entry.standing == "corrected":
                live = [one for one in live if self._began(one) < self._began(entry)]
            live.append(entry)
        return tuple(live)

    def held_entries(self) -> tuple[NameEntry, ...]:
        """Name entries that are not undone and are no undoing themselves, in file order; mistakes too."""
        undone = {entry.undoes for entry in self.names if entry.standing == "undone"}
        if not undone:
            return self.names
        return tuple(
            entry
            for number, entry in enumerate(self.names, 1)
            if entry.standing != "undone" and str(number) not in undone
        )

    def _began(self, entry: NameEntry) -> date:
        since = entry.since or self.acquired
        return since.earliest if since else date.min

    def name_on(self, day: date) -> NameEntry | None:
        """The name on the label that day: latest ``since`` <= day not undone, ties by ``recorded``, then order.

        An entry without ``since`` stands from ``acquired`` on (contract section 4, label date).
        """
        began = ((entry, entry.since or self.acquired) for entry in self.live_entries())
        entries = [entry for entry, since in began if since is None or since.earliest <= day]
        return max(reversed(entries), key=_age, default=None)

    def entry_in_force(self) -> NameEntry | None:
        """The last word on the label's name."""
        return self.name_on(date.max)

    def label_date(self) -> PartialDate | None:
        """Since when the present name stands on the label: ``since``, else ``acquired``, else unknown."""
        return self.date_of(self.entry_in_force())

    def date_of(self, entry: NameEntry | None) -> PartialDate | None:
        """Since when the name of an entry stands on the label; of None, the tag."""
        return (entry.since if entry else None) or self.acquired

    def decided_once(self, entry: NameEntry) -> bool:
        """Whether the keeper has chosen just this name, or kept it in sight of a warning."""
        about = [one.kind for one in self.decisions if one.kind in ("kept", "undone") and one.name == entry.name]
        return bool(entry.decided_by) or about[-1:] == ["kept"]


@dataclass(frozen=True, slots=True)
class Settings:
    """``collection.yaml``; every key is optional. ``raw`` holds the text of keys that only one job reads."""

    title: str = ""
    locality: str = ""
    trust_order: tuple[str, ...] = ()
    services: tuple[str, ...] = ()
    by: str = ""  # who decides, where nothing else is said
    raw: dict[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Collection:
    """A folder as read: the specimens that could be read, and every problem found on the way."""

    folder: str
    settings: Settings
    specimens: tuple[Specimen, ...]
    problems: tuple[Problem, ...]

    def kept(self) -> tuple[Specimen, ...]:
        """Specimens that have not left the collection."""
        return tuple(specimen for specimen in self.specimens if specimen.left is None)


class DatedEntry(NamedTuple):
    """An entry with its number (from 1), whether a later entry undid it, or corrected it as wrong from the start."""

    number: int
    entry: NameEntry
    undone: bool
    corrected: bool = False


class Print(NamedTuple):
    """A print that came out, with its number among the decisions (from 1)."""

    number: int
    decision: Decision


def live_prints(specimen: Specimen) -> tuple[Print, ...]:
    """What was printed on labels and not taken back, oldest first."""
    back = {decision.undoes for decision in specimen.decisions if decision.kind == "unprinted"}
    numbered = enumerate(specimen.decisions, 1)
    return tuple(Print(number, one) for number, one in numbered if one.kind == "printed" and str(number) not in back)


def known_on(specimen: Specimen, day: date) -> Specimen:
    """The specimen as it was recorded at the end of that day.

    Entries stand in the order they were recorded, so what was known is the beginning of the list; its numbers stay.
    """
    known = takewhile(lambda entry: entry.recorded is None or entry.recorded.earliest <= day, specimen.names)
    return replace(specimen, names=tuple(known))


def dated_entries(specimen: Specimen) -> tuple[DatedEntry, ...]:
    """All entries in file order; an undoing itself is never undone (to redo, the name is taken again)."""
    if specimen.live_entries() is specimen.names:  # nothing was taken back or found to be wrong
        return tuple(DatedEntry(number, entry, undone=False) for number, entry in enumerate(specimen.names, 1))
    undone = {entry.undoes for entry in specimen.names if entry.standing == "undone"}
    held, live = ({id(entry) for entry in found} for found in (specimen.held_entries(), specimen.live_entries()))
    return tuple(
        DatedEntry(
            number,
            entry,
            str(number) in undone and entry.standing != "undone",
            id(entry) in held and id(entry) not in live,
        )
        for number, entry in enumerate(specimen.names, 1)
    )


def touches_year(entry: NameEntry, year: int) -> bool:
    """Whether the entry came onto the label, or was recorded, in that year."""
    return any(_in_year(when, year) for when in (entry.since, entry.recorded))


def last_undoable(specimen: Specimen) -> DatedEntry | None:
    """The entry that an undoing would take back: the last live one, unless it is what the animal came with."""
    dated = (one for one in dated_entries(specimen) if not one.undone and not one.corrected)
    live = [one for one in dated if one.entry.standing != "undone"]
    if not live or live[-1].entry.standing == "as-labelled":
        return None
    return live[-1]


def _in_year(when: PartialDate | None, year: int) -> bool:
    return when is not None and when.earliest.year == year
