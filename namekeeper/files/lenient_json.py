"""JSON that may be anything: read without surprise, and looked into without a check at every step."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any


def json_of(content: bytes | str) -> object:
    """The document of a JSON text.

    :raises ValueError: if it is none, whatever is wrong with it; also if it goes deeper than any reader.
    """
    try:
        document: object = json.loads(content)
    except RecursionError as error:
        raise ValueError(str(error)) from None
    return document


def mapping_in(value: object) -> Mapping[str, Any]:
    """An object as it is, anything else as an empty one."""
    return value if isinstance(value, dict) else {}


def list_in(value: object) -> list[Any]:
    """A list as it is, anything else as an empty one."""
    return value if isinstance(value, list) else []


def text_in(node: Mapping[str, Any], key: str) -> str:
    """A text or whole number as text; empty for anything else."""
    value = node.get(key)
    if isinstance(value, str):
        return value
    return str(value) if isinstance(value, int) and not isinstance(value, bool) else ""
