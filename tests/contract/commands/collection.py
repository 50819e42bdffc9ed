"""What ``collection`` prints."""

from __future__ import annotations

from tests.contract.shapes import (
    CODE,
    COUNT,
    DAY,
    GUESS,
    MAYBE_DAY,
    MAYBE_TEXT,
    OUTDATED,
    PROBLEM,
    STANDING,
    TEXT,
    YES_NO,
    Example,
    Schema,
    document,
    many,
    maybe,
    record,
)

BY_FIELD: Schema = {"type": "object", "additionalProperties": TEXT}
READ = {"read": BY_FIELD, "left_in_tag": BY_FIELD}
CHANGED = {
    "specimens": many(TEXT),
    "written": YES_NO,
    "changes": many(record(specimen=TEXT, field=TEXT, new=TEXT)),
    "refused": many(PROBLEM),
    "outdated": many(OUTDATED),
}
HERITAGE = record(reason=CODE, parents=many(TEXT), parent_names=many(TEXT))
UNREAD = record(
    columns=many(record(column=TEXT, sample=TEXT, cells=COUNT, suggestion=MAYBE_TEXT)),
    sheets=many(record(sheet=TEXT, rows=COUNT, header=many(TEXT))),
    rows=many(record(row=COUNT, sample=TEXT, why=CODE)),
    merged=COUNT,
)
EXAMPLES = {
    "collection new": Example(document(folder=TEXT, made=many(TEXT)), ("collection new fresh --json",)),
    "collection add": Example(
        document(**CHANGED, **READ, heritage=maybe(HERITAGE)), ("collection add animals --tag GBB --json",)
    ),
    "collection verify": Example(
        document(count=COUNT, problems=many(PROBLEM), questions=many(PROBLEM)),
        ("collection verify animals --json",),
    ),
    "collection left": Example(document(**CHANGED), ("collection left animals HW-002 --how sold --json",)),
    "collection count": Example(document(**CHANGED), ("collection count animals HW-002 1.0.0 --write --json",)),
    "collection join": Example(
        document(**CHANGED),
        (
            "collection add animals --tag GBB --id X1",
            "collection add animals --tag GBB --id X2",
            "collection join animals X1 X2 --json",
        ),
    ),
    "collection set": Example(
        document(**CHANGED, verdict=maybe(record(before=STANDING, after=STANDING, changed=YES_NO))),
        ("collection set animals HW-002 place=shelf acquired=2020 --json",),
    ),
    "collection import": Example(
        document(
            columns=BY_FIELD,
            imported=many(
                record(row=COUNT, specimen=TEXT, tag=MAYBE_TEXT, name=MAYBE_TEXT, acquired=MAYBE_DAY, **READ)
            ),
            left=many(record(row=COUNT, why=TEXT)),
            written=YES_NO,
            read_as=TEXT,
            unread=UNREAD,
            refused=many(PROBLEM),
            **GUESS,
        ),
        ("collection import animals stock.csv --json",),
    ),
    "collection stock": Example(
        document(
            on=DAY,
            species=many(
                record(
                    name=MAYBE_TEXT, then=MAYBE_TEXT, animals=many(TEXT), count=COUNT, sex=TEXT, uncertain=many(TEXT)
                )
            ),
            count=COUNT,
            problems=many(PROBLEM),
        ),
        ("collection stock animals --on 2015 --json",),
    ),
    "collection export": Example(
        document(
            files=many(TEXT),
            specimens=COUNT,
            kept_back=many(TEXT),
            licensed=maybe(YES_NO),
            problems=many(PROBLEM),
        ),
        ("collection export animals -o out.csv --json",),
    ),
}
