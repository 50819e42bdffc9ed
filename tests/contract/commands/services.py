"""What ``services`` prints."""

from __future__ import annotations

from tests.contract.shapes import CODE, COUNT, MAYBE_TEXT, MOMENT, TEXT, YES_NO, Example, document, many, maybe, record

SERVICE = record(
    key=TEXT,
    on=YES_NO,
    **{"for": many(TEXT)},
    licence=MAYBE_TEXT,
    reachable=maybe(YES_NO),
    reason=maybe(CODE),
    why=MAYBE_TEXT,
    last_answer=maybe(MOMENT),
    cache_bytes=COUNT,
)
EXAMPLES = {"services": Example(document(services=many(SERVICE)), ("services --json",))}
