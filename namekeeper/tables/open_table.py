"""Open a table by what it is, not by what its name says."""

from __future__ import annotations

from typing import NoReturn

from namekeeper.tables.delimited import DelimitedFile, take_apart
from namekeeper.tables.grid import EditableTable, Table
from namekeeper.tables.ods import OdsFile
from namekeeper.tables.packed import packed_archive, packed_table
from namekeeper.tables.xlsx import XlsxFile, read_xlsx
from namekeeper.tables.xml_parts import Zipped
from namekeeper.words.errors import InputError

_ZIP = b"PK"
_OLD_OFFICE = b"\xd0\xcf\x11\xe0"  # compound file: the binary formats before 2007, and locked XLSX


def read_table(content: bytes, encoding: str = "") -> Table:
    """A CSV, XLSX or ODS table with its values, alone or packed, or the specimens of a Darwin Core archive.

    :param encoding: that of a text table, where the keeper names it.
    :raises InputError: if it is none of them, or not of that encoding.
    """
    kind = _kind(content, packed=True)
    if encoding and kind not in {"csv", "zip"}:
        raise _not_text()
    if kind == "zip":
        archive = packed_archive(content)
        inner = None if archive else packed_table(content)
        if archive is not None:
            return archive
        return take_apart(inner, encoding).table() if inner is not None else _no_table()
    if kind == "xlsx":
        return read_xlsx(content)
    return OdsFile(content).table() if kind == "ods" else take_apart(content, encoding).table()


def editable(content: bytes, encoding: str = "") -> EditableTable:
    """A CSV, XLSX or ODS table whose cells can be replaced; ``encoding`` as for :func:`read_table`.

    :raises InputError: if it is none of them, or not of that encoding.
    """
    kind = _kind(content)
    if encoding and kind != "csv":
        raise _not_text()
    if kind == "xlsx":
        return XlsxFile(content)
    return OdsFile(content) if kind == "ods" else DelimitedFile(content, encoding)


def _kind(content: bytes, *, packed: bool = False) -> str:
    if content.startswith(_OLD_OFFICE):
        raise InputError("an old or locked spreadsheet format", remedy="save it as XLSX, ODS or CSV without password")
    if not content.startswith(_ZIP):
        return "csv"
    names = Zipped(content).names()
    if "xl/workbook.xml" in names:
        return "xlsx"
    if "content.xml" in names:
        return "ods"
    return "zip" if packed else _no_table()


def _not_text() -> InputError:
    return InputError("only a text table has an encoding to name", remedy="leave --encoding out")


def _no_table() -> NoReturn:
    raise InputError("this zip file is no XLSX or ODS table", remedy="give a CSV, XLSX or ODS table")
