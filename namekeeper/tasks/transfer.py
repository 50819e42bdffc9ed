"""Into a collection from a keeper's table or an export."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace
from pathlib import Path

from namekeeper.files.memory import recall, remember
from namekeeper.files.reading import read_named
from namekeeper.outside import Work
from namekeeper.records.identifiers import free_ids
from namekeeper.records.specimen import Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.storage.collection_folder import specimen_file, taken_ids
from namekeeper.storage.emit import specimen_text
from namekeeper.storage.wanted import NewSpecimen
from namekeeper.tables import exports
from namekeeper.tables.columns import FIELDS, ColumnMap, UnreadColumn, map_columns, signature
from namekeeper.tables.dwca import own_records
from namekeeper.tables.grid import RowKind, RowSkipped, Table, TableSheet
from namekeeper.tables.import_rows import RowImporter, RowLeft
from namekeeper.tables.open_table import read_table
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.tag_facts import NOTHING_READ, ReadOff, read_tags_of
from namekeeper.words.dates import DayOrder
from namekeeper.words.errors import FileError, InputError, Place, Problem

__all__ = [
    "IMPORT_FIELDS", "ImportPlan", "ImportWishes", "Imported", "RowKind", "Unread", "UnreadColumn", "UnreadSheet",
    "plan_import", "write_import",
]  # fmt: skip
IMPORT_FIELDS = FIELDS
_COLUMNS = ".namekeeper-columns"


@dataclass(frozen=True, slots=True)
class ImportWishes:
    """How to read the table: columns by field, order of day and month, the sheet (else the first that holds rows).

    With ``only_columns`` no column is read but these.
    """

    columns: Mapping[str, str] = field(default_factory=dict)
    order: DayOrder | None = None
    sheet: str = ""
    encoding: str = ""  # of a text table; empty: found out
    only_columns: bool = False


@dataclass(frozen=True, slots=True)
class UnreadSheet:
    """A sheet that was not read: its name, how many rows it holds, and its header."""

    name: str
    rows: int
    header: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Unread:
    """What of a table is not read: columns, sheets, rows that are no animals; and cells filled from merged ones."""

    columns: tuple[UnreadColumn, ...] = ()
    sheets: tuple[UnreadSheet, ...] = ()
    rows: tuple[RowSkipped, ...] = ()
    merged: int = 0


@dataclass(frozen=True, slots=True)
class ImportPlan:
    """What an import comes to: columns as read, each row's specimen, rows left with their reason."""

    headers: Mapping[str, str]
    told: str
    specimens: tuple[tuple[int, Specimen], ...]
    left: tuple[RowLeft, ...]
    #: Of a text table whose encoding is a guess: its first words by encoding, the one taken first; else empty.
    guessed: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    numbered: frozenset[str] = frozenset()  # ids chosen for rows that had none; others are chosen if they are gone
    key: str = ""  # of the table's headers, under which the columns are kept; empty for an export of ours
    unread: Unread = Unread()
    read: Mapping[str, ReadOff] = field(default_factory=dict)  # from the tags, by id

    def read_of(self, identifier: str) -> ReadOff:
        """What was read from the tag of that animal."""
        return self.read.get(identifier, NOTHING_READ)

    @property
    def ambiguous(self) -> bool:
        return any(row.ambiguous for row in self.left)


@dataclass(frozen=True, slots=True)
class Imported:
    """An import as planned, or with ``written`` only what was written of it, and what was refused or had to be said."""

    plan: ImportPlan
    written: bool = False
    refused: tuple[Problem, ...] = ()
    messages: tuple[str, ...] = ()

    @property
    def exit_code(self) -> int:
        """0 if every row goes in, 1 if rows are left, 2 if files were refused."""
        return 2 if self.refused else 1 if self.plan.left else 0


def plan_import(desk: CollectionDesk, table: Path, wishes: ImportWishes) -> ImportPlan:
    """Read a table: CSV, XLSX, ODS, or an export of ours. Nothing is written.

    :raises InputError: if it is no table, or has neither tags nor names.
    """
    collection = desk.open()
    content = read_named(desk.outside.folder / table)
    stems = taken_ids(desk.folder)
    if content.lstrip(b"\xef\xbb\xbf \r\n\t").startswith(b"{"):
        return _own("an export as JSON", enumerate(exports.from_json(content), 1), stems)
    if content.startswith(b"PK") and (own := own_records(content)) is not None:
        return _own("a Darwin Core archive", enumerate(own, 1), stems)
    read = read_table(content, wishes.encoding)
    sheet = _sheet(read, wishes.sheet)
    if exports.is_own_csv(sheet):
        return _own("an export as CSV", exports.from_csv(sheet), stems)
    ids = {specimen.id for specimen in collection.specimens}
    kept = _kept(desk.folder).get(signature(sheet), {})
    columns = map_columns(sheet, wishes.columns, kept, ids, only_told=wishes.only_columns)
    importer, read_rows = _read_rows(desk, sheet, columns, wishes, stems)
    others = tuple(
        UnreadSheet(one.name, len(one.rows), tuple(filter(str.strip, one.headers)))
        for one in read.sheets
        if one.rows and one is not sheet
    )
    told = ", ".join(part for part in (read.told, sheet.name and f"sheet {sheet.name}") if part)
    told += f" (not read: {', '.join(one.name for one in others)})" if others else ""
    rows = tuple((number, made) for number, made in read_rows if isinstance(made, Specimen))
    with open_lists(desk.outside.places, desk.outside.notice) as lists:
        filled = read_tags_of([made for _, made in rows], lists)
    return ImportPlan(
        columns.headers,
        told,
        tuple((number, made) for (number, _), (made, _) in zip(rows, filled, strict=True)),
        tuple(made for _, made in read_rows if isinstance(made, RowLeft)),
        read.encoding.guess if read.encoding else {},
        frozenset(importer.numbered),
        signature(sheet),
        Unread(columns.unread, others, sheet.skipped, sheet.merged),
        {made.id: said for made, said in filled},
    )


