"""``browse`` shows a page and prints no document."""

from __future__ import annotations

from tests.contract.shapes import Example

EXAMPLES: dict[str, Example] = {}
