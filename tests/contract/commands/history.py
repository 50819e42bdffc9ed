"""What ``history`` prints."""

from __future__ import annotations

from tests.contract.shapes import (
    DAY,
    ENTRY,
    MAYBE_DAY,
    MAYBE_TEXT,
    PROBLEM,
    TEXT,
    Example,
    document,
    many,
    maybe,
    record,
)

HISTORY = record(
    specimen=TEXT,
    tag=MAYBE_TEXT,
    left=maybe(record(date=MAYBE_DAY, how=TEXT)),
    entries=many(ENTRY),
    on=record(date=DAY, name=MAYBE_TEXT, label=MAYBE_TEXT),
)
EXAMPLES = {"history": Example(document(specimens=many(HISTORY), problems=many(PROBLEM)), ("history animals --json",))}
