"""What ``labels`` prints."""

from __future__ import annotations

from tests.contract.shapes import (
    CODE,
    COUNT,
    FAILURE,
    LABEL,
    MAYBE_TEXT,
    OUTDATED,
    PROBLEM,
    SHEET,
    TEXT,
    YES_NO,
    Example,
    document,
    many,
    record,
)

REFUSED = record(specimen=TEXT, why=TEXT, reason=CODE, field=MAYBE_TEXT, larger=MAYBE_TEXT)
STATUS = record(specimen=TEXT, printed=MAYBE_TEXT, in_force=TEXT, stale=YES_NO)
EXAMPLES = {
    "labels": Example(
        document(
            pages=COUNT,
            labels=many(LABEL),
            refused=many(REFUSED),
            sheet=TEXT,
            template=TEXT,
            file=MAYBE_TEXT,
            outdated=many(OUTDATED),
            failures=many(FAILURE),
            problems=many(PROBLEM),
        ),
        ("labels animals --only HW-002 -o labels.pdf --json",),
    ),
    "sheets": Example(document(sheets=many(SHEET)), ("labels --sheets --json",)),
    "labels --templates": Example(
        document(templates=many(record(key=TEXT, name=TEXT, title=TEXT, folder=TEXT)), problems=many(PROBLEM)),
        ("labels --templates --json",),
    ),
    "labels --test-page": Example(
        document(sheet=TEXT, file=TEXT), ("labels --test-page a4-3x8-70x37 -o page.pdf --json",)
    ),
    "labels --status": Example(
        document(status=many(STATUS), problems=many(PROBLEM)), ("labels animals --status --json",)
    ),
}
