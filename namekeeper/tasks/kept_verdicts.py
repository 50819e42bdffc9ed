"""Verdicts kept from one check to the next, so that a second look costs what changed.

A verdict is a pure function of the label, of what the sources say of its names, of the trust in them and of the day.
Kept under all of these it is what a fresh one would be; under anything else it is not found.
"""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path
from types import ModuleType

import namekeeper
from namekeeper.evidence import candidates, statements, verdicts
from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Reply
from namekeeper.evidence.verdicts import Verdict
from namekeeper.files.kept_values import keep_values, recall_values
from namekeeper.records.specimen import Settings, Specimen
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.words import dates, spelling, terms


@dataclass(slots=True)
class KeptVerdicts:
    """Verdicts by the specimen's bytes and what services said of its names; all of one day, settings and lists."""

    place: Path
    state: str
    _known: dict[str, Verdict] = field(default_factory=dict)
    _used: dict[str, Verdict] = field(default_factory=dict)
    _new: bool = False
    _told: dict[int, tuple[Reply, str]] = field(default_factory=dict)  # by identity; holding it keeps that its own

    @classmethod
    def open(cls, desk: CollectionDesk, settings: Settings, lists: Sequence[NameList]) -> KeptVerdicts | None:
        """What was kept of that folder; None where a list cannot be told from its next state."""
        editions = tuple(map(_list_state, lists))
        if not all(editions):
            return None
        folder = hashlib.sha256(os.fsencode(os.path.realpath(desk.folder))).hexdigest()[:32]
        place = desk.outside.places.cache / "verdicts" / f"{folder}.json"
        state = _hashed(_code_state(), desk.today.isoformat(), repr(settings), *editions)
        found = recall_values(place, state, tuple(_classes()))
        return cls(place, state, {key: kept for key, kept in found.items() if isinstance(kept, Verdict)})

    def find(self, specimen: Specimen, heard: Sequence[Reply]) -> Verdict | None:
        """The verdict on just this file after just these replies of services."""
        key = self._key(specimen, heard)
        found = self._known.get(key)
        if found is not None:
            self._used[key] = found
        return found

    def keep(self, specimen: Specimen, heard: Sequence[Reply], verdict: Verdict) -> None:
        """Keep a fresh verdict; one on a specimen that is in no file is not kept."""
        if specimen.revision:
            self._used[self._key(specimen, heard)] = verdict
            self._new = True

    def _key(self, specimen: Specimen, heard: Sequence[Reply]) -> str:
        return _hashed(specimen.revision, *map(self._digest, heard)) if heard else specimen.revision

    def _digest(self, reply: Reply) -> str:
        """Of one reply, made once: many labels share it, and writing all of it out takes long."""
        told = self._told.get(id(reply))
        if told is None:
            told = self._told[id(reply)] = (reply, _hashed(repr(reply)))
        return told[1]

    def save(self, *, whole: bool) -> None:
        """Write what is new; after a check of the ``whole`` collection what was not used is forgotten."""
        kept = self._used if whole else {**self._known, **self._used}
        if self._new or len(kept) != len(self._known):
            keep_values(self.place, self.state, kept, tuple(_classes()))


def _list_state(one: NameList) -> str:
    """The edition with what it is complete for, and the index it is answered from; empty where there is none."""
    if not isinstance(one, IndexList):
        return ""
    try:
        state = one.place.stat()
    except OSError:
        return ""
    return repr((one.edition, one.place.name, state.st_size, state.st_mtime_ns, state.st_ino))


def _code_state() -> str:
    """The program itself: another version may judge otherwise."""
    package = Path(namekeeper.__file__).parent
    files = ((path, path.stat()) for path in sorted(package.rglob("*.py")))
    states = ((path.name, state.st_size, state.st_mtime_ns) for path, state in files)
    return _hashed(namekeeper.__version__, sys.version, repr(tuple(states)))


def _classes() -> Iterator[type]:
    """All classes of which a verdict may be made."""
    yield from (date, datetime)
    modules: tuple[ModuleType, ...] = (verdicts, statements, candidates, dates, spelling, terms)
    for module in modules:
        yield from (one for one in vars(module).values() if isinstance(one, type) and one.__module__ == module.__name__)


def _hashed(*parts: str) -> str:
    return hashlib.sha256("\x1f".join(parts).encode("utf-8", "surrogatepass")).hexdigest()
