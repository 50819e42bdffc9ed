# ruff: noqa: E501 - rows of tables: one row, one line
"""Tables and archives of specimens in the shapes of published ones: every row comes in, or is told with its reason.

What is theirs is the shape; rows are invented around real names. "IO" is github.com/gbif/dwca-io at b75350c, folder
src/test/resources, which holds files of real publishers.
"""

from __future__ import annotations

import csv
import io
import json
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import Outcome
from tests.lists.shapes import meta

Command = Callable[..., Outcome]


@dataclass(frozen=True)
class Shape:
    """A file as others make it.

    :param source: where the shape is published.
    :param table: the rows, as text; of an archive its core.
    :param files: what else is in the zip file; None: the table lies there alone.
    :param holds: lines that the files of the animals must hold, all in all.
    """

    name: str
    source: str
    table: str
    holds: tuple[str, ...]
    files: Mapping[str, str] | None = None
    member: str = "occurrence.txt"
    left: Mapping[int, str] = field(default_factory=dict)


_FULL = (
    "occurrenceID catalogNumber scientificName scientificNameAuthorship identificationQualifier dateIdentified"
    " identifiedBy eventDate sex individualCount lifeStage occurrenceRemarks vernacularName locality stateProvince country"
    " basisOfRecord"
)
_ROW = (
    "urn:x:1\tM-1\tBrachypelma vagans\t(Ausserer, 1875)\tcf.\t2015-06\tA. Keeper\t2014-05-03/2014-05-09\tfemale\t2\tadult\t"
    "from a bank\tMexican red rump\tCalakmul\tCampeche\tMexico\tLivingSpecimen\n"
)
_OF_FULL = (
    "name: Brachypelma vagans", "authorship: (Ausserer, 1875)", "qualifier: cf.", "since: 2015-06",
    "decided_by: A. Keeper", "acquired: 2014-05", "sex: 0.2.0", "stage: adult", "note: from a bank",
    "common: Mexican red rump", "locality: Calakmul, Campeche, Mexico",
)  # fmt: skip
_IRIS = "\t".join(f"http://rs.tdwg.org/dwc/terms/{term}" for term in _FULL.split())

