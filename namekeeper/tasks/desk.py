"""What every job begins with: a collection, an animal in it, a place for output."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from namekeeper.files.file_layer import NEW, DiskFiles
from namekeeper.outside import Outside, Remark, RemarkKind, no_progress, unwatched
from namekeeper.records.specimen import Collection, Settings, Specimen
from namekeeper.storage.changes import accept_history, apply_changes, recover_collection
from namekeeper.storage.collection_folder import load_collection, load_settings, specimen_file
from namekeeper.storage.journal import JOURNAL, SPECIMENS
from namekeeper.storage.lock import BusyError
from namekeeper.storage.wanted import ChangesChosen, FileChange, JudgeNow, WriterParts, Written, nobody_judges
from namekeeper.words.errors import NOWHERE, FileError, InputError

#: Seconds that one who only reads waits for a writer to finish; each file is whole at any time.
_READERS_PATIENCE = 0.5


@dataclass(frozen=True, slots=True)
class CollectionDesk:
    """A collection at work: its folder, and the world around it."""

    folder: Path
    outside: Outside

    @classmethod
    def at(cls, folder: Path, outside: Outside) -> CollectionDesk:
        """The desk for a folder as the keeper wrote it."""
        return cls(outside.folder / folder, outside)

    @property
    def today(self) -> date:
        return self.outside.today

    def load(self) -> Collection:
        """The collection as it lies there.

        :raises FileError: if there is no such folder.
        """
        return load_collection(self.folder, self.today)

    def open(self) -> Collection:
        """The collection, after completing or rolling back what a killed process left in it.

        :raises FileError: if there is no such folder.
        """
        if not self._interrupted():
            return self.load()
        outside = self.outside
        rim = WriterParts(patience=_READERS_PATIENCE, pause=outside.pause)
        try:
            for message in recover_collection(self.folder, outside.places, outside.clock, rim):
                outside.notice(message)
        except BusyError as busy:
            outside.notice(Remark(RemarkKind.BEING_WRITTEN, (busy.what,)))
            return _without_journal(self.load())
        except FileError:
            pass  # such as a medium that is read-only: the load tells
        return self.load()

    def apply(
        self,
        changes: Sequence[FileChange] | ChangesChosen,
        *,
        judge: JudgeNow = nobody_judges,
        together: bool = False,
        rehearse: bool = False,
        step: Callable[[int, int], None] = unwatched,
    ) -> Written:
        """Carry out changes; see :func:`namekeeper.storage.changes.apply_changes`."""
        places, clock, rim = self.outside.places, self.outside.clock, WriterParts(step=step, pause=self.outside.pause)
        return apply_changes(
            self.folder, changes, places, clock, judge=judge, together=together, rehearse=rehearse, rim=rim
        )

    def settings(self) -> Settings:
        """The collection's settings as they stand now."""
        return load_settings(self.folder)

    def quiet(self) -> CollectionDesk:
        """The same desk, at which nothing is said on the way."""
        return CollectionDesk(self.folder, self.outside._replace(notice=lambda _text: None, shown=no_progress))

    def accept_history(self, specimens: Sequence[Specimen]) -> None:
        """Take the name entries as they stand now for the past of these specimens."""
        accept_history(self.folder, specimens, self.outside.places, self.outside.clock)

    def _interrupted(self) -> bool:
        if os.path.exists(self.folder / JOURNAL):  # noqa: PTH110 - never raises
            return True
        both = (self.folder, self.folder / SPECIMENS)
        places = [place for place in both if os.path.isdir(place)]  # noqa: PTH112 - never raises
        return any(name.endswith(NEW) for place in places for name in DiskFiles().names(place))


def _without_journal(collection: Collection) -> Collection:
    """A change that its writer is about to finish is no problem of the keeper's."""
    return replace(collection, problems=tuple(one for one in collection.problems if one.place.file != JOURNAL))


def find(collection: Collection, identifier: str) -> Specimen:
    """The specimen of that id, in whatever case it is written; ids of a collection differ in more than case.

    :raises InputError: if there is none or its file has a problem, which is then named.
    """
    wanted = identifier.casefold()
    for specimen in collection.specimens:
        if specimen.id.casefold() == wanted:
            return specimen
    for problem in collection.problems:
        about = ((problem.place.specimen or "").casefold(), (problem.place.file or "").casefold())
        if about[0] == wanted or about[1] == specimen_file(identifier).casefold():
            raise InputError(problem.what, remedy=problem.remedy, place=problem.place)
    what = f"there is no animal '{identifier}'"
    raise InputError(what, remedy="its id is the name of its file in specimens/ without .yaml", place=NOWHERE)


def find_all(collection: Collection, identifiers: Iterable[str]) -> tuple[Specimen, ...]:
    """The specimens of these ids, each once, in the order given.

    :raises InputError: as :func:`find`.
    """
    return tuple({(found := find(collection, identifier)).id: found for identifier in identifiers}.values())
