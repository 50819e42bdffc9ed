"""Darwin Core and ColDP archives and tables: the same names, whatever they come in.

Rules of Darwin Core archives: Darwin Core text guide of 2023-09-13 (http://rs.tdwg.org/dwc/terms/guides/text/).
Rules of ColDP: README and docs/datapackage.json of ColDP 1.2 (github.com/CatalogueOfLife/coldp).
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.evidence.statements import ActKind, NameStatus
from tests.lists.making import COMMON, META, TAXA, Read, dwca, packed

ReadList = Callable[..., Read]


def test_a_darwin_core_archive_in_full(tmp_path: Path, read: ReadList) -> None:
    found = read(dwca(tmp_path / "a.zip"))
    assert found.skips.listed == []
    (old,) = found.index.named("Brachypelma vagans")
    assert old.status is NameStatus.OBJECTIVE_SYNONYM
    (target,) = old.targets
    assert (target.name, target.authorship, target.identifier) == ("Tliltocatl vagans", "(Ausserer, 1875)", "2")
    assert (target.original_genus, target.range) == ("Eurypelma", ("Mexico",))
    assert (target.higher, target.kingdom) == (("Theraphosidae",), "Animalia")
    (junior,) = found.index.named("Eurypelma vagans")
    assert junior.status is NameStatus.OBJECTIVE_SYNONYM  # the original combination of the accepted name: one type
    assert [(c.text, c.language, c.taxon.name) for c in found.index.common("rotfuss")] == [
        ("Rotfuss", "de", "Tliltocatl vagans")
    ]
    assert found.index.common("mexican red-rumps")[0].language == "en"


@pytest.mark.parametrize(
    ("separator", "quote", "encoding", "end"),
    [
        (",", '"', "utf-8", "\n"), (";", "'", "iso-8859-1", "\r\n"), ("|", "", "utf-16", "\n"),
        ("\t", "", "cp1252", "\r"), ("||", "", "utf-8", "\n"), ("^", '"', "latin-1", "\n"),
    ],
)  # fmt: skip
def test_any_delimiter_quote_and_encoding_that_is_declared(
    separator: str, quote: str, encoding: str, end: str, tmp_path: Path, read: ReadList
) -> None:
    rows = [line.split("\t") for line in [*TAXA, "7\tPoecilotheria señorae\tMüller, 1900\tspecies\t\t\t\t"]]  # invented
    text = end.join(separator.join(f"{quote}{cell}{quote}" for cell in row) for row in rows) + end
    shown = {"\t": "\\t", "\n": "\\n", "\r": "\\r", "\r\n": "\\r\\n"}
    attributes = (
        f'encoding="{encoding}" fieldsTerminatedBy="{shown.get(separator, separator)}"'
        f' linesTerminatedBy="{shown[end]}" fieldsEnclosedBy="{quote.replace(chr(34), "&quot;")}"'
    )
    old = 'encoding="UTF-8" fieldsTerminatedBy="\\t" linesTerminatedBy="\\n" fieldsEnclosedBy=""'
    meta = META.replace(old, attributes, 1)
    found = read(dwca(tmp_path / "a.zip", meta=meta, others={"taxon.txt": text.encode(encoding)}))
    assert found.skips.listed == []
    assert found.end("Brachypelma vagans") == ["Tliltocatl vagans"]
    (accented,) = found.index.named("Poecilotheria senorae")
    assert (accented.subject.name, accented.subject.authorship) == ("Poecilotheria señorae", "Müller, 1900")


def test_lines_that_end_in_characters_of_their_own(tmp_path: Path, read: ReadList) -> None:
    meta = META.replace('linesTerminatedBy="\\n" fieldsEnclosedBy=""', 'linesTerminatedBy="~~" fieldsEnclosedBy=""', 1)
    found = read(dwca(tmp_path / "a.zip", meta=meta, others={"taxon.txt": "~~".join(TAXA)}))
    assert found.skips.listed == []
    assert found.end("Brachypelma vagans") == ["Tliltocatl vagans"]


def test_a_cell_may_hold_line_ends_and_separators(tmp_path: Path, read: ReadList) -> None:
    table = tmp_path / "t.csv"
    table.write_text('name,remarks\nAus bus,"two\nlines, and ""quotes"""\nAus cus,\n', encoding="utf-8")
    found = read(table)
    assert found.index.named("Aus bus")[0].note == 'two\nlines, and "quotes"'
    assert found.end("Aus cus") == ["Aus cus"]


