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
MOMENT: Schema = {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}([+-]\d{2}:\d{2})?$"}
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
SUMMARY: Schema = {"type": "object", "additionalProperties": COUNT, "propertyNames": STANDING}


def record(**fields: Schema) -> Schema:
    """All keys are there, and no other: what a document says stands in its schema."""
    return {"type": "object", "properties": fields, "required": list(fields), "additionalProperties": False}


def many(of: Schema) -> Schema:
    return {"type": "array", "items": of}


def maybe(of: Schema) -> Schema:
    return {"anyOf": [of, {"type": "null"}]}


HOW: Schema = {
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
}
#: How the letters of a table were read, where that is a guess: the encoding taken, and words by encoding.
GUESS: dict[str, Schema] = {
    "guessed_encoding": MAYBE_TEXT,
    "guessed_words": {"type": "object", "additionalProperties": many(TEXT)},
}
#: A word of a closed set that may grow.
CODE: Schema = {"type": "string", "pattern": "^[a-z]+(-[a-z]+)*$"}
PROBLEM = record(
    specimen=MAYBE_TEXT, file=MAYBE_TEXT, line={"type": ["integer", "null"], "minimum": 1}, what=TEXT, remedy=TEXT
)
FAILURE = record(source=TEXT, edition=MAYBE_TEXT, reason=CODE, why=TEXT)
OUTDATED = record(specimen=TEXT, reason=CODE, now=MAYBE_TEXT, why=TEXT)
NAME = record(name=TEXT, authorship=TEXT)
READING = record(
    scientific=many(TEXT),
    former=many(TEXT),
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
    cross=YES_NO,
    denied=YES_NO,
    unheard=many(TEXT),
    alternatives=many(TEXT),
    leftover=TEXT,
    spans=many(record(field=TEXT, start=COUNT, end=COUNT)),
)
CANDIDATE = record(
    name=TEXT,
    authorship=TEXT,
    rank=TEXT,
    how=HOW,
    matched=TEXT,
    score={"type": "number", "minimum": 0, "maximum": 1},
    range=many(TEXT),
    sources=many(TEXT),
    clues=COUNT,
    note=MAYBE_TEXT,
    notes=many(CODE),
)
STATEMENT = record(
    source=TEXT,
    edition=MAYBE_TEXT,
    asked=DAY,
    stale=YES_NO,
    lagging=YES_NO,
    says=TEXT,
    holds=CODE,
    targets=many(TEXT),
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
    choices=many(record(name=TEXT, authorship=TEXT, why=TEXT, grounds=many(CODE), range=many(TEXT))),
    statements=many(STATEMENT),
    why=many(TEXT),
    reasons=many(CODE),
    to_look_at=YES_NO,
    decided={"enum": ["kept", "postponed", None]},
)
ENTRY = record(
    name=TEXT,
    authorship=TEXT,
    since=MAYBE_DAY,
    recorded=MAYBE_DAY,
    standing=CODE,
    according_to=TEXT,
    source=TEXT,
    retrieved=TEXT,
    link=TEXT,
    licence=TEXT,
    decided_by=TEXT,
    note=TEXT,
    form=TEXT,
    qualifier=TEXT,
    trade_form=TEXT,
    undone=YES_NO,
    undoes={"type": ["integer", "null"], "minimum": 1},
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
    dropped=many(TEXT),
    left_out=many(TEXT),
    shortened=many(TEXT),
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
    marks=YES_NO,
    near_edges=many({"enum": ["left", "right", "top", "bottom"]}),
    warning=TEXT,
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
