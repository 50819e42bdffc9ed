"""What the keeper ordered: to take, choose, correct, keep, postpone or undo, by the ids of the collection."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from namekeeper.records.specimen import Collection
from namekeeper.tasks.desk import find, find_all
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError


@dataclass(frozen=True, slots=True)
class Orders:
    """What the keeper said.

    ``take`` and ``correct`` map ids to names; ``certain``: what is taken is known to be that, whatever doubt (cf., ?)
    the tag or the label has; ``on`` is the day the new label counts from, ``by`` who decided.
    """

    take_safe: bool = False
    take: Mapping[str, str] = field(default_factory=dict)
    correct: Mapping[str, str] = field(default_factory=dict)
    keep: tuple[str, ...] = ()
    later: tuple[str, ...] = ()
    undo: tuple[str, ...] = ()
    undo_print: tuple[str, ...] = ()
    certain: bool = False
    on: PartialDate | None = None
    note: str = ""
    by: str = ""

    def named(self) -> tuple[str, ...]:
        """All ids that orders name, in order of the command's options."""
        return (*self.take, *self.correct, *self.keep, *self.later, *self.undo, *self.undo_print)

    def about(self, collection: Collection) -> Orders:
        """The same orders with the ids as the collection writes them; an order given twice counts once.

        :raises InputError: for an unknown id, or one that was given two names.
        """
        keep, later, undo, undo_print = (
            tuple(specimen.id for specimen in find_all(collection, ids))
            for ids in (self.keep, self.later, self.undo, self.undo_print)
        )
        take, correct = _by_id(collection, self.take), _by_id(collection, self.correct)
        return replace(self, take=take, correct=correct, keep=keep, later=later, undo=undo, undo_print=undo_print)


def _by_id(collection: Collection, names: Mapping[str, str]) -> Mapping[str, str]:
    found: dict[str, str] = {}
    for text, name in names.items():
        identifier = find(collection, text).id
        if found.setdefault(identifier, name) != name:
            what = f"{identifier} was given two names"
            raise InputError(what, remedy="leave one out")
    return found
