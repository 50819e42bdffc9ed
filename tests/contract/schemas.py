"""The JSON that each command prints, as JSON Schema (contract sections 2 and 5). Fields may be added, not renamed."""

from __future__ import annotations

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

DOCUMENTS: dict[str, Schema] = {
    "lookup": record(
        version=VERSION,
        results=many(
            record(
                tag=TEXT,
                reading=READING,
                answer={"enum": ["one", "several", "guess", "genus", "none", "unasked"]},
                candidates=many(CANDIDATE),
            )
        ),
    ),
    "check": record(
        version=VERSION,
        checked_on=DAY,
        results=many(FINDING),
        summary={
            "type": "object",
            "additionalProperties": COUNT,
            "propertyNames": STANDING,
        },
    ),
    "settle": record(
        version=VERSION,
        changes=many(record(specimen=TEXT, old=MAYBE_TEXT, new=MAYBE_TEXT, standing=TEXT, written=YES_NO)),
    ),
    "history": record(
        version=VERSION,
        specimens=many(
            {
                "type": "object",
                "properties": {
                    "specimen": TEXT,
                    "entries": many(ENTRY),
                    "on": maybe(record(date=DAY, name=MAYBE_TEXT)),
                },
                "required": ["specimen", "entries"],
            }
        ),
    ),
    "aka": record(
        version=VERSION,
        name=TEXT,
        authorship=TEXT,
        former=many(record(name=TEXT, year=MAYBE_TEXT, source=TEXT)),
        common=many(record(name=TEXT, language=TEXT)),
        search=TEXT,
        range=many(TEXT),
        described_in=MAYBE_TEXT,
        links=many(record(title=TEXT, url=TEXT)),
    ),
    "labels": record(
        version=VERSION,
        pages=COUNT,
        labels=many(LABEL),
        refused=many(record(specimen=TEXT, why=TEXT)),
    ),
    "sheets": record(version=VERSION, sheets=many(SHEET)),
    "lists add": record(version=VERSION, key=TEXT, names=COUNT, skipped=many(record(line=COUNT, why=TEXT))),
    "lists compare": record(
        version=VERSION,
        changes=many(record(id=MAYBE_TEXT, old=MAYBE_TEXT, new=MAYBE_TEXT, kind={"enum": [*STANDINGS, "new", "gone"]})),
    ),
    "collection verify": record(
        version=VERSION,
        problems=many(record(file=MAYBE_TEXT, line={"type": ["integer", "null"]}, what=TEXT, remedy=TEXT)),
    ),
    "tables": record(
        version=VERSION,
        changes=many(record(row=COUNT, column=TEXT, old=TEXT, new=TEXT)),
        left=many(record(row=COUNT, column=TEXT, value=TEXT, why=TEXT)),
    ),
    "services": record(
        version=VERSION,
        services=many(
            record(
                key=TEXT,
                on=YES_NO,
                **{"for": many(TEXT)},
                licence=MAYBE_TEXT,
                reachable={"type": ["boolean", "null"]},
                last_answer=MAYBE_TEXT,
                cache_bytes=COUNT,
            )
        ),
    ),
    "demo": record(version=VERSION, path=TEXT),
}


def problems(command: str, document: object) -> list[str]:
    """What is wrong with the document of ``command``; empty if it keeps the contract."""
    from jsonschema import Draft202012Validator

    validator = Draft202012Validator(DOCUMENTS[command])
    return [f"{error.json_path}: {error.message}" for error in validator.iter_errors(document)]
