"""What ``settle`` prints."""

from __future__ import annotations

from tests.contract.shapes import MAYBE_TEXT, TEXT, YES_NO, Example, document, many, record

CHANGE = record(specimen=TEXT, old=MAYBE_TEXT, new=MAYBE_TEXT, standing=TEXT, written=YES_NO)
EXAMPLES = {"settle": Example(document(changes=many(CHANGE)), ("settle animals --offline --take-safe --json",))}
