"""A value in the settings of a collection, changed in place: comments, order and every other byte stay."""

from __future__ import annotations

from collections.abc import Mapping

from namekeeper.storage.emit import scalar
from namekeeper.storage.insertion import set_key
from namekeeper.storage.yaml_text import MappingNode, Node, SequenceNode, TextFault, compose, line_of_node, plain

_BY_HAND = "change it in the file by hand"


def with_setting(text: str, path: tuple[str, ...], value: str | tuple[str, ...]) -> str:
    """The text with ``value`` under ``path``, one or two keys deep; several texts become a list.

    :raises TextFault: where it cannot be done safely.
    """
    written = _written(value)
    root = compose(text)
    if root is None:
        line = f"{path[0]}: {written}" if len(path) == 1 else f"{path[0]}:\n  {path[1]}: {written}"
        return _verified(_ended(text) + line + "\n", path, value)
    section = _value(root, path[0])
    if section is None:
        lines = (f"{path[0]}: {written}",) if len(path) == 1 else (f"{path[0]}:", f"  {path[1]}: {written}")
        return _verified(_ended(text) + "".join(line + _line_end(text) for line in lines), path, value)
    if len(path) == 1:
        return _verified(set_key(text, path[0], str(value)), path, value)
    if not isinstance(section, MappingNode) or not section.value:
        what = f"{path[0]}: holds no keys"
        raise TextFault(what, _BY_HAND, line_of_node(section))
    node = _value(section, path[1])
    if node is not None:
        start, end = int(node.start_mark.index), int(node.end_mark.index)
        return _verified(text[:start] + written + text[end:], path, value)
    first = section.value[0][0]
    start, gap = int(first.start_mark.index), ", " if section.flow_style else "\n" + " " * int(first.start_mark.column)
    return _verified(f"{text[:start]}{path[1]}: {written}{gap}{text[start:]}", path, value)


def with_section(text: str, section: str, values: Mapping[str, str | tuple[str, ...]]) -> str:
    """The text with these values below ``section``; what stands there as one text or list on its line gives way.

    :raises TextFault: where it cannot be done safely.
    """
    root = compose(text)
    node = _value(root, section) if root is not None else None
    if values and node is not None and not isinstance(node, MappingNode):
        if isinstance(node, SequenceNode) and not node.flow_style:
            what = f"{section}: is a list with a line each"
            raise TextFault(what, _BY_HAND, line_of_node(node))
        start, end = int(node.start_mark.index), int(node.end_mark.index)
        pairs = ", ".join(f"{key}: {_written(value, flow=True)}" for key, value in values.items())
        gap = "" if text[start - 1 : start].isspace() else " "
        text = f"{text[:start]}{gap}{{{pairs}}}{text[end:]}"
    for key, value in values.items():
        text = with_setting(text, (section, key), value)
    return text


def settings_in(text: str) -> Mapping[str, object]:
    """The keys of the settings with their texts.

    :raises TextFault: if it cannot be read.
    """
    root = compose(text)
    found = plain(root) if root is not None else {}
    return found if isinstance(found, dict) else {}


def _value(node: Node, key: str) -> Node | None:
    if not isinstance(node, MappingNode):
        raise TextFault("the settings are not keys with values", _BY_HAND, line_of_node(node))
    return next((value for name, value in node.value if name.value == key), None)


def _written(value: str | tuple[str, ...], *, flow: bool = False) -> str:
    if isinstance(value, str):
        return scalar(value, flow=flow)
    return f"[{', '.join(scalar(part, flow=True) for part in value)}]"


def _ended(text: str) -> str:
    return text if not text or text.endswith("\n") else text + _line_end(text)


def _line_end(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"


def _verified(result: str, path: tuple[str, ...], value: str | tuple[str, ...]) -> str:
    """What was written, read again."""
    found: object = settings_in(result)
    for key in path:
        found = found.get(key) if isinstance(found, Mapping) else None
    if found != (value if isinstance(value, str) else list(value)):
        what = f"{': '.join(path)} cannot be changed safely"
        raise TextFault(what, _BY_HAND, 1)
    return result
