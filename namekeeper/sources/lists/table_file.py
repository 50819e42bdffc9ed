"""A keeper's own table (CSV or TSV) as a list."""

from __future__ import annotations

import difflib
import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager
from functools import partial
from itertools import islice
from types import MappingProxyType
from typing import IO, Any, BinaryIO, cast

from namekeeper.files.columns import Column, Shape, mapped
from namekeeper.files.delimited import rows, style_of
from namekeeper.files.headers import column_named, columns_understood, header_key
from namekeeper.files.packing import HEAD, refuse_packed
from namekeeper.files.reading import open_named
from namekeeper.sources.languages import two_letters
from namekeeper.sources.lists.incoming import CommonRow, UsageRow, usage_row
from namekeeper.sources.lists.list_file import FileAtHand, ListFile, ListReader, Skips
from namekeeper.words.errors import InputError, Place
from namekeeper.words.name_parts import NameParts, whole_authorship, whole_name

#: Field of a usage by field of the command.
_USAGE = {
    "id": "key", "name": "name", "authorship": "authorship", "status": "status", "accepted_id": "accepted_key",
    "accepted_name": "accepted_name", "parent_id": "parent_key", "rank": "rank", "range": "range",
    "original_genus": "original_genus", "remarks": "remarks", "family": "family", "order": "order", "class": "class_",
    "kingdom": "kingdom",
}  # fmt: skip
#: Fields as the command names them, with what their columns mean (files.header_words).
_MEANINGS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "id": ("taxon id",),
        "name": ("name",),
        **{field: (field,) for field in ("authorship", "status")},
        "accepted_id": ("accepted id",),
        "accepted_name": ("accepted name",),
        "parent_id": ("parent id",),
        **{field: (field,) for field in ("rank", "common", "language", "range")},
        "original_genus": ("original genus",),
        **{field: (field,) for field in ("remarks", "family", "order", "class", "kingdom", "genus", "epithet")},
        "subgenus": ("subgenus",),
        "infraspecific": ("infraspecific",),
        **{field: (field,) for field in ("author", "year", "brackets")},
    }
)
#: Beginnings of words that speak of a name in force, in the languages of the headers.
_OF_ACCEPTANCE = re.compile("accept|akzept|acept|valid|gultig|synon|sinon|current|aktuell|senior|retenu|obowiaz")
_NAMELIKE = re.compile(r"[A-Z][\w-]+ [a-z][\w-]+.*")
#: Rows by which a column that was not understood is judged.
_LOOK_AT = 200


class NameTable(ListFile):
    """A table with a header.

    :param chosen: headers by field, named by the keeper.
    :raises InputError: if it has no header or no names.
    :raises FileError: if it cannot be read.
    """

    def __init__(
        self,
        file: FileAtHand,
        chosen: Mapping[str, str],
        skips: Skips,
        opened: Callable[[], AbstractContextManager[IO[bytes]]] | None = None,
    ) -> None:
        path = file.path
        self._path = path
        self._skips = skips
        self._opened = opened or partial(open_named, path)
        with self._opened() as stream:
            refuse_packed(stream.read(HEAD), Place(str(path)))
            stream.seek(0)
            try:
                self.style = style_of(cast("BinaryIO", stream), file.encoding)
            except ValueError:
                remedy = "give a CSV or TSV file, or an archive"
                raise InputError("this is no text", remedy=remedy, place=Place(str(path))) from None
            self._dialect = self.style.dialect
            stream.seek(0)
            first = [cells for _line, cells in islice(rows(stream, self._dialect, _unheard, path.name), _LOOK_AT)]
        if not first:
            raise InputError("the table is empty", remedy="give one with a header and rows", place=Place(str(path)))
        header = first[0]
        usual = Counter(map(len, first[1:])).most_common(1)
        self._width = max(len(header), usual[0][0] if usual else 0)
        self.columns = _columns(header, chosen, str(path))
        self.shown_columns = {name: header[place] for name, place in self.columns.items()}
        if not {"accepted_id", "accepted_name", "status"} & chosen.keys():
            _ask_for_accepted(header, first[1:], self.columns, str(path))

    def usages(self) -> Iterator[UsageRow]:
        columns = {field: Column(self.columns[name]) for name, field in _USAGE.items() if name in self.columns}
        parts = {field: Column(self.columns[field]) for field in NameParts._fields if field in self.columns}
        if "name" in columns and not parts:
            return self._read(UsageRow._fields[1:], columns, usage_row, self._skips, ("name",))
        return self._made_of_parts(columns, parts)

    def _made_of_parts(self, columns: dict[str, Column], parts: dict[str, Column]) -> Iterator[UsageRow]:
        fields = (*UsageRow._fields[1:], *NameParts._fields)
        needs = ("name",) if "name" in columns else ("genus", "epithet")
        for line, *cells in self._read(fields, columns | parts, tuple, self._skips, needs):
            row, given = UsageRow(line, *cells[: -len(NameParts._fields)]), NameParts(*cells[-len(NameParts._fields) :])
            yield row._replace(name=whole_name(row.name, given), authorship=whole_authorship(row.authorship, given))

    def commons(self) -> Iterator[CommonRow]:
        if "common" not in self.columns:
            return
        wanted = ("id", "name", *NameParts._fields, "common", "language")
        columns = {field: Column(self.columns[field]) for field in wanted if field in self.columns}
        for line, key, name, *parts, common, language in self._read(wanted, columns, tuple, Skips(), ("common",)):
            for text in re.split(r"\s*;\s*", common):
                if text:
                    taxon = "" if key else whole_name(name, NameParts(*parts))
                    yield CommonRow(line, key, text, two_letters(language), taxon)

    def _read(
        self, fields: tuple[str, ...], columns: dict[str, Column], make: Any, skips: Skips, needs: tuple[str, ...]
    ) -> Iterator[Any]:
        with self._opened() as stream:
            lines = rows(stream, self._dialect, skips.add, self._path.name)
            next(lines)
            shape = Shape(self._width, needs, needs == ("name",), skips.tell)
            yield from mapped(lines, fields, columns, make, skip=skips.add, file=self._path.name, shape=shape)


