"""What may be wanted of a collection's files, and what came of it, as values."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from namekeeper.files.file_layer import DiskFiles, FileLayer
from namekeeper.records.differences import Outdated
from namekeeper.records.specimen import Decision, NameEntry, Specimen
from namekeeper.storage.emit import Fields, Texts
from namekeeper.storage.journal import nothing_told
from namekeeper.storage.lock import PATIENCE_SECONDS
from namekeeper.words.errors import Problem


@dataclass(frozen=True, slots=True)
class MadeFor:
    """What a change was decided on: the specimen as it was read, and the digest of the verdict on it.

    Under the lock the file's bytes must still be those of ``specimen.revision``, and the verdict, if it was one that
    was decided on, the same.
    """

    specimen: Specimen
    verdict: str = ""


@dataclass(frozen=True, slots=True)
class Insertion:
    """Append an entry; ``made_for`` None only for what is so whatever stands in the file."""

    specimen_id: str
    section: Literal["names", "decisions"]
    entry: NameEntry | Decision
    made_for: MadeFor | None = None


@dataclass(frozen=True, slots=True)
class AddPaper:
    """Append an entry to ``papers:``."""

    specimen_id: str
    fields: Fields
    made_for: MadeFor | None = None


@dataclass(frozen=True, slots=True)
class SetKey:
    """Write a top-level key of a specimen, such as ``sex`` or ``left``; ``made_for`` as for an insertion."""

    specimen_id: str
    key: str
    value: str | Fields | Texts
    made_for: MadeFor | None = None


@dataclass(frozen=True, slots=True)
class NewSpecimen:
    """A specimen that has no file yet, and the text of its file."""

    specimen_id: str
    text: str
    made_for: None = None


FileChange = Insertion | AddPaper | SetKey | NewSpecimen
#: Chooses changes under the lock, given the ids of all files, readable or not.
ChangesChosen = Callable[[frozenset[str]], Sequence[FileChange]]


class JudgedNow(NamedTuple):
    """The digest of a verdict as things are now; ``unheard`` if a service is missing in it whose answer is not kept."""

    digest: str
    unheard: bool = False


#: Judges specimens as things are now, by id.
JudgeNow = Callable[[Sequence[Specimen]], Mapping[str, JudgedNow]]


def nobody_judges(_specimens: Sequence[Specimen]) -> Mapping[str, JudgedNow]:
    """For changes that rest on no verdict."""
    return {}


@dataclass(frozen=True, slots=True)
class Written:
    """What came of a set of changes: ids whose files were written, what was refused, what had to be said.

    ``outdated`` are changes that were decided on something else than what is there now.
    """

    specimens: tuple[str, ...]
    refused: tuple[Problem, ...] = ()
    messages: tuple[str, ...] = ()
    outdated: tuple[Outdated, ...] = ()


@dataclass(frozen=True, slots=True)
class WriterParts:
    """The outside world of a writer: files, how long and how to wait for another one, whom to tell how far it is."""

    files: FileLayer = field(default_factory=DiskFiles)
    patience: float = PATIENCE_SECONDS
    pause: Callable[[float], None] = time.sleep
    step: Callable[[int, int], None] = nothing_told
