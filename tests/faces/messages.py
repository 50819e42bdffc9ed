"""Every message that a keeper can meet, collected from the code: ``python -m tests.faces.messages`` writes the list.

From all layers: what an error or a problem says and what to do about it, and what is noticed on the way. From the
faces: every text that is shown, those of pages as they stand between the tags. What is filled in stands in braces as
the code names it.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.faces.page_texts import PATTERNS, texts_of_page, texts_of_script

PACKAGE = Path(__file__).parents[2] / "namekeeper"
LIST = Path(__file__).parent / "messages.txt"
_SAYING = {
    "InputError", "FileError", "MissingLibraryError", "NamekeeperError", "Problem", "ValueError", "LayoutError",
    "ArgumentTypeError", "notice", "say",
}  # fmt: skip
_SHOWN = ("faces/telling/", "faces/cli/", "faces/page/")
_FOR_BROWSERS = ("<", ".", "default-src", "camera=", "attachment;")  # headers, rules of style, bare fields
_TO_COPY = ("faces/cli/examples.py",)  # command lines, which test_examples tries


def messages() -> str:
    """The list as it stands in the file: modules, and below each its messages in the order of the code."""
    parts = []
    for path in sorted(PACKAGE.rglob("*.py")):
        name = path.relative_to(PACKAGE).as_posix()
        if name in _TO_COPY:
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        found = list(dict.fromkeys(_shown(tree) if name.startswith(_SHOWN) else _said(tree)))
        if found:
            parts.append(_listed(name, found))
    for path in sorted(path for pattern in PATTERNS for path in PACKAGE.glob(pattern)):
        source = path.read_text(encoding="utf-8")
        found = list(dict.fromkeys((texts_of_script if path.suffix == ".js" else texts_of_page)(source)))
        if found:
            parts.append(_listed(path.relative_to(PACKAGE).as_posix(), found))
    return "\n".join(parts) + "\n"


def _listed(name: str, found: list[str]) -> str:
    return "\n".join((name, *(f"    {' '.join(text.split())}" for text in found)))


def _said(tree: ast.Module) -> Iterator[str]:
    """What errors, problems and notices say, with the remedy behind it in brackets."""
    scopes = _scopes(tree)
    for node in _in_order(tree):
        if not isinstance(node, ast.Call) or _called(node) not in _SAYING:
            continue
        known = _texts_by_name(scopes.get(id(node), tree))
        remedy = next((word.value for word in node.keywords if word.arg == "remedy"), None)
        given = [_text(one, known) for one in (*node.args[:2], *([remedy] if remedy else []))]
        texts = [text for text in given if text]
        if any(map(_reads, texts)):
            yield " ".join((texts[0], *(f"({text})" for text in texts[1:])))


def _shown(tree: ast.Module) -> Iterator[str]:
    """Every text of a face that reads like words, but for what is said of the code itself."""
    silent = {id(node) for owner in ast.walk(tree) for node in _docstring(owner)}
    inner = {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in ast.walk(node)}
    for node in _in_order(tree):
        whole = isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and id(node) not in inner)
        text = _text(node, {}) if whole and id(node) not in silent else ""
        if text and _reads(text):
            yield text


def _docstring(owner: ast.AST) -> Iterator[ast.AST]:
    if isinstance(owner, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(owner) is not None:
        first = owner.body[0]
        if isinstance(first, ast.Expr):
            yield first.value


def _in_order(tree: ast.Module) -> list[ast.AST]:
    placed = [node for node in ast.walk(tree) if hasattr(node, "lineno")]
    return sorted(placed, key=lambda node: (node.lineno, node.col_offset))  # type: ignore[attr-defined]


def _called(node: ast.Call) -> str:
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


def _scopes(tree: ast.Module) -> dict[int, ast.AST]:
    """The innermost function around each node, by the node's identity."""
    functions = [node for node in _in_order(tree) if isinstance(node, ast.FunctionDef)]
    return {id(node): function for function in functions for node in ast.walk(function)}


def _texts_by_name(tree: ast.AST) -> dict[str, list[tuple[int, ast.expr]]]:
    """Assignments by name, for texts that get a name before they are said."""
    found: dict[str, list[tuple[int, ast.expr]]] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign):
            names = [target.id for target in node.targets if isinstance(target, ast.Name)]
            for name in names:
                found.setdefault(name, []).append((node.lineno, node.value))
    return found


def _text(node: ast.AST, known: dict[str, list[tuple[int, ast.expr]]]) -> str:
    match node:
        case ast.Constant(value=str(text)):
            return text
        case ast.JoinedStr(values=values):
            return "".join(_text(value, {}) for value in values)
        case ast.FormattedValue(value=value):
            return f"{{{ast.unparse(value)}}}"
        case ast.BinOp(left=left, op=ast.Add(), right=right):
            return _text(left, known) + _text(right, known)
        case ast.IfExp(body=body, orelse=orelse):
            return " / ".join(filter(None, (_text(body, known), _text(orelse, known))))
        case ast.Name(id=name, lineno=line):
            before = [value for at, value in known.get(name, ()) if at < line]
            return _text(before[-1], {}) if before else f"{{{name}}}"
        case _:
            return ""


def _reads(text: str) -> bool:
    """Whether a text has a word of a sentence, and is no key, address or format."""
    words = [word for word in text.split() if any(map(str.isalpha, word)) and not word.startswith("{")]
    return len(words) > 1 and not text.startswith(("namekeeper.", "http", *_FOR_BROWSERS))


if __name__ == "__main__":
    LIST.write_text(messages(), encoding="utf-8")
    print(f"{LIST.name}: {len(LIST.read_text(encoding='utf-8').splitlines())} lines")
