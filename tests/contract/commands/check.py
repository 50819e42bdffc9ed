"""What ``check`` prints."""

from __future__ import annotations

from tests.contract.shapes import COUNT, DAY, FINDING, STANDING, TEXT, Example, document, many

CHECK = {
    "checked_on": DAY,
    "results": many(FINDING),
    "summary": {"type": "object", "additionalProperties": COUNT, "propertyNames": STANDING},
}
EXAMPLES = {
    "check": Example(document(**CHECK), ("check animals --offline --json",)),
    "check --since-last": Example(document(**CHECK, gone=many(TEXT)), ("check animals --offline --since-last --json",)),
}
