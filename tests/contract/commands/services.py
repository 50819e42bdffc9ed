"""What ``services`` prints."""

from __future__ import annotations

from tests.contract.shapes import COUNT, MAYBE_TEXT, TEXT, YES_NO, Example, document, many, record

SERVICE = record(
    key=TEXT,
    on=YES_NO,
    **{"for": many(TEXT)},
    licence=MAYBE_TEXT,
    reachable={"type": ["boolean", "null"]},
    last_answer=MAYBE_TEXT,
    cache_bytes=COUNT,
)
EXAMPLES = {"services": Example(document(services=many(SERVICE)), ("services --json",))}
