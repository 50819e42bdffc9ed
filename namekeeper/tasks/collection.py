"""Begin a collection, verify its files, and what happens to animals: counted, joined, gone."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.records.checks import questions_of
from namekeeper.records.differences import Outdated
from namekeeper.records.specimen import Collection, Decision, Left, Sex, Specimen
from namekeeper.storage.collection_folder import SETTINGS
from namekeeper.storage.emit import left_fields, value_text
from namekeeper.storage.journal import SPECIMENS
from namekeeper.storage.wanted import AddPaper, FileChange, Insertion, MadeFor, SetKey
from namekeeper.tasks.desk import CollectionDesk, find, find_all
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, InputError, Place, Problem

_SETTINGS_TEXT = """\
# Settings of this collection; every line is optional.
# title: Animals of the back room
# locality: where the animals are kept
# trust_order: [starter]
"""


class KeySet(NamedTuple):
    """A key of a specimen's file that gets a value, as it will stand there."""

    specimen: str
    key: str
    text: str


@dataclass(frozen=True, slots=True)
class Changed:
    """What came of a change to animals, or would come of it where ``ordered`` is False."""

    specimens: tuple[str, ...]
    ordered: bool
    keys: tuple[KeySet, ...] = ()
    refused: tuple[Problem, ...] = ()
    messages: tuple[str, ...] = ()
    outdated: tuple[Outdated, ...] = ()

    @property
    def written(self) -> bool:
        return self.ordered and bool(self.specimens)

    @property
    def exit_code(self) -> int:
        return 2 if self.refused or self.outdated else 0


def new_collection(folder: Path) -> tuple[str, ...]:
    """Make what a collection needs in ``folder`` and leave what is there; returns what was made.

    :raises FileError: if it cannot be made.
    :raises InputError: if there is a collection already.
    """
    settings, specimens = folder / SETTINGS, folder / SPECIMENS
    if os.path.exists(settings) and os.path.isdir(specimens):  # noqa: PTH110, PTH112 - never raises
        what = "there is a collection here already"
        raise InputError(what, remedy="choose another folder", place=Place(str(folder)))
    try:
        specimens.mkdir(parents=True, exist_ok=True)
        if not settings.exists():
            replace_whole(DiskFiles(), settings, _SETTINGS_TEXT.encode())
    except OSError as error:
        what = f"the collection cannot be made: {error.strerror}"
        raise FileError(what, remedy="choose a folder you may write", place=Place(str(error.filename))) from None
    return (SETTINGS, SPECIMENS)


@dataclass(frozen=True, slots=True)
class Verified:
    """A collection with every problem of its files, and what only the keeper can tell."""

    collection: Collection
    questions: tuple[Problem, ...]

    @property
    def exit_code(self) -> int:
        """2 if files have problems; a question may well be answered with yes, so it changes nothing here."""
        return 2 if self.collection.problems else 0


def verify(desk: CollectionDesk, *, accept: bool) -> Verified:
    """Look through the files of a collection; ``accept`` takes changed past entries for right first."""
    collection = desk.open()
    if accept:
        desk.accept_history(collection.specimens)
        collection = desk.load()
    return Verified(collection, tuple(question for one in collection.specimens for question in questions_of(one)))


def leave(
    desk: CollectionDesk, identifier: str, how: str, on: PartialDate | None, *, write: bool, revision: str = ""
) -> Changed:
    """An animal died, was sold or given away; its file and history stay. Without ``write`` nothing is written.

    ``revision`` is the state of the file that the keeper saw; without it the file counts as it is now.

    :raises InputError: for an unknown id or an animal that has left already.
    """
    specimen = find(desk.load(), identifier)
    _must_be_here(specimen)
    if not how.strip():
        raise InputError("how did it leave?", remedy="give --how with a word such as died, sold or given away")
    gone = left_fields(Left(on or PartialDate.of(desk.today), how.strip()))
    return carried_out(desk, (SetKey(specimen.id, "left", gone, _seen(specimen, revision)),), write=write)


