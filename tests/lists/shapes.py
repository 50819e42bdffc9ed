"""Small lists in the shapes of published ones: what is theirs is the shape, whose source stands beside each.

Rows are of our own: Tliltocatl vagans, moved from Brachypelma by Mendoza & Francke 2020 (doi
10.1093/zoolinnean/zlz046), its other names (World Spider Catalog, from memory), and where said invented ones.
"IO" is github.com/gbif/dwca-io at b75350c, folder src/test/resources, which holds archives of real publishers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

VAGANS, OLD = "Tliltocatl vagans (Ausserer, 1875)", "Brachypelma vagans (Ausserer, 1875)"


@dataclass(frozen=True)
class Shape:
    """A file as others make it.

    :param source: where the shape is published.
    :param files: of a zip archive; one file without meta.xml and ``packed`` False is a bare table of that name.
    :param rows: rows that hold a name, counted by another reader in the test.
    :param told: rows that are kept with a remark, by a part of it.
    :param left: rows that are left out, by a part of the reason.
    """

    name: str
    source: str
    files: Mapping[str, str]
    rows: int
    told: Mapping[str, int] = field(default_factory=dict)
    left: Mapping[str, int] = field(default_factory=dict)
    packed: bool = True
    core: str = "taxon.txt"


def meta(fields: str, table: str = "", *, core: str = "taxon.txt", row_type: str = "Taxon", more: str = "") -> str:
    """A metafile with a core of these terms in order; ``table`` are attributes that differ from the usual ones."""
    attributes = {
        "encoding": "UTF-8", "fieldsTerminatedBy": "\\t", "linesTerminatedBy": "\\n", "fieldsEnclosedBy": "",
        "ignoreHeaderLines": "1", "rowType": f"http://rs.tdwg.org/dwc/terms/{row_type}",
    }  # fmt: skip
    for pair in filter(None, table.split("|")):
        key, _, value = pair.partition("=")
        attributes[key] = value
    shown = " ".join(f"{key}='{value}'" for key, value in attributes.items())
    terms = "".join(
        f'<field index="{index}" term="http://rs.tdwg.org/dwc/terms/{term}"/>'
        for index, term in enumerate(fields.split())
    )
    return (
        f'<archive xmlns="http://rs.tdwg.org/dwc/text/"><core {shown}><files><location>{core}</location></files>'
        f'<id index="0"/>{terms}</core>{more}</archive>'
    )


def extension(row_type: str, location: str, coreid: str, fields: str) -> str:
    terms = "".join(f'<field index="{1 + i}" term="{term}"/>' for i, term in enumerate(fields.split()))
    return (
        "<extension encoding='UTF-8' fieldsTerminatedBy='\\t' linesTerminatedBy='\\n' fieldsEnclosedBy=''"
        f" ignoreHeaderLines='1' rowType='{row_type}'><files><location>{location}</location></files>"
        f"{coreid}{terms}</extension>"
    )


_FULL = "taxonID scientificName taxonomicStatus acceptedNameUsageID taxonRank"
_ROWS = f"id\tname\tstatus\taccepted\trank\n2\t{VAGANS}\tvalid\t\tSpecies\n3\t{OLD}\tinvalid\t2\tSpecies\n"
_WORDS = (
    "unaccepted", "junior subjective synonym", "superseded combination", "PROPARTE_SYNONYM", "synonyme", "sinónimo",
    "Synonym", "não aceito", "nom. rejiciendum?", "sunk",
)  # fmt: skip
_VERNACULAR = "http://rs.gbif.org/terms/1.0/VernacularName"

SHAPES = (
    Shape(
        "row type of before the standard",
        "IO archive-dwc and its test in github.com/gbif/gbif-ecat: rowType .../terms/DarwinCore",
        {"meta.xml": meta(_FULL, row_type="DarwinCore"), "taxon.txt": _ROWS},
        2,
    ),
    Shape(
        "terms in other capitals",
        "IO meta/meta.xml: ScientificName, TaxonRank, NomenclaturalCode, Kingdom as a constant",
        {
            "meta.xml": meta(
                "TaxonID ScientificName TaxonomicStatus AcceptedTaxonID TaxonRank",
                more="",
            ).replace("</core>", '<field term="http://rs.tdwg.org/dwc/terms/Kingdom" default="Animalia"/></core>'),
            "taxon.txt": _ROWS,
        },
        2,
    ),
    Shape(
        "a coreid without an index",
        "IO nullCoreID.zip",
        {
            "meta.xml": meta(
                _FULL,
                more=extension(_VERNACULAR, "names.txt", "<coreid/>", "http://rs.tdwg.org/dwc/terms/vernacularName"),
            ),
            "taxon.txt": _ROWS,
            "names.txt": "id\tname\n2\tMexican red rump\n",
        },
        2,
        told={"names no column for the taxon": 1},
    ),
    Shape(
        "a file of an extension that nobody reads is missing",
        "IO invalid/extension-missing",
        {
            "meta.xml": meta(
                _FULL,
                more=extension(
                    "http://rs.gbif.org/terms/1.0/Multimedia",
                    "media.txt",
                    '<coreid index="0"/>',
                    "http://purl.org/dc/terms/identifier",
                ),
            ),
            "taxon.txt": _ROWS,
        },
        2,
    ),
    Shape(
        "a file of common names is missing",
        "IO invalid/extension-missing, with another row type",
        {
            "meta.xml": meta(
                _FULL,
                more=extension(
                    _VERNACULAR, "names.txt", '<coreid index="0"/>', "http://rs.tdwg.org/dwc/terms/vernacularName"
                ),
            ),
            "taxon.txt": _ROWS,
        },
        2,
        left={"'names.txt', which meta.xml names, is not in the archive": 1},
    ),
    Shape(
        "names in parts, row by row",
        "IO checklist_980.zip (a checklist of spiders, doi 10.3897/BDJ.1.e980): scientificName empty, genus and epithet"
        " filled, some rows without any name, semicolons",
        {
            "meta.xml": meta(
                "taxonID scientificName family specificEpithet genus subgenus taxonRank",
                "fieldsTerminatedBy=;|fieldsEnclosedBy=&quot;",
                core="taxa.csv",
            ),
            "taxa.csv": (
                "taxonID;scientificName;family;specificEpithet;genus;subgenus;taxonRank\n"
                "980-sp1;;;;;;\n980-sp2;;;labyrinthica;Agelena;;\n980-sp3;Araneus diadematus;;diadematus;Araneus;;\n"
                "980-sp4;;Lycosidae;radiata;Hogna;;species\n980-sp5;;;;Pardosa;;\n"
            ),
        },
        4,
        left={"no name in this row": 1},
        core="taxa.csv",
    ),
    Shape(
        "trailing tabs cut off",
        "checklists written by scripts that trim lines; as IO gnub.tab, of which trailing columns are mostly empty",
        {
            "meta.xml": meta(
                "taxonID scientificName family taxonRank taxonomicStatus acceptedNameUsageID taxonRemarks"
            ),
            "taxon.txt": (
                "id\tname\tfamily\trank\tstatus\taccepted\tremarks\n"
                f"2\t{VAGANS}\tTheraphosidae\n3\t{OLD}\tTheraphosidae\tspecies\tsynonym\t2\n4\tAgelena labyrinthica\n"
                "5\tAraneus diadematus\tAraneidae\tspecies\tvalid\t\twhole\n"
            ),
        },
        4,
        told={"the missing ones are taken as empty": 3},
    ),
    Shape(
        "words of status in four languages",
        "World Register of Marine Species (marinespecies.org, words also in MilliBase); GBIF API TaxonomicStatus;"
        " github.com/gbif/parsers taxStatus.tsv",
        {
            "meta.xml": meta(_FULL),
            "taxon.txt": f"id\tname\tstatus\taccepted\trank\n2\t{VAGANS}\taccepted\t\tspecies\n"
            + "".join(f"{n}\tAus species{chr(97 + n)}\t{word}\t2\tspecies\n" for n, word in enumerate(_WORDS, 3)),
        },
        11,
        told={"is not known: a synonym by the accepted name": 3},
    ),
    Shape(
        "an unknown word and nothing to go by",
        "github.com/gbif/parsers taxStatus.tsv is open-ended: publishers write what they like",
        {
            "meta.xml": meta(_FULL),
            "taxon.txt": f"id\tname\tstatus\taccepted\trank\n2\t{VAGANS}\tvalid\t\tspecies\n"
            "3\tAus bus\tsunk\t\tspecies\n",
        },
        2,
        left={"status 'sunk' is not known": 1},
    ),
    Shape(
        "five lines of header",
        "IO multiline-header",
        {
            "meta.xml": meta("taxonID scientificName taxonRank", "ignoreHeaderLines=5"),
            "taxon.txt": "# a\n# b\n# c\n# d\n# e\n" + f"2\t{VAGANS}\tSpecies\n",
        },
        1,
    ),
    Shape(
        "a folder in the archive, and what a packer left",
        "IO archive-tax.zip",
        {
            "spiders/meta.xml": meta(_FULL),
            "spiders/taxon.txt": _ROWS,
            "__MACOSX/spiders/._meta.xml": "\x00\x05",
            "__MACOSX/spiders/._taxon.txt": "\x00\x05",
        },
        2,
        core="spiders/taxon.txt",
    ),
    Shape(
        "a term without a column",
        "IO meta-xml-variants/dwca-id-with-term",
        {
            "meta.xml": meta(_FULL).replace(
                '<field index="0"', '<field term="http://rs.tdwg.org/dwc/terms/scientificName"/><field index="0"', 1
            ),
            "taxon.txt": _ROWS,
        },
        2,
    ),
    Shape(
        "a zip of one plain table",
        "IO gnub.tab.zip; downloads of one table by GBIF (techdocs.gbif.org/en/data-use/download-formats)",
        {
            "gnub.tab": (
                "taxonID\tacceptedNameUsageID\tscientificName\tacceptedNameUsage\tgenus\tspecificEpithet\n"
                f"a\ta\t{VAGANS}\t{VAGANS}\tTliltocatl\tvagans\nb\ta\t{OLD}\t{VAGANS}\tBrachypelma\tvagans\n"
            ),
            "__MACOSX/._gnub.tab": "\x00\x05",
        },
        2,
        core="gnub.tab",
    ),
    Shape(
        "the species list of a download",
        "GBIF species list download (techdocs.gbif.org/en/data-use/download-formats), names of columns from memory",
        {
            "list.csv": (
                "taxonKey\tscientificName\tacceptedTaxonKey\tacceptedScientificName\tnumberOfOccurrences\ttaxonRank\t"
                f"taxonomicStatus\tkingdom\n11\t{VAGANS}\t11\t{VAGANS}\t41\tSPECIES\tACCEPTED\tAnimalia\n"
                f"12\t{OLD}\t11\t{VAGANS}\t7\tSPECIES\tSYNONYM\tAnimalia\n"
            ),
        },
        2,
        core="list.csv",
    ),
    Shape(
        "a national register",
        "TAXREF (inpn.mnhn.fr/programme/referentiel-taxonomique-taxref); header seen in a public script that reads it",
        {
            "TAXREF.txt": (
                "REGNE\tPHYLUM\tCLASSE\tORDRE\tFAMILLE\tCD_NOM\tCD_TAXSUP\tCD_REF\tRANG\tLB_NOM\tLB_AUTEUR\t"
                "NOM_COMPLET\tNOM_VALIDE\tNOM_VERN\n"
                "Animalia\tArthropoda\tArachnida\tAraneae\tTheraphosidae\t2\t1\t2\tES\tTliltocatl vagans\t"
                "(Ausserer, 1875)\t" + VAGANS + "\t" + VAGANS + "\tMygale à croupe rouge\n"
                "Animalia\tArthropoda\tArachnida\tAraneae\tTheraphosidae\t3\t\t2\tES\tBrachypelma vagans\t"
                "(Ausserer, 1875)\t" + OLD + "\t" + VAGANS + "\t\n"
            ),
        },
        2,
        packed=False,
        core="TAXREF.txt",
    ),
    Shape(
        "the species of a catalogue",
        "World Spider Catalog, daily species export (wsc.nmbe.ch/dataresources): genus, species, author, year,"
        " parentheses, distribution; no rows of it, its data are not free",
        {
            "species.csv": (
                "speciesId,species_lsid,family,genus,species,subspecies,author,year,parentheses,distribution\n"
                "1,urn:x:1,Theraphosidae,Tliltocatl,vagans,,Ausserer,1875,1,Mexico\n"
                "2,urn:x:2,Theraphosidae,Avicularia,avicularia,variegata,F. O. Pickard-Cambridge,1896,1,Brazil\n"
            ),
        },
        2,
        packed=False,
        core="species.csv",
    ),
    Shape(
        "a table in German",
        "regional check lists as spreadsheets, common practice, no source",
        {
            "liste.csv": (
                "Gattung;Art;Autor;Jahr;Klammern;Status;Gültiger Name;Familie;Bemerkung\n"
                "Tliltocatl;vagans;Ausserer;1875;ja;gültig;;Theraphosidae;\n"
                "Brachypelma;vagans;Ausserer;1875;ja;ungültig;Tliltocatl vagans;Theraphosidae;2020\n"
            ),
        },
        2,
        packed=False,
        core="liste.csv",
    ),
    Shape(
        "line ends of old spreadsheets, headers in capitals",
        "IO csv_optional_quotes_excel2008CSV.csv",
        {"old.csv": f'TaxonID,ScientificName,AcceptedNameUsage\r1,"{VAGANS}",\r2,"{OLD}","{VAGANS}"\r'},
        2,
        packed=False,
        core="old.csv",
    ),
)
