"""What ``completion`` prints: a script for a shell, no JSON."""

from __future__ import annotations

from tests.contract.shapes import Example

EXAMPLES: dict[str, Example] = {}
