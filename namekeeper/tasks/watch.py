"""A collection in view: looked at anew when its files, the lists or the day changed, decided on as it was seen."""

from __future__ import annotations

import hashlib
import os
import threading
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import NamedTuple

from namekeeper.outside import Outside
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.storage.collection_folder import SETTINGS
from namekeeper.storage.journal import DIGESTS, SPECIMENS
from namekeeper.tasks.check import Finding, Report, check_opened
from namekeeper.tasks.desk import CollectionDesk, find
from namekeeper.tasks.label_memory import LabelStatus, status_of
from namekeeper.tasks.online import ServiceWishes
from namekeeper.tasks.settle_collection import Settled, SettleDesk
from namekeeper.tasks.settle_orders import Orders
from namekeeper.words.errors import InputError

#: What is looked at again and again is judged from lists and kept answers; services are asked when the keeper says so.
KEPT_ONLY = ServiceWishes(offline=True)
#: States of animals that were seen and are no more: what changed since is told in full for as many pages left open.
MOST_EARLIER = 500


class Seen(NamedTuple):
    """An animal as the keeper saw it when deciding: the state of its file, and the digest of its verdict if told."""

    specimen: str
    revision: str
    digest: str = ""


@dataclass(frozen=True, slots=True)
class CollectionView:
    """A collection at one moment, with the verdict on every label and what every enclosure says."""

    collection: Collection
    report: Report
    labels: Mapping[str, LabelStatus]

    @property
    def waiting(self) -> tuple[Finding, ...]:
        """What waits for the keeper: what needs judgement first, what was postponed last."""
        found = (*self.report.to_decide, *self.report.safe)
        return tuple(sorted(found, key=lambda finding: finding.postponed))

    @property
    def due(self) -> tuple[str, ...]:
        """Animals whose label was never printed here, or says another name than the one in force."""
        return tuple(one.specimen for one in self.labels.values() if one.printed is None or one.stale)

    @property
    def safe_state(self) -> str:
        """Changes when what may be taken unseen does: all of it is taken as it was seen, or nothing."""
        told = "\n".join(f"{f.specimen.id} {f.specimen.revision} {f.verdict.digest}" for f in self.report.safe)
        return hashlib.sha256(told.encode()).hexdigest()[:16]

    def finding(self, identifier: str) -> Finding:
        """The verdict on the label of an animal.

        :raises InputError: if there is none: an unknown id, or an animal that left.
        """
        specimen = find(self.collection, identifier)
        found = next((one for one in self.report.findings if one.specimen.id == specimen.id), None)
        if found is None:
            what = f"{specimen.id} left the collection and is not checked"
            raise InputError(what, remedy="its names over time are on its own page")
        return found