def test_defaults_of_the_text_guide(tmp_path: Path, read: ReadList) -> None:
    # Absent attributes: comma, line feed, double quote, no header line; fields in any order; a constant without index.
    meta = """<archive xmlns="http://rs.tdwg.org/dwc/text/"><core rowType="http://rs.tdwg.org/dwc/terms/Taxon">
      <files><location>a.csv</location><location>b.csv</location></files><id index="1"/>
      <field index="0" term="http://rs.tdwg.org/dwc/terms/scientificName"/>
      <field index="2" default="synonym" term="http://rs.tdwg.org/dwc/terms/taxonomicStatus"/>
      <field index="3" term="http://rs.tdwg.org/dwc/terms/acceptedNameUsageID"/>
      <field term="http://rs.tdwg.org/dwc/terms/taxonRank" default="species"/></core></archive>"""
    files = {
        "meta.xml": meta,
        "a.csv": '"Tliltocatl vagans (Ausserer, 1875)",2,accepted,\n',
        "b.csv": '"Brachypelma vagans (Ausserer, 1875)",3,,2\n',
    }
    found = read(packed(tmp_path / "a.zip", files))
    assert found.skips.listed == []
    assert found.end("Brachypelma vagans") == ["Tliltocatl vagans"]
    assert found.index.named("Tliltocatl vagans")[0].subject.authorship == "(Ausserer, 1875)"


def test_names_in_parts_and_in_a_folder(tmp_path: Path, read: ReadList) -> None:
    meta = """<archive xmlns="http://rs.tdwg.org/dwc/text/"><core rowType="http://rs.tdwg.org/dwc/terms/Taxon">
      <files><location>taxa.csv</location></files><id index="0"/>
      <field index="1" term="http://rs.tdwg.org/dwc/terms/genus"/>
      <field index="2" term="http://rs.tdwg.org/dwc/terms/genericName"/>
      <field index="3" term="http://rs.tdwg.org/dwc/terms/specificEpithet"/></core></archive>"""
    files = {
        "list/meta.xml": meta,
        "list/taxa.csv": "1,Tliltocatl,Tliltocatl,vagans\n2,Tliltocatl,Brachypelma,vagans\n",
    }
    found = read(packed(tmp_path / "a.zip", files))
    assert {s.subject.name for s in found.index.with_epithet("vagans")} == {"Tliltocatl vagans", "Brachypelma vagans"}


def test_the_metadata_gives_the_edition(tmp_path: Path, read: ReadList) -> None:
    eml = "<eml><dataset><title>Spiders</title><pubDate>2024-05-06</pubDate></dataset></eml>"
    edition = read(dwca(tmp_path / "a.zip", others={"eml.xml": eml})).index.edition
    assert (edition.title, edition.edition, str(edition.dated)) == ("Spiders", "2024-05-06", "2024-05-06")


USAGES = "\n".join(  # noqa: FLY002 - one row a line
    [
        "ID\tparentID\tbasionymID\tstatus\tscientificName\tauthorship\trank\tcode\treferenceID",
        "f\t\t\taccepted\tTheraphosidae\tThorell, 1869\tfamily\tzoological\t",
        "g\tf\t\taccepted\tTliltocatl\tMendoza & Francke, 2020\tgenus\tzoological\t",
        "s\tg\to\taccepted\tTliltocatl vagans\t(Ausserer, 1875)\tspecies\tzoological\tr1",
        "o\ts\t\tsynonym\tEurypelma vagans\tAusserer, 1875\tspecies\tzoological\t",
        "b\ts\to\tsynonym\tBrachypelma vagans\t(Ausserer, 1875)\tspecies\tzoological\t",
        "m\ts\t\tmisapplied\tBrachypelma smithi\tF. O. Pickard-Cambridge, 1897\tspecies\tzoological\t",
    ]
)


