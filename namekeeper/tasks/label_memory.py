"""What is remembered of labels: what every enclosure says, and the partly used sheets in the keeper's drawer."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from namekeeper.files.memory import recall, remember
from namekeeper.files.places import Places
from namekeeper.labels.content import label_name, shown_tag
from namekeeper.labels.naming import name_text
from namekeeper.records.specimen import Specimen, live_prints
from namekeeper.words.errors import FileError
from namekeeper.words.spelling import ending_key
from namekeeper.words.terms import EntryStanding, Standing

PRINTED = "printed"
_DRAWER = "label-sheets.json"  # in the state folder: places used of the last sheet, by kind of sheet


@dataclass(frozen=True, slots=True)
class LabelStatus:
    """``printed`` is None if no print is recorded: then the enclosure carries what the animal came with."""

    specimen: str
    printed: str | None
    in_force: str
    stale: bool

    @property
    def due(self) -> bool:
        """Whether a label is due: none was ever printed, or the enclosure says another name."""
        return self.printed is None or self.stale


def status_of(specimen: Specimen) -> LabelStatus:
    """Compare the last label printed, else the label or tag the animal came with, with the name in force."""
    prints = [one.decision.name for one in live_prints(specimen) if one.decision.name]
    in_force = label_name(specimen)
    printed = prints[-1] if prints else None
    on_enclosure = {printed} if printed is not None else _came_with(specimen)
    stale = in_force not in on_enclosure and not _only_ending(specimen, in_force, on_enclosure)
    return LabelStatus(specimen.id, printed, in_force, stale)


def _only_ending(specimen: Specimen, in_force: str, on_enclosure: set[str]) -> bool:
    """Whether nothing but the ending differs, and no act changed it: such a label is not made stale.

    The Code holds both spellings to be one name (31.2, 34.2, 33.4). An act that did change it is cited in the entry.
    """
    entry = specimen.entry_in_force()
    if entry is None or entry.standing != Standing.RESPELLED or entry.according_to:
        return False
    return ending_key(in_force) in {ending_key(text) for text in on_enclosure}


def _came_with(specimen: Specimen) -> set[str]:
    labelled = [name_text(entry) for entry in specimen.names if entry.standing == EntryStanding.AS_LABELLED]
    return {*labelled[:1]} or {f"“{shown_tag(specimen.tag)}”"}


def used_in_drawer(places: Places, sheet_key: str) -> frozenset[int]:
    """Places, from 0, used on the last sheet of that kind; none if nothing is remembered or the memory is damaged."""
    return frozenset(_remembered(places).get(sheet_key, ()))


def remember_sheet(places: Places, sheet_key: str, used: Collection[int], of: int) -> None:
    """Remember the last sheet printed on; a full sheet is forgotten.

    :raises FileError: if the memory cannot be written.
    """
    known = _remembered(places)
    known.pop(sheet_key, None)
    if 0 < len(used) < of:
        known[sheet_key] = sorted(used)
    remember(places.state / _DRAWER, known)


def _remembered(places: Places) -> dict[str, list[int]]:
    try:
        known = recall(places.state / _DRAWER)
    except FileError:
        return {}
    if not isinstance(known, dict):
        return {}
    return {
        str(key): [number for number in numbers if isinstance(number, int) and number >= 0]
        for key, numbers in known.items()
        if isinstance(numbers, list)
    }
