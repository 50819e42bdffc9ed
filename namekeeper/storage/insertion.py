"""Insert into a keeper's file and leave every other byte as it was; what cannot be done safely is refused.

All functions take and return the text without byte-order mark and raise :class:`TextFault` with the line at
which they refuse. Each result is read again and compared before it is returned.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from namekeeper.storage.emit import Fields, Texts, block_entry, flow_entry, quoted, value_text
from namekeeper.storage.file_keys import SPECIMEN_KEYS
from namekeeper.storage.yaml_text import (
    MappingNode,
    Node,
    ScalarNode,
    SequenceNode,
    TextFault,
    check_characters,
    compose,
    line_of_node,
    plain,
)

_REST_OF_LINE = re.compile(r"[ \t]*(?:#[^\r\n]*)?(?:\r\n|\r|\n|\Z)")
_COMMENT_LINE = re.compile(r"([ \t]*)#[^\r\n]*(?:\r\n|\r|\n|\Z)")
_BREAK = re.compile(r"\r\n|\r|\n")
_BY_HAND = "add the entry by hand, or bring the file into the usual shape"
Pair = tuple[Node, Node]


def append_entries(text: str, section: str, entries: Sequence[Fields]) -> str:
    """Add entries at the end of ``names:``, ``decisions:`` or ``papers:``, which is made if it is missing."""
    root = _root(text)
    pair = _pair(root, section)
    if pair is None:
        position, added = _new_section(text, root, section, entries)
    elif isinstance(pair[1], SequenceNode):
        inserted = _into_flow if pair[1].flow_style else _into_block
        position, added = inserted(text, pair, entries)
    elif isinstance(pair[1], ScalarNode) and pair[1].value == "" and not pair[1].style:
        position = _line_end(text, int(pair[1].end_mark.index), root.start_mark.column, line_of_node(pair[0]))
        added = _as_lines(text, position, _block(entries, _usual_dash(root), 1))
    else:
        msg = f"{section}: is no list"
        raise TextFault(msg, "begin each entry with a dash", line_of_node(pair[1]))
    result = text[:position] + added + text[position:]
    wanted = _content(root)
    wanted[section] = [*_list(wanted.get(section)), *(dict(fields) for fields in entries)]
    return _verified(result, wanted, text, position)


def set_key(text: str, key: str, value: Fields | Texts | str) -> str:
    """Write a top-level key: a text, or several, in place of the old, or a new line (``Fields``: a flow mapping)."""
    root = _root(text)
    pair = _pair(root, key)
    wanted = _content(root)
    wanted[key] = _plain_value(value)
    if pair is not None:
        start, end, written = _replaced(text, pair, value)
        return _verified(text[:start] + written + text[end:], wanted, text, start)
    written = " " * root.start_mark.column + f"{key}: {value_text(key, value)}"
    before = _pair_before(root, key)
    if before is None:
        position = int(root.start_mark.index) - int(root.start_mark.column)
    else:
        position = _after(text, before, root.start_mark.column)
    added = _as_lines(text, position, [written])
    return _verified(text[:position] + added + text[position:], wanted, text, position)


def _root(text: str) -> MappingNode:
    check_characters(text)
    root = compose(text)
    if not isinstance(root, MappingNode) or root.flow_style or not root.value:
        line = line_of_node(root) if root else 1
        raise TextFault("the file is not a list of keys, one a line", _BY_HAND, line)
    keys = [key.value for key, _ in root.value]
    for number, (key, _) in enumerate(root.value):
        if not isinstance(key, ScalarNode) or key.value in keys[:number]:
            raise TextFault("a key stands twice or is no plain word", _BY_HAND, line_of_node(key))
    return root


def _pair(root: MappingNode, key: str) -> Pair | None:
    return next(((name, value) for name, value in root.value if name.value == key), None)


def _plain_value(value: Fields | Texts | str) -> object:
    """The value as :func:`plain` reads it again."""
    if isinstance(value, Texts):
        return list(value.texts) if len(value.texts) != 1 else value.texts[0]
    return value if isinstance(value, str) else dict(value)


def _replaced(text: str, pair: Pair, wanted: Fields | Texts | str) -> tuple[int, int, str]:
    """Span of the old value and what is written in its place, in the quotes it had."""
    key, value = pair
    start, end = int(value.start_mark.index), int(value.end_mark.index)
    one_line = value.start_mark.line == value.end_mark.line == key.start_mark.line
    plain_text = isinstance(value, ScalarNode) and (value.style or "'") in "'\""
    plain_list = isinstance(value, SequenceNode) and value.flow_style and text[start] == "["
    if not (one_line and (plain_text or (plain_list and isinstance(wanted, Texts)))) or not isinstance(
        wanted, str | Texts
    ):
        msg = f"{key.value}: is not one text on its own line"
        raise TextFault(msg, _BY_HAND, line_of_node(key))
    keep_quotes = isinstance(wanted, str) and isinstance(value, ScalarNode) and value.style
    written = quoted(wanted) if isinstance(wanted, str) and keep_quotes else value_text(str(key.value), wanted)
    return start, end, written if start > int(key.end_mark.index) + 1 or value.value else " " + written


def _new_section(text: str, root: MappingNode, section: str, entries: Sequence[Fields]) -> tuple[int, str]:
    column = int(root.start_mark.column)
    before = _pair_before(root, section)
    dash = _usual_dash(root)
    lines = [" " * column + section + ":", *_block(entries, dash, 1)]
    if before is None:
        position = int(root.start_mark.index) - column
        if text[position : position + column].strip(" "):
            raise TextFault("the first key does not begin its line", _BY_HAND, line_of_node(root))
    else:
        position = _after(text, before, column)
    return position, _as_lines(text, position, lines)


def _pair_before(root: MappingNode, key: str) -> Pair | None:
    """The pair behind which ``key`` belongs: in file order of the contract, at the end where that says nothing."""
    order = {name: number for number, name in enumerate(SPECIMEN_KEYS)}
    later = [i for i, (name, _) in enumerate(root.value) if order.get(name.value, -1) > order[key]]
    index = (later[0] if later else len(root.value)) - 1
    return root.value[index] if index >= 0 else None


def _usual_dash(root: MappingNode) -> int:
    """Column of the dashes of the file's other lists, else two right of the keys."""
    column = int(root.start_mark.column)
    for _, value in root.value:
        if isinstance(value, SequenceNode) and not value.flow_style:
            return int(value.start_mark.column)
    return column + 2


