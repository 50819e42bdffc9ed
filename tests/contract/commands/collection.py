"""What ``collection`` prints."""

from __future__ import annotations

from tests.contract.shapes import COUNT, MAYBE_TEXT, TEXT, YES_NO, Example, Schema, document, many, maybe, record

CHANGED = document(specimens=many(TEXT), written=YES_NO)
PROBLEM = record(file=MAYBE_TEXT, line={"type": ["integer", "null"]}, what=TEXT, remedy=TEXT)
COLUMNS: Schema = {"type": "object", "additionalProperties": TEXT}
EXAMPLES = {
    "collection new": Example(document(folder=TEXT, made=many(TEXT)), ("collection new fresh --json",)),
    "collection add": Example(CHANGED, ("collection add animals --tag GBB --json",)),
    "collection verify": Example(
        document(problems=many(PROBLEM), questions=many(PROBLEM)), ("collection verify animals --json",)
    ),
    "collection left": Example(CHANGED, ("collection left animals HW-002 --how sold --json",)),
    "collection count": Example(CHANGED, ("collection count animals HW-002 1.0.0 --write --json",)),
    "collection join": Example(
        CHANGED,
        (
            "collection add animals --tag GBB --id X1",
            "collection add animals --tag GBB --id X2",
            "collection join animals X1 X2 --json",
        ),
    ),
    "collection set": Example(
        document(specimens=many(TEXT), written=YES_NO, verdict=maybe(record(before=TEXT, after=TEXT, changed=YES_NO))),
        ("collection set animals HW-002 place=shelf acquired=2020 --json",),
    ),
    "collection import": Example(
        document(
            columns=COLUMNS,
            imported=many(record(row=COUNT, specimen=TEXT)),
            left=many(record(row=COUNT, why=TEXT)),
            written=YES_NO,
        ),
        ("collection import animals stock.csv --json",),
    ),
    "collection stock": Example(
        document(
            on=TEXT,
            species=many(
                record(
                    name=MAYBE_TEXT, then=MAYBE_TEXT, animals=many(TEXT), count=COUNT, sex=TEXT, uncertain=many(TEXT)
                )
            ),
            count=COUNT,
        ),
        ("collection stock animals --on 2015 --json",),
    ),
    "collection export": Example(
        document(files=many(TEXT), specimens=COUNT), ("collection export animals -o out.csv --json",)
    ),
}
