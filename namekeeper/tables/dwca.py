"""A Darwin Core archive: Occurrence core, identification history, relations of parents, meta.xml and EML.

Sources: Darwin Core text guide (TDWG, 2023-09-13) for meta.xml; Darwin Core list of terms (2026-05-26) for the terms;
GBIF's Identification History extension (2025-07-10) for its columns and the rule that the current identification
stands in the core and in the extension. What has no term is JSON in dynamicProperties. Its choices:

- ``basisOfRecord`` LivingSpecimen, ``degreeOfEstablishment`` captive (value d002 of its controlled vocabulary). Captive
  is no value of establishmentMeans (github.com/gbif/portal-feedback/issues/4885), which is left out.
- ``locality`` and ``country`` are where the stock came from, as GBIF asks of living collections, not where it is kept
  (github.com/gbif/portal-feedback/issues/1627).
- No ``eventDate``: by its definition the day an occurrence was recorded; the day of acquisition is none, nor is it
  known on which day the founders were collected.
- ``scientificName`` is the lowest name that can be determined (its definition of 2026-05-26), never a tag's word that
  nobody has settled: that is ``verbatimIdentification``.
"""

from __future__ import annotations

import csv
import io
import json
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from namekeeper.files.lenient_json import json_of, mapping_in
from namekeeper.reading.areas import country_of
from namekeeper.records.as_json import as_record, from_record
from namekeeper.records.specimen import Collection, NameEntry, Specimen, dated_entries
from namekeeper.tables.delimited import plain_csv
from namekeeper.tables.eml import as_eml
from namekeeper.tables.published import LICENCES, LowestName, Publication, shareable
from namekeeper.tables.xml_parts import Zipped
from namekeeper.words.errors import InputError
from namekeeper.words.parsing import parse_name

_DWC, _DCTERMS = "http://rs.tdwg.org/dwc/terms/", "http://purl.org/dc/terms/"
_OF_DUBLIN_CORE = frozenset({"license", "rightsHolder"})
_EPOCH = (1980, 1, 1, 0, 0, 0)  # the same collection gives the same bytes
_KEY = "namekeeper"  # of our record within dynamicProperties
_CONSTANTS = (
    ("basisOfRecord", "LivingSpecimen"), ("degreeOfEstablishment", "captive"), ("nomenclaturalCode", "ICZN"),
    ("kingdom", "Animalia"),
)  # fmt: skip
OCCURRENCE = (
    *("occurrenceID", "organismID", "catalogNumber", "scientificName", "scientificNameAuthorship", "taxonRank"),
    *("identificationQualifier", "verbatimIdentification", "dateIdentified", "nameAccordingTo", "vernacularName"),
    *("verbatimLabel", "sex", "individualCount", "lifeStage", "locality", "country", "occurrenceRemarks"),
    *("disposition", "previousIdentifications", "license", "rightsHolder", "dynamicProperties"),
)
IDENTIFICATION = ("identificationID", "verbatimIdentification", "scientificName", "scientificNameAuthorship",
                  "taxonRank", "identificationQualifier", "dateIdentified", "identifiedBy",
                  "identificationReferences", "nameAccordingTo", "identificationRemarks")  # fmt: skip
RELATIONSHIP = ("resourceID", "relationshipOfResource", "relatedResourceID")


@dataclass(frozen=True, slots=True)
class _File:
    name: str
    row_type: str
    terms: Sequence[str]
    rows: Iterable[Sequence[str]]


def as_archive(collection: Collection, publication: Publication) -> bytes:
    """The zip file of the archive."""
    known = {specimen.id for specimen in collection.specimens}
    specimens = [shareable(specimen, publication.shared, known) for specimen in collection.specimens]
    core = _File("occurrence.csv", "Occurrence", OCCURRENCE, (_occurrence(one, publication) for one in specimens))
    identifications = _identifications(specimens, publication)
    extensions = (
        _File("identification.csv", "Identification", IDENTIFICATION, identifications),
        _File("relationship.csv", "ResourceRelationship", RELATIONSHIP, _relationships(specimens, publication, known)),
    )
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        _put(archive, "meta.xml", _meta(core, extensions).encode())
        _put(archive, "eml.xml", as_eml(collection, publication).encode())
        _put(archive, core.name, plain_csv(core.terms, core.rows))
        for extension in extensions:
            _put(archive, extension.name, plain_csv(("coreid", *extension.terms), extension.rows))
    return target.getvalue()


def own_records(content: bytes) -> tuple[Specimen, ...] | None:
    """Specimens of :func:`as_archive`; None for anything else, such as an archive of others.

    :raises InputError: for an archive of ours in which a record is damaged.
    """
    try:
        zipped = Zipped(content)
        core = zipped.part("occurrence.csv").decode("utf-8") if "occurrence.csv" in zipped.names() else ""
        reader = csv.DictReader(io.StringIO(core, newline=""))
        records = [_record(row) for row in reader]
    except (InputError, ValueError, csv.Error):
        return None
    if tuple(reader.fieldnames or ()) != OCCURRENCE and not any(record is not None for record in records):
        return None
    try:
        return tuple(from_record(mapping_in(record)) for record in records)
    except (ValueError, TypeError, AttributeError) as error:
        what = f"this archive is a damaged export of a collection: {error}"
        raise InputError(what, remedy="export the collection again") from None


def _record(row: Mapping[str, str]) -> object:
    """Our record within dynamicProperties, None where there is none."""
    try:
        return mapping_in(json_of(row["dynamicProperties"])).get(_KEY)
    except (KeyError, ValueError, TypeError):
        return None


