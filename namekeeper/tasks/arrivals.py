"""Add animals: their ids are chosen under the lock, and offspring take a name only where there is no question of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum, unique
from itertools import islice
from typing import NamedTuple

from namekeeper.evidence.interfaces import NameList
from namekeeper.labels.content import label_name
from namekeeper.records.identifiers import fault_of_id, free_ids
from namekeeper.records.specimen import NameEntry, Sex, Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.storage.collection_folder import specimen_file
from namekeeper.storage.emit import specimen_text
from namekeeper.storage.wanted import NewSpecimen
from namekeeper.tasks.check import Finding
from namekeeper.tasks.collection import Changed
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.judge_again import JudgeAgain
from namekeeper.tasks.tag_facts import NOTHING_READ, ReadOff, read_tags_of
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError, Place
from namekeeper.words.terms import Standing

#: Animals that are added by one order; a group under one label counts as one.
MOST_AT_ONCE = 1000

# The animals are what they were thought to be, or nobody could say anything of it.
_NO_QUESTION = frozenset({Standing.CURRENT, Standing.MOVED, Standing.RESPELLED, Standing.MERGED, Standing.RENAMED})


@dataclass(frozen=True, slots=True)
class Arrival:
    """What is told of new animals; ``origin`` holds a seller or the ids of the parents. Nothing is made up."""

    tag: str = ""
    count: int = 1
    identifier: str | None = None
    origin: tuple[str, ...] = ()
    acquired: PartialDate | None = None
    sex: Sex | None = None
    locality: str = ""
    note: str = ""


@unique
class HeritageCode(StrEnum):
    """Whether offspring took the name of their parents, and if not, why."""

    TAKEN = "taken"
    NO_NAME = "no-name"  # the parents have a tag only
    NAMES_DIFFER = "names-differ"
    VERDICTS_DIFFER = "verdicts-differ"  # the same name, which means something else on each of them
    IN_QUESTION = "in-question"


class Heritage(NamedTuple):
    """What became of the parents' name; ``names`` are those on their labels, each once."""

    code: HeritageCode
    parents: tuple[Specimen, ...]
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Arrived:
    """What was written, what was read from the tag, and what became of the parents' name if there are parents."""

    changed: Changed
    heritage: Heritage | None = None
    read: ReadOff = NOTHING_READ


@dataclass(slots=True)
class _Arriving:
    """Works out the new files under the lock."""

    desk: CollectionDesk
    arrival: Arrival
    lists: Sequence[NameList]
    heritage: Heritage | None = field(default=None)
    read: ReadOff = NOTHING_READ

    def files(self, taken: frozenset[str]) -> Sequence[NewSpecimen]:
        """One file an animal; ``taken`` are the ids that there are."""
        arrival, collection = self.arrival, self.desk.load()
        known = {specimen.id.casefold(): specimen for specimen in collection.specimens}
        parents = tuple(found for origin in arrival.origin if (found := known.get(origin.casefold())))
        if not arrival.tag.strip() and not parents:
            remedy = "give --tag with the seller's text, or --from with a parent's id"
            raise InputError("no tag was given", remedy=remedy)
        origin = tuple(known[text.casefold()].id if text.casefold() in known else text for text in arrival.origin)
        self.heritage = _heritage(JudgeAgain(self.desk, collection), parents) if parents else None
        first, *others = _new_ids(taken, arrival)
        made = self._read(_arrived(first, replace(arrival, origin=origin), self.heritage, self.desk.today))
        everyone = (replace(made, id=identifier) for identifier in (first, *others))
        return [NewSpecimen(specimen.id, specimen_text(specimen)) for specimen in everyone]

    def _read(self, made: Specimen) -> Specimen:
        """With what the tag says; the tag of offspring without one of their own speaks of their parents."""
        arrival = self.arrival
        if not arrival.tag.strip():
            return made
        ((filled, self.read),) = read_tags_of((made,), self.lists)
        if arrival.count == 1 or "sex" not in self.read.taken or filled.sex is None:
            return filled
        sex = filled.sex.each_of(arrival.count)
        taken = {key: text for key, text in self.read.taken.items() if key != "sex"}
        self.read = ReadOff({**taken, **({"sex": sex.text} if sex else {})}, self.read.left)
        return replace(filled, sex=sex)