SHAPES = (
    Shape("a Darwin Core table", "Darwin Core list of terms (rs.tdwg.org/dwc/doc/list)", "\t".join(_FULL.split()) + "\n"
          + _ROW, _OF_FULL),
    Shape("terms with a prefix", "tables of github.com/tdwg/dwc-qa, headers as dwc:term",
          "\t".join(f"dwc:{term}" for term in _FULL.split()) + "\n" + _ROW, _OF_FULL),
    Shape("terms as addresses", "RDF and CSVW exports; IRIs of the list of terms", _IRIS + "\n" + _ROW, _OF_FULL),
    Shape("terms in capitals", "IO issues/ebird.tab.txt", "\t".join(_FULL.upper().split()) + "\n" + _ROW, _OF_FULL),
    Shape(
        "an archive of occurrences",
        "GBIF IPT (github.com/gbif/ipt): tab, no quotes, one header line, id in front",
        "id\t" + "\t".join(_FULL.split()) + "\nurn:x:1\t" + _ROW,
        _OF_FULL,
        {"meta.xml": meta("id " + _FULL, row_type="Occurrence", core="occurrence.txt"), "eml.xml": "<eml/>"},
    ),
    Shape(
        "an archive without a header line, with constants",
        "IO meta-xml-variants/dwca-id-with-term",
        "O-1,Brachypelma vagans,XYZ\nO-2,Aphonopelma seemanni,\n",
        ("name: Brachypelma vagans", "name: Aphonopelma seemanni", "locality: Mexico", "O-1", "O-2"),
        {
            "meta.xml": meta(
                "occurrenceID scientificName nomenclaturalCode",
                "fieldsTerminatedBy=,|ignoreHeaderLines=0|encoding=utf-8", row_type="Occurrence", core="occurrence.txt",
            ).replace("</core>", '<field term="http://rs.tdwg.org/dwc/terms/country" default="Mexico"/>'
                      '<field term="http://purl.org/dc/terms/rights"/></core>'),
        },
    ),
    Shape(
        "a simple download",
        "GBIF simple download (techdocs.gbif.org/en/data-use/download-formats): a zip file of one table; its header as"
        " seen in public scripts that read it",
        "gbifID\tdatasetKey\toccurrenceID\tkingdom\tphylum\tclass\torder\tfamily\tgenus\tspecies\tinfraspecificEpithet\t"
        "taxonRank\tscientificName\tverbatimScientificName\tcountryCode\tlocality\tstateProvince\tindividualCount\t"
        "eventDate\tday\tmonth\tyear\tbasisOfRecord\tcatalogNumber\tidentifiedBy\tdateIdentified\n"
        "1\tk\turn:x:1\tAnimalia\tArthropoda\tArachnida\tAraneae\tTheraphosidae\tTliltocatl\tTliltocatl vagans\t\tSPECIES\t"
        "Tliltocatl vagans (Ausserer, 1875)\tBrachypelma vagans\tMX\tCalakmul\tCampeche\t1\t2014-05-03T00:00:00\t3\t5\t2014"
        "\tPRESERVED_SPECIMEN\tM-1\tA. Keeper\t2014\n",
        ('tag: "Brachypelma vagans"', "name: Tliltocatl vagans", "authorship: (Ausserer, 1875)", "acquired: 2014-05-03",
         "locality: Calakmul, Campeche, MX", "since: 2014"),
        {},
        "0001.csv",
    ),
    Shape(
        "a museum's spreadsheet",
        "IO issues/Borza.txt: genus, subgenus and epithets beside the whole name, dates of determination",
        "ID\tglobalUniqueIdentifier\tinstitutionCode\tcatalogNumber\tsex\tgenus\tsubgenus\tspecificEpithet\t"
        "infraspecificEpithet\tscientificName\tscientificNameAuthorship\tdateIdentified\tidentifiedBy\tcountry\n"
        '1\tB:1\tB\t1\t\tTliltocatl\t\tvagans\t\tTliltocatl vagans\t"(Ausserer, 1875)"\t\tA. Keeper\tMexico\n'
        "2\tB:2\tB\t2\tmale\tAvicularia\t\tavicularia\tvariegata\t\t\t\t\tBrazil\n",
        ("name: Tliltocatl vagans", "name: Avicularia avicularia variegata", "sex: 1.0.0"),
    ),
    Shape(
        "a herbarium's download",
        "IO MOBOTDarwinCore.csv: day, month and year in columns of their own, species and infraspecificEpithet, short rows",
        "catalogNumber\tinstitutionCode\tscientificName\tgenus\tspecies\tinfraspecificEpithet\tscientificNameAuthorship\t"
        "identifiedBy\trecordNumber\tday\tmonth\tyear\tcountry\tlocality\n"
        "1\tMO\tTliltocatl vagans (Ausserer, 1875)\tTliltocatl\tvagans\t\t(Ausserer, 1875)\t\t10572\t\t\t\tMexico\n"
        "2\tMO\t\tAphonopelma\tseemanni\t\t\t\t6723\t29\t10\t1985\tCosta Rica\tTilaran\n",
        ("name: Tliltocatl vagans", "name: Aphonopelma seemanni", "locality: Tilaran, Costa Rica"),
    ),
    Shape(
        "ids that cannot be ids",
        "triplets and URNs as occurrenceID: Darwin Core list of terms, examples of occurrenceID",
        "occurrenceID,scientificName\nhttp://arctos.database.museum/guid/MSB:Mamm:233627,Tliltocatl vagans\n"
        "urn:catalog:UWBM:Bird:89776,Aphonopelma seemanni\n",
        ('note: "occurrenceID: urn:catalog:UWBM:Bird:89776"', "name: Tliltocatl vagans"),
    ),
    Shape(
        "doubts in words",
        "Darwin Core list of terms, examples and definition of identificationQualifier",
        "catalogNumber,scientificName,identificationQualifier,individualCount,eventDate\n"
        "1,Tliltocatl vagans,aff. vagans,1,\n2,Tliltocatl vagans,probably,many,2014\n"
        "3,Tliltocatl vagans,,1,2014-05-03T10:00:00+02:00\n4,Aphonopelma,sp.,1,\n5,Tliltocatl vagans,possibly,1,\n"
        "6,Tliltocatl vagans,,1,1998/1999\n",
        ("qualifier: aff.", 'qualifier: "?"', "qualifier: sp.", "acquired: 2014-05-03", 'identification: possibly'),
        left={3: "'many' is no number of animals", 7: "'1998/1999' is no period within one year"},
    ),
)  # fmt: skip
BY_NAME = {shape.name: shape for shape in SHAPES}