def _block(entries: Sequence[Fields], dash: int, gap: int) -> list[str]:
    return [line for fields in entries for line in block_entry(fields, dash, gap)]


def _into_block(text: str, pair: Pair, entries: Sequence[Fields]) -> tuple[int, str]:
    key, sequence = pair
    dash = int(sequence.start_mark.column)
    if text[int(sequence.start_mark.index)] != "-":
        msg = f"{key.value}: carries an anchor or tag"
        raise TextFault(msg, _BY_HAND, line_of_node(key))
    first = sequence.value[0]
    same_line = first.start_mark.line == sequence.start_mark.line
    gap = int(first.start_mark.column) - dash - 1 if same_line and isinstance(first, MappingNode) else 1
    position = _after(text, pair, dash)
    return position, _as_lines(text, position, _block(entries, dash, gap))


def _into_flow(text: str, pair: Pair, entries: Sequence[Fields]) -> tuple[int, str]:
    key, sequence = pair
    written = ", ".join(flow_entry(fields) for fields in entries)
    closing = int(sequence.end_mark.index) - 1
    if int(sequence.start_mark.index) < int(key.end_mark.index) or text[closing] != "]":
        msg = f"{key.value}: carries an anchor or stands elsewhere"
        raise TextFault(msg, _BY_HAND, line_of_node(key))
    if not sequence.value:
        position = int(sequence.start_mark.index) + 1
        if text[position - 1] != "[":
            msg = f"{key.value}: carries an anchor or tag"
            raise TextFault(msg, _BY_HAND, line_of_node(key))
        return position, written
    last = int(sequence.value[-1].end_mark.index)
    comma = re.compile(r"(?:\s|#[^\r\n]*[\r\n])*,").match(text, last, closing)
    return (comma.end(), " " + written) if comma else (last, ", " + written)


def _after(text: str, pair: Pair, column: int) -> int:
    """Start of the line after a pair's value and the comments that belong to it (indented deeper than ``column``)."""
    leaf = pair[1]
    while isinstance(leaf, MappingNode | SequenceNode) and leaf.value and not leaf.flow_style:
        leaf = leaf.value[-1][1] if isinstance(leaf, MappingNode) else leaf.value[-1]
    return _line_end(text, int(leaf.end_mark.index), column, int(leaf.end_mark.line) + 1)


def _line_end(text: str, index: int, column: int, line: int) -> int:
    if not (index and text[index - 1] in "\r\n"):
        rest = _REST_OF_LINE.match(text, index)
        if rest is None:
            raise TextFault("something else follows on the same line", _BY_HAND, line)
        index = rest.end()
    while (comment := _COMMENT_LINE.match(text, index)) and len(comment[1].expandtabs()) > column:
        index = comment.end()
        if index == len(text):
            break
    return index


def _as_lines(text: str, position: int, lines: Sequence[str]) -> str:
    """Whole lines at ``position`` with the line ends of the neighbourhood; a missing last one stays missing."""
    ends = _BREAK.findall(text, 0, position) or _BREAK.findall(text)
    end = ends[-1] if ends else "\n"
    at_start = position == 0 or text[position - 1] in "\r\n"
    block = end.join(lines)
    return block + end if at_start else end + block


def _list(value: object) -> list[object]:
    return value if isinstance(value, list) else []


def _content(root: MappingNode) -> dict[str, object]:
    content = plain(root)
    return content if isinstance(content, dict) else {}


def _verified(result: str, wanted: dict[str, object], text: str, position: int) -> str:
    line = len(_BREAK.findall(text, 0, position)) + 1
    try:
        root = compose(result)
    except TextFault:
        root = None
    if not isinstance(root, MappingNode) or _stripped(_content(root)) != _stripped(wanted):
        raise TextFault("nothing can be added here without changing what stands there", _BY_HAND, line)
    return result


def _stripped(value: object) -> object:
    """Without the line ends at the end of texts: those of a block scalar depend on what follows it."""
    if isinstance(value, dict):
        return {key: _stripped(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_stripped(item) for item in value]
    return value.rstrip("\r\n") if isinstance(value, str) else value
