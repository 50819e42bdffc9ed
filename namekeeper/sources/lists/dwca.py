"""Darwin Core archives (Darwin Core text guide, 2023-09-13): taxa, common names, distributions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from namekeeper.files.delimited import Dialect, rows
from namekeeper.sources.languages import two_letters
from namekeeper.sources.lists.archive import Archive
from namekeeper.sources.lists.incoming import AreaRow, Column, CommonRow, UsageRow, mapped, usage_row
from namekeeper.sources.lists.list_file import Described, FileAtHand, ListFile, ListReader, Skips

_FIELDS = UsageRow._fields[1:]
#: Field of a usage by the term that fills it; terms that stand earlier win.
_TERMS = {
    "key": ("taxonID",),
    "name": ("scientificName",),
    "authorship": ("scientificNameAuthorship",),
    "rank": ("taxonRank", "verbatimTaxonRank"),
    "status": ("taxonomicStatus",),
    "accepted_key": ("acceptedNameUsageID",),
    "accepted_name": ("acceptedNameUsage",),
    "parent_key": ("parentNameUsageID",),
    "original_key": ("originalNameUsageID",),
    "family": ("family",),
    "order": ("order",),
    "class_": ("class",),
    "kingdom": ("kingdom",),
    "code": ("nomenclaturalCode",),
    "name_status": ("nomenclaturalStatus",),
    "remarks": ("taxonRemarks",),
    "citation": ("nameAccordingTo", "bibliographicCitation"),
    "link": ("references",),
}
#: Parts of which a name can be put together; genericName is the word in the name, genus may be another.
_PARTS = ("genericName", "genus", "specificEpithet", "infraspecificEpithet")
_NOT_NATIVE = frozenset(
    {"introduced", "invasive", "naturalised", "managed", "vagrant", "introducedassistedcolonisation"}
)
_ABSENT = frozenset({"absent", "excluded", "doubtful"})


@dataclass(frozen=True, slots=True)
class _Table:
    """A core or extension of the metafile."""

    row_type: str
    members: tuple[str, ...]
    dialect: Dialect
    id: int | None
    terms: dict[str, Column]

    def column(self, *terms: str) -> Column | None:
        return next((self.terms[term] for term in terms if term in self.terms), None)


class DarwinCoreArchive(ListFile):
    """A Darwin Core archive with a Taxon core.

    :raises InputError: if the metafile is missing, malformed, dangerous, or its core is not of taxa.
    """

    def __init__(self, archive: Archive, meta: str, skips: Skips) -> None:
        self._archive = archive
        self._skips = skips
        root = archive.xml(meta)
        cores = _children(root, "core")
        if len(cores) != 1:
            archive.refuse(f"{meta} describes {len(cores)} cores, not one")
        self._core = self._table(meta, cores[0], "id")
        if self._core.row_type != "Taxon":
            archive.refuse(f"its core is of {self._core.row_type or 'nothing'}, not of taxa")
        if not self._core.column("scientificName", *_PARTS):
            archive.refuse("its core has no scientificName")
        self._extensions = [self._table(meta, each, "coreid") for each in _children(root, "extension")]
        self._metadata = root.get("metadata")
        self._meta = meta

    def described(self) -> Described:
        """From the metadata document, if it is one of EML."""
        if not self._metadata or "/" in self._metadata:
            return Described()
        member = self._archive.find(self._metadata)
        if member is None:
            return Described()
        root = self._archive.xml(member)
        return Described(
            title=_text_of(root, "title"),
            edition=_text_of(root, "pubDate"),
            dated=_text_of(root, "pubDate"),
            licence=_text_of(root, "intellectualRights"),
            citation=_text_of(root, "citation"),
        )

    def usages(self) -> Iterator[UsageRow]:
        core = self._core
        columns = {field: found for field, terms in _TERMS.items() if (found := core.column(*terms))}
        if core.id is not None:
            columns["key"] = Column(core.id)
        if "name" not in columns:
            yield from self._composed(columns)
            return
        yield from self._read(core, _FIELDS, columns, usage_row)

    def _composed(self, columns: dict[str, Column]) -> Iterator[UsageRow]:
        """Names given in parts only."""
        parts = [self._core.column("genericName", "genus"), *map(self._core.column, _PARTS[2:])]
        fields = (*_FIELDS, "part0", "part1", "part2")
        columns = columns | {f"part{place}": part for place, part in enumerate(parts) if part}
        for values in self._read(self._core, fields, columns, tuple):
            line, *cells = values
            yield UsageRow(line, *cells[: len(_FIELDS)])._replace(name=" ".join(filter(None, cells[len(_FIELDS) :])))

    def commons(self) -> Iterator[CommonRow]:
        for table in self._of_type("VernacularName"):
            columns = {"key": Column(table.id)}
            columns |= {field: found for field in ("vernacularName", "language") if (found := table.column(field))}
            for line, key, text, language in self._read(table, ("key", "vernacularName", "language"), columns, tuple):
                yield CommonRow(line, key, text, two_letters(language))

    def areas(self) -> Iterator[AreaRow]:
        fields = ("key", "locality", "countryCode", "locationID", "establishmentMeans", "occurrenceStatus")
        for table in self._of_type("Distribution"):
            columns = {"key": Column(table.id)}
            columns |= {field: found for field in fields[1:] if (found := table.column(field))}
            for line, key, locality, country, location, means, status in self._read(table, fields, columns, tuple):
                if means.casefold() not in _NOT_NATIVE and status.casefold() not in _ABSENT:
                    yield AreaRow(line, key, locality or country or location)

    def _of_type(self, row_type: str) -> list[_Table]:
        return [table for table in self._extensions if table.row_type == row_type and table.id is not None]

    def _read(self, table: _Table, fields: tuple[str, ...], columns: dict[str, Column], make: Any) -> Iterator[Any]:
        for member in table.members:
            with self._archive.open(member) as stream:
                lines = rows(stream, table.dialect, self._skips.add, member)
                yield from mapped(lines, fields, columns, make, skip=self._skips.add, file=member)

    def _table(self, meta: str, element: Any, id_tag: str) -> _Table:
        locations = [
            (location.text or "").strip()
            for files in _children(element, "files")
            for location in _children(files, "location")
        ]
        if not locations:
            self._archive.refuse(f"{meta} names no file for one of its tables")
        try:
            terms = {
                _local(field.get("term", "")): Column(_index(field), field.get("default", ""))
                for field in _children(element, "field")
            }
            ids = [_index(each) for each in _children(element, id_tag)]
            dialect = _dialect(element)
        except ValueError as error:
            self._archive.refuse(f"{meta} holds a number that is none: {error}", error)
        return _Table(
            _local(element.get("rowType", "")),
            tuple(self._archive.beside(meta, location) for location in locations),
            dialect,
            ids[0] if ids else None,
            terms,
        )


def _children(element: Any, tag: str) -> list[Any]:
    return [child for child in element if _local(child.tag) == tag]


def _local(name: str) -> str:
    """The last word of an IRI, or of a tag with its namespace."""
    return name.rstrip("/").replace("}", "/").replace("#", "/").rpartition("/")[2]


def _index(element: Any) -> int | None:
    text = element.get("index")
    if text is None:
        return None
    number = int(text)
    if not 0 <= number < 10_000:
        raise ValueError(text)
    return number


def _dialect(element: Any) -> Dialect:
    """Attributes of a table with the defaults of the text guide, section 2.2."""
    return Dialect(
        separator=_character(element.get("fieldsTerminatedBy", ",")),
        quote=_character(element.get("fieldsEnclosedBy", '"'))[:1],
        line_end=_character(element.get("linesTerminatedBy", "\n")).replace("\r\n", "\n") or "\n",
        encoding=element.get("encoding", "utf-8"),
        skipped_lines=int(element.get("ignoreHeaderLines", "0") or "0"),
    )


def _character(text: str) -> str:
    return text.replace("\\t", "\t").replace("\\n", "\n").replace("\\r", "\r").replace("&quot;", '"')


def _text_of(root: Any, tag: str) -> str | None:
    found = next((element for element in root.iter() if _local(str(element.tag)) == tag), None)
    text = " ".join("".join(found.itertext()).split()) if found is not None else ""
    return text or None


def _opened(file: FileAtHand, _columns: Mapping[str, str], skips: Skips) -> DarwinCoreArchive | None:
    meta = file.archive.find("meta.xml") if file.archive else None
    return DarwinCoreArchive(file.archive, meta, skips) if file.archive and meta else None


DARWIN_CORE = ListReader("darwin-core", "Darwin Core archive", "a Darwin Core archive", _opened, sign="no meta.xml")
