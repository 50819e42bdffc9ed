"""Add a list: whatever file it comes in, through one writer, all or nothing."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from namekeeper.evidence.statements import Edition, ListWishes
from namekeeper.files.archive import NOT_SOUND, Archive
from namekeeper.files.delimited import TableStyle
from namekeeper.files.reading import refuse_unseen, unreadable
from namekeeper.sources.lists.coldp import COLDP
from namekeeper.sources.lists.dwca import DARWIN_CORE
from namekeeper.sources.lists.index_writer import IndexWriter, no_progress
from namekeeper.sources.lists.list_file import Described, FileAtHand, ListFile, ListReader, Skips
from namekeeper.sources.lists.name_rows import Progress
from namekeeper.sources.lists.table_file import TABLE
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, InputError, Place

#: Formats of list files, asked in this order; the last takes whatever is no archive.
READERS: tuple[ListReader, ...] = (DARWIN_CORE, COLDP, TABLE)


@dataclass(frozen=True, slots=True)
class Source:
    """An open list file and what it is called; ``columns`` and ``style`` show how a table was understood."""

    list: ListFile
    kind: str

    @property
    def columns(self) -> Mapping[str, str]:
        return self.list.shown_columns

    @property
    def style(self) -> TableStyle | None:
        return self.list.style


@contextmanager
def open_source(path: Path, wishes: ListWishes, skips: Skips) -> Iterator[Source]:
    """Open a list file in any of the formats of ``READERS``.

    :raises InputError: if it is of none of these, or dangerous.
    :raises FileError: if it cannot be read.
    """
    refuse_unseen(path)
    if not path.is_file():
        what = "this is no file" if path.exists() else "there is no such file"
        raise FileError(what, remedy="give a file, not a folder, pipe or device", place=Place(str(path)))
    with ExitStack() as stack:
        archive = stack.enter_context(Archive(path)) if _is_packed(path) else None
        file = FileAtHand(path, archive, wishes.encoding)
        for reader in READERS:
            opened = reader.opened(file, wishes.columns, skips)
            if opened is not None:
                break
        else:
            raise InputError(_no_list(), remedy=NOT_SOUND, place=Place(str(path)))
        stack.callback(opened.close)
        if wishes.columns and not reader.takes_columns:
            what = "columns can be named for tables only: an archive declares its own"
            raise InputError(what, remedy="leave --column out", place=Place(str(path)))
        if wishes.encoding and opened.style is None:
            what = "an encoding can be named for tables only: an archive declares its own"
            raise InputError(what, remedy="leave --encoding out", place=Place(str(path)))
        yield Source(opened, reader.kind)


def formats() -> str:
    """What a list may come in, for the keeper: "a Darwin Core archive, a ColDP archive, or a CSV or TSV table"."""
    *others, last = (reader.called for reader in READERS)
    return f"{', '.join(others)}, or {last}"


def _is_packed(path: Path) -> bool:
    try:
        return zipfile.is_zipfile(path)
    except OSError as error:
        raise unreadable(path, error) from error


def _no_list() -> str:
    archives = (f"{reader.called} ({reader.sign})" for reader in READERS if reader.sign)
    return f"it is neither {' nor '.join(archives)}"


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