def put(shape: Shape, folder: Path) -> str:
    if shape.files is None:
        (folder / "table.csv").write_text(shape.table, encoding="utf-8")
        return "table.csv"
    with zipfile.ZipFile(folder / "table.zip", "w") as archive:
        for name, text in {**shape.files, shape.member: shape.table}.items():
            archive.writestr(name, text)
    return "table.zip"


def imported(command: Command, table: str) -> dict[str, Any]:
    command("collection", "new", "animals")
    found: dict[str, Any] = json.loads(command("collection", "import", "animals", table, "--write", "--json").out)
    return found


@pytest.mark.parametrize("name", BY_NAME)
def test_every_row_comes_in_or_is_told(name: str, tmp_path: Path, command: Command) -> None:
    shape = BY_NAME[name]
    separator = "\t" if "\t" in shape.table else ","
    lines = list(csv.reader(io.StringIO(shape.table), delimiter=separator))
    rows = len(lines) - (0 if "without a header" in name else 1)
    document = imported(command, put(shape, tmp_path))
    assert len(document["imported"]) + len(document["left"]) == rows
    assert {row["row"]: row["why"] for row in document["left"]} == shape.left
    files = {path.stem: path.read_text(encoding="utf-8") for path in (tmp_path / "animals" / "specimens").iterdir()}
    everything = "\n".join(f"{stem}\n{text}" for stem, text in files.items())
    for part in shape.holds:
        assert part in everything, everything
    assert command("collection", "verify", "animals").code == 0


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
@pytest.mark.parametrize("name", [one.name for one in SHAPES if one.files and "meta.xml" in one.files])
def test_counts_of_a_reference_reader(name: str, tmp_path: Path, command: Command) -> None:
    """python-dwca-reader (PyPI), written at the Belgian Biodiversity Platform."""
    from dwca.read import DwCAReader

    table = put(BY_NAME[name], tmp_path)
    with DwCAReader(str(tmp_path / table)) as reader:
        rows = len(list(reader))
    document = imported(command, table)
    assert len(document["imported"]) + len(document["left"]) == rows


def test_what_a_darwin_core_table_says_beyond_is_listed(tmp_path: Path, command: Command) -> None:
    document = imported(command, put(BY_NAME["a Darwin Core table"], tmp_path))
    assert {one["column"] for one in document["unread"]["columns"]} == {"occurrenceID", "basisOfRecord"}


def test_an_archive_of_names_goes_to_the_lists(tmp_path: Path, command: Command) -> None:
    with zipfile.ZipFile(tmp_path / "table.zip", "w") as archive:
        archive.writestr("meta.xml", meta("taxonID scientificName"))
        archive.writestr("taxon.txt", "id\tname\n1\tAus bus\n")
    command("collection", "new", "animals")
    refused = command("collection", "import", "animals", "table.zip")
    assert refused.code == 2
    assert "this archive holds names, not animals (a list of names goes to namekeeper lists add)" in refused.err


def test_broken_rows_of_an_archive_are_told(tmp_path: Path, command: Command) -> None:
    with zipfile.ZipFile(tmp_path / "table.zip", "w") as archive:
        archive.writestr("meta.xml", meta("catalogNumber scientificName sex", row_type="Occurrence"))
        archive.writestr("taxon.txt", "id\tname\tsex\nA1\tTliltocatl vagans\tmale\nA2\nA3\tAus bus\tmale\tx\ty\n")
    document = imported(command, "table.zip")
    assert [row["specimen"] for row in document["imported"]] == ["A1"]
    assert [(one["row"], one["why"]) for one in document["unread"]["rows"]] == [(3, "broken"), (4, "broken")]
