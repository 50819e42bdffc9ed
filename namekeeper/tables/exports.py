"""A collection as JSON or CSV, and both read back without loss."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence

from namekeeper.files.lenient_json import json_of, mapping_in
from namekeeper.records.as_json import TEXTS, Record, as_record, from_record
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.tables.delimited import safe_csv, unguarded
from namekeeper.tables.grid import TableSheet
from namekeeper.words.errors import InputError

_LISTS = ("names", "decisions", "papers")
_SINCE_0_2 = ("size", "price", "papers")  # an export of version 0.1 does without
_PLAIN = ("id", *(key for key in TEXTS if key != "tag"), "acquired", "sex")
CSV_HEADERS = ("id", "tag", "name", "authorship", "since", "acquired", "sex", "locality", "common", "stage", "from",
               "place", "note", "caution", "left_date", "left_how", "names", "decisions", *_SINCE_0_2)  # fmt: skip


def as_json(collection: Collection) -> bytes:
    """The whole collection as one JSON document, ``"version": 1``."""
    specimens = [as_record(specimen) for specimen in collection.specimens]
    document = {"version": 1, "title": collection.settings.title, "specimens": specimens}
    return (json.dumps(document, ensure_ascii=False, indent=1) + "\n").encode("utf-8", "surrogatepass")


def from_json(content: bytes) -> tuple[Specimen, ...]:
    """Specimens of :func:`as_json`.

    :raises InputError: for any other JSON.
    """
    try:
        document = mapping_in(json_of(content))
        return tuple(from_record(record) for record in document["specimens"])
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        what = f"this JSON is no export of a collection: {error}"
        raise InputError(what, remedy="give a file of namekeeper collection export --as json") from None


def as_csv(collection: Collection) -> bytes:
    """One row a specimen; name, authorship and since are those in force, the whole history is JSON in its column."""
    return safe_csv(CSV_HEADERS, (_row(specimen) for specimen in collection.specimens))


def is_own_csv(sheet: TableSheet) -> bool:
    """Whether a sheet is a CSV export of ours, in any order of columns."""
    return set(CSV_HEADERS) - set(_SINCE_0_2) <= set(sheet.headers)


def from_csv(sheet: TableSheet) -> Iterator[tuple[int, Specimen | str]]:
    """Row number and specimen, or why the row is none."""
    places = {header: sheet.headers.index(header) for header in CSV_HEADERS if header in sheet.headers}
    for row in sheet.rows:
        cells = dict.fromkeys(CSV_HEADERS, "") | {name: unguarded(row.cell(at)) for name, at in places.items()}
        try:
            yield row.number, from_record(_record(cells))
        except ValueError as error:
            yield row.number, str(error)


def _row(specimen: Specimen) -> Sequence[str]:
    record, entry = as_record(specimen), specimen.entry_in_force()
    cells = {key: str(record.get(key, "")) for key in (*_PLAIN, "tag")}
    if entry is not None:
        cells |= {"name": entry.name, "authorship": entry.authorship, "since": str(entry.since or "")}
    origin = specimen.origin
    plain = len(origin) < 2 and not "".join(origin).startswith("[")
    cells["from"] = "".join(origin) if plain else _compact(list(origin))
    cells |= {f"left_{key}": str(record.get("left", {}).get(key, "")) for key in ("date", "how")}
    cells |= {key: _compact(record[key]) if key in record else "" for key in _LISTS}
    return [cells.get(header, "") for header in CSV_HEADERS]


def _record(cells: dict[str, str]) -> Record:
    record: Record = {key: cells[key] for key in (*_PLAIN, "tag")}
    record |= {key: json_of(cells[key]) for key in _LISTS if cells[key]}
    origin = cells["from"]
    record["from"] = json_of(origin) if origin.startswith("[") else [origin] if origin else []
    if cells["left_date"] or cells["left_how"]:
        record["left"] = {"date": cells["left_date"], "how": cells["left_how"]}
    return record


def _compact(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)
