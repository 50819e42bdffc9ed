"""A specimen as plain data and back, without loss: the heart of every export."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

from namekeeper.records.specimen import Decision, Left, NameEntry, Paper, Sex, Specimen
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Place

Record = dict[str, Any]

# Key of the file format (contract) -> field of the value, where the two differ or the value is a text.
TEXTS = MappingProxyType(
    {
        "tag": "tag",
        "locality": "locality",
        "common": "common",
        "stage": "stage",
        "place": "stands_at",
        "note": "note",
        "caution": "caution",
        "size": "size",
        "price": "price",
    }
)
ENTRY_TEXTS = ("name", "authorship", "standing", "according_to", "source", "retrieved", "link", "licence", "decided_by",
               "note", "qualifier", "trade_form", "form", "undoes")  # fmt: skip
DECISION_TEXTS = ("kind", "name", "digest", "proposed", "note", "decided_by", "undoes")
PAPER_TEXTS = ("kind", "number", "name")


def as_record(specimen: Specimen) -> Record:
    """The keys of the file format with texts, lists and mappings; what is empty is left out."""
    record: Record = {"id": specimen.id}
    record |= {key: getattr(specimen, field) for key, field in TEXTS.items()}
    record["acquired"] = _text(specimen.acquired)
    record["sex"] = specimen.sex.text if specimen.sex else ""
    record["from"] = list(specimen.origin)
    if specimen.left is not None:
        record["left"] = _full({"date": _text(specimen.left.date), "how": specimen.left.how})
    record["papers"] = [
        _full({key: getattr(paper, key) for key in PAPER_TEXTS}) | _full({"date": _text(paper.date)})
        for paper in specimen.papers
    ]
    record["names"] = [
        _full({key: getattr(entry, key) for key in ENTRY_TEXTS})
        | _full({"since": _text(entry.since), "recorded": _text(entry.recorded)})
        for entry in specimen.names
    ]
    record["decisions"] = [
        _full({key: getattr(decision, key) for key in DECISION_TEXTS}) | _full({"recorded": _text(decision.recorded)})
        for decision in specimen.decisions
    ]
    return _full(record)


def from_record(record: Mapping[str, object], file: str | None = None) -> Specimen:
    """The specimen that :func:`as_record` wrote.

    :raises ValueError: for data of another shape, with the key at fault.
    """
    identifier, left = _string(_mapping(record, "specimens"), "id"), record.get("left")
    if not identifier:
        raise ValueError("id: is missing")
    texts = {field: _string(record, key) for key, field in TEXTS.items()}
    return Specimen(
        identifier,
        Place(file, 1, identifier),
        acquired=_date(record, "acquired"),
        sex=Sex.parse(sex) if (sex := _string(record, "sex")) else None,
        origin=tuple(_string({"from": item}, "from") for item in _items(record, "from")),
        left=Left(_date(_mapping(left, "left"), "date"), _string(_mapping(left, "left"), "how")) if left else None,
        papers=tuple(_paper(_mapping(item, "papers")) for item in _items(record, "papers")),
        names=tuple(_entry(_mapping(item, "names")) for item in _items(record, "names")),
        decisions=tuple(_decision(_mapping(item, "decisions")) for item in _items(record, "decisions")),
        **texts,
    )


def _entry(row: Mapping[str, object]) -> NameEntry:
    texts: Record = {key: _string(row, key) for key in ENTRY_TEXTS if key in row}
    if not texts.get("name"):
        raise ValueError("names: an entry without name")
    return NameEntry(**texts, since=_date(row, "since"), recorded=_date(row, "recorded"))


def _decision(row: Mapping[str, object]) -> Decision:
    texts: Record = {key: _string(row, key) for key in DECISION_TEXTS}
    return Decision(recorded=_date(row, "recorded"), **texts)


def _paper(row: Mapping[str, object]) -> Paper:
    texts: Record = {key: _string(row, key) for key in PAPER_TEXTS}
    return Paper(date=_date(row, "date"), **texts)


def _full(record: Record) -> Record:
    return {key: value for key, value in record.items() if value}


def _text(date: PartialDate | None) -> str:
    return date.text if date else ""


def _string(row: Mapping[str, object], key: str) -> str:
    value = row.get(key, "")
    if not isinstance(value, str):
        message = f"{key}: is no text"
        raise ValueError(message)
    value.encode("utf-8")  # half a surrogate pair, which JSON can smuggle in, is a ValueError here
    return value


def _date(row: Mapping[str, object], key: str) -> PartialDate | None:
    text = _string(row, key)
    return PartialDate.parse(text) if text else None


def _items(row: Mapping[str, object], key: str) -> Sequence[object]:
    value = row.get(key, [])
    if not isinstance(value, list):
        message = f"{key}: is no list"
        raise ValueError(message)
    return value


def _mapping(value: object, key: str) -> Mapping[str, object]:
    if not isinstance(value, Mapping):
        message = f"{key}: does not consist of keys and values"
        raise ValueError(message)
    return value
