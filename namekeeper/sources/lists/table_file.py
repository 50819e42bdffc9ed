"""A keeper's own table (CSV or TSV) as a list."""

from __future__ import annotations

import codecs
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import IO, Any

from namekeeper.sources.languages import two_letters
from namekeeper.sources.lists.columns import guess
from namekeeper.sources.lists.delimited import Dialect, rows
from namekeeper.sources.lists.described import Described
from namekeeper.sources.lists.incoming import AreaRow, CommonRow, RelationRow, UsageRow, usage_row
from namekeeper.sources.lists.mapping import Column, mapped
from namekeeper.sources.lists.skips import Skips
from namekeeper.words.errors import FileError, InputError, Place

#: Field of a usage by field of the command.
_USAGE = {
    "id": "key", "name": "name", "authorship": "authorship", "status": "status", "accepted_id": "accepted_key",
    "accepted_name": "accepted_name", "parent_id": "parent_key", "rank": "rank", "range": "range",
    "original_genus": "original_genus", "remarks": "remarks", "family": "family", "order": "order", "class": "class_",
    "kingdom": "kingdom",
}  # fmt: skip
_COMPOSED = ("genus", "epithet", "infraspecific", "author", "year", "brackets")
_EMPTY = frozenset({"na", "n/a", "null", "none", "-"})
_TRUE = frozenset({"1", "true", "yes", "y", "t"})
_PROBE = 1 << 16


class NameTable:
    """A table with a header.

    :param chosen: headers by field, named by the keeper.
    :raises InputError: if it has no header or no names.
    :raises FileError: if it cannot be read.
    """

    def __init__(self, path: Path, chosen: Mapping[str, str], skips: Skips) -> None:
        self._path = path
        self._skips = skips
        with self._open() as stream:
            probe = stream.read(_PROBE)
        self._dialect = _dialect(probe, path)
        with self._open() as stream:
            first = next(rows(stream, self._dialect, skips, path.name), None)
        if first is None:
            raise InputError("the table is empty", place=Place(str(path)))
        self.header = first[1]
        self.columns = guess(self.header, chosen, str(path))

    def described(self) -> Described:
        """A table says nothing of itself."""
        return Described()

    def usages(self) -> Iterator[UsageRow]:
        columns = {field: Column(self.columns[name]) for name, field in _USAGE.items() if name in self.columns}
        if "name" in self.columns:
            yield from self._read(UsageRow._fields[1:], columns, usage_row, self._skips)
            return
        fields = (*UsageRow._fields[1:], *_COMPOSED)
        columns |= {field: Column(self.columns[field]) for field in _COMPOSED if field in self.columns}
        for line, *cells in self._read(fields, columns, tuple, self._skips):
            parts = dict(zip(_COMPOSED, cells[-len(_COMPOSED) :], strict=True))
            yield _composed(UsageRow(line, *cells[: -len(_COMPOSED)]), parts)

    def commons(self) -> Iterator[CommonRow]:
        if "common" not in self.columns:
            return
        wanted = ("id", "name", "genus", "epithet", "common", "language")
        columns = {field: Column(self.columns[field]) for field in wanted if field in self.columns}
        for line, key, name, genus, epithet, common, language in self._read(wanted, columns, tuple, Skips()):
            for text in re.split(r"\s*;\s*", common):
                if text:
                    taxon = "" if key else name or f"{genus} {epithet}".strip()
                    yield CommonRow(line, key, text, two_letters(language), taxon)

    def areas(self) -> Iterator[AreaRow]:
        return iter(())

    def relations(self) -> Iterator[RelationRow]:
        return iter(())

    def _read(self, fields: tuple[str, ...], columns: dict[str, Column], make: Any, skips: Skips) -> Iterator[Any]:
        with self._open() as stream:
            lines = rows(stream, self._dialect, skips, self._path.name)
            next(lines)
            yield from mapped(lines, fields, columns, make, skips=skips, file=self._path.name)

    def _open(self) -> IO[bytes]:
        try:
            return self._path.open("rb")
        except OSError as error:
            message = f"the file cannot be read: {error.strerror or error}"
            raise FileError(message, place=Place(str(self._path))) from error


def _composed(row: UsageRow, parts: Mapping[str, str]) -> UsageRow:
    """A name and its authorship from columns of their own."""
    words = (parts[part] for part in ("genus", "epithet", "infraspecific"))
    name = " ".join(word for word in words if word and word.casefold() not in _EMPTY)
    authorship = row.authorship or ", ".join(filter(None, (parts["author"], parts["year"])))
    if parts["brackets"].casefold() in _TRUE and authorship and not authorship.startswith("("):
        authorship = f"({authorship})"
    return row._replace(name=name, authorship=authorship)


def _dialect(probe: bytes, path: Path) -> Dialect:
    """Encoding by its mark, else UTF-8, else the western one of spreadsheets; separator by the header."""
    encoding = _encoding(probe)
    text = probe.decode(encoding, errors="replace").removeprefix("\ufeff")
    if "\x00" in text:
        raise InputError("this is no text", remedy="give a CSV or TSV file, or an archive", place=Place(str(path)))
    header = re.split(r"\r\n|\n|\r", text, maxsplit=1)[0]
    separator = max("\t;,|", key=header.count)
    line_end = "\n" if "\n" in text else "\r" if "\r" in text else "\n"
    return Dialect(separator=separator if separator in header else ",", line_end=line_end, encoding=encoding)


def _encoding(probe: bytes) -> str:
    for mark, encoding in (
        (codecs.BOM_UTF8, "utf-8-sig"),
        (codecs.BOM_UTF16_LE, "utf-16"),
        (codecs.BOM_UTF16_BE, "utf-16"),
    ):
        if probe.startswith(mark):
            return encoding
    decoder = codecs.getincrementaldecoder("utf-8")()
    try:
        decoder.decode(probe)
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8"
