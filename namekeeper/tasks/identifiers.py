"""Identifiers of a catalogue for the names in the lists on this machine."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Match


@dataclass(slots=True)
class ListedIdentifiers:
    """Gives the identifier with that ``prefix`` of a name spelt just so; opens the lists at the first question."""

    open_lists: Callable[[], Sequence[NameList]]
    prefix: str
    _lists: Sequence[NameList] | None = field(default=None, init=False)

    def __call__(self, name: str) -> str | None:
        if self._lists is None:
            self._lists = self.open_lists()
        for listed in self._lists:
            for statement in listed.named(name):
                identifier = statement.subject.identifier or ""
                if statement.match is Match.SAME and identifier.startswith(self.prefix):
                    return identifier
        return None
