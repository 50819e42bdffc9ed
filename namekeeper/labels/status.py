"""What the label on an enclosure says, against the name in force."""

from __future__ import annotations

from dataclasses import dataclass

from namekeeper.labels.content import label_name
from namekeeper.labels.naming import name_text
from namekeeper.labels.text import clean
from namekeeper.records.specimen import Specimen
from namekeeper.words.terms import EntryStanding

PRINTED = "printed"


@dataclass(frozen=True, slots=True)
class LabelStatus:
    """``printed`` is None if no print is recorded: then the enclosure carries what the animal came with."""

    specimen: str
    printed: str | None
    in_force: str
    stale: bool


def status_of(specimen: Specimen) -> LabelStatus:
    """Compare the last label printed, else the label or tag the animal came with, with the name in force."""
    prints = [decision.name for decision in specimen.decisions if decision.kind == PRINTED and decision.name]
    in_force = label_name(specimen)
    printed = prints[-1] if prints else None
    on_enclosure = {printed} if printed is not None else _came_with(specimen)
    return LabelStatus(specimen.id, printed, in_force, in_force not in on_enclosure)


def _came_with(specimen: Specimen) -> set[str]:
    labelled = [name_text(entry) for entry in specimen.names if entry.standing == EntryStanding.AS_LABELLED]
    return {*labelled[:1]} or {f"“{clean(specimen.tag)}”"}
