"""Add a list: whatever file it comes in, through one writer, all or nothing."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from namekeeper.evidence.statements import Edition, ListWishes
from namekeeper.sources.lists.archive import Archive
from namekeeper.sources.lists.coldp import ColdpArchive, entities
from namekeeper.sources.lists.described import Described, ListFile
from namekeeper.sources.lists.dwca import DarwinCoreArchive
from namekeeper.sources.lists.index_writer import IndexWriter, no_progress
from namekeeper.sources.lists.name_rows import Progress
from namekeeper.sources.lists.skips import Skips
from namekeeper.sources.lists.table_file import NameTable
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, InputError, Place


@dataclass(frozen=True, slots=True)
class Source:
    """An open list file with what it is; ``columns`` shows how a table was understood."""

    list: ListFile
    kind: str
    columns: Mapping[str, str] = field(default_factory=dict)


@contextmanager
def open_source(path: Path, wishes: ListWishes, skips: Skips) -> Iterator[Source]:
    """Open a Darwin Core archive, a ColDP archive, or a CSV or TSV table.

    :raises InputError: if it is none of these, or dangerous.
    :raises FileError: if it cannot be read.
    """
    if not path.is_file():
        raise FileError("there is no such file", remedy="give a file, not a folder", place=Place(str(path)))
    try:
        packed = zipfile.is_zipfile(path)
    except OSError as error:
        message = f"the file cannot be read: {error.strerror or error}"
        raise FileError(message, place=Place(str(path))) from error
    if not packed:
        table = NameTable(path, wishes.columns, skips)
        shown = {name: table.header[place] for name, place in table.columns.items()}
        yield Source(table, "table", shown)
        return
    if wishes.columns:
        raise InputError("columns can be named for tables only: an archive declares its own", place=Place(str(path)))
    with Archive(path) as archive:
        meta = archive.find("meta.xml")
        if meta is not None:
            yield Source(DarwinCoreArchive(archive, meta, skips), "Darwin Core archive")
        elif {"nameusage", "name"} & entities(archive).keys():
            yield Source(ColdpArchive(archive, skips), "ColDP archive")
        else:
            archive.refuse("it is neither a Darwin Core archive (no meta.xml) nor ColDP (no NameUsage, no Name)")


def edition_of(key: str, said: Described, wishes: ListWishes) -> Edition:
    """The edition as the keeper, else the file, gives it."""
    edition = wishes.edition or said.edition
    return Edition(
        source=key,
        title=said.title or key,
        upstream=wishes.upstream or key,
        edition=edition,
        dated=_date(said.dated) or _date(edition),
        licence=wishes.licence or said.licence,
        citation=wishes.citation or said.citation or said.title,
        link=said.link,
        complete_for=wishes.complete_for,
    )


def build(
    source: ListFile,
    edition: Edition,
    place: Path,
    skips: Skips,
    progress: Progress = no_progress,
    *,
    similar: bool = True,
) -> int:
    """Stream a list into an index at ``place``; returns the number of names.

    :raises NamekeeperError: with nothing changed at ``place``.
    """
    with IndexWriter(place, skips, progress) as writer:
        writer.usages(source.usages())
        writer.commons(source.commons())
        writer.areas(source.areas())
        writer.relations(source.relations())
        return writer.finish(edition, similar=similar)


def _date(text: str | None) -> PartialDate | None:
    """A date that begins a text, such as that of a time stamp."""
    for length in (10, 7, 4):
        try:
            return PartialDate.parse((text or "")[:length])
        except ValueError:
            continue
    return None