def count(desk: CollectionDesk, identifier: str, sex: Sex, *, write: bool, revision: str = "") -> Changed:
    """A group's count is now ``sex``; the old count stays in ``decisions:``. Without ``write`` nothing is written.

    ``revision`` as for :func:`leave`.

    :raises InputError: for an unknown id or a group that has left.
    """
    specimen = find(desk.load(), identifier)
    _must_be_here(specimen)
    old = specimen.sex.text if specimen.sex else "unknown"
    decision = Decision("counted", PartialDate.of(desk.today), note=f"{old} -> {sex.text}")
    made_for = _seen(specimen, revision)
    changes = (
        SetKey(specimen.id, "sex", sex.text, made_for),
        Insertion(specimen.id, "decisions", decision, made_for),
    )
    return carried_out(desk, changes, write=write)


def join(desk: CollectionDesk, into: str, others: Sequence[str], *, write: bool) -> Changed:
    """Put groups under one label: counts are added, the joined leave with ``how: joined ID``.

    :raises InputError: if their names differ: joining would make one of the labels untrue.
    """
    collection = desk.load()
    target, joined = find(collection, into), find_all(collection, others)
    today = PartialDate.of(desk.today)
    if not joined or target in joined:
        raise InputError("a group is joined with other groups", remedy="name at least one other id")
    for specimen in (target, *joined):
        _must_be_here(specimen)
        if _name(specimen) != _name(target):
            what = f"{specimen.id} and {target.id} do not carry the same name"
            raise InputError(what, remedy="settle their names first, or keep them apart")
    everyone = (target, *joined)
    total = _sum(specimen.sex for specimen in everyone)
    note = ", ".join(
        f"{specimen.id} {specimen.sex.text if specimen.sex else 'of unknown count'}" for specimen in everyone
    )
    changes: list[FileChange] = [SetKey(target.id, "sex", total.text, MadeFor(target))] if total else []
    changes.append(Insertion(target.id, "decisions", Decision("joined", today, note=note), MadeFor(target)))
    gone = left_fields(Left(today, f"joined {target.id}"))
    away = (SetKey(specimen.id, "left", gone, MadeFor(specimen)) for specimen in joined)
    return carried_out(desk, (*changes, *away), write=write)


def carried_out(desk: CollectionDesk, changes: Sequence[FileChange], *, write: bool) -> Changed:
    """Carry out changes to animals, all or none; without ``write`` only what they would be.

    :raises InputError: if a file does not allow one.
    """
    outcome = desk.apply(changes, together=True, rehearse=not write)
    keys = [_key_set(one) for one in changes if isinstance(one, SetKey | AddPaper)]
    if not write:
        return Changed(outcome.specimens, False, tuple(keys), outdated=outcome.outdated)
    return Changed(outcome.specimens, True, tuple(keys), outcome.refused, outcome.messages, outcome.outdated)


def _key_set(change: SetKey | AddPaper) -> KeySet:
    if isinstance(change, AddPaper):
        return KeySet(change.specimen_id, "papers", value_text("papers", change.fields))
    return KeySet(change.specimen_id, change.key, value_text(change.key, change.value))


def _seen(specimen: Specimen, revision: str) -> MadeFor:
    """What a change was decided on: the animal as the keeper saw it."""
    return MadeFor(replace(specimen, revision=revision or specimen.revision))


def _must_be_here(specimen: Specimen) -> None:
    if specimen.left is not None:
        when = f" on {specimen.left.date}" if specimen.left.date else ""
        what = f"{specimen.id} left already: {specimen.left.how}{when}"
        raise InputError(what, remedy="correct left: in its file if that is wrong", place=specimen.place)


def _name(specimen: Specimen) -> str:
    entry = specimen.entry_in_force()
    return f"{entry.name} {entry.qualifier} {entry.trade_form}".strip() if entry else specimen.tag.strip()


def _sum(counts: Iterator[Sex | None]) -> Sex | None:
    known = list(counts)
    if any(sex is None for sex in known):
        return None
    total = [sum(getattr(sex, part) for sex in known) for part in ("male", "female", "unsexed")]
    return Sex(".".join(map(str, total)), *total)
