"""What ``tables`` prints."""

from __future__ import annotations

from tests.contract.shapes import COUNT, TEXT, Example, document, many, record

EXAMPLES = {
    "tables": Example(
        document(
            changes=many(record(row=COUNT, column=TEXT, old=TEXT, new=TEXT)),
            left=many(record(row=COUNT, column=TEXT, value=TEXT, why=TEXT)),
        ),
        ("tables animals stock.csv --json",),
    )
}
