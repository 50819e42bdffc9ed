"""What ``settle`` prints."""

from __future__ import annotations

from tests.contract.shapes import (
    CODE,
    FAILURE,
    MAYBE_TEXT,
    OUTDATED,
    PROBLEM,
    SUMMARY,
    TEXT,
    YES_NO,
    Example,
    document,
    many,
    record,
)

CHANGE = record(
    specimen=TEXT,
    old=MAYBE_TEXT,
    new=MAYBE_TEXT,
    standing=CODE,
    written=YES_NO,
    already=YES_NO,
    doubt=MAYBE_TEXT,
    doubt_left_out=MAYBE_TEXT,
    unlisted=YES_NO,
    similar=many(TEXT),
)
SETTLED = document(
    changes=many(CHANGE),
    summary=SUMMARY,
    refused=many(PROBLEM),
    outdated=many(OUTDATED),
    failures=many(FAILURE),
    problems=many(PROBLEM),
)
EXAMPLES = {"settle": Example(SETTLED, ("settle animals --offline --take-safe --json",))}
