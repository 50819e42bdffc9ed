"""A keeper's own table (CSV or TSV) as a list."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import Any

from namekeeper.files.delimited import rows, style_of
from namekeeper.files.headers import column_named, columns_guessed
from namekeeper.files.reading import open_named
from namekeeper.sources.languages import two_letters
from namekeeper.sources.lists.incoming import Column, CommonRow, UsageRow, mapped, usage_row
from namekeeper.sources.lists.list_file import FileAtHand, ListFile, ListReader, Skips
from namekeeper.words.errors import InputError, Place

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
#: Fields as the command names them, with keys of headers (files.headers) that mean them; terms of Darwin Core and
#: ColDP first.
_HEADERS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "id": ("taxonid", "id", "speciesid", "usageid", "nameid", "key"),
        "name": ("scientificname", "canonicalname", "name", "taxon", "speciesname", "fullname", "binomial"),
        "authorship": ("scientificnameauthorship", "authorship", "authority", "authoryear"),
        "status": ("taxonomicstatus", "status", "taxonstatus"),
        "accepted_id": ("acceptednameusageid", "acceptedid", "acceptedtaxonid", "validid"),
        "accepted_name": ("acceptednameusage", "acceptedname", "validname", "acceptedscientificname"),
        "parent_id": ("parentnameusageid", "parentid"),
        "rank": ("taxonrank", "rank"),
        "common": ("vernacularname", "commonname", "common", "trivialname", "commonnames"),
        "language": ("language", "lang"),
        "range": ("distribution", "range", "locality", "countries", "country"),
        "original_genus": ("originalgenus", "basionymgenus"),
        "remarks": ("taxonremarks", "remarks", "notes", "note"),
        "family": ("family",),
        "order": ("order",),
        "class": ("class",),
        "kingdom": ("kingdom",),
        "genus": ("genericname", "genus"),
        "epithet": ("specificepithet", "epithet", "species"),
        "infraspecific": ("infraspecificepithet", "subspecies"),
        "author": ("author", "authors"),
        "year": ("year", "namepublishedinyear"),
        "brackets": ("parentheses", "brackets"),
    }
)


class NameTable(ListFile):
    """A table with a header.

    :param chosen: headers by field, named by the keeper.
    :raises InputError: if it has no header or no names.
    :raises FileError: if it cannot be read.
    """

    def __init__(self, path: Path, chosen: Mapping[str, str], skips: Skips) -> None:
        self._path = path
        self._skips = skips
        with open_named(path) as stream:
            try:
                self.style = style_of(stream)
            except ValueError:
                remedy = "give a CSV or TSV file, or an archive"
                raise InputError("this is no text", remedy=remedy, place=Place(str(path))) from None
            self._dialect = self.style.dialect
            stream.seek(0)
            first = next(rows(stream, self._dialect, skips.add, path.name), None)
        if first is None:
            raise InputError("the table is empty", place=Place(str(path)))
        header = first[1]
        self.columns = _columns(header, chosen, str(path))
        self.shown_columns = {name: header[place] for name, place in self.columns.items()}

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

    def _read(self, fields: tuple[str, ...], columns: dict[str, Column], make: Any, skips: Skips) -> Iterator[Any]:
        with open_named(self._path) as stream:
            lines = rows(stream, self._dialect, skips.add, self._path.name)
            next(lines)
            yield from mapped(lines, fields, columns, make, skip=skips.add, file=self._path.name)


def _composed(row: UsageRow, parts: Mapping[str, str]) -> UsageRow:
    """A name and its authorship from columns of their own."""
    words = (parts[part] for part in ("genus", "epithet", "infraspecific"))
    name = " ".join(word for word in words if word and word.casefold() not in _EMPTY)
    authorship = row.authorship or ", ".join(filter(None, (parts["author"], parts["year"])))
    if parts["brackets"].casefold() in _TRUE and authorship and not authorship.startswith("("):
        authorship = f"({authorship})"
    return row._replace(name=name, authorship=authorship)


def _columns(header: Sequence[str], chosen: Mapping[str, str], file: str) -> dict[str, int]:
    """Column (from 0) of each field that the table has; ``chosen`` are headers the keeper named.

    :raises InputError: for a field or header that does not exist, or a table without names.
    """
    plain = [cell.rpartition(":")[2] for cell in header]  # without a prefix ("dwc:scientificName")
    told = {field: _chosen(field, wanted, header, plain, file) for field, wanted in chosen.items()}
    places = columns_guessed(plain, _HEADERS, told)
    if "name" not in places and not {"genus", "epithet"} <= places.keys():
        raise InputError(
            f"no column of names among: {', '.join(header)}",  # noqa: EM102
            remedy="name it: --column name=HEADER",
            place=Place(file, 1),
        )
    return places


def _chosen(field: str, wanted: str, header: Sequence[str], plain: Sequence[str], file: str) -> int:
    if field not in _HEADERS:
        near = difflib.get_close_matches(field, _HEADERS, n=1)
        message = f"there is no field '{field}'"
        raise InputError(message, remedy=f"did you mean '{near[0]}'?" if near else f"fields: {', '.join(_HEADERS)}")
    found = column_named(header, wanted)
    if found is None:
        found = column_named(plain, wanted.rpartition(":")[2])
    if found is None:
        message = f"there is no column '{wanted}'"
        raise InputError(message, remedy=f"columns: {', '.join(header)}", place=Place(file, 1))
    return found


def _opened(file: FileAtHand, columns: Mapping[str, str], skips: Skips) -> NameTable | None:
    return NameTable(file.path, columns, skips) if file.archive is None else None


TABLE = ListReader("table", "table", "a CSV or TSV table", _opened, takes_columns=True)
