"""What a cell of a table should say: names of a collection, old and in force, and a cell's text with the new one."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container, Mapping
from dataclasses import dataclass
from enum import StrEnum, unique
from typing import NamedTuple

from namekeeper.evidence.verdicts import Verdict
from namekeeper.records.specimen import Collection, NameEntry, Specimen
from namekeeper.words.spelling import PlainKey, plain_key

_MARKS = ".,;:!?\"'()[]/|\u201c\u201d\u201e\u2018\u2019\u00ab\u00bb"
_BETWEEN = frozenset({"cf", "aff", "nr"})


@unique
class StaysFor(StrEnum):
    """Why a cell with an outdated or unclear name stays as it is; ``faces/telling/transfer.py`` says it."""

    NEVER_CARRIED = "never carried"  # by the specimen of the row; about its id
    MORE_BEHIND = "more behind"  # than the authorship; about the name in force
    SOMETHING_BEHIND = "something behind"  # a name of no label; about the name in force
    STILL_CARRIED = "still carried"  # by some labels; about the other names in force
    SEVERAL = "several"  # names it may be; about these
    AMONG_WORDS = "among words"  # or shortened; about the names in force
    IN_FORMULA = "in a formula"  # as a text of it


class Stays(NamedTuple):
    """That a cell stays, why, and the names or the id that this is about."""

    reason: StaysFor
    about: tuple[str, ...] = ()


#: What is said of a cell that stays: by us, by the file that cannot hold the change, or what is held of its name.
WhyStays = Stays | str | Verdict
#: By name: the entry to write, the verdict that gives none, or None for a good name.
Judged = Mapping[str, NameEntry | Verdict | None]


@dataclass(frozen=True, slots=True)
class CollectionNames:
    """Names of a collection by key: old ones with the entries they lead to, and those in force."""

    by_id: Mapping[str, Specimen]
    old: Mapping[PlainKey, tuple[NameEntry, ...]]  # entries in force on labels that once carried the name
    written: Mapping[PlainKey, tuple[NameEntry, ...]]  # the old entries themselves, for their authorship
    in_force: frozenset[PlainKey]
    short: Mapping[PlainKey, PlainKey]  # "b vagans": the key of the written name it may stand for

    @classmethod
    def of(cls, collection: Collection) -> CollectionNames:
        old: dict[PlainKey, dict[PlainKey, NameEntry]] = defaultdict(dict)
        written: dict[PlainKey, list[NameEntry]] = defaultdict(list)
        in_force: set[PlainKey] = set()
        for specimen in collection.specimens:
            present = specimen.entry_in_force()
            if present is None:
                continue
            in_force.add(plain_key(present.name))
            for entry in specimen.live_entries():
                key = plain_key(entry.name)
                written[key].append(entry)
                if key != plain_key(present.name):
                    old[key].setdefault(plain_key(present.name), present)
        return cls(
            {specimen.id: specimen for specimen in collection.specimens},
            {key: tuple(targets.values()) for key, targets in old.items()},
            {key: tuple(entries) for key, entries in written.items()},
            frozenset(in_force),
            {_short_key(entry): key for key, entries in written.items() for entry in entries[:1]},
        )

    def key_in(self, text: str, own: Container[PlainKey] = ()) -> PlainKey | None:
        """The longest known name, or one of ``own``, that a text begins with, as its key; None if there is none."""
        words = text.split()
        keys = (plain_key(" ".join(words[:count])) for count in range(min(len(words), 3), 1, -1))
        return next((key for key in keys if key in self.old or key in self.in_force or key in own), None)


def carried_keys(specimen: Specimen) -> frozenset[PlainKey]:
    """Names that a table may have of a specimen; one that was wrong from the start too."""
    return frozenset(plain_key(entry.name) for entry in specimen.held_entries())


def by_specimen(text: str, specimen: Specimen, present: NameEntry, known: CollectionNames) -> tuple[str, WhyStays]:
    """A name that some label carries or carried, in a row about this specimen: its own history decides."""
    key = known.key_in(text, carried_keys(specimen))
    if key == plain_key(present.name):
        return "", ""
    own = [entry for entry in specimen.held_entries() if plain_key(entry.name) == key]
    if not own:
        return "", Stays(StaysFor.NEVER_CARRIED, (specimen.id,)) if key in known.old else ""
    new = next(filter(None, (renamed(text, entry, present) for entry in own)), "")
    return (new, "") if new else ("", Stays(StaysFor.MORE_BEHIND, (present.name,)))


def by_short_name(text: str, specimen: Specimen, present: NameEntry) -> str:
    """ "B. vagans" in a row about a specimen that once was Brachypelma vagans; empty for anything else."""
    for entry in specimen.held_entries():
        if plain_key(entry.name) != plain_key(present.name):
            new = renamed(text, _shortened(entry), _shortened(present))
            if new:
                return new
    return ""


def by_name(text: str, known: CollectionNames, others: Judged) -> tuple[str, WhyStays]:
    """The text with the new name or "", and why there is none or ""."""
    key = known.key_in(text)
    if not key:
        judged = others.get(" ".join(text.split()[:2]))
        if isinstance(judged, NameEntry):
            new = renamed(text, NameEntry(" ".join(text.split()[:2])), judged)
            return (new, "") if new else ("", Stays(StaysFor.SOMETHING_BEHIND, (judged.name,)))
        return "", judged or ""
    targets = known.old.get(key, ())
    if not targets:
        return "", ""
    if key in known.in_force:
        return "", Stays(StaysFor.STILL_CARRIED, tuple(target.name for target in targets))
    if len(targets) > 1:
        return "", Stays(StaysFor.SEVERAL, tuple(sorted(target.name for target in targets)))
    for entry in known.written.get(key, ()):
        new = renamed(text, entry, targets[0])
        if new:
            return new, ""
    return "", Stays(StaysFor.MORE_BEHIND, (targets[0].name,))


def mentioned(text: str, specimen: Specimen | None, known: CollectionNames) -> Stays | None:
    """Why a cell that holds an outdated name among other words stays as it is; None if it holds none."""
    words = [word for word in (raw.strip(_MARKS) for raw in text.split()) if word and word not in _BETWEEN]
    own: Mapping[PlainKey, PlainKey] = known.short
    if specimen is not None:
        own = {_short_key(entry): plain_key(entry.name) for entry in specimen.live_entries()}
    for start in range(len(words)):
        for count in (3, 2):
            key = plain_key(" ".join(words[start : start + count]))
            key = own.get(key, key)
            if key in known.old and key not in known.in_force and start + count <= len(words):
                return Stays(StaysFor.AMONG_WORDS, tuple(sorted(target.name for target in known.old[key])))
    return None


def _short_key(entry: NameEntry) -> PlainKey:
    return plain_key(_shortened(entry).name.replace(".", ""))


def renamed(text: str, old: NameEntry, new: NameEntry) -> str:
    """``text`` with the new name, and the new authorship where the old one stood; empty if it is not just the name."""
    words = text.split()
    length = len(old.name.split())
    if plain_key(" ".join(words[:length])) != plain_key(old.name):
        return ""
    name_end = _end_of_word(text, length)
    head, rest = text[: len(text) - len(text.lstrip())], text[name_end:]
    if not rest.strip():
        return head + new.name + rest
    if old.authorship and new.authorship and plain_key(rest.strip()) == plain_key(old.authorship):
        blank = rest[: len(rest) - len(rest.lstrip())]
        return head + new.name + blank + new.authorship + rest[len(rest.rstrip()) :]
    return ""


def _end_of_word(text: str, count: int) -> int:
    position = 0
    for word in text.split()[:count]:
        position = text.index(word, position) + len(word)
    return position


def _shortened(entry: NameEntry) -> NameEntry:
    words = entry.name.split()
    return NameEntry(" ".join([f"{words[0][0]}.", *words[1:]]), entry.authorship)
