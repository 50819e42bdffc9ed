"""Begin a collection, add animals, and what happens to them: counted, joined, gone."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date, datetime
from itertools import islice
from pathlib import Path

from namekeeper.files.file_layer import NEW, DiskFiles, replace_whole
from namekeeper.files.places import Places
from namekeeper.records.identifiers import fault_of_id, free_ids
from namekeeper.records.specimen import Collection, Decision, Left, NameEntry, Sex, Specimen
from namekeeper.storage.changes import (
    FileChange,
    Insertion,
    NewSpecimen,
    SetKey,
    WriterParts,
    Written,
    apply_changes,
    recover_collection,
)
from namekeeper.storage.collection_folder import SETTINGS, load_collection, specimen_file, taken_ids
from namekeeper.storage.emit import left_fields, specimen_text
from namekeeper.storage.journal import JOURNAL, SPECIMENS, nothing_told
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NOWHERE, FileError, InputError, Place

_SETTINGS_TEXT = """\
# Settings of this collection; every line is optional.
# title: Animals of the back room
# locality: where the animals are kept
# trust_order: [starter]
"""


@dataclass(frozen=True, slots=True)
class CollectionDesk:
    """Where a task works: the collection's folder, this machine's folders, the clock and the keeper's day."""

    folder: Path
    places: Places
    clock: Callable[[], datetime]
    today: date

    def load(self) -> Collection:
        return load_collection(self.folder, self.today)

    def apply(
        self,
        changes: Sequence[FileChange],
        *,
        together: bool = False,
        rehearse: bool = False,
        step: Callable[[int, int], None] = nothing_told,
    ) -> Written:
        rim = WriterParts(step=step)
        return apply_changes(
            self.folder, changes, self.places, self.clock, together=together, rehearse=rehearse, rim=rim
        )


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


def open_collection(desk: CollectionDesk, notice: Callable[[str], None]) -> Collection:
    """Load a collection after completing or rolling back what a killed process left in it.

    :raises FileError: if there is no such folder.
    """
    if _interrupted(desk.folder):
        with suppress(FileError):  # another process is at it, or the medium is read-only: the load tells
            for message in recover_collection(desk.folder, desk.places, desk.clock):
                notice(message)
    return desk.load()


def _interrupted(folder: Path) -> bool:
    if os.path.exists(folder / JOURNAL):  # noqa: PTH110 - never raises
        return True
    places = [place for place in (folder, folder / SPECIMENS) if os.path.isdir(place)]  # noqa: PTH112 - never raises
    return any(name.endswith(NEW) for place in places for name in DiskFiles().names(place))


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


def add_specimens(desk: CollectionDesk, arrival: Arrival) -> Written:
    """Write one file an animal; offspring inherit tag, names, label dates, locality and form of the first parent.

    :raises InputError: if the id is taken or cannot be one, or there is neither tag nor parent.
    """
    if arrival.count < 1 or (arrival.identifier and arrival.count > 1):
        what = "a count is 1 or more, and an id of your own goes with one animal"
        raise InputError(what, remedy="give --count 1 or leave the id out")
    collection = desk.load()
    parents = [find(collection, origin) for origin in arrival.origin if _known(collection, origin)]
    if not arrival.tag.strip() and not parents:
        raise InputError("no tag was given", remedy="give --tag with the seller's text, or --from with a parent's id")
    ids = _new_ids(collection, arrival)
    made = [_arrived(identifier, arrival, parents[0] if parents else None, desk.today) for identifier in ids]
    changes: list[FileChange] = [NewSpecimen(specimen.id, specimen_text(specimen)) for specimen in made]
    note = "into " + (ids[0] if len(ids) == 1 else f"{ids[0]} to {ids[-1]}")
    today = PartialDate.of(desk.today)
    changes += [Insertion(parent.id, "decisions", Decision("divided", today, note=note)) for parent in parents]
    return replace(desk.apply(changes, together=True), specimens=ids)


def leave(desk: CollectionDesk, identifier: str, how: str, on: PartialDate | None) -> tuple[FileChange, ...]:
    """The change for an animal that died, was sold or given away; its file and history stay.

    :raises InputError: for an unknown id or an animal that has left already.
    """
    specimen = find(desk.load(), identifier)
    _must_be_here(specimen)
    if not how.strip():
        raise InputError("how did it leave?", remedy="give --how with a word such as died, sold or given away")
    return (SetKey(specimen.id, "left", left_fields(Left(on or PartialDate.of(desk.today), how.strip()))),)


def count(desk: CollectionDesk, identifier: str, sex: Sex) -> tuple[FileChange, ...]:
    """The changes for a group whose count is now ``sex``; the old count stays in ``decisions:``."""
    specimen = find(desk.load(), identifier)
    _must_be_here(specimen)
    old = specimen.sex.text if specimen.sex else "unknown"
    decision = Decision("counted", PartialDate.of(desk.today), note=f"{old} -> {sex.text}")
    return (SetKey(specimen.id, "sex", sex.text), Insertion(specimen.id, "decisions", decision))


def join(desk: CollectionDesk, into: str, others: Sequence[str]) -> tuple[FileChange, ...]:
    """The changes that put groups under one label: counts are added, the joined leave with ``how: joined ID``.

    :raises InputError: if their names differ: joining would make one of the labels untrue.
    """
    collection = desk.load()
    target, joined = find(collection, into), [find(collection, other) for other in dict.fromkeys(others)]
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
    return (*changes, *(SetKey(specimen.id, "left", gone) for specimen in joined))


def find(collection: Collection, identifier: str) -> Specimen:
    """The specimen of that id.

    :raises InputError: if there is none or its file has a problem, which is then named.
    """
    for specimen in collection.specimens:
        if specimen.id == identifier:
            return specimen
    for problem in collection.problems:
        if problem.place.specimen == identifier or problem.place.file == specimen_file(identifier):
            raise InputError(problem.what, remedy=problem.remedy, place=problem.place)
    same = [specimen.id for specimen in collection.specimens if specimen.id.casefold() == identifier.casefold()]
    remedy = f"did you mean {same[0]}?" if same else "the id is the name of the file in specimens/ without .yaml"
    msg = f"there is no specimen '{identifier}'"
    raise InputError(msg, remedy=remedy, place=NOWHERE)


def _known(collection: Collection, origin: str) -> bool:
    return any(specimen.id == origin for specimen in collection.specimens)


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
