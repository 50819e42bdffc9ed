"""What ``tables`` prints."""

from __future__ import annotations

from tests.contract.shapes import (
    CODE,
    COUNT,
    MAYBE_TEXT,
    PROBLEM,
    STANDING,
    TEXT,
    YES_NO,
    Example,
    document,
    many,
    maybe,
    record,
)

EXAMPLES = {
    "tables": Example(
        document(
            changes=many(record(row=COUNT, column=TEXT, old=TEXT, new=TEXT, sheet=TEXT)),
            left=many(
                record(
                    row=COUNT,
                    column=TEXT,
                    value=TEXT,
                    why=TEXT,
                    reason=maybe(CODE),
                    standing=maybe(STANDING),
                    sheet=TEXT,
                )
            ),
            ids=many(record(sheet=TEXT, column=TEXT, rows=COUNT)),
            file=MAYBE_TEXT,
            written=YES_NO,
            problems=many(PROBLEM),
        ),
        ("tables animals stock.csv --json",),
    )
}
