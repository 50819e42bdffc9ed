"""Darwin Core archives (Darwin Core text guide, 2023-09-13): taxa, common names, distributions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from namekeeper.files.archive import Archive
from namekeeper.files.columns import Column, Shape, mapped
from namekeeper.files.delimited import rows
from namekeeper.files.metafile import DescribedTable, local_word, read_metafile
from namekeeper.sources.languages import two_letters
from namekeeper.sources.lists.incoming import AreaRow, CommonRow, UsageRow, usage_row
from namekeeper.sources.lists.list_file import Described, FileAtHand, ListFile, ListReader, Skips
from namekeeper.words.name_parts import NameParts, whole_authorship, whole_name

_FIELDS = UsageRow._fields[1:]
#: Field of a usage by the term that fills it; terms that stand earlier win. Those of drafts before 2009 stand last
#: (github.com/tdwg/dwc, versions/pre-standard; archives of that time: github.com/gbif/dwca-io, src/test/resources).
_TERMS = {
    "key": ("taxonID",),
    "name": ("scientificName",),
    "authorship": ("scientificNameAuthorship",),
    "rank": ("taxonRank", "verbatimTaxonRank"),
    "status": ("taxonomicStatus",),
    "accepted_key": ("acceptedNameUsageID", "acceptedTaxonID", "acceptedScientificNameID"),
    "accepted_name": ("acceptedNameUsage", "acceptedScientificName"),
    "parent_key": ("parentNameUsageID", "higherTaxonID"),
    "original_key": ("originalNameUsageID", "originalNameID", "basionymID"),
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
_PARTS = {
    "genus": ("genericName", "genus"),
    "subgenus": ("infragenericEpithet",),
    "epithet": ("specificEpithet",),
    "infraspecific": ("infraspecificEpithet",),
}
_OTHER_GENUS = "the name is put together with the genus of the classification, which may be that of the accepted name"
_NOT_NATIVE = frozenset(
    {"introduced", "invasive", "naturalised", "managed", "vagrant", "introducedassistedcolonisation"}
)
_ABSENT = frozenset({"absent", "excluded", "doubtful"})


class DarwinCoreArchive(ListFile):
    """A Darwin Core archive with a Taxon core.

    :raises InputError: if the metafile is missing, malformed, dangerous, or its core is not of taxa.
    """

    def __init__(self, archive: Archive, meta: str, skips: Skips) -> None:
        self._archive = archive
        self._skips = skips
        described = read_metafile(archive, meta)
        self._core = described.core
        if not (self._core.is_of("Taxon") or self._core.is_of_anything):
            archive.refuse(f"its core is of {self._core.row_type}, not of taxa")
        if not self._core.column("scientificName", "genericName", "genus", "specificEpithet"):
            archive.refuse("its core has no scientificName")
        self._extensions = described.extensions
        self._metadata = described.metadata

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
        parts = {part: found for part, terms in _PARTS.items() if (found := core.column(*terms))}
        if not parts:
            yield from self._read(core, _FIELDS, columns, usage_row, ("name",))
            return
        needs = ("name",) if "name" in columns else ("genus", "epithet")
        fields = (*_FIELDS, *NameParts._fields)
        for line, *cells in self._read(core, fields, columns | parts, tuple, needs):
            usage = UsageRow(line, *cells[: len(_FIELDS)])
            whole = " " in usage.name and not usage.name[0].islower()
            yield usage if whole else self._composed(usage, NameParts(*cells[len(_FIELDS) :]))

    def _composed(self, usage: UsageRow, parts: NameParts) -> UsageRow:
        """A name given in parts, where the row does not give it whole."""
        name = whole_name(usage.name, parts)
        if name != usage.name and usage.accepted_key not in ("", usage.key) and not self._core.column("genericName"):
            self._skips.tell(usage.line, _OTHER_GENUS)
        return usage._replace(name=name, authorship=whole_authorship(usage.authorship, parts))

    def commons(self) -> Iterator[CommonRow]:
        for table in self._of_type("VernacularName"):
            columns = {"key": Column(table.id)}
            columns |= {field: found for field in ("vernacularName", "language") if (found := table.column(field))}
            fields = ("key", "vernacularName", "language")
            for line, key, text, language in self._read(table, fields, columns, tuple, fields[:2]):
                yield CommonRow(line, key, text, two_letters(language))

    def areas(self) -> Iterator[AreaRow]:
        fields = ("key", "locality", "countryCode", "locationID", "establishmentMeans", "occurrenceStatus")
        for table in self._of_type("Distribution"):
            columns = {"key": Column(table.id)}
            columns |= {field: found for field in fields[1:] if (found := table.column(field))}
            for line, key, locality, country, location, means, status in self._read(
                table, fields, columns, tuple, ("key",)
            ):
                if means.casefold() not in _NOT_NATIVE and status.casefold() not in _ABSENT:
                    yield AreaRow(line, key, locality or country or location)

    def _of_type(self, row_type: str) -> Iterator[DescribedTable]:
        """Extensions of that class; one that cannot be read is told, and the others go on."""
        for table in self._extensions:
            if not table.is_of(row_type):
                continue
            for location in table.missing:
                self._skips.add(0, f"{location!r}, which meta.xml names, is not in the archive", location)
            if table.id is None:
                self._skips.add(0, f"meta.xml does not say which column of this {row_type} table is the taxon's", "")
                continue
            if table.assumed:
                self._skips.tell(0, f"meta.xml names no column for the taxon of a {row_type} row: the first is taken")
            yield table

    def _read(
        self,
        table: DescribedTable,
        fields: tuple[str, ...],
        columns: dict[str, Column],
        make: Any,
        needs: tuple[str, ...],
    ) -> Iterator[Any]:
        shape = Shape(table.width, needs, needs == ("name",), self._skips.tell)
        for member in table.members:
            with self._archive.open(member) as stream:
                lines = rows(stream, table.dialect, self._skips.add, member)
                yield from mapped(lines, fields, columns, make, skip=self._skips.add, file=member, shape=shape)


def _text_of(root: Any, tag: str) -> str | None:
    found = next((element for element in root.iter() if local_word(str(element.tag)) == tag), None)
    text = " ".join("".join(found.itertext()).split()) if found is not None else ""
    return text or None


def _opened(file: FileAtHand, _columns: Mapping[str, str], skips: Skips) -> DarwinCoreArchive | None:
    meta = file.archive.find("meta.xml") if file.archive else None
    return DarwinCoreArchive(file.archive, meta, skips) if file.archive and meta else None


DARWIN_CORE = ListReader("darwin-core", "Darwin Core archive", "a Darwin Core archive", _opened, sign="no meta.xml")
