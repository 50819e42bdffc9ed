"""Small lists for tests. Names are of real species (World Spider Catalog, as cited) unless a test says "invented"."""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from namekeeper.evidence.statements import Edition, ListWishes
from namekeeper.sources.lists.adding import build, edition_of, open_source
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.index_writer import IndexWriter
from namekeeper.sources.lists.list_file import Skips

DWC = "http://rs.tdwg.org/dwc/terms/"
GBIF = "http://rs.gbif.org/terms/1.0/"

#: Skeleton of the text guide, section 2 (Darwin Core, 2023-09-13).
META = """<?xml version="1.0" encoding="UTF-8"?>
<archive xmlns="http://rs.tdwg.org/dwc/text/" metadata="eml.xml">
  <core encoding="UTF-8" fieldsTerminatedBy="\\t" linesTerminatedBy="\\n" fieldsEnclosedBy="" ignoreHeaderLines="1"
        rowType="http://rs.tdwg.org/dwc/terms/Taxon">
    <files><location>taxon.txt</location></files>
    <id index="0"/>
    <field index="1" term="http://rs.tdwg.org/dwc/terms/scientificName"/>
    <field index="2" term="http://rs.tdwg.org/dwc/terms/scientificNameAuthorship"/>
    <field index="3" term="http://rs.tdwg.org/dwc/terms/taxonRank"/>
    <field index="4" term="http://rs.tdwg.org/dwc/terms/taxonomicStatus"/>
    <field index="5" term="http://rs.tdwg.org/dwc/terms/acceptedNameUsageID"/>
    <field index="6" term="http://rs.tdwg.org/dwc/terms/parentNameUsageID"/>
    <field index="7" term="http://rs.tdwg.org/dwc/terms/originalNameUsageID"/>
    <field term="http://rs.tdwg.org/dwc/terms/kingdom" default="Animalia"/>
    <field term="http://rs.tdwg.org/dwc/terms/family" default="Theraphosidae"/>
  </core>
  <extension encoding="UTF-8" fieldsTerminatedBy="\\t" linesTerminatedBy="\\n" fieldsEnclosedBy="" ignoreHeaderLines="1"
        rowType="http://rs.gbif.org/terms/1.0/VernacularName">
    <files><location>vernacular.txt</location></files>
    <coreid index="0"/>
    <field index="1" term="http://rs.tdwg.org/dwc/terms/vernacularName"/>
    <field index="2" term="http://purl.org/dc/terms/language"/>
  </extension>
  <extension encoding="UTF-8" fieldsTerminatedBy="\\t" linesTerminatedBy="\\n" fieldsEnclosedBy="" ignoreHeaderLines="1"
        rowType="http://rs.gbif.org/terms/1.0/Distribution">
    <files><location>distribution.txt</location></files>
    <coreid index="0"/>
    <field index="1" term="http://rs.tdwg.org/dwc/terms/locality"/>
    <field index="2" term="http://rs.tdwg.org/dwc/terms/establishmentMeans"/>
  </extension>
</archive>
"""

#: Mendoza & Francke 2020 (doi 10.1093/zoolinnean/zlz046): Tliltocatl vagans and albopilosus, moved from Brachypelma.
TAXA = [
    "id\tname\tauthor\trank\tstatus\taccepted\tparent\toriginal",
    "1\tTliltocatl\tMendoza & Francke, 2020\tgenus\taccepted\t\t\t",
    "2\tTliltocatl vagans\t(Ausserer, 1875)\tspecies\taccepted\t2\t1\t4",
    "3\tBrachypelma vagans\t(Ausserer, 1875)\tspecies\thomotypicSynonym\t2\t\t4",
    "4\tEurypelma vagans\tAusserer, 1875\tspecies\tsynonym\t2\t\t",
    "5\tTliltocatl albopilosus\t(Valerio, 1980)\tspecies\tvalid\t\t1\t6",
    "6\tBrachypelma albopilosum\tValerio, 1980\tspecies\tsynonym\t5\t\t",
]
COMMON = ["id\tname\tlang", "2\tMexican red rump\teng", "2\tRotfuss\tdeu", "5\tCurlyhair tarantula\ten"]
AREAS = ["id\tarea\tmeans", "2\tMexico\tnative", "2\tUSA\tintroduced", "5\tHonduras\t", "5\tNicaragua\t"]


def dwca(
    path: Path,
    taxa: Iterable[str] = TAXA,
    meta: str = META,
    common: Iterable[str] = COMMON,
    areas: Iterable[str] = AREAS,
    others: Mapping[str, str | bytes] | None = None,
) -> Path:
    """A Darwin Core archive."""
    files: dict[str, str | bytes] = {
        "meta.xml": meta,
        "taxon.txt": "\n".join(taxa) + "\n",
        "vernacular.txt": "\n".join(common) + "\n",
        "distribution.txt": "\n".join(areas) + "\n",
    }
    return packed(path, files | dict(others or {}))


def packed(path: Path, files: Mapping[str, str | bytes]) -> Path:
    """A zip archive of these files."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return path


def written(place: Path, *rows: UsageRow, edition: Edition | None = None) -> Path:
    """An index of these names."""
    with IndexWriter(place) as writer:
        writer.usages(rows)
        writer.finish(edition or Edition("list", "A list", "list"))
    return place


def bare(*names: str) -> list[UsageRow]:
    """Accepted names without anything else."""
    return [UsageRow(line, "", name) for line, name in enumerate(names, 2)]


@dataclass(frozen=True)
class Read:
    """A list file as it was read: its index, what was left out, and the columns a table was understood by."""

    index: IndexList
    skips: Skips
    columns: Mapping[str, str]

    def end(self, name: str) -> list[str]:
        return [target.name for statement in self.index.named(name) for target in statement.targets]


def read_list(path: Path, **columns: str) -> Read:
    """The index of a list file, which the caller closes."""
    skips = Skips()
    wishes = ListWishes(columns=columns)
    with open_source(path, wishes, skips) as source:
        edition = edition_of("test", source.list.described(), wishes)
        build(source.list, edition, path.with_suffix(".index"), skips)
        return Read(IndexList.open(path.with_suffix(".index")), skips, source.columns)