@dataclass(slots=True)
class CollectionWatch:
    """Keeps the last view of a collection as long as nothing changed; may be asked from several threads."""

    desk: CollectionDesk
    _lock: threading.RLock = field(default_factory=threading.RLock)
    _view: CollectionView | None = None
    _state: object = None
    _known: dict[tuple[str, str], Specimen] = field(default_factory=dict)

    @property
    def last(self) -> CollectionView | None:
        """The collection as it was last looked at, whatever changed since; None before the first look."""
        return self._view

    @property
    def state(self) -> str:
        """Tells what was looked at last from what is looked at after any change."""
        return hashlib.sha256(repr(self._state).encode()).hexdigest()[:16]

    def is_fresh(self) -> bool:
        """Whether the last view still holds, so that it costs nothing."""
        return self._view is not None and self._state == self._state_now()

    def view(self, outside: Outside | None = None) -> CollectionView:
        """The collection as it is now; ``outside`` shows how far a check is.

        :raises FileError: if the folder is gone.
        """
        with self._lock:
            state = self._state_now()
            if self._view is None or state != self._state:
                desk = replace(self.desk, outside=outside) if outside else self.desk
                self._view, self._state = _looked_at(desk), state
                self._remember(self._view.collection.specimens)
            return self._view

    def forget(self) -> None:
        """Look anew next time, whatever the files say: a service was asked."""
        self._state = None

    def seen(self, seen: Seen) -> Specimen:
        """The animal as the keeper saw it, so that what changed since is found under the lock and told.

        :raises InputError: for an unknown id.
        """
        specimen = find(self.view().collection, seen.specimen)
        return self._known.get((specimen.id, seen.revision)) or replace(specimen, revision=seen.revision)

    def _remember(self, specimens: Sequence[Specimen]) -> None:
        """Know these and the newest that were seen before, however long the page runs."""
        now = {(one.id, one.revision): one for one in specimens}
        earlier = [item for item in self._known.items() if item[0] not in now]
        self._known = dict(earlier[-MOST_EARLIER:]) | now

    def decide(self, seen: Seen, orders: Orders) -> Settled:
        """Carry out orders on one animal as it was seen; what changed since leaves it unwritten and is told.

        :raises NamekeeperError: if they cannot be carried out; nothing is written then.
        """
        finding = self.view().finding(seen.specimen)
        verdict = replace(finding.verdict, digest=seen.digest or finding.verdict.digest)
        as_seen = replace(finding, specimen=self.seen(seen), verdict=verdict)
        with self._settling() as desk:
            return desk.decide((as_seen,), orders)

    def take_safe(self, state: str, orders: Orders) -> Settled:
        """Take every proposal that needs no judgement, if these are still the ones that were seen.

        :raises InputError: if they are others by now; nothing is written then.
        """
        if state != self.view().safe_state:
            raise InputError("these changes are not the same any more", remedy="look at them again, then take them")
        with self._settling() as desk:
            return desk.settle(replace(orders, take_safe=True), write=True)

    def undo(self, seen: Sequence[Seen], *, prints: bool = False) -> Settled:
        """Take back what was done last of each of these animals, or the last print, as they were seen.

        :raises NamekeeperError: if there is nothing to undo; nothing is written then.
        """
        as_seen = {one.id: one for one in map(self.seen, seen)}
        collection = self.view().collection
        specimens = tuple(as_seen.get(one.id, one) for one in collection.specimens)
        with self._settling(replace(collection, specimens=specimens)) as desk:
            orders = Orders(undo_print=tuple(as_seen)) if prints else Orders(undo=tuple(as_seen))
            return desk.settle(orders, write=True)

    @contextmanager
    def _settling(self, collection: Collection | None = None) -> Iterator[SettleDesk]:
        view, outside = self.view(), self.desk.outside
        with open_lists(outside.places, outside.notice) as lists:
            yield SettleDesk(self.desk, collection or view.collection, lists, view.report, KEPT_ONLY)

    def _state_now(self) -> object:
        places, folder = self.desk.outside.places, self.desk.folder
        files = tuple(_file_states((folder / SETTINGS, folder / DIGESTS, folder / SPECIMENS)))
        lists = tuple(_file_states(sorted((places.data / "lists").glob("*/*"))))
        kept = tuple(_file_states(sorted((places.cache / "services").glob("*"))))
        return (self.desk.today, files, lists, kept)


def _looked_at(desk: CollectionDesk) -> CollectionView:
    collection = desk.open()
    with open_lists(desk.outside.places, desk.outside.notice) as lists:
        report = check_opened(desk, collection, lists, KEPT_ONLY)
    return CollectionView(collection, report, {one.id: status_of(one) for one in collection.kept()})


def _file_states(paths: Sequence[Path]) -> Iterator[tuple[str, int, int, int]]:
    """What tells one state of files from another, and of all files in a folder; nothing of what is not there."""
    for path in paths:
        try:
            state = path.stat()
            yield (path.name, state.st_size, state.st_mtime_ns, state.st_ino)
            if path.is_dir():
                with os.scandir(path) as entries:
                    found = sorted(((entry.name, entry.stat()) for entry in entries), key=lambda one: one[0])
                yield from ((name, s.st_size, s.st_mtime_ns, s.st_ino) for name, s in found)
        except OSError:
            continue
