"""What ``check`` prints."""

from __future__ import annotations

from tests.contract.shapes import (
    DAY,
    FAILURE,
    FINDING,
    MAYBE_DAY,
    MAYBE_TEXT,
    PROBLEM,
    SUMMARY,
    TEXT,
    Example,
    document,
    many,
    maybe,
    record,
)

CHECK = {
    "checked_on": DAY,
    "results": many(FINDING),
    "summary": SUMMARY,
    "editions": many(record(source=TEXT, edition=MAYBE_TEXT, dated=MAYBE_DAY)),
    "failures": many(FAILURE),
    "problems": many(PROBLEM),
    "gone": maybe(many(TEXT)),
}
EXAMPLES = {
    "check": Example(document(**CHECK), ("check animals --offline --json",)),
    "check --since-last": Example(
        document(**{**CHECK, "gone": many(TEXT)}), ("check animals --offline --since-last --json",)
    ),
}
