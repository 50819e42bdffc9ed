"""Imports go downward only; packages of one layer do not know each other (DEVELOPERS.md, "Layers")."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TypeGuard

import pytest

PACKAGE = Path(__file__).parent.parent / "namekeeper"
LAYER = {
    "words": 0,
    "files": 1,
    "records": 1,
    "evidence": 1,
    "reading": 1,
    "judging": 2,
    "sources": 3,
    "storage": 3,
    "labels": 3,
    "tables": 3,
    "tasks": 4,
    "faces": 5,
}
#: Single modules on the top level and the layer from which they may be used.
TOP = {"resources": 1, "outside": 2, "__main__": 6, "__init__": 0}
#: Only these modules may touch the outside world by the libraries named (houses.md: the rim is few files).
RIM = {
    "requests": ("sources/http",),
    "requests_cache": ("sources/kept_files",),
    "weasyprint": ("labels/",),
    "sqlite3": ("sources/",),
    "argparse": ("faces/cli/",),
    "flask": ("faces/page/",),
    "waitress": ("faces/page/",),
}


#: What makes an error, a problem or a failure: these carry their words with them, wherever they come from.
ERRORS = re.compile(r"\w*(Error|Problem)$|mistake$|Failure$")
WORD = re.compile(r"[^\W\d_]{2,}")
#: How texts begin that tasks write into files of the keeper, by module.
IN_FILES = {
    "collection.py": "# Settings of this collection",
    "demo.py": "Mex red knee",
    "desktop_entry.py": "[Desktop Entry]",
}
#: A face asks tasks and tells what they return: it names values, and reaches no work itself.
FACES_SEE = ("faces", "tasks", "evidence", "records", "words", "resources", "outside")


def modules() -> list[Path]:
    return sorted(path for path in PACKAGE.rglob("*.py") if "_shipped" not in path.parts)


def imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield node.module or ""


def place(module: str) -> tuple[str, int]:
    parts = module.split(".")
    if len(parts) == 1:
        return "__init__", 0
    return parts[1], LAYER.get(parts[1], TOP.get(parts[1], 99))


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_imports_only_from_below(path: Path) -> None:
    own = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    own_layer = LAYER.get(own, TOP.get(own, 99))
    wrong = []
    for module in imported(path):
        if module.split(".")[0] != "namekeeper":
            continue
        package, layer = place(module)
        if package != own and layer >= own_layer:
            wrong.append(module)
    assert own_layer < 99, f"{own} has no layer: add it to the table"
    assert wrong == []


@pytest.mark.parametrize("path", sorted((PACKAGE / "faces").rglob("*.py")), ids=lambda path: path.name)
def test_a_face_only_asks_tasks(path: Path) -> None:
    reached = {module for module in imported(path) if module.startswith("namekeeper.")}
    assert {module for module in reached if module.split(".")[1] not in FACES_SEE} == set()


@pytest.mark.parametrize("path", sorted((PACKAGE / "faces" / "telling").rglob("*.py")), ids=lambda path: path.name)
def test_what_is_told_knows_no_terminal(path: Path) -> None:
    reached = {module for module in imported(path) if module.startswith("namekeeper.faces.")}
    assert {module for module in reached if not module.startswith("namekeeper.faces.telling.")} == set()


@pytest.mark.parametrize("path", sorted((PACKAGE / "tasks").glob("*.py")), ids=lambda path: path.name)
def test_a_task_says_nothing_but_errors_and_problems(path: Path) -> None:
    """A text of five words stands in an error, a problem or a file that is made; all else is a code for a face."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    in_errors = {id(part) for node in of_errors(tree) for part in ast.walk(node)}
    long = {text for node, text in texts(tree) if id(node) not in in_errors and len(WORD.findall(text)) > 4}
    assert {text for text in long if not text.startswith(IN_FILES.get(path.name, "\0"))} == set()


def of_errors(tree: ast.Module) -> list[ast.AST]:
    """Errors, problems and failures that are made, and what goes into them by a name."""
    made: list[ast.AST] = [node for node in ast.walk(tree) if isinstance(node, ast.Call) and ERRORS.match(called(node))]
    while True:
        names = {part.id for node in made for part in ast.walk(node) if isinstance(part, ast.Name)}
        more = [node for node in ast.walk(tree) if node not in made and not names.isdisjoint(gives(node))]
        if not more:
            return made
        made += more


