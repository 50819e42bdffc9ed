"""What ``labels`` prints."""

from __future__ import annotations

from tests.contract.shapes import COUNT, LABEL, MAYBE_TEXT, SHEET, TEXT, YES_NO, Example, document, many, record

STATUS = record(specimen=TEXT, printed=MAYBE_TEXT, in_force=TEXT, stale=YES_NO)
EXAMPLES = {
    "labels": Example(
        document(pages=COUNT, labels=many(LABEL), refused=many(record(specimen=TEXT, why=TEXT))),
        ("labels animals --only HW-002 -o labels.pdf --json",),
    ),
    "sheets": Example(document(sheets=many(SHEET)), ("labels --sheets --json",)),
    "labels --templates": Example(
        document(templates=many(record(name=TEXT, title=TEXT, folder=TEXT))), ("labels --templates --json",)
    ),
    "labels --test-page": Example(
        document(sheet=TEXT, file=TEXT), ("labels --test-page a4-3x8-70x37 -o page.pdf --json",)
    ),
    "labels --status": Example(document(status=many(STATUS)), ("labels animals --status --json",)),
}