def _occurrence(specimen: Specimen, publication: Publication) -> Sequence[str]:
    entry = specimen.entry_in_force()
    former = [_full(each) for each in specimen.live_entries() if each is not entry]
    count = specimen.sex.total if specimen.sex else 0
    licence = LICENCES.get(publication.licence.casefold())
    return (
        publication.id_of(specimen.id),
        publication.id_of(specimen.id),
        specimen.id,
        *(_identified(entry) if entry else _unnamed(specimen, publication.known_of(specimen.id))),
        _according(entry) if entry else "",
        specimen.common,
        specimen.tag,
        _sex(specimen),
        str(count) if count else "",
        specimen.stage,
        specimen.locality,
        country_of(specimen.locality) or "",
        specimen.note,
        "deaccessioned" if specimen.left else "in collection",
        " | ".join(former),
        licence.url if licence else publication.licence.strip(),
        publication.rights_holder.strip(),
        json.dumps({_KEY: as_record(specimen)}, ensure_ascii=False),
    )


def _unnamed(specimen: Specimen, known: LowestName) -> Sequence[str]:
    """As :func:`_identified`, of an animal of which there is only the seller's text."""
    return known.name, "", known.rank, "", specimen.tag, ""


def _identified(entry: NameEntry) -> Sequence[str]:
    """Name with authorship, authorship, rank, qualifier, name as on the label, date.

    scientificName has no qualifier; what is no name is an animal, and stands word for word beside it.
    """
    name, rank, qualifier, form = _parts(entry)
    doubt = " ".join(part for part in (qualifier, form and f'"{form}"') if part)
    since = str(entry.since or "")
    if not name:
        return "Animalia", "", "kingdom", doubt, _verbatim(entry), since
    return _full(entry), entry.authorship, rank, doubt, _verbatim(entry), since


def _parts(entry: NameEntry) -> tuple[str, str, str, str]:
    """Name without qualifier, its rank, qualifier, trade form, also where a keeper wrote all in one."""
    try:
        read = parse_name(entry.name)
    except InputError:
        return "", "", entry.qualifier, entry.trade_form
    rank = "" if read.parents else read.rank
    return read.canonical, rank, entry.qualifier or read.qualifier, entry.trade_form or read.trade_form


def _identifications(specimens: Iterable[Specimen], publication: Publication) -> Iterator[Sequence[str]]:
    for specimen in specimens:
        own = publication.id_of(specimen.id)
        for dated in dated_entries(specimen):
            entry = dated.entry
            if entry.standing == "undone":
                continue
            full, authorship, rank, qualifier, verbatim, since = _identified(entry)
            remarks = (entry.standing, "undone" if dated.undone else "", entry.form, entry.note)
            yield (
                own,
                f"{own}#{dated.number}",
                verbatim,
                full,
                authorship,
                rank,
                qualifier,
                since,
                entry.decided_by,
                entry.link,
                _according(entry),
                "; ".join(remark for remark in remarks if remark),
            )


def _relationships(specimens: Iterable[Specimen], publication: Publication, known: set[str]) -> Iterator[Sequence[str]]:
    for specimen in specimens:
        own = publication.id_of(specimen.id)
        for origin in specimen.origin:
            if origin in known:
                yield own, own, "offspring of", publication.id_of(origin)


def _full(entry: NameEntry) -> str:
    return f"{_parts(entry)[0] or entry.name} {entry.authorship}".strip()


def _verbatim(entry: NameEntry) -> str:
    """The label's words: the qualifier before the last word of the name, a trade form in quotes behind it."""
    words = entry.name.split()
    if entry.qualifier and len(words) > 1:
        words.insert(len(words) - 1, entry.qualifier)
    elif entry.qualifier:
        words.append(entry.qualifier)
    return " ".join([*words, *([f'"{entry.trade_form}"'] if entry.trade_form else [])])


def _according(entry: NameEntry) -> str:
    return " | ".join(part for part in (entry.according_to, entry.source) if part)


def _sex(specimen: Specimen) -> str:
    """One word where all animals are alike (GBIF vocabulary of sex), else the counts."""
    sex = specimen.sex
    if sex is None:
        return ""
    for count, word in ((sex.male, "male"), (sex.female, "female"), (sex.unsexed, "undetermined")):
        if count == sex.total > 0:
            return word
    return sex.text


def _meta(core: _File, extensions: Sequence[_File]) -> str:
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        (
            '<archive xmlns="http://rs.tdwg.org/dwc/text/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"'
            ' xsi:schemaLocation="http://rs.tdwg.org/dwc/text/ http://rs.tdwg.org/dwc/text/tdwg_dwc_text.xsd"'
            ' metadata="eml.xml">'
        ),
        *_described("core", "id", core, 0),
    ]
    for extension in extensions:
        lines += _described("extension", "coreid", extension, 1)
    return "\n".join([*lines, "</archive>", ""])


def _described(element: str, key: str, file: _File, first: int) -> Iterator[str]:
    yield (
        f'  <{element} encoding="UTF-8" fieldsTerminatedBy="," linesTerminatedBy="\\n" fieldsEnclosedBy=\'"\''
        f' ignoreHeaderLines="1" rowType="{_DWC}{file.row_type}">'
    )
    yield f"    <files><location>{file.name}</location></files>"
    yield f'    <{key} index="0"/>'
    for index, term in enumerate(file.terms, first):
        yield f'    <field index="{index}" term="{_DCTERMS if term in _OF_DUBLIN_CORE else _DWC}{term}"/>'
    for term, value in _CONSTANTS if element == "core" else ():
        yield f'    <field term="{_DWC}{term}" default="{value}"/>'
    yield f"  </{element}>"


def _put(archive: zipfile.ZipFile, name: str, content: bytes) -> None:
    info = zipfile.ZipInfo(name, _EPOCH)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.external_attr = 0o644 << 16
    archive.writestr(info, content)