def called(call: ast.Call) -> str:
    return call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")


def gives(node: ast.AST) -> set[str]:
    """The names to which a statement gives a value, or a function that returns a text its own."""
    if isinstance(node, ast.Assign):
        return {part.id for target in node.targets for part in ast.walk(target) if isinstance(part, ast.Name)}
    returns_text = is_function(node) and isinstance(node.returns, ast.Name) and node.returns.id == "str"
    return {node.name} if is_function(node) and returns_text else set()


def texts(tree: ast.Module) -> Iterator[tuple[ast.AST, str]]:
    """Texts of the code, those with places to fill as one, but for docstrings."""
    owners = [node for node in ast.walk(tree) if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)]
    silent = {id(part) for owner in owners if ast.get_docstring(owner) for part in ast.walk(owner.body[0])}
    filled = [node for node in ast.walk(tree) if isinstance(node, ast.JoinedStr)]
    silent |= {id(part) for node in filled for part in ast.walk(node) if part is not node}
    for node in ast.walk(tree):
        if id(node) in silent:
            continue
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node, node.value
        elif isinstance(node, ast.JoinedStr):
            yield node, " ".join(str(part.value) for part in node.values if isinstance(part, ast.Constant))


def test_public_class_names_are_unique() -> None:
    places: dict[str, list[str]] = {}
    for path in modules():
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                places.setdefault(node.name, []).append(path.relative_to(PACKAGE).as_posix())
    assert {name: found for name, found in places.items() if len(found) > 1} == {}


def test_no_cycles_between_modules() -> None:
    graph: dict[str, set[str]] = {}
    names = {"namekeeper." + ".".join(p.relative_to(PACKAGE).with_suffix("").parts): p for p in modules()}
    for name, path in names.items():
        graph[name] = {
            candidate
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))  # within functions too
            if isinstance(node, ast.Import | ast.ImportFrom)
            for candidate in _targets(node)
            if candidate in names
        }
    done: set[str] = set()

    def visit(name: str, trail: tuple[str, ...]) -> None:
        assert name not in trail, f"import cycle: {' -> '.join((*trail, name))}"
        if name in done:
            return
        for target in sorted(graph[name]):
            visit(target, (*trail, name))
        done.add(name)

    for name in sorted(graph):
        visit(name, ())


def _targets(node: ast.Import | ast.ImportFrom) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
        return
    yield node.module or ""
    yield from (f"{node.module}.{alias.name}" for alias in node.names)


@pytest.mark.parametrize("library", sorted(RIM))
def test_the_outside_world_is_touched_in_few_places(library: str) -> None:
    users = {
        path.relative_to(PACKAGE).as_posix()
        for path in modules()
        if any(module.split(".")[0] == library for module in imported(path))
    }
    strays = {user for user in users if not user.startswith(RIM[library])}
    assert strays == set()


def test_every_module_says_what_it_is_for() -> None:
    silent = [str(path) for path in modules() if not ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))]
    assert silent == []


def test_no_module_and_no_function_outgrows_what_can_be_held_in_the_head() -> None:
    """300 lines a module, about 40 a function without its docstring; a module without functions is a table of words."""
    long = []
    for path in modules():
        text = path.read_text(encoding="utf-8")
        functions = [node for node in ast.walk(ast.parse(text)) if is_function(node)]
        long += [str(path)] if len(text.splitlines()) > 300 and len(functions) > 1 else []
        long += [f"{path}: {node.name}" for node in functions if length(node) > 40]
    assert long == []


def is_function(node: ast.AST) -> TypeGuard[ast.FunctionDef]:
    return isinstance(node, ast.FunctionDef)


def length(function: ast.FunctionDef) -> int:
    """Lines without the docstring."""
    told = function.body[0] if ast.get_docstring(function) is not None else None
    spared = (told.end_lineno or told.lineno) - told.lineno + 1 if told else 0
    return (function.end_lineno or function.lineno) - function.lineno + 1 - spared
