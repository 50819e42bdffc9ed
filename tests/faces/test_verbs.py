"""Every command keeps what commands promise; one made by the recipe of DEVELOPERS.md does too, by nothing else."""

from __future__ import annotations

import sys
from pathlib import Path
from types import MappingProxyType, ModuleType

import pytest

from namekeeper.faces.cli import main
from namekeeper.faces.cli.main import VERBS, Verb
from tests.contract.schemas import EXAMPLES, examples_of
from tests.faces import verb_suite

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"
README = DEVELOPERS.with_name("README.md")


@pytest.mark.parametrize("verb", VERBS.values(), ids=lambda verb: verb.word)
def test_a_command_explains_itself(verb: Verb, tmp_path: Path, home: Path) -> None:
    verb_suite.explains_itself(verb, tmp_path, home)


@pytest.mark.parametrize("verb", VERBS.values(), ids=lambda verb: verb.word)
def test_every_act_has_an_example(verb: Verb) -> None:
    verb_suite.has_its_examples(verb)


@pytest.mark.parametrize("key", [key for key, example in EXAMPLES.items() if example.lines])
def test_a_document_is_as_promised(key: str, tmp_path: Path, home: Path) -> None:
    verb_suite.prints_its_document(EXAMPLES[key], tmp_path, home)


@pytest.mark.parametrize("verb", VERBS.values(), ids=lambda verb: verb.word)
def test_the_keeper_is_told_of_it(verb: Verb) -> None:
    assert f"namekeeper {verb.word}" in README.read_text(encoding="utf-8")


def test_no_example_is_left_behind() -> None:
    folder = Path(__file__).parents[1] / "contract" / "commands"
    assert {path.stem for path in folder.glob("*.py")} == {"__init__", *VERBS}


GREET = """
'''``namekeeper greet``: a word of welcome.'''

def options(parser):
    parser.add_argument("--json", action="store_true")

def run(args, outside, terminal):
    if args.json:
        terminal.console.json({"greeting": "hello", "day": outside.today.isoformat()})
    else:
        terminal.console.put("hello")
    return 0
"""
PROMISE = """
from tests.contract.shapes import DAY, TEXT, Example, document

EXAMPLES = {"greet": Example(document(greeting=TEXT, day=DAY), ("greet --json",))}
"""


def module(name: str, text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A module as its file would make it."""
    made = ModuleType(name)
    exec(compile(text, f"{name}.py", "exec"), made.__dict__)
    monkeypatch.setitem(sys.modules, name, made)


def test_a_command_is_a_module_a_line_and_an_example(
    tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The steps of DEVELOPERS.md, "Add a command"; nothing else is edited."""
    greet = Verb("greet", "say hello")
    module("namekeeper.faces.cli.greet", GREET, monkeypatch)
    module("tests.contract.commands.greet", PROMISE, monkeypatch)
    monkeypatch.setattr(main, "VERBS", MappingProxyType({**VERBS, "greet": greet}))
    verb_suite.explains_itself(greet, tmp_path, home)
    verb_suite.has_its_examples(greet)
    (example,) = examples_of("greet").values()
    verb_suite.prints_its_document(example, tmp_path, home)
    assert "  greet       say hello\n" in verb_suite.run_in(tmp_path, home, "--help").out
    assert verb_suite.run_in(tmp_path, home, "gret").err.endswith("did you mean 'greet'? (see namekeeper --help)\n")
