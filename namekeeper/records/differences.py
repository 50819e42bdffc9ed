"""What is different of a specimen since something was decided of it."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum, unique
from types import MappingProxyType
from typing import NamedTuple

from namekeeper.records.specimen import Decision, NameEntry, Specimen


@unique
class DifferenceKind(StrEnum):
    """What changed, what matters most to a decision first; beside each what ``now`` holds."""

    GONE = "gone"  # nothing: there is no such file any more
    UNREADABLE = "unreadable"  # nothing: the file has a problem
    LEFT = "left"  # how the animal left
    NAME = "name"  # the name on the label now
    DECIDED = "decided"  # the kind of the last decision
    FACTS = "facts"  # the keys of the file whose values are others
    TEXT = "text"  # nothing: comments, order or quotes
    VERDICT = "verdict"  # nothing: the sources say something else of the same label
    UNHEARD = "unheard"  # nothing: what a service said is not kept, so it cannot be heard again


class Difference(NamedTuple):
    """One difference, and what there is now."""

    kind: DifferenceKind
    now: str = ""


class Outdated(NamedTuple):
    """A change that was not made, since its specimen is not what it was decided on."""

    specimen: str
    difference: Difference


_FACTS = ("tag", "acquired", "sex", "locality", "common", "stage", "origin", "stands_at", "note", "caution", "size",
          "price", "papers", "left")  # fmt: skip
_KEYS = MappingProxyType({"origin": "from", "stands_at": "place"})


def difference_of(before: Specimen, now: Specimen) -> Difference:
    """What matters most of all that is different; to be asked of two states of one file."""
    old, new = before.entry_in_force(), now.entry_in_force()
    if now.left is not None and before.left is None:
        return Difference(DifferenceKind.LEFT, now.left.how)
    if (old and (old.name, old.qualifier, old.trade_form)) != (new and (new.name, new.qualifier, new.trade_form)):
        return Difference(DifferenceKind.NAME, new.name if new else now.tag)
    if len(now.decisions) > len(before.decisions):
        return Difference(DifferenceKind.DECIDED, now.decisions[-1].kind)
    other = [_KEYS.get(fact, fact) for fact in _FACTS if getattr(before, fact) != getattr(now, fact)]
    other += ["names"] * (_without_lines(before.names) != _without_lines(now.names))
    other += ["decisions"] * (_without_lines(before.decisions) != _without_lines(now.decisions))
    return Difference(DifferenceKind.FACTS, ", ".join(other)) if other else Difference(DifferenceKind.TEXT)


def _without_lines(entries: Sequence[NameEntry] | Sequence[Decision]) -> list[NameEntry | Decision]:
    return [entry._replace(line=0) for entry in entries]
