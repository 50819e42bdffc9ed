"""The entities of a ColDP archive (COL Data Package 1.2): their files and fields, and rows of them kept at hand."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from pathlib import PurePosixPath
from types import MappingProxyType

from namekeeper.files.archive import Archive
from namekeeper.files.delimited import Dialect

_CSV = Dialect()
#: "No quoting at all", backslash escapes (ColDP README).
_TSV = Dialect(separator="\t", quote="", backslash=True)
DIALECTS = {".csv": _CSV, ".tsv": _TSV, ".tab": _TSV, ".txt": _TSV}
#: Entities that a list of names needs, with their fields in order (docs/datapackage.json).
_ORDERED = {
    "nameusage": """
        ID alternativeID nameAlternativeID sourceID parentID basionymID status scientificName authorship rank notho
        originalSpelling uninomial genericName infragenericEpithet specificEpithet infraspecificEpithet
        cultivarEpithet combinationAuthorship combinationAuthorshipID combinationExAuthorship
        combinationExAuthorshipID combinationAuthorshipYear basionymAuthorship basionymAuthorshipID
        basionymExAuthorship basionymExAuthorshipID basionymAuthorshipYear namePhrase nameReferenceID
        namePublishedInYear namePublishedInPage namePublishedInPageLink gender genderAgreement etymology code
        nameStatus accordingToID accordingToPage accordingToPageLink referenceID scrutinizer scrutinizerID
        scrutinizerDate extinct temporalRangeStart temporalRangeEnd environment species section subgenus genus
        subtribe tribe subfamily family superfamily suborder order subclass class subphylum phylum kingdom ordinal
        branchLength link nameRemarks remarks modified modifiedBy
    """,
    "name": """
        ID alternativeID sourceID basionymID scientificName authorship rank uninomial genus infragenericEpithet
        specificEpithet infraspecificEpithet cultivarEpithet notho originalSpelling combinationAuthorship
        combinationAuthorshipID combinationExAuthorship combinationExAuthorshipID combinationAuthorshipYear
        basionymAuthorship basionymAuthorshipID basionymExAuthorship basionymExAuthorshipID basionymAuthorshipYear
        code status referenceID publishedInYear publishedInPage publishedInPageLink gender genderAgreement etymology
        link remarks modified modifiedBy
    """,
    "taxon": """
        ID alternativeID sourceID parentID nameID namePhrase accordingToID accordingToPage accordingToPageLink
        provisional scrutinizer scrutinizerID scrutinizerDate extinct temporalRangeStart temporalRangeEnd
        environment referenceID species section subgenus genus subtribe tribe subfamily family superfamily suborder
        order subclass class subphylum phylum kingdom ordinal branchLength link remarks modified modifiedBy
    """,
    "synonym": """
        ID sourceID taxonID nameID namePhrase accordingToID accordingToPage accordingToPageLink status referenceID
        link remarks modified modifiedBy
    """,
    "vernacularname": """
        taxonID sourceID name transliteration language preferred country area sex referenceID remarks modified
        modifiedBy
    """,
    "distribution": """
        taxonID sourceID areaID area gazetteer establishmentMeans degreeOfEstablishment pathway threatStatus year
        season lifeStage referenceID remarks modified modifiedBy
    """,
    "namerelation": """
        nameID relatedNameID sourceID type referenceID page remarks modified modifiedBy
    """,
    "reference": """
        ID alternativeID sourceID citation type author authorID editor editorID title titleShort containerAuthor
        containerAuthorID containerTitle containerTitleShort issued accessed collectionTitle collectionEditor
        collectionEditorID volume issue edition page publisher publisherPlace version isbn issn doi link remarks
        modified modifiedBy
    """,
}
#: Fields by entity; a file without a header is read by position in this order.
FIELDS = MappingProxyType({entity: tuple(fields.split()) for entity, fields in _ORDERED.items()})


def entities(archive: Archive) -> dict[str, str]:
    """Members by ColDP entity: the file name without case, hyphens, underscores and suffix."""
    found: dict[str, str] = {}
    for member in sorted(archive.members, key=lambda name: name.count("/")):
        path = PurePosixPath(member)
        if path.suffix.lower() in DIALECTS and entity_of(path.stem) in FIELDS:
            found.setdefault(entity_of(path.stem), member)
    return found


def entity_of(name: str) -> str:
    """An entity's name as archives write it, without case, hyphens and underscores."""
    return name.replace("-", "").replace("_", "").casefold()


def places_of(entity: str, header: list[str]) -> dict[str, int]:
    """Columns by field; none if the first row is no header. A header may carry a prefix ("col:ID")."""
    known = {field.casefold(): field for field in (*FIELDS[entity], "status")}
    found: dict[str, int] = {}
    for place, cell in enumerate(header):
        field = known.get(cell.rpartition(":")[2].strip().casefold())
        if field is not None:
            found.setdefault(field, place)
    # "species" may be a rank in a first row of data; an identifier's name is no data.
    return found if FIELDS[entity][0] in found else {}


class NameShelf:
    """Rows of one file kept at hand while another is read: names for taxa, citations for everything.

    A private database in a temporary file that goes when it is closed.
    """

    FIELDS = ("ID", "scientificName", "authorship", "rank", "basionymID", "code", "status")

    def __init__(self) -> None:
        # The empty name makes SQLite keep what outgrows its cache in a file of its own, deleted when closed.
        self._database = sqlite3.connect("", isolation_level=None)
        self._database.executescript(
            "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA cache_size = -8192; BEGIN;"
            "CREATE TABLE name (id PRIMARY KEY, name, authorship, rank, basionym, code, status) WITHOUT ROWID;"
            "CREATE TABLE usage (name PRIMARY KEY, id) WITHOUT ROWID;"
            "CREATE TABLE reference (id PRIMARY KEY, citation) WITHOUT ROWID;"
        )

    def close(self) -> None:
        """Let go of the file."""
        self._database.close()

    def put_names(self, rows: Iterable[tuple[str, ...]]) -> None:
        """Names, in the order of ``FIELDS``; of two with one identifier the first counts."""
        self._database.executemany("INSERT OR IGNORE INTO name VALUES (?, ?, ?, ?, ?, ?, ?)", rows)

    def put_usages(self, rows: Iterable[tuple[str, str]]) -> None:
        """Pairs of usage and name."""
        self._database.executemany("INSERT OR IGNORE INTO usage (id, name) VALUES (?, ?)", rows)

    def put_references(self, rows: Iterable[tuple[str, str]]) -> None:
        """Pairs of identifier and citation."""
        self._database.executemany("INSERT OR IGNORE INTO reference VALUES (?, ?)", rows)

    def name(self, key: str) -> dict[str, str] | None:
        """A name as fields of a usage; its original combination by the usage that carries it."""
        found = self._database.execute("SELECT * FROM name WHERE id = ?", (key,)).fetchone()
        if found is None:
            return None
        _key, name, authorship, rank, basionym, code, status = found
        original = self.usage_of(basionym) if basionym and basionym != key else ""
        return {
            "scientificName": name, "authorship": authorship, "rank": rank, "basionymID": original, "code": code,
            "nameStatus": status,
        }  # fmt: skip

    def usage_of(self, name: str) -> str:
        """The first usage of a name; empty if it has none."""
        found = self._database.execute("SELECT id FROM usage WHERE name = ?", (name,)).fetchone()
        return "" if found is None else str(found[0])

    def reference(self, key: str) -> str:
        """A citation; empty if there is none of that identifier."""
        found = self._database.execute("SELECT citation FROM reference WHERE id = ?", (key,)).fetchone()
        return "" if found is None else str(found[0])
