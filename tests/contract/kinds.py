"""What kind of thing each key of the documents holds, taken from their schemas."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from tests.contract.shapes import Schema


def kinds(documents: dict[str, Schema]) -> dict[str, dict[str, set[str]]]:
    """By key the kinds of thing that it holds, each with the places where it does: ``{"on": {"text": {"stock"}}}``."""
    found: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
    for command, schema in documents.items():
        for place, key, kind in _held(schema, command):
            found[key][kind].add(place)
    return found


def _held(schema: Schema, place: str) -> Iterator[tuple[str, str, str]]:
    for key, held in schema.get("properties", {}).items():
        yield place, key, kind_of(held)
        yield from _held(_inner(held), f"{place}.{key}")


def _inner(schema: Schema) -> Schema:
    """The record within lists and what may be null."""
    for part in schema.get("anyOf", ()):
        if part.get("type") != "null":
            return _inner(part)
    return _inner(schema["items"]) if "items" in schema else schema


def kind_of(schema: Schema) -> str:
    """text, count, number, yes-no, record, table (with free keys) or a list of such; null beside it counts not."""
    parts = [part for part in schema.get("anyOf", ()) if part.get("type") != "null"]
    if parts:
        (part,) = parts
        return kind_of(part)
    if "const" in schema or "enum" in schema:
        values = [value for value in schema.get("enum", [schema.get("const")]) if value is not None]
        return "text" if all(isinstance(value, str) for value in values) else "count"
    (kind,) = {schema["type"]} if isinstance(schema["type"], str) else set(schema["type"]) - {"null"}
    match kind:
        case "array":
            return f"list of {kind_of(schema['items'])}"
        case "object":
            return "record" if "properties" in schema else "table"
        case _:
            return {"string": "text", "integer": "count", "boolean": "yes-no"}.get(kind, kind)
