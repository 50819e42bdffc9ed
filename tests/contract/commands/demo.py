"""What ``demo`` prints."""

from __future__ import annotations

from tests.contract.shapes import TEXT, Example, document, record

EXAMPLES = {"demo": Example(document(path=TEXT, files=record(labels=TEXT, report=TEXT)), ("demo --json",))}
