"""Parts of the JSON that commands print, as JSON Schema (contract 2 and 5). Fields may be added, not renamed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

Schema = dict[str, Any]

TEXT: Schema = {"type": "string"}
MAYBE_TEXT: Schema = {"type": ["string", "null"]}
NUMBER: Schema = {"type": "number"}
COUNT: Schema = {"type": "integer", "minimum": 0}
YES_NO: Schema = {"type": "boolean"}
DAY: Schema = {"type": "string", "pattern": r"^\d{4}(-\d{2}(-\d{2})?)?$"}
MAYBE_DAY: Schema = {"anyOf": [DAY, {"type": "null"}]}
STANDINGS = [
    "current",
    "moved",
    "respelled",
    "merged",
    "renamed",
    "divided",
    "misapplied",
    "doubtful",
    "open",
    "disputed",
    "unnamed",
    "unknown",
    "unasked",
]
STANDING: Schema = {"enum": STANDINGS}


def record(**fields: Schema) -> Schema:
    return {"type": "object", "properties": fields, "required": list(fields)}


def many(of: Schema) -> Schema:
    return {"type": "array", "items": of}


def maybe(of: Schema) -> Schema:
    return {"anyOf": [of, {"type": "null"}]}


NAME = record(name=TEXT, authorship=TEXT)
READING = record(
    scientific=many(TEXT),
    common=many(TEXT),
    qualifier=MAYBE_TEXT,
    uncertain=YES_NO,
    trade_form=MAYBE_TEXT,
    locality=MAYBE_TEXT,
    sex=MAYBE_TEXT,
    size_cm=maybe({"type": "array", "items": NUMBER, "minItems": 2, "maxItems": 2}),
    size_of={"enum": ["body", "legspan", None]},
    stage=MAYBE_TEXT,
    instar=MAYBE_TEXT,
    source_mark=MAYBE_TEXT,
    seller=MAYBE_TEXT,
    price=MAYBE_TEXT,
    leftover=TEXT,
    spans=many(record(field=TEXT, start=COUNT, end=COUNT)),
)
CANDIDATE = record(
    name=TEXT,
    authorship=TEXT,
    rank=TEXT,
    how={
        "enum": [
            "accepted",
            "former",
            "equivalent",
            "abbreviated",
            "common",
            "misapplied",
            "doubtful",
            "genus",
            "similar",
        ]
    },
    matched=TEXT,
    score={"type": "number", "minimum": 0, "maximum": 1},
    range=many(TEXT),
    sources=many(TEXT),
    note=MAYBE_TEXT,
)
STATEMENT = record(
    source=TEXT,
    edition=MAYBE_TEXT,
    asked=TEXT,
    stale=YES_NO,
    lagging=YES_NO,
    says=TEXT,
    link=MAYBE_TEXT,
    licence=MAYBE_TEXT,
)
FINDING = record(
    specimen=TEXT,
    label=TEXT,
    since=MAYBE_DAY,
    standing=STANDING,
    proposed=maybe(NAME),
    safe=YES_NO,
    choices=many(record(name=TEXT, authorship=TEXT, why=TEXT)),
    statements=many(STATEMENT),
    why=many(TEXT),
)
ENTRY = record(
    name=TEXT,
    authorship=TEXT,
    since=MAYBE_DAY,
    recorded=MAYBE_DAY,
    standing=TEXT,
    according_to=MAYBE_TEXT,
    source=MAYBE_TEXT,
    decided_by=MAYBE_TEXT,
    note=MAYBE_TEXT,
    undone=YES_NO,
)
LABEL = record(
    specimen=TEXT,
    page=COUNT,
    row=COUNT,
    column=COUNT,
    x=NUMBER,
    y=NUMBER,
    width=NUMBER,
    height=NUMBER,
    name=TEXT,
    name_pt=NUMBER,
    lines=many(TEXT),
)
SHEET = record(
    key=TEXT,
    paper={"type": "array", "items": NUMBER, "minItems": 2, "maxItems": 2},
    columns=COUNT,
    rows=COUNT,
    width=NUMBER,
    height=NUMBER,
    left=NUMBER,
    top=NUMBER,
    pitch_x=NUMBER,
    pitch_y=NUMBER,
)
VERSION: Schema = {"const": 1}


def document(**fields: Schema) -> Schema:
    """The one document of a command: its version, then what it says."""
    return record(version=VERSION, **fields)


@dataclass(frozen=True)
class Example:
    """What a command prints with ``--json``, and lines that bring it about beside what the suite lays out.

    No lines: a service would be asked, and another test does it. All lines but the last only prepare; they stand as a
    keeper types them, with ``_`` for a blank within a word.
    """

    schema: Schema
    lines: tuple[str, ...]
