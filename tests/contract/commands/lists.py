"""What ``lists`` prints."""

from __future__ import annotations

from tests.contract.shapes import (
    COUNT,
    GUESS,
    MAYBE_DAY,
    MAYBE_TEXT,
    STANDINGS,
    TEXT,
    YES_NO,
    Example,
    document,
    many,
    maybe,
    record,
)

LIST = record(
    key=TEXT,
    edition=TEXT,
    in_use=YES_NO,
    names=COUNT,
    bytes=COUNT,
    readable=YES_NO,
    title=MAYBE_TEXT,
    dated=MAYBE_DAY,
    licence=MAYBE_TEXT,
    citation=MAYBE_TEXT,
    complete_for=many(TEXT),
)
NAMES = "lists add names.csv --as own --edition 1"
KIND = {"enum": [*STANDINGS, "new", "gone"]}
ROW = record(line=COUNT, why=TEXT, file=MAYBE_TEXT)
REASON = record(why=TEXT, count=COUNT)
ADDED = document(
    key=TEXT,
    edition=TEXT,
    names=COUNT,
    in_use=YES_NO,
    format=TEXT,
    columns={"type": "object", "additionalProperties": TEXT},
    **GUESS,
    former=maybe(COUNT),
    missing=maybe(COUNT),
    skipped_count=COUNT,
    skipped_reasons=many(REASON),
    skipped=many(ROW),
    faults_count=COUNT,
    faults_reasons=many(REASON),
    faults=many(ROW),
)
TOUCHED = record(specimen=TEXT, label=TEXT, old=MAYBE_TEXT, new=MAYBE_TEXT, kind=KIND)
EXAMPLES = {
    "lists": Example(document(lists=many(LIST)), ("lists --json",)),
    "lists add": Example(ADDED, (f"{NAMES} --json",)),
    "lists fetch": Example(ADDED, ()),
    "lists compare": Example(
        document(
            changes=many(record(id=TEXT, old=MAYBE_TEXT, new=MAYBE_TEXT, kind=KIND)),
            specimens=maybe(many(TOUCHED)),
        ),
        (NAMES, "lists compare own later.csv --json"),
    ),
    "lists use": Example(document(key=TEXT, edition=TEXT), (NAMES, "lists use own@1 --json")),
    "lists remove": Example(document(removed=many(TEXT)), (NAMES, "lists remove own --json --yes")),
}
