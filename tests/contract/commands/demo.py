"""What ``demo`` prints."""

from __future__ import annotations

from tests.contract.shapes import TEXT, Example, document

EXAMPLES = {"demo": Example(document(path=TEXT), ("demo --json",))}
