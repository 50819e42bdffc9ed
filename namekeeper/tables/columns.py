"""Which column of a keeper's table holds what: guessed from headers and content, shown, and kept for next time."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from namekeeper.files.headers import column_named, columns_guessed
from namekeeper.tables.grid import TableSheet
from namekeeper.words.errors import InputError

FIELDS = ("id", "tag", "name", "since", "acquired", "sex", "locality", "from", "place", "note")

# Headers as keepers write them, by their keys (files.headers), in English, German, French and Spanish; the first that
# fits wins. Common practice.
_HEADERS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        field: tuple(words.split())
        for field, words in {
            "id": "id nr no number nummer inventory inventar inv code label numero boxid specimen specimenid animalid",
            "tag": "tag soldas sellerstext sellertag boughtas gekauftals verkauftals venducomme vendidocomo "
            "labeltext etikett description beschreibung",
            "name": "name scientificname species latinname taxon art wissenschaftlichername spezies espece "
            "nomscientifique especie nombrecientifico spider animal",
            "since": "since namesince namedon seit identified dateidentified depuis desde",
            "acquired": "acquired bought date purchasedate purchased gekauft kaufdatum datum got acquisitiondate "
            "erworben dateofpurchase achat datedachat fecha arrived",
            "sex": "sex gender geschlecht sexe sexo mf",
            "locality": "locality origin locale herkunft fundort provenance localite procedencia localidad",
            "from": "from seller breeder source von zuchter verkaufer vendeur eleveur vendedor handler shop dealer",
            "place": "place shelf room enclosure regal standort terrarium box rack emplacement estante location tank",
            "note": "note notes remark remarks comment comments notiz notizen bemerkung bemerkungen remarque "
            "remarques notas observaciones",
        }.items()
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
        index = column_named(sheet.headers, header)
        if index is not None and field not in columns and index not in columns.values():
            columns[field] = index
    if not kept:
        columns = _with_ids(sheet, columns_guessed(sheet.headers, _HEADERS, columns), ids)
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
    index = column_named(sheet.headers, header)
    if index is None:
        what = f"the table has no column '{header}'"
        raise InputError(what, remedy="its columns: " + ", ".join(text for text in sheet.headers if text.strip()))
    return index


def _with_ids(sheet: TableSheet, columns: Mapping[str, int], ids: Collection[str]) -> dict[str, int]:
    """Without a header for it the column of ids is the one most of whose cells are ids of the collection."""
    if "id" in columns or not ids:
        return dict(columns)
    held = {i: sum(row.cell(i) in ids for row in sheet.rows) for i in range(len(sheet.headers))}
    best = max(held, key=lambda i: held[i], default=None)
    if best is None or held[best] * 2 <= len(sheet.rows) or best in columns.values():
        return dict(columns)
    return {**columns, "id": best}