def _read_rows(
    desk: CollectionDesk, sheet: TableSheet, columns: ColumnMap, wishes: ImportWishes, stems: AbstractSet[str]
) -> tuple[RowImporter, list[tuple[int, Specimen | RowLeft]]]:
    id_column = columns.columns.get("id")
    written = {row.cell(id_column).strip() for row in sheet.rows} if id_column is not None else set()
    taken = {stem.casefold() for stem in stems}
    importer = RowImporter(columns, desk.today, wishes.order, taken, free_ids(stems | written), specimen_file)
    read_rows = []
    with desk.outside.progress(Work.READING) as step:
        for number, row in enumerate(sheet.rows, 1):
            read_rows.append((row.number, importer.read(row)))
            step(number, len(sheet.rows))
    return importer, read_rows


def write_import(desk: CollectionDesk, plan: ImportPlan) -> Imported:
    """Write a planned import as one change, and keep its columns for the next table of such headers."""
    rows = plan.specimens

    def chosen(taken: frozenset[str]) -> Sequence[NewSpecimen]:
        nonlocal rows
        rows = _renumbered(plan, taken)
        return [NewSpecimen(specimen.id, specimen_text(specimen)) for _, specimen in rows]

    with desk.outside.progress(Work.WRITING) as step:
        written = desk.apply(chosen, step=step)
        if plan.key:
            remember(desk.folder / _COLUMNS, {**_kept(desk.folder), plan.key: dict(plan.headers)})
    done = frozenset(written.specimens)
    new_ids = {old.id: new.id for (_, old), (_, new) in zip(plan.specimens, rows, strict=True)}
    read = {new_ids[old]: what for old, what in plan.read.items()}
    made = replace(plan, specimens=tuple(row for row in rows if row[1].id in done), read=read)
    return Imported(made, True, written.refused, written.messages)


def _renumbered(plan: ImportPlan, taken: frozenset[str]) -> tuple[tuple[int, Specimen], ...]:
    """The rows, with other ids in place of those that were chosen here and have been taken by another since."""
    gone = {text.casefold() for text in taken}
    lost = {name for name in plan.numbered if name.casefold() in gone}
    fresh = free_ids(taken | {specimen.id for _, specimen in plan.specimens})
    return tuple(
        (number, _under(next(fresh), specimen) if specimen.id in lost else specimen)
        for number, specimen in plan.specimens
    )


def _under(identifier: str, specimen: Specimen) -> Specimen:
    return replace(specimen, id=identifier, place=Place(specimen_file(identifier), 1, identifier))


def _sheet(table: Table, name: str) -> TableSheet:
    filled = [sheet for sheet in table.sheets if sheet.rows and (not name or sheet.name == name)]
    if filled:
        return filled[0]
    what = f"there is no sheet '{name}' with rows" if name else "the table holds no rows"
    names = ", ".join(sheet.name for sheet in table.sheets if sheet.rows)
    raise InputError(what, remedy=f"its sheets: {names}" if names else "give a table with a header and rows")


def _own(told: str, rows: Iterator[tuple[int, Specimen | str]], stems: Iterable[str]) -> ImportPlan:
    taken = {stem.casefold() for stem in stems}
    specimens, left = [], []
    for number, made in rows:
        if isinstance(made, str):
            left.append(RowLeft(number, made))
        elif made.id.casefold() in taken:
            left.append(RowLeft(number, f"the id '{made.id}' is taken"))
        else:
            taken.add(made.id.casefold())
            specimens.append((number, made))
    return ImportPlan({}, told, tuple(specimens), tuple(left))


def _kept(folder: Path) -> dict[str, dict[str, str]]:
    """Columns of earlier imports; a file that cannot be read is as if there were none."""
    try:
        document = recall(folder / _COLUMNS)
    except FileError:
        return {}
    kept = document.items() if isinstance(document, dict) else ()
    return {str(k): {str(f): str(h) for f, h in columns.items()} for k, columns in kept if isinstance(columns, dict)}
