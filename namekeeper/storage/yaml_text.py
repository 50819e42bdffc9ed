"""YAML as text with positions: every scalar is the text that stands there, whatever YAML would make of it."""

from __future__ import annotations

import operator
import re
from collections.abc import Callable, Mapping
from contextlib import suppress
from typing import Any, cast

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from namekeeper.files.yaml_aliases import ALIAS_REMEDY, first_alias

__all__ = [
    "MappingNode",
    "Node",
    "ScalarNode",
    "SequenceNode",
    "TextFault",
    "compose",
    "decode",
    "line_of_node",
    "plain",
]

# Production [1] c-printable of YAML 1.2.2, less the byte-order mark inside a text and what YAML 1.1 takes for line ends
# and an editor does not (85, 2028, 2029): line numbers and plain text would no longer agree.
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
_CONFLICT = re.compile(r"^(?:<{7} |>{7} |<{7}$|>{7}$)", re.MULTILINE)
_KEY_LIKE = re.compile(r"^[ \t]*-?[ \t]*[A-Za-z_]+:(?:[ \t]|$)", re.MULTILINE)
# What these contexts complain of lies where they began, not where the parser gave up.
_BEGAN_EARLIER = ("quoted scalar", "flow sequence", "flow mapping", "simple key", "block scalar")


class TextFault(Exception):  # noqa: N818 - turned into a Problem by whoever knows the file
    """The text cannot be read: what, remedy, and the line at which to look, from 1."""

    def __init__(self, what: str, remedy: str, line: int) -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy
        self.line = line


class _AllText:
    """In place of YAML's resolver: no scalar is a number, date or truth value."""

    def resolve(self, _kind: type, _value: str | None, _implicit: object) -> str:
        return "text"

    # Nothing depends on the path. The composer calls both for every node and ignores what they return; functions
    # written in C take a twentieth of the time of loading off.
    descend_resolver = staticmethod(operator.is_)
    ascend_resolver = staticmethod(bool)


def _composer() -> Callable[[str], Any]:
    try:
        from yaml.cyaml import CParser  # type: ignore[attr-defined]  # its stub forgets to export it
    except ImportError:  # PyYAML built without libyaml: the same, slower
        from yaml.composer import Composer
        from yaml.parser import Parser
        from yaml.reader import Reader
        from yaml.scanner import Scanner

        class _Slow(_AllText, Reader, Scanner, Parser, Composer):
            def __init__(self, text: str) -> None:
                Reader.__init__(self, text)
                Scanner.__init__(self)
                Parser.__init__(self)
                Composer.__init__(self)

        return _Slow

    class _Fast(_AllText, CParser):
        pass

    return _Fast


_compose_with = _composer()


def decode(content: bytes) -> tuple[str, str]:
    """The byte-order mark (or nothing) and the text of a UTF-8 file.

    :raises TextFault: if it is not UTF-8.
    """
    mark = "\ufeff" if content.startswith(b"\xef\xbb\xbf") else ""
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise TextFault("this is not UTF-8 text", "save the file as UTF-8", line) from None
    return mark, text[len(mark) :]


def compose(text: str) -> Node | None:
    """The node tree of one document, None where there is none; ``text`` has no byte-order mark.

    :raises TextFault: with the line at which to look.
    """
    found = _CONFLICT.search(text) if "<<<<<<<" in text or ">>>>>>>" in text else None
    if found:
        what = "a merge conflict was left in this file"
        raise TextFault(what, "keep one of the two sides and delete the marker lines", _line_at(text, found.start()))
    alias = first_alias(text)
    if alias is not None:
        raise TextFault(alias.what, ALIAS_REMEDY, alias.line)
    try:
        return cast("Node | None", _compose_with(text).get_single_node())
    except yaml.MarkedYAMLError as error:
        raise _fault_of(text, error) from None
    except (yaml.YAMLError, RecursionError, ValueError):
        raise _unreadable(text) from None


def check_characters(text: str) -> None:
    """Refuse characters that no text file of a keeper should hold.

    :raises TextFault: at the first control character or odd line end.
    """
    found = _UNPRINTABLE.search(text)
    if found:
        raise _bad_character(text, found.start())


def line_of_node(node: Node) -> int:
    """Line of a node, from 1."""
    return int(node.start_mark.line) + 1


def plain(node: Node, depth: int = 8) -> object:
    """Texts, lists and mappings of a node, at most ``depth`` deep."""
    if isinstance(node, MappingNode) and depth:
        pairs: Mapping[str, object] = {str(key.value): plain(value, depth - 1) for key, value in node.value}
        return dict(pairs)
    if isinstance(node, SequenceNode) and depth:
        return [plain(item, depth - 1) for item in node.value]
    return str(node.value) if isinstance(node, ScalarNode) else ""


def _line_at(text: str, index: int) -> int:
    return len(re.findall(r"\r\n|\r|\n", text[:index])) + 1


def _bad_character(text: str, index: int) -> TextFault:
    what = f"the character U+{ord(text[index]):04X} has no place in this file"
    return TextFault(what, "delete it", _line_at(text, index))


def _unreadable(text: str) -> TextFault:
    found = _UNPRINTABLE.search(text)
    if found:
        return _bad_character(text, found.start())
    return TextFault("this is not YAML that can be read", "compare it with a file that works", 1)


def _fault_of(text: str, error: yaml.MarkedYAMLError) -> TextFault:
    found = _UNPRINTABLE.search(text)
    if found:
        return _bad_character(text, found.start())
    context, mark = str(error.context or ""), error.problem_mark or error.context_mark
    if error.context_mark is not None and any(words in context for words in _BEGAN_EARLIER):
        mark = error.context_mark
    line = int(mark.line) + 1 if mark else 1
    if mark and "block mapping" in context and text.startswith("- ", getattr(mark, "index", 0)):
        line = _dash_left_out(text, line) or line
    runaway = _runaway_quote(text)
    if runaway:
        return TextFault("a quote that is not closed", "put the closing quote, or double a quote inside", runaway)
    what = f"this is not YAML: {error.problem or 'unreadable'}"
    return TextFault(what, "check indents, quotes and the colon after the key", line)


def _dash_left_out(text: str, line: int) -> int | None:
    """The first line of a list if it lacks the dash that a later entry, on which the parser stumbled, has."""
    lines = [(number, row) for number, row in enumerate(text.splitlines()[:line], 1) if row.split("#")[0].strip()]
    column = _indent(lines[-1][1])
    first = line
    for number, row in reversed(lines[:-1]):
        if _indent(row) < column:
            break
        first = number
    return None if text.splitlines()[first - 1].lstrip().startswith("-") else first


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def _runaway_quote(text: str) -> int | None:
    """Line of the last quoted scalar before the error that swallowed lines which look like keys of their own."""
    first = last = 0
    with suppress(yaml.YAMLError):
        for event in yaml.parse(text, Loader=getattr(yaml, "CLoader", yaml.Loader)):
            if isinstance(event, yaml.ScalarEvent) and event.style in ("'", '"'):
                first, last = (int(getattr(mark, "line", 0)) for mark in (event.start_mark, event.end_mark))
    swallowed = text.splitlines()[first + 1 : last + 1]
    return first + 1 if any(_KEY_LIKE.match(line) for line in swallowed) else None
