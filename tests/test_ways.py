"""The numbered ways of DEVELOPERS.md lead through files and names that are there."""

from __future__ import annotations

import ast
import re
from pathlib import Path

ROOT = Path(__file__).parent.parent
_STEP = re.compile(r"`([a-z_/]+\.py)`((?: (?:and )?`\w+`)*)")


def ways() -> str:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    return text.partition("<!-- ways -->")[2].partition("<!-- end of ways -->")[0]


def defined(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return {node.name for node in tree.body if isinstance(node, ast.FunctionDef | ast.ClassDef)}


def test_every_step_names_a_file_and_what_is_defined_there() -> None:
    steps = [(found[1], re.findall(r"`(\w+)`", found[2])) for found in _STEP.finditer(ways())]
    missing = [
        (file, name)
        for file, names in steps
        for name in names
        if not (ROOT / "namekeeper" / file).is_file() or name not in defined(ROOT / "namekeeper" / file)
    ]
    assert missing == []
    assert sum(bool(names) for _, names in steps) > 20


def test_every_way_has_numbered_steps_and_a_command() -> None:
    parts = re.split(r"^\*\*From ", ways(), flags=re.MULTILINE)[1:]
    assert [part.partition("**")[0] for part in parts] == [
        "a tag to its candidates",
        "a specimen's file to a verdict",
        "a verdict to a label",
    ]
    for part in parts:
        assert "`namekeeper " in part
        numbers = [int(number) for number in re.findall(r"^(\d+)\. ", part, flags=re.MULTILINE)]
        assert numbers == list(range(1, len(numbers) + 1))