def add_specimens(desk: CollectionDesk, arrival: Arrival) -> Arrived:
    """Write one file an animal; of its parents only their ids are recorded, and nothing is written into their files.

    Offspring take names, label dates, locality and form of parents that all carry the same name with the same verdict,
    unless the name is in question: then they get a tag with what the labels of their parents say, to be settled.

    :raises InputError: if the id is taken or cannot be one, or there is neither tag nor parent.
    """
    if not 1 <= arrival.count <= MOST_AT_ONCE:
        what = f"{arrival.count} animals cannot be added at once: a count is from 1 to {MOST_AT_ONCE}"
        remedy = "each gets a label of its own; a group under one label is one animal with a count as its sex"
        raise InputError(what, remedy=remedy)
    if arrival.identifier and arrival.count > 1:
        raise InputError("an id of your own goes with one animal", remedy="give --count 1 or leave the id out")
    with open_lists(desk.outside.places, desk.outside.notice) as lists:
        arriving = _Arriving(desk, arrival, lists)
        written = desk.apply(arriving.files, together=True)
    changed = Changed(written.specimens, True, (), written.refused, written.messages)
    return Arrived(changed, arriving.heritage, arriving.read)


def _heritage(judge: JudgeAgain, parents: tuple[Specimen, ...]) -> Heritage:
    names = tuple(dict.fromkeys(label_name(parent) if parent.names else parent.tag for parent in parents))
    findings = judge.findings(parents)
    if len(names) > 1:
        code = HeritageCode.NAMES_DIFFER
    elif not all(finding.named for finding in findings):
        code = HeritageCode.NO_NAME
    elif len({finding.verdict.digest for finding in findings}) > 1:
        code = HeritageCode.VERDICTS_DIFFER
    elif any(map(_in_question, findings)):
        code = HeritageCode.IN_QUESTION
    else:
        code = HeritageCode.TAKEN
    return Heritage(code, parents, names)


def _in_question(finding: Finding) -> bool:
    """Whether it is open what the parent is; a newer name of it is no question, nor that nobody could be asked."""
    standing = finding.verdict.standing
    if not finding.to_look_at or standing is Standing.UNASKED:
        return False
    return standing not in _NO_QUESTION or bool(finding.verdict.choices)


def _new_ids(taken: frozenset[str], arrival: Arrival) -> tuple[str, ...]:
    if arrival.identifier is None:
        return tuple(islice(free_ids(taken), arrival.count))
    fault = fault_of_id(arrival.identifier)
    if fault is not None:
        msg = f"'{arrival.identifier}' cannot be an id: {fault}"
        raise InputError(msg, remedy="choose another")
    if arrival.identifier.casefold() in (stem.casefold() for stem in taken):
        msg = f"the id '{arrival.identifier}' is taken"
        raise InputError(msg, remedy="choose another")
    return (arrival.identifier,)


def _arrived(identifier: str, arrival: Arrival, heritage: Heritage | None, today: date) -> Specimen:
    plain = Specimen(
        identifier,
        Place(specimen_file(identifier), 1, identifier),
        tag=arrival.tag,
        acquired=arrival.acquired,
        sex=arrival.sex,
        locality=arrival.locality,
        origin=arrival.origin,
        note=arrival.note,
    )
    if heritage is None:
        return plain
    parent, unsexed = heritage.parents[0], Sex("0.0.1", 0, 0, 1)
    plain = replace(plain, sex=arrival.sex or unsexed, caution=parent.caution)
    if heritage.code is not HeritageCode.TAKEN:
        return replace(plain, tag=arrival.tag or " × ".join(heritage.names))
    return replace(
        plain,
        tag=arrival.tag or parent.tag,
        locality=arrival.locality or parent.locality,
        common=parent.common,
        names=tuple(_inherited(parent, today)),
    )


def _inherited(parent: Specimen, today: date) -> Iterator[NameEntry]:
    """Names with their label dates: they decide what the name means. ``recorded`` is the day they are entered here."""
    for entry in parent.live_entries():
        note = f"{entry.note}; inherited from {parent.id}" if entry.note else f"inherited from {parent.id}"
        yield entry._replace(recorded=PartialDate.of(today), since=entry.since or parent.acquired, note=note)