def coldp(path: Path, **files: str) -> Path:
    return packed(path, {name.replace("__", "."): content for name, content in files.items()})


def test_a_coldp_archive_of_usages(tmp_path: Path, read: ReadList) -> None:
    found = read(
        coldp(
            tmp_path / "a.zip",
            NameUsage__tsv=USAGES,
            Vernacular_name__csv='taxonID,name,language\ns,"Red rump, Mexican",eng\n',
            Distribution__tsv="taxonID\tarea\testablishmentMeans\ns\tMexico\tnative\ns\tFlorida\tintroduced\n",
            reference__csv="ID,citation\nr1,Mendoza & Francke 2020\n",
            metadata__yaml="title: Spiders\nversion: 2025.1\nissued: 2025-03-04\nlicense: cc by\n",
        )
    )
    assert found.skips.listed == []
    (old,) = found.index.named("Brachypelma vagans")
    (target,) = old.targets
    assert old.status is NameStatus.OBJECTIVE_SYNONYM
    assert (target.original_genus, target.range, target.higher) == ("Eurypelma", ("Mexico",), ("Theraphosidae",))
    assert found.index.named("Brachypelma smithi")[0].status is NameStatus.MISAPPLIED
    assert [c.taxon.name for c in found.index.common("mexican red rump")] == ["Tliltocatl vagans"]
    edition = found.index.edition
    assert (edition.title, edition.edition, str(edition.dated), edition.licence) == (
        "Spiders",
        "2025.1",
        "2025-03-04",
        "cc by",
    )
    card = found.index.card("Tliltocatl vagans")
    assert card is not None
    assert card.citation == "Mendoza & Francke 2020"


def test_a_coldp_archive_of_names_taxa_and_synonyms(tmp_path: Path, read: ReadList) -> None:
    names = (
        "ID,scientificName,authorship,rank,basionymID,code,status\n"
        'n1,Tliltocatl vagans,"(Ausserer, 1875)",species,n3,zoological,\n'
        'n2,Brachypelma vagans,"(Ausserer, 1875)",species,n3,zoological,\n'
        'n3,Eurypelma vagans,"Ausserer, 1875",species,,zoological,\n'
        'n4,Citharacanthus vetus,"Roe, 1900",species,,zoological,\n'  # invented, as are n5 and the relation
        'n5,Citharacanthus novus,"Doe, 1950",species,,zoological,\n'
    )
    found = read(
        coldp(
            tmp_path / "a.zip",
            name__csv=names,
            taxon__csv="ID,nameID,parentID,kingdom\nt1,n1,,Animalia\nt5,n5,,Animalia\nt9,nowhere,,Animalia\n",
            synonym__csv="ID,taxonID,nameID,status\ns2,t1,n2,synonym\ns3,t1,n3,synonym\ns4,t5,n4,\n",
            name_relation__csv="nameID,relatedNameID,type,referenceID\nn5,n4,replacement name,r\n",
            reference__csv="ID,author,issued,title\nr,Doe,1950,On names\n",
        )
    )
    assert [(skip.line, skip.why) for skip in found.skips.listed] == [
        (4, "names 'nowhere', which is no Name of the archive")
    ]
    assert found.end("Brachypelma vagans") == ["Tliltocatl vagans"]
    assert found.index.named("Tliltocatl vagans")[0].subject.original_genus == "Eurypelma"
    (replaced,) = found.index.named("Citharacanthus vetus")
    (act,) = replaced.acts
    assert (replaced.status, act.kind, act.citation) == (
        NameStatus.REPLACED,
        ActKind.REPLACEMENT,
        "Doe (1950). On names",
    )


