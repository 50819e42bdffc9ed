"""What ``history`` prints."""

from __future__ import annotations

from tests.contract.shapes import DAY, ENTRY, MAYBE_TEXT, TEXT, Example, document, many, maybe, record

HISTORY = {
    "type": "object",
    "properties": {"specimen": TEXT, "entries": many(ENTRY), "on": maybe(record(date=DAY, name=MAYBE_TEXT))},
    "required": ["specimen", "entries"],
}
EXAMPLES = {"history": Example(document(specimens=many(HISTORY)), ("history animals --json",))}
