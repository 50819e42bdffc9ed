"""ColDP archives (COL Data Package 1.2): NameUsage, or Name with Taxon and Synonym; common names, areas, relations."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import ExitStack, closing
from functools import cached_property
from itertools import chain
from pathlib import PurePosixPath
from typing import Any

from namekeeper.evidence.statements import NameStatus
from namekeeper.files.archive import Archive
from namekeeper.files.columns import Column, Shape, mapped
from namekeeper.files.delimited import rows
from namekeeper.sources.languages import two_letters
from namekeeper.sources.lists.coldp_entities import DIALECTS, FIELDS, NameShelf, entities, entity_of, places_of
from namekeeper.sources.lists.folding import status_of
from namekeeper.sources.lists.incoming import AreaRow, CommonRow, RelationRow, UsageRow
from namekeeper.sources.lists.list_file import Described, FileAtHand, ListFile, ListReader, Skips

_USAGE = (
    "ID", "scientificName", "authorship", "rank", "status", "parentID", "basionymID", "family", "order", "class",
    "kingdom", "code", "nameStatus", "remarks", "referenceID", "link",
)  # fmt: skip
_TAXON = ("ID", "nameID", "parentID", "family", "order", "class", "kingdom", "remarks", "referenceID", "link")
_SYNONYM = ("ID", "nameID", "taxonID", "status", "remarks", "referenceID", "link")
#: What a row must reach to be worth anything.
_NEEDED = {
    "nameusage": ("ID", "scientificName"), "name": ("ID", "scientificName"), "taxon": ("ID", "nameID"),
    "synonym": ("nameID", "taxonID"), "vernacularname": ("taxonID", "name"), "distribution": ("taxonID",),
    "namerelation": ("nameID", "relatedNameID", "type"), "reference": ("ID",),
}  # fmt: skip
_NATIVE = frozenset({"", "native", "uncertain", "nativeendemic", "nativereintroduced"})


class ColdpArchive(ListFile):
    """A ColDP archive.

    :raises InputError: if it holds no names, or both ways of giving them.
    """

    def __init__(self, archive: Archive, skips: Skips) -> None:
        self._archive = archive
        self._skips = skips
        self._files = entities(archive)
        self._seen: set[str] = set()
        self._kept = ExitStack()
        names = {"nameusage", "name"} & self._files.keys()
        if len(names) != 1 or ("name" in names and "taxon" not in self._files):
            archive.refuse("it needs either NameUsage, or Name with Taxon and Synonym")

    def described(self) -> Described:
        """From metadata.yaml."""
        member = self._archive.find("metadata.yaml") or self._archive.find("metadata.yml")
        said = self._archive.yaml(member) if member else {}
        return Described(
            title=_text(said, "title"),
            edition=_text(said, "version") or _text(said, "issued"),
            dated=_text(said, "issued"),
            licence=_text(said, "license"),
            citation=_text(said, "citation"),
            link=_text(said, "url") or _text(said, "doi"),
        )

    def usages(self) -> Iterator[UsageRow]:
        if "nameusage" in self._files:
            for line, *cells in self._read("nameusage", _USAGE):
                usage = dict(zip(_USAGE, cells, strict=True))
                yield _usage(line, usage, self._citation(usage["referenceID"]))
            return
        for entity, fields in (("taxon", _TAXON), ("synonym", _SYNONYM)):
            for line, *cells in self._read(entity, fields):
                yield from self._joined(entity, line, dict(zip(fields, cells, strict=True)))

    def _joined(self, entity: str, line: int, row: dict[str, str]) -> Iterator[UsageRow]:
        """A Taxon or Synonym with the Name it points to."""
        name = self._shelf.name(row["nameID"])
        if name is None:
            self._skips.add(line, f"names {row['nameID']!r}, which is no Name of the archive", self._files[entity])
            return
        standing = {"status": row["status"] or "synonym", "parentID": row["taxonID"]} if entity == "synonym" else {}
        yield _usage(line, row | name | standing, self._citation(row["referenceID"]))

    def commons(self) -> Iterator[CommonRow]:
        for line, key, text, language in self._read("vernacularname", ("taxonID", "name", "language")):
            yield CommonRow(line, key, text, two_letters(language))

    def areas(self) -> Iterator[AreaRow]:
        fields = ("taxonID", "area", "areaID", "establishmentMeans", "status")
        for line, key, area, area_id, means, status in self._read("distribution", fields):
            if means.replace(" ", "").casefold() in _NATIVE and status.casefold() != "alien":
                yield AreaRow(line, key, area or area_id)

    def relations(self) -> Iterator[RelationRow]:
        fields = ("nameID", "relatedNameID", "type", "referenceID")
        for line, key, related, kind, reference in self._read("namerelation", fields):
            if "nameusage" not in self._files:
                key, related = self._shelf.usage_of(key), self._shelf.usage_of(related)  # noqa: PLW2901
            if key and related:
                yield RelationRow(line, key, related, kind.replace("_", " ").casefold(), self._citation(reference))

    def close(self) -> None:
        self._kept.close()

    @cached_property
    def _shelf(self) -> NameShelf:
        """Names by identifier, on disk, so that Taxon and Synonym can be joined to them row by row."""
        shelf = self._kept.enter_context(closing(NameShelf()))
        shelf.put_names(tuple(cells) for _line, *cells in self._read("name", NameShelf.FIELDS))
        for entity in ("taxon", "synonym"):
            shelf.put_usages((key, name) for _line, key, name in self._read(entity, ("ID", "nameID")))
        return shelf

    @cached_property
    def _references(self) -> NameShelf:
        shelf = self._kept.enter_context(closing(NameShelf()))
        fields = ("ID", "citation", "author", "issued", "title", "containerTitle")
        shelf.put_references(
            (key, citation or _composed(author, issued, title, container))
            for _line, key, citation, author, issued, title, container in self._read("reference", fields)
        )
        return shelf

    def _citation(self, references: str) -> str:
        first = references.partition(",")[0].strip()
        return self._references.reference(first) if first and "reference" in self._files else ""

    def _read(self, entity: str, fields: tuple[str, ...]) -> Iterator[Any]:
        member = self._files.get(entity)
        if member is None:
            return
        # A file that is read twice must not count its bad rows twice.
        skips = Skips() if entity in self._seen else self._skips
        self._seen.add(entity)
        with self._archive.open(member) as stream:
            lines = rows(stream, DIALECTS[PurePosixPath(member).suffix.lower()], skips.add, member)
            first = next(lines, None)
            if first is None:
                return
            places = places_of(entity, first[1])
            if not places:
                places = {field: place for place, field in enumerate(FIELDS[entity])}
                lines = chain((first,), lines)
            defaults = self._defaults.get(entity, {})
            columns = {
                field: Column(_within(places.get(field), first[1]), defaults.get(field.casefold(), ""))
                for field in fields
            }
            shape = Shape(len(first[1]), _NEEDED[entity], "scientificName" in _NEEDED[entity], skips.tell)
            yield from mapped(lines, fields, columns, tuple, skip=skips.add, file=member, shape=shape)

    @cached_property
    def _defaults(self) -> dict[str, dict[str, str]]:
        """``default.yaml``: a value by entity and field for cells that are empty."""
        member = self._archive.find("default.yaml")
        said = self._archive.yaml(member) if member else {}
        return {
            entity_of(entity): {
                str(field).casefold(): value for field, value in fields.items() if isinstance(value, str)
            }
            for entity, fields in said.items()
            if isinstance(entity, str) and isinstance(fields, dict) and entity_of(entity) in self._files
        }


def _usage(line: int, usage: dict[str, str], citation: str) -> UsageRow:
    accepted = status_of(usage.get("status", "")) in (NameStatus.ACCEPTED, NameStatus.DOUBTFUL, None)
    parent = usage["parentID"]
    return UsageRow(
        line=line, key=usage["ID"], name=usage["scientificName"], authorship=usage["authorship"], rank=usage["rank"],
        status=usage.get("status", ""), accepted_key="" if accepted else parent, parent_key=parent if accepted else "",
        original_key=usage["basionymID"], family=usage.get("family", ""), order=usage.get("order", ""),
        class_=usage.get("class", ""), kingdom=usage.get("kingdom", ""), code=usage["code"],
        name_status=usage["nameStatus"], remarks=usage["remarks"], citation=citation, link=usage["link"],
    )  # fmt: skip


def _composed(author: str, issued: str, title: str, container: str) -> str:
    return ". ".join(
        filter(None, (f"{author} ({issued})" if author and issued else author or issued, title, container))
    )


def _text(said: dict[object, Any], key: str) -> str | None:
    value = said.get(key)
    return " ".join(value.split()) or None if isinstance(value, str) else None


def _within(place: int | None, cells: list[str]) -> int | None:
    return place if place is not None and place < len(cells) else None


def _opened(file: FileAtHand, _columns: Mapping[str, str], skips: Skips) -> ColdpArchive | None:
    if file.archive is None or not {"nameusage", "name"} & entities(file.archive).keys():
        return None
    return ColdpArchive(file.archive, skips)


COLDP = ListReader("coldp", "ColDP archive", "a ColDP archive", _opened, sign="no NameUsage, no Name")
