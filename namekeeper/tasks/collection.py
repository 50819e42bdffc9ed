"""Begin a collection, add animals, verify its files, and what happens to animals: counted, joined, gone."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import islice
from pathlib import Path
from typing import NamedTuple

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.records.checks import questions_of
from namekeeper.records.identifiers import fault_of_id, free_ids
from namekeeper.records.specimen import Collection, Decision, Left, NameEntry, Sex, Specimen
from namekeeper.storage.changes import FileChange, Insertion, NewSpecimen, SetKey
from namekeeper.storage.collection_folder import SETTINGS, specimen_file, taken_ids
from namekeeper.storage.emit import left_fields, specimen_text, value_text
from namekeeper.storage.journal import SPECIMENS
from namekeeper.tasks.desk import CollectionDesk, find, find_all
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, InputError, Place, Problem

_SETTINGS_TEXT = """\
# Settings of this collection; every line is optional.
# title: Animals of the back room
# locality: where the animals are kept
# trust_order: [starter]
"""


@dataclass(frozen=True, slots=True)
class Arrival:
    """What is told of new animals; ``origin`` holds a seller or the ids of the parents."""

    tag: str = ""
    count: int = 1
    identifier: str | None = None
    origin: tuple[str, ...] = ()
    acquired: PartialDate | None = None
    sex: Sex | None = None
    locality: str = ""
    note: str = ""


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

    @property
    def written(self) -> bool:
        return self.ordered and bool(self.specimens)

    @property
    def exit_code(self) -> int:
        return 2 if self.refused else 0


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


def add_specimens(desk: CollectionDesk, arrival: Arrival) -> Changed:
    """Write one file an animal; offspring inherit tag, names, label dates, locality and form of the first parent.

    :raises InputError: if the id is taken or cannot be one, or there is neither tag nor parent.
    """
    if arrival.count < 1 or (arrival.identifier and arrival.count > 1):
        what = "a count is 1 or more, and an id of your own goes with one animal"
        raise InputError(what, remedy="give --count 1 or leave the id out")
    collection = desk.load()
    known = {specimen.id.casefold(): specimen for specimen in collection.specimens}
    parents = [found for origin in arrival.origin if (found := known.get(origin.casefold()))]
    if not arrival.tag.strip() and not parents:
        raise InputError("no tag was given", remedy="give --tag with the seller's text, or --from with a parent's id")
    ids = _new_ids(collection, arrival)
    origin = tuple(known[text.casefold()].id if text.casefold() in known else text for text in arrival.origin)
    arrival = replace(arrival, origin=origin)
    made = [_arrived(identifier, arrival, parents[0] if parents else None, desk.today) for identifier in ids]
    changes: list[FileChange] = [NewSpecimen(specimen.id, specimen_text(specimen)) for specimen in made]
    note = "into " + (ids[0] if len(ids) == 1 else f"{ids[0]} to {ids[-1]}")
    today = PartialDate.of(desk.today)
    changes += [Insertion(parent.id, "decisions", Decision("divided", today, note=note)) for parent in parents]
    written = desk.apply(changes, together=True)
    return Changed(ids, True, (), written.refused, written.messages)


def leave(desk: CollectionDesk, identifier: str, how: str, on: PartialDate | None, *, write: bool) -> Changed:
    """An animal died, was sold or given away; its file and history stay. Without ``write`` nothing is written.

    :raises InputError: for an unknown id or an animal that has left already.
    """
    specimen = find(desk.load(), identifier)
    _must_be_here(specimen)
    if not how.strip():
        raise InputError("how did it leave?", remedy="give --how with a word such as died, sold or given away")
    gone = left_fields(Left(on or PartialDate.of(desk.today), how.strip()))
    return _carried_out(desk, (SetKey(specimen.id, "left", gone),), write=write)


def count(desk: CollectionDesk, identifier: str, sex: Sex, *, write: bool) -> Changed:
    """A group's count is now ``sex``; the old count stays in ``decisions:``. Without ``write`` nothing is written.

    :raises InputError: for an unknown id or a group that has left.
    """
    specimen = find(desk.load(), identifier)
    _must_be_here(specimen)
    old = specimen.sex.text if specimen.sex else "unknown"
    decision = Decision("counted", PartialDate.of(desk.today), note=f"{old} -> {sex.text}")
    changes = (SetKey(specimen.id, "sex", sex.text), Insertion(specimen.id, "decisions", decision))
    return _carried_out(desk, changes, write=write)


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
    changes: list[FileChange] = [SetKey(target.id, "sex", total.text)] if total else []
    changes.append(Insertion(target.id, "decisions", Decision("joined", today, note=note)))
    gone = left_fields(Left(today, f"joined {target.id}"))
    return _carried_out(desk, (*changes, *(SetKey(specimen.id, "left", gone) for specimen in joined)), write=write)


def _carried_out(desk: CollectionDesk, changes: Sequence[FileChange], *, write: bool) -> Changed:
    outcome = desk.apply(changes, together=True, rehearse=not write)
    keys = [KeySet(one.specimen_id, one.key, value_text(one.value)) for one in changes if isinstance(one, SetKey)]
    if not write:
        return Changed(outcome.specimens, False, tuple(keys))
    return Changed(outcome.specimens, True, tuple(keys), outcome.refused, outcome.messages)


def _new_ids(collection: Collection, arrival: Arrival) -> tuple[str, ...]:
    stems = taken_ids(Path(collection.folder))
    if arrival.identifier is None:
        return tuple(islice(free_ids(stems), arrival.count))
    fault = fault_of_id(arrival.identifier)
    if fault is not None:
        msg = f"'{arrival.identifier}' cannot be an id: {fault}"
        raise InputError(msg, remedy="choose another")
    if arrival.identifier.casefold() in (stem.casefold() for stem in stems):
        msg = f"the id '{arrival.identifier}' is taken"
        raise InputError(msg, remedy="choose another")
    return (arrival.identifier,)


def _arrived(identifier: str, arrival: Arrival, parent: Specimen | None, today: date) -> Specimen:
    return Specimen(
        identifier,
        Place(specimen_file(identifier), 1, identifier),
        tag=arrival.tag or (parent.tag if parent else ""),
        acquired=arrival.acquired or PartialDate.of(today),
        sex=arrival.sex or (Sex("0.0.1", 0, 0, 1) if parent else None),
        locality=arrival.locality or (parent.locality if parent else ""),
        common=parent.common if parent else "",
        caution=parent.caution if parent else "",
        origin=arrival.origin,
        note=arrival.note,
        names=tuple(_inherited(parent, today)) if parent else (),
    )


def _inherited(parent: Specimen, today: date) -> Iterator[NameEntry]:
    """Names with their label dates: they decide what the name means. ``recorded`` is the day they are entered here."""
    for entry in parent.live_entries():
        note = f"{entry.note}; inherited from {parent.id}" if entry.note else f"inherited from {parent.id}"
        yield replace(entry, recorded=PartialDate.of(today), since=entry.since or parent.acquired, note=note)


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
