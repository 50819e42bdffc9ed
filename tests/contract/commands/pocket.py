"""``pocket`` prints no JSON."""

from __future__ import annotations

from types import MappingProxyType

from tests.contract.shapes import Example

EXAMPLES = MappingProxyType[str, Example]({})
