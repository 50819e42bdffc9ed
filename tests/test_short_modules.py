"""A module under 60 lines has a reason, or what stands in it joins its neighbour (DEVELOPERS.md, "Layers")."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "namekeeper"
SHORT = 60
#: One file a command, a page or a thing that is told: found by its name, however short it is.
ONE_EACH = ("faces/cli/", "faces/page/", "faces/telling/")
#: What only one other module uses, and why it does not stand there; all others are used by several.
ALONE = {
    "words/plain_reader": "stands in for a library that is missing on some machines",
    "tables/eml": "writes a document that has a standard of its own",
    "tasks/desktop_entry": "a job that one command has done",
    "tasks/known_words": "a job that one command has done",
}


def names() -> list[str]:
    return sorted(
        path.relative_to(PACKAGE).with_suffix("").as_posix()
        for path in PACKAGE.rglob("*.py")
        if "_shipped" not in path.parts and path.name not in ("__init__.py", "__main__.py")
    )


def used_by(name: str) -> Iterator[str]:
    """The modules that a module imports, wherever in it."""
    for node in ast.walk(ast.parse((PACKAGE / f"{name}.py").read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "namekeeper":
            below = (node.module or "").split(".")[1:]
            yield "/".join(below)
            yield from ("/".join([*below, alias.name]) for alias in node.names)


def test_a_short_module_has_a_reason() -> None:
    every = names()
    uses = {name: set(used_by(name)) for name in every}
    short = [name for name in every if len((PACKAGE / f"{name}.py").read_text(encoding="utf-8").splitlines()) < SHORT]
    alone = [
        name for name in short if not name.startswith(ONE_EACH) and sum(name in used for used in uses.values()) < 2
    ]
    assert alone == sorted(ALONE), "join it with the module that uses it, or say here why not"
    assert len(short) > 20
