"""Carry out changes on a collection: under its lock, journalled, each file whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Literal

from namekeeper.files.file_layer import DiskFiles, FileLayer
from namekeeper.files.places import Places
from namekeeper.records.identifiers import fault_of_id
from namekeeper.records.specimen import Decision, NameEntry, Specimen
from namekeeper.storage.collection_folder import specimen_file
from namekeeper.storage.digests import digests_of, read_digests, write_digests
from namekeeper.storage.emit import Fields, fields_of
from namekeeper.storage.insertion import append_entries, set_key
from namekeeper.storage.journal import DIGESTS, SPECIMENS, Content, commit, nothing_told, recover
from namekeeper.storage.lock import PATIENCE_SECONDS, writing
from namekeeper.storage.specimen_file import SpecimenReader
from namekeeper.storage.yaml_text import TextFault, decode
from namekeeper.words.errors import FileError, InputError, Place, Problem


@dataclass(frozen=True, slots=True)
class Insertion:
    """Append an entry; ``seen`` is the number of name entries it was decided on, None if that does not matter."""

    specimen_id: str
    section: Literal["names", "decisions"]
    entry: NameEntry | Decision
    seen: int | None = None


@dataclass(frozen=True, slots=True)
class SetKey:
    """Write a top-level key of a specimen, such as ``sex`` or ``left``."""

    specimen_id: str
    key: str
    value: str | Fields


@dataclass(frozen=True, slots=True)
class NewSpecimen:
    """A specimen that has no file yet, and the text of its file."""

    specimen_id: str
    text: str


FileChange = Insertion | SetKey | NewSpecimen


@dataclass(frozen=True, slots=True)
class Written:
    """What came of a set of changes: ids whose files were written, what was refused, what had to be said."""

    specimens: tuple[str, ...]
    refused: tuple[Problem, ...] = ()
    messages: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WriterParts:
    """The outside world of a writer: files, how long to wait for another one, whom to tell how far it is."""

    files: FileLayer = field(default_factory=DiskFiles)
    patience: float = PATIENCE_SECONDS
    step: Callable[[int, int], None] = nothing_told


def apply_changes(
    folder: Path,
    changes: Sequence[FileChange],
    places: Places,
    clock: Callable[[], datetime],
    *,
    together: bool = False,
    rehearse: bool = False,
    rim: WriterParts | None = None,
) -> Written:
    """Carry out ``changes``, those of one specimen in the order given.

    A specimen whose file does not allow it is refused and the others go on; with ``together`` nothing is written then.
    With ``rehearse`` nothing is written at all: the result is what would come of it.

    :raises FileError: if the folder cannot be written or another process holds it.
    :raises InputError: with ``together``, if a change is refused.
    """
    if not changes:
        return Written(())
    with _opened(folder, places, clock, rim or WriterParts()) as writer:
        by_specimen: dict[str, list[FileChange]] = {}
        for change in changes:
            by_specimen.setdefault(change.specimen_id, []).append(change)
        for identifier, wanted in by_specimen.items():
            writer.work_out(identifier, wanted)
        if together and writer.refused:
            first = writer.refused[0]
            raise InputError(first.what, remedy=first.remedy, place=first.place)
        return writer.outcome() if rehearse else writer.write()


def recover_collection(
    folder: Path, places: Places, clock: Callable[[], datetime], rim: WriterParts | None = None
) -> tuple[str, ...]:
    """Complete or roll back what a killed process left; says what was done.

    :raises FileError: if it cannot be done now.
    """
    with _opened(folder, places, clock, rim or WriterParts()) as writer:
        return tuple(writer.messages)


def accept_history(
    folder: Path,
    specimens: Sequence[Specimen],
    places: Places,
    clock: Callable[[], datetime],
    rim: WriterParts | None = None,
) -> Written:
    """Take the name entries as they stand now for the past of these specimens."""
    with _opened(folder, places, clock, rim or WriterParts()) as writer:
        writer.contents[DIGESTS] = _digests_content(writer, specimens, accept=True)
        return writer.write()


@contextmanager
def _opened(folder: Path, places: Places, clock: Callable[[], datetime], rim: WriterParts) -> Iterator[_Writer]:
    root = Path(os.path.realpath(folder))
    if not os.path.isdir(root):  # noqa: PTH112 - says no where Path would raise
        raise FileError("no such folder", remedy="check the path", place=Place(str(folder)))
    with writing(places, root, clock(), rim.patience) as said:
        yield _Writer(rim, root, clock(), [*said, *recover(rim.files, root)])


class _Writer:
    """Works out new contents under the lock, then writes them at once."""

    def __init__(self, rim: WriterParts, root: Path, now: datetime, messages: list[str]) -> None:
        self.files = files = rim.files
        self.step = rim.step
        self.root = root
        self.reader = SpecimenReader(now.astimezone().date())
        self.messages = messages
        self.refused: list[Problem] = []
        self.contents: dict[str, Content] = {}
        self.changed: list[Specimen] = []
        self.taken = {name.casefold() for name in files.names(root / SPECIMENS)}

    def work_out(self, identifier: str, changes: Sequence[FileChange]) -> None:
        target = specimen_file(identifier)
        try:
            before = self._present(identifier, target)
            mark, text = decode(before or b"")
            for change in changes:
                text = self._changed(text, change, exists=before is not None, identifier=identifier)
        except TextFault as fault:
            self.refused.append(Problem(fault.what, fault.remedy, Place(target, fault.line, identifier)))
            return
        except OSError as error:
            what = f"cannot be changed: {error.strerror or error}"
            self.refused.append(Problem(what, "check the file and its permissions", Place(target, None, identifier)))
            return
        specimen, problems = self.reader.read(text, identifier, target)
        if specimen is None:
            self.refused.extend(problems)
            return
        self.contents[target] = Content(before, (mark + text).encode("utf-8"))
        self.changed.append(specimen)

    def write(self) -> Written:
        if self.changed:
            self.contents[DIGESTS] = _digests_content(self, self.changed, accept=False)
        if self.contents:
            commit(self.files, self.root, self.contents, self.step)
        return self.outcome()

    def outcome(self) -> Written:
        done = tuple(specimen.id for specimen in self.changed)
        return Written(done, tuple(self.refused), tuple(self.messages))

    def _present(self, identifier: str, target: str) -> bytes | None:
        fault = fault_of_id(identifier)
        if fault is not None:
            msg = f"'{identifier}' cannot be an id: {fault}"
            raise TextFault(msg, "choose another id", 1)
        path = self.root / target
        if path.is_symlink():
            raise TextFault("the file is a link to elsewhere", "put the file itself into specimens/", 1)
        content = self.files.read(path)
        if content is not None and not self.files.may_write(path):
            raise PermissionError(13, "the file is read-only", str(path))
        return content

    def _changed(self, text: str, change: FileChange, *, exists: bool, identifier: str) -> str:
        if isinstance(change, NewSpecimen):
            if exists or f"{identifier}.yaml".casefold() in self.taken:
                raise TextFault("there is a specimen of that id already", "choose another id", 1)
            self.taken.add(f"{identifier}.yaml".casefold())
            return change.text
        if not exists and not text:
            raise TextFault("there is no specimen of that id", "check the id", 1)
        if isinstance(change, SetKey):
            return set_key(text, change.key, change.value)
        self._check_seen(text, change, identifier)
        return append_entries(text, change.section, [fields_of(change.entry)])

    def _check_seen(self, text: str, change: Insertion, identifier: str) -> None:
        if change.seen is None:
            return
        specimen, problems = self.reader.read(text, identifier, specimen_file(identifier))
        if specimen is None:
            raise TextFault(problems[0].what, problems[0].remedy, problems[0].place.line or 1)
        if len(specimen.names) != change.seen:
            raise TextFault("the name history changed since this was decided", "check again and decide anew", 1)


def _digests_content(writer: _Writer, specimens: Sequence[Specimen], *, accept: bool) -> Content:
    before = writer.files.read(writer.root / DIGESTS)
    known = dict(read_digests(before)[0])
    for specimen in specimens:
        now, past = digests_of(specimen), known.get(specimen.id, ())
        # A changed past keeps its old digests, so that it goes on being reported until it is accepted.
        known[specimen.id] = now if accept else past + now[len(past) :]
    if accept:
        known = {name: known[name] for name in (specimen.id for specimen in specimens)}
    return Content(before, write_digests(known))
