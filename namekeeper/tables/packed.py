"""Tables in a zip file that is no spreadsheet: a Darwin Core archive of specimens, or one plain table packed alone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NoReturn

from namekeeper.files.archive import Archive
from namekeeper.files.columns import Column, Shape, mapped
from namekeeper.files.delimited import rows
from namekeeper.files.metafile import DescribedTable, Metafile, read_metafile
from namekeeper.tables.grid import Row, RowKind, RowSkipped, Table, TableSheet
from namekeeper.words.errors import InputError

_LARGEST = 400 * 1024 * 1024  # bytes unpacked


def packed_archive(content: bytes) -> Table | None:
    """The core of a Darwin Core archive as a sheet with terms for headers, the extensions as sheets without rows read.

    None if it is no such archive.

    :raises InputError: if it is one and broken or dangerous, or holds names and no specimens.
    """
    with Archive(content) as archive:
        meta = archive.find("meta.xml")
        if meta is None:
            return None
        described = read_metafile(archive, meta)
        if described.core.is_of("Taxon"):
            _refuse_names()
        sheets = (_sheet(archive, described.core), *_extensions(archive, described))
    return Table(sheets, f"a Darwin Core archive of {described.core.row_type or 'records'}")


def packed_table(content: bytes) -> bytes | None:
    """The one plain table in a zip file; None if there is none, or more than one."""
    with Archive(content) as archive:
        member = archive.lone_table()
        inner = archive.read(member, _LARGEST) if member else None
        if member and inner is None:
            archive.refuse(f"{member} unpacks to more than {_LARGEST >> 20} MB")
        return inner


def _sheet(archive: Archive, table: DescribedTable) -> TableSheet:
    terms = [term for term, column in table.terms.items() if column.index is not None or column.default]
    columns = {term: table.terms[term] for term in terms}
    if not any(column.index == table.id for column in columns.values()) and table.id is not None:
        terms, columns = ["id", *terms], {"id": Column(table.id), **columns}
    skipped: list[RowSkipped] = []

    def skip(line: int, why: str, file: str) -> None:
        skipped.append(RowSkipped(line, f"{file}: {why}", RowKind.BROKEN))

    found: list[Row] = []
    shape = Shape(table.width, [term for term in ("scientificname", "genus") if term in columns][:1])
    for member in table.members:
        with archive.open(member) as stream:
            lines = rows(stream, table.dialect, skip, member)
            for line, *cells in mapped(lines, terms, columns, tuple, skip=skip, file=member, shape=shape):
                found.append(Row(int(line), tuple(map(str, cells))))
    return TableSheet("", tuple(table.names.get(term, term) for term in terms), tuple(found), tuple(skipped))


def _extensions(archive: Archive, described: Metafile) -> Iterator[TableSheet]:
    """Each with its first rows, to be shown as what is not read."""
    for table in described.extensions:
        if table.members:
            sheet = _sheet(archive, table)
            yield TableSheet(f"extension {table.row_type}", sheet.headers, sheet.rows)


def _refuse_names() -> NoReturn:
    what = "this archive holds names, not animals"
    raise InputError(what, remedy="a list of names goes to namekeeper lists add")