def test_coldp_without_a_header_is_read_by_position(tmp_path: Path, read: ReadList) -> None:
    # Order of docs/datapackage.json: ID, alternativeID, nameAlternativeID, sourceID, parentID, basionymID, status, ...
    row = "s\t\t\t\t\t\taccepted\tTliltocatl vagans\t(Ausserer, 1875)\tspecies"
    found = read(coldp(tmp_path / "a.zip", NameUsage__txt=row + "\n"))
    assert found.end("Tliltocatl vagans") == ["Tliltocatl vagans"]


def test_coldp_defaults_and_escapes(tmp_path: Path, read: ReadList) -> None:
    found = read(
        coldp(
            tmp_path / "a.zip",
            NameUsage__tsv='ID\tscientificName\tstatus\tremarks\ns\tTliltocatl vagans\t\ta\\tb "c\\\\\n',
            default__yaml="NameUsage:\n  code: zoological\n  kingdom: Animalia\n  rank: species\n",
        )
    )
    (statement,) = found.index.named("Tliltocatl vagans")
    assert (statement.note, statement.subject.kingdom) == ('a\tb "c\\', "Animalia")


TABLE = (
    "Species;Author;State;Valid name;Trivial name;Countries\n"
    "Tliltocatl vagans;(Ausserer, 1875);valid;;Red rump; Mexico\n"
    "Brachypelma vagans;(Ausserer, 1875);synonym;Tliltocatl vagans;;\n"
)


def test_a_table_with_a_guessed_map(tmp_path: Path, read: ReadList) -> None:
    table = tmp_path / "t.csv"
    table.write_text(TABLE, encoding="utf-8")
    found = read(table, name="Species", status="State")
    assert found.columns == {
        "name": "Species", "status": "State", "author": "Author", "accepted_name": "Valid name",
        "common": "Trivial name", "range": "Countries",
    }  # fmt: skip
    assert found.end("Brachypelma vagans") == ["Tliltocatl vagans"]
    assert [c.taxon.name for c in found.index.common("red rumps")] == ["Tliltocatl vagans"]


def test_a_table_of_names_in_parts(tmp_path: Path, read: ReadList) -> None:
    # The columns of the World Spider Catalog's species export (as published with TidyTuesday, 2021-12-07).
    table = tmp_path / "t.tsv"
    table.write_text(
        "speciesId\tgenus\tspecies\tsubspecies\tauthor\tyear\tparentheses\tdistribution\n"
        "1\tTliltocatl\tvagans\tNA\tAusserer\t1875\t1\tMexico\n"
        "2\tBrachypelma\themmi\tNA\tRoe\t1900\t0\tMexico\n",  # invented
        encoding="utf-8",
    )
    found = read(table)
    (moved,) = found.index.named("Tliltocatl vagans")
    assert (moved.subject.authorship, moved.subject.range, moved.subject.identifier) == (
        "(Ausserer, 1875)",
        ("Mexico",),
        "1",
    )
    assert found.index.named("Brachypelma hemmi")[0].subject.authorship == "Roe, 1900"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_encodings_of_spreadsheets(encoding: str, tmp_path: Path, read: ReadList) -> None:
    table = tmp_path / "t.csv"
    table.write_bytes(
        'scientificName,authorship\nPoecilotheria regalis,"Pocock, 1899"\nIdiops bräunlichi,Müller\n'.encode(encoding)
    )
    found = read(table)
    assert found.skips.listed == []
    assert found.index.named("Idiops braunlichi")[0].subject.authorship == "Müller"


def test_kept_common_names_follow_the_chain(tmp_path: Path, read: ReadList) -> None:
    found = read(dwca(tmp_path / "a.zip", common=[*COMMON, "3\tOld red rump\teng"]))
    assert [c.taxon.name for c in found.index.common("old red rump")] == ["Tliltocatl vagans"]
