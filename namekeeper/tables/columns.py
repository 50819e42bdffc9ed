"""Which column of a keeper's table holds what: guessed from headers and content, shown, and kept for next time."""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from namekeeper.tables.grid import TableSheet
from namekeeper.words.errors import InputError

FIELDS = ("id", "tag", "name", "since", "acquired", "sex", "locality", "from", "place", "note")

# Headers as keepers write them, in English, German, French and Spanish; the first that fits wins. Common practice.
_HEADERS: Mapping[str, str] = MappingProxyType(
    {
        "id": "id|nr|no|number|nummer|inventory|inventar|inv|code|label|numero|box id|specimen|specimen id|animal id",
        "tag": "tag|sold as|seller s text|seller tag|bought as|gekauft als|verkauft als|vendu comme|vendido como|"
        "label text|etikett|description|beschreibung",
        "name": "name|scientific name|scientificname|species|latin name|taxon|art|wissenschaftlicher name|spezies|"
        "espece|nom scientifique|especie|nombre cientifico|spider|animal",
        "since": "since|name since|named on|seit|identified|dateidentified|depuis|desde",
        "acquired": "acquired|bought|date|purchase date|purchased|gekauft|kaufdatum|datum|got|acquisition date|"
        "erworben|date of purchase|achat|date d achat|fecha|arrived",
        "sex": "sex|gender|geschlecht|sexe|sexo|m f",
        "locality": "locality|origin|locale|herkunft|fundort|provenance|localite|procedencia|localidad",
        "from": "from|seller|breeder|source|von|zuchter|verkaufer|vendeur|eleveur|vendedor|handler|shop|dealer",
        "place": "place|shelf|room|enclosure|regal|standort|terrarium|box|rack|emplacement|estante|location|tank",
        "note": "note|notes|remark|remarks|comment|comments|notiz|notizen|bemerkung|bemerkungen|remarque|remarques|"
        "notas|observaciones",
    }
)


@dataclass(frozen=True, slots=True)
class ColumnMap:
    """Field -> index of its column, and the same as the keeper reads it."""

    columns: Mapping[str, int]
    headers: Mapping[str, str]


def map_columns(
    sheet: TableSheet, told: Mapping[str, str], kept: Mapping[str, str], ids: Collection[str] = ()
) -> ColumnMap:
    """The columns of a sheet: as told, else as kept from an earlier import of such a table, else guessed.

    :raises InputError: for an unknown field, a header that is not there, or a table with neither tag nor name.
    """
    columns: dict[str, int] = {}
    for field, header in told.items():
        columns[field] = _told(sheet, field, header)
    for field, header in kept.items():
        index = sheet.column(header)
        if index is not None and field not in columns and index not in columns.values():
            columns[field] = index
    if not kept:
        _guess(sheet, columns, ids)
    if "tag" not in columns and "name" not in columns:
        what = f"no column with tags or names was found among: {', '.join(sheet.headers) or 'nothing'}"
        raise InputError(what, remedy="say which it is: --column tag=HEADER or --column name=HEADER")
    return ColumnMap(columns, {field: sheet.title(columns[field]) for field in FIELDS if field in columns})


def signature(sheet: TableSheet) -> str:
    """A key for tables of the same headers."""
    return hashlib.sha256("\x1f".join(sheet.headers).encode("utf-8", "surrogatepass")).hexdigest()[:16]


def _told(sheet: TableSheet, field: str, header: str) -> int:
    if field not in FIELDS:
        what = f"unknown field '{field}'"
        raise InputError(what, remedy="fields: " + ", ".join(FIELDS))
    index = sheet.column(header)
    if index is None:
        what = f"the table has no column '{header}'"
        raise InputError(what, remedy="its columns: " + ", ".join(text for text in sheet.headers if text.strip()))
    return index


def _guess(sheet: TableSheet, columns: dict[str, int], ids: Collection[str]) -> None:
    keys = [_key(header) for header in sheet.headers]
    for field, names in _HEADERS.items():
        if field in columns:
            continue
        free = {key: i for i, key in reversed(list(enumerate(keys))) if i not in columns.values()}
        index = next((free[name] for name in names.split("|") if name in free), None)
        if index is not None:
            columns[field] = index
    if "id" not in columns and ids:
        held = {i: sum(row.cell(i) in ids for row in sheet.rows) for i in range(len(sheet.headers))}
        best = max(held, key=lambda i: held[i], default=None)
        if best is not None and held[best] * 2 > len(sheet.rows) and best not in columns.values():
            columns["id"] = best


def _key(header: str) -> str:
    """A header without case, marks and signs, so that "Nr." is "nr" and "Züchter" is "zuchter"."""
    bare = (sign for sign in unicodedata.normalize("NFKD", header.casefold()) if not unicodedata.combining(sign))
    return " ".join("".join(sign if sign.isalnum() else " " for sign in bare).split())