def _unheard(_line: int, _why: str, _file: str) -> None:
    """For rows that are read again later, where what is wrong with them is told."""


def _columns(header: Sequence[str], chosen: Mapping[str, str], file: str) -> dict[str, int]:
    """Column (from 0) of each field that the table has; ``chosen`` are headers the keeper named.

    :raises InputError: for a field or header that does not exist, or a table without names.
    """
    plain = [cell.rpartition(":")[2] for cell in header]  # without a prefix ("dwc:scientificName")
    told = {field: _chosen(field, wanted, header, plain, file) for field, wanted in chosen.items()}
    places = columns_understood(plain, _MEANINGS, told)
    if "name" not in places and not {"genus", "epithet"} <= places.keys():
        raise InputError(
            f"no column of names among: {', '.join(header)}",  # noqa: EM102
            remedy="name it: --column name=HEADER",
            place=Place(file, 1),
        )
    return places


def _chosen(field: str, wanted: str, header: Sequence[str], plain: Sequence[str], file: str) -> int:
    if field not in _MEANINGS:
        near = difflib.get_close_matches(field, _MEANINGS, n=1)
        message = f"there is no field '{field}'"
        raise InputError(message, remedy=f"did you mean '{near[0]}'?" if near else f"fields: {', '.join(_MEANINGS)}")
    found = column_named(header, wanted)
    if found is None:
        found = column_named(plain, wanted.rpartition(":")[2])
    if found is None:
        message = f"there is no column '{wanted}'"
        raise InputError(message, remedy=f"columns: {', '.join(header)}", place=Place(file, 1))
    return found


def _ask_for_accepted(
    header: Sequence[str], first: Sequence[Sequence[str]], columns: Mapping[str, int], file: str
) -> None:
    """A column that speaks of names in force and was not understood must not leave every name in force.

    :raises InputError: if there is one, and no other that gives the accepted names.
    """
    if {"accepted_id", "accepted_name"} & columns.keys():
        return
    held = {cells[columns[field]] for field in ("id", "name") if field in columns for cells in first if cells[1:]}
    for place, title in enumerate(header):
        if place in columns.values() or not _OF_ACCEPTANCE.search(header_key(title)):
            continue
        said = [cell for cells in first if place < len(cells) and (cell := cells[place].strip())]
        ids, names = sum(cell in held for cell in said), sum(bool(_NAMELIKE.fullmatch(cell)) for cell in said)
        if said and 2 * max(ids, names) > len(said):
            field = "accepted_name" if names >= ids else "accepted_id"
            what = f"the column '{title}' seems to hold accepted names and was not understood"
            remedy = f"say so: --column {field}='{title}', or rename it if it holds something else"
            raise InputError(what, remedy=remedy, place=Place(file, 1))


def _opened(file: FileAtHand, columns: Mapping[str, str], skips: Skips) -> NameTable | None:
    if file.archive is None:
        return NameTable(file, columns, skips)
    member = file.archive.lone_table()
    if member is None:
        return None
    archive = file.archive

    @contextmanager
    def opened() -> Iterator[IO[bytes]]:
        with archive.open(member) as stream:
            yield stream

    return NameTable(file, columns, skips, opened)


TABLE = ListReader("table", "table", "a CSV or TSV table", _opened, takes_columns=True)
