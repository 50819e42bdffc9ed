"""Carry out changes on a collection: under its lock, journalled, each file whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path

from namekeeper.files.memory import recall, remember
from namekeeper.files.places import Places
from namekeeper.files.reading import LARGEST_TEXT, remedy_for
from namekeeper.records.differences import Difference, DifferenceKind, Outdated, difference_of
from namekeeper.records.identifiers import evicted, fault_of_id
from namekeeper.records.specimen import Specimen
from namekeeper.storage.collection_folder import require_folder, specimen_file
from namekeeper.storage.digests import digests_of, read_digests, write_digests
from namekeeper.storage.emit import fields_of
from namekeeper.storage.insertion import append_entries, set_key
from namekeeper.storage.journal import DIGESTS, SPECIMENS, Content, commit, content_digest, recover
from namekeeper.storage.lock import writing
from namekeeper.storage.specimen_file import SpecimenReader
from namekeeper.storage.wanted import (
    AddPaper,
    ChangesChosen,
    FileChange,
    JudgedNow,
    JudgeNow,
    NewSpecimen,
    SetKey,
    WriterParts,
    Written,
    nobody_judges,
)
from namekeeper.storage.yaml_text import TextFault, decode
from namekeeper.words.errors import FileError, InputError, Place, Problem

_UNSYNCED = "unsynced.json"  # in the state folder: paths of collections that were told of
_REMEMBERED = 100  # collections at most, the newest


def apply_changes(
    folder: Path,
    changes: Sequence[FileChange] | ChangesChosen,
    places: Places,
    clock: Callable[[], datetime],
    *,
    judge: JudgeNow = nobody_judges,
    together: bool = False,
    rehearse: bool = False,
    rim: WriterParts | None = None,
) -> Written:
    """Carry out ``changes``, those of one specimen in the order given, or those that are chosen under the lock.

    A specimen whose file does not allow it is refused, one that is not what was decided on is outdated, and the others
    go on; with ``together`` nothing is written then. With ``rehearse`` nothing is written at all: the result is what
    would come of it.

    :raises FileError: if the folder cannot be written or another process holds it.
    :raises InputError: with ``together``, if a change is refused.
    """
    if not changes:
        return Written(())
    with _opened(folder, places, clock, rim or WriterParts()) as writer:
        chosen = changes(writer.ids()) if callable(changes) else changes
        writer.work_out_all(chosen, judge)
        if together and writer.refused:
            first = writer.refused[0]
            raise InputError(first.what, remedy=first.remedy, place=first.place)
        if together and writer.outdated:
            return Written((), (), tuple(writer.messages), tuple(writer.outdated))
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
    require_folder(folder)
    with writing(places, root, clock(), rim.patience, rim.pause) as said:
        yield _Writer(rim, root, places.state, clock(), [*said, *recover(rim.files, root)])


class _Writer:
    """Works out new contents under the lock, then writes them at once."""

    def __init__(self, rim: WriterParts, root: Path, state: Path, now: datetime, messages: list[str]) -> None:
        self.files = rim.files
        self.step = rim.step
        self.root = root
        self.state = state
        self.reader = SpecimenReader(now.astimezone().date())
        self.messages = messages
        self.refused: list[Problem] = []
        self.outdated: list[Outdated] = []
        self.contents: dict[str, Content] = {}
        self.changed: list[Specimen] = []
        self.taken = {identifier.casefold() for identifier in self.ids()}

    def ids(self) -> frozenset[str]:
        """Ids of all files among the specimens, readable or not, and of those that are not on this machine."""
        names = self.files.names(self.root / SPECIMENS)
        here = (name.removesuffix(".yaml") for name in names if name.endswith(".yaml"))
        return frozenset((*here, *evicted(names).values()))

    def work_out_all(self, changes: Sequence[FileChange], judge: JudgeNow) -> None:
        """Work out the new contents of all files whose specimens are still what was decided on."""
        wanted: dict[str, list[FileChange]] = {}
        for change in changes:
            wanted.setdefault(change.specimen_id, []).append(change)
        present = {identifier: self._read(identifier) for identifier in wanted}
        found = {identifier: content for identifier, content in present.items() if not isinstance(content, Problem)}
        self.refused += [fault for fault in present.values() if isinstance(fault, Problem)]
        outdated = {name: old for name in found if (old := self._difference(name, wanted[name], found[name]))}
        outdated |= self._judged_otherwise([wanted[name] for name in found if name not in outdated], judge)
        self.outdated += [Outdated(name, outdated[name]) for name in found if name in outdated]
        for name, content in found.items():
            if name not in outdated:
                self._work_out(name, content, wanted[name])

    def _read(self, identifier: str) -> bytes | Problem | None:
        target = specimen_file(identifier)
        try:
            return self._present(identifier, target)
        except TextFault as fault:
            return Problem(fault.what, fault.remedy, Place(target, fault.line, identifier))
        except OSError as error:
            what = f"cannot be changed: {error.strerror or error}"
            remedy = remedy_for(error, "check the file and its permissions")
            return Problem(what, remedy, Place(target, None, identifier))

    def _difference(self, identifier: str, changes: Sequence[FileChange], content: bytes | None) -> Difference | None:
        made_for = next((change.made_for for change in changes if change.made_for), None)
        if made_for is None:
            return None
        if content is None:
            return Difference(DifferenceKind.GONE)
        if content_digest(content) == made_for.specimen.revision:
            return None
        try:
            now, _ = self.reader.read(decode(content)[1], identifier, specimen_file(identifier))
        except TextFault:
            now = None
        return difference_of(made_for.specimen, now) if now else Difference(DifferenceKind.UNREADABLE)

    def _judged_otherwise(self, wanted: Sequence[Sequence[FileChange]], judge: JudgeNow) -> dict[str, Difference]:
        """Specimens on which the verdict is not the one decided on, though their files are the same."""
        bases = [change.made_for for changes in wanted for change in changes if change.made_for]
        known = {basis.specimen.id: basis for basis in bases if basis.verdict}
        now = judge([basis.specimen for basis in known.values()]) if known else {}
        judged = {name: now.get(name, JudgedNow("")) for name in known}
        return {
            name: Difference(DifferenceKind.UNHEARD if judged[name].unheard else DifferenceKind.VERDICT)
            for name, basis in known.items()
            if judged[name].digest != basis.verdict
        }

    def _work_out(self, identifier: str, before: bytes | None, changes: Sequence[FileChange]) -> None:
        target = specimen_file(identifier)
        try:
            mark, text = decode(before or b"")
            for change in changes:
                text = self._changed(text, change, exists=before is not None, identifier=identifier)
        except TextFault as fault:
            self.refused.append(Problem(fault.what, fault.remedy, Place(target, fault.line, identifier)))
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
        if self.contents and not commit(self.files, self.root, self.contents, self.step):
            self.messages += _unsynced_note(self.state, self.root)
        return self.outcome()

    def outcome(self) -> Written:
        done = tuple(specimen.id for specimen in self.changed)
        return Written(done, tuple(self.refused), tuple(self.messages), tuple(self.outdated))

    def _present(self, identifier: str, target: str) -> bytes | None:
        fault = fault_of_id(identifier)
        if fault is not None:
            msg = f"'{identifier}' cannot be an id: {fault}"
            raise TextFault(msg, "choose another id", 1)
        path = self.root / target
        if path.is_symlink():
            raise TextFault("the file is a link to elsewhere", "put the file itself into specimens/", 1)
        content = self.files.read(path, LARGEST_TEXT)
        if content is not None and not self.files.may_write(path):
            raise PermissionError(13, "the file is read-only", str(path))
        return content

    def _changed(self, text: str, change: FileChange, *, exists: bool, identifier: str) -> str:
        if isinstance(change, NewSpecimen):
            if exists or identifier.casefold() in self.taken:
                raise TextFault("there is a specimen of that id already", "choose another id", 1)
            self.taken.add(identifier.casefold())
            return change.text
        if not exists and not text:
            raise TextFault("there is no specimen of that id", "check the id", 1)
        if isinstance(change, SetKey):
            return set_key(text, change.key, change.value)
        if isinstance(change, AddPaper):
            return append_entries(text, "papers", [change.fields])
        return append_entries(text, change.section, [fields_of(change.entry)])


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


def _unsynced_note(state: Path, root: Path) -> tuple[str, ...]:
    """What is to be known of ``root``, the first time; nothing afterwards. Told again where it cannot be remembered."""
    place, name = state / _UNSYNCED, str(root)
    known: object = None
    with suppress(FileError):
        known = recall(place)
    told = [one for one in known if isinstance(one, str)] if isinstance(known, list) else []
    if name in told:
        return ()
    with suppress(FileError):
        remember(place, [*told, name][-_REMEMBERED:])
    what = "the file system there cannot promise that a change outlasts a power cut: keep a copy elsewhere (said once)"
    return (f"{name}: {what}",)
