"""A Darwin Core archive: Occurrence core, identification history, relations of parents, meta.xml and EML.

Sources: Darwin Core text guide (TDWG, 2023-09-13) for meta.xml; Darwin Core list of terms (2026-05-26) for the terms;
GBIF's Identification History extension (2025-07-10) for its columns and the rule that the current identification
stands in the core and in the extension; EML 2.2.0 for the metadata. What has no term is JSON in dynamicProperties.
"""

from __future__ import annotations

import csv
import io
import json
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from xml.sax.saxutils import escape

from namekeeper.files.lenient_json import json_of, mapping_in
from namekeeper.records.as_json import as_record, from_record
from namekeeper.records.specimen import Collection, NameEntry, Specimen, dated_entries
from namekeeper.tables.delimited import plain_csv
from namekeeper.tables.xml_parts import Zipped
from namekeeper.words.errors import InputError
from namekeeper.words.parsing import parse_name

_DWC = "http://rs.tdwg.org/dwc/terms/"
_EPOCH = (1980, 1, 1, 0, 0, 0)  # the same collection gives the same bytes
_KEY = "namekeeper"  # of our record within dynamicProperties
_CONSTANTS = (("basisOfRecord", "LivingSpecimen"), ("degreeOfEstablishment", "captive"), ("nomenclaturalCode", "ICZN"))
OCCURRENCE = (
    *("occurrenceID", "organismID", "catalogNumber", "scientificName", "scientificNameAuthorship"),
    *("identificationQualifier", "verbatimIdentification", "dateIdentified", "nameAccordingTo", "vernacularName"),
    *("verbatimLabel", "sex", "individualCount", "lifeStage", "eventDate", "occurrenceRemarks", "disposition"),
    *("previousIdentifications", "dynamicProperties"),
)
IDENTIFICATION = ("identificationID", "verbatimIdentification", "scientificName", "scientificNameAuthorship",
                  "identificationQualifier", "dateIdentified", "identifiedBy", "identificationReferences",
                  "nameAccordingTo", "identificationRemarks")  # fmt: skip
RELATIONSHIP = ("resourceID", "relationshipOfResource", "relatedResourceID", "relationshipEstablishedDate")


@dataclass(frozen=True, slots=True)
class _File:
    name: str
    row_type: str
    terms: Sequence[str]
    rows: Iterable[Sequence[str]]


def as_archive(collection: Collection, today: date) -> bytes:
    """The zip file of the archive."""
    known = {specimen.id for specimen in collection.specimens}
    core = _File("occurrence.csv", "Occurrence", OCCURRENCE, map(_occurrence, collection.specimens))
    extensions = (
        _File("identification.csv", "Identification", IDENTIFICATION, _identifications(collection.specimens)),
        _File("relationship.csv", "ResourceRelationship", RELATIONSHIP, _relationships(collection.specimens, known)),
    )
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        _put(archive, "meta.xml", _meta(core, extensions).encode())
        _put(archive, "eml.xml", _eml(collection, today).encode())
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


def _occurrence(specimen: Specimen) -> Sequence[str]:
    entry = specimen.entry_in_force()
    former = [_full(each) for each in specimen.live_entries() if each is not entry]
    count = specimen.sex.total if specimen.sex else 0
    return (
        specimen.id,
        specimen.id,
        specimen.id,
        *(_identified(entry) if entry else ("",) * 5),
        _according(entry) if entry else "",
        specimen.common,
        specimen.tag,
        _sex(specimen),
        str(count) if count else "",
        specimen.stage,
        str(specimen.acquired or ""),
        specimen.note,
        "deaccessioned" if specimen.left else "in collection",
        " | ".join(former),
        json.dumps({_KEY: as_record(specimen)}, ensure_ascii=False),
    )


def _identified(entry: NameEntry) -> tuple[str, str, str, str, str]:
    """Name with authorship, authorship, qualifier, name as on the label, date: scientificName has no qualifier."""
    _, qualifier, form = _parts(entry)
    doubt = " ".join(part for part in (qualifier, form and f'"{form}"') if part)
    return _full(entry), entry.authorship, doubt, _verbatim(entry), str(entry.since or "")


def _parts(entry: NameEntry) -> tuple[str, str, str]:
    """Name without qualifier, qualifier, trade form, also where a keeper wrote all in one."""
    try:
        read = parse_name(entry.name)
    except InputError:
        return entry.name, entry.qualifier, entry.trade_form
    return read.canonical, entry.qualifier or read.qualifier, entry.trade_form or read.trade_form


def _identifications(specimens: Iterable[Specimen]) -> Iterator[Sequence[str]]:
    for specimen in specimens:
        for dated in dated_entries(specimen):
            entry = dated.entry
            if entry.standing == "undone":
                continue
            full, authorship, qualifier, verbatim, since = _identified(entry)
            remarks = (entry.standing, "undone" if dated.undone else "", entry.form, entry.note)
            yield (
                specimen.id,
                f"{specimen.id}#{dated.number}",
                verbatim,
                full,
                authorship,
                qualifier,
                since,
                entry.decided_by,
                entry.link,
                _according(entry),
                "; ".join(remark for remark in remarks if remark),
            )


def _relationships(specimens: Iterable[Specimen], known: set[str]) -> Iterator[Sequence[str]]:
    for specimen in specimens:
        for origin in specimen.origin:
            if origin in known:
                yield specimen.id, specimen.id, "offspring of", origin, str(specimen.acquired or "")


def _full(entry: NameEntry) -> str:
    return f"{_parts(entry)[0]} {entry.authorship}".strip()


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
        yield f'    <field index="{index}" term="{_DWC}{term}"/>'
    for term, value in _CONSTANTS if element == "core" else ():
        yield f'    <field term="{_DWC}{term}" default="{value}"/>'
    yield f"  </{element}>"


def _eml(collection: Collection, today: date) -> str:
    title = "".join(sign for sign in collection.settings.title if sign.isprintable())  # XML 1.0 has no other signs
    title = escape(title.strip() or "A collection of living invertebrates")
    party = f"<organizationName>{title}</organizationName>"
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<eml:eml xmlns:eml="https://eml.ecoinformatics.org/eml-2.2.0" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
    xsi:schemaLocation="https://eml.ecoinformatics.org/eml-2.2.0 https://rs.gbif.org/schema/eml-2.2.0/eml.xsd"
    packageId="namekeeper-{today.isoformat()}" system="namekeeper" scope="system">
  <dataset>
    <title>{title}</title>
    <creator>{party}</creator>
    <pubDate>{today.isoformat()}</pubDate>
    <language>en</language>
    <abstract><para>Animals kept under labels, with every name each has carried and since when.</para></abstract>
    <contact>{party}</contact>
  </dataset>
</eml:eml>
"""


def _put(archive: zipfile.ZipFile, name: str, content: bytes) -> None:
    info = zipfile.ZipInfo(name, _EPOCH)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.external_attr = 0o644 << 16
    archive.writestr(info, content)
