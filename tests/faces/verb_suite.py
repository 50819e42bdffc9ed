"""What holds for every command; a new one is held to it by standing in ``VERBS`` (see ``test_recipe``)."""

from __future__ import annotations

import argparse
import io
import json
import shutil
from collections.abc import Iterator
from pathlib import Path

from jsonschema import Draft202012Validator

from namekeeper import resources
from namekeeper.faces.cli.main import VERBS, Verb
from tests.conftest import NOWHERE, Outcome, run_here
from tests.contract.schemas import examples_of
from tests.contract.shapes import Example

TABLES = {
    "stock.csv": "id,tag,name\nHW-002,Red rump,Brachypelma vagans\nT1,GBB,\n",
    "names.csv": "name,status,accepted_name\nTliltocatl vagans,accepted,\n",
    "later.csv": "name,status,accepted_name\nTliltocatl vagans,accepted,\nTliltocatl albopilosus,accepted,\n",
}


def parsers_of(verb: Verb) -> Iterator[tuple[list[str], argparse.ArgumentParser]]:
    """The beginnings of a command, its word and perhaps its act, each with its parser."""
    parser = argparse.ArgumentParser()
    verb.module().options(parser)
    acts = [action.choices for action in parser._actions if isinstance(action, argparse._SubParsersAction)]
    yield [verb.word], parser
    yield from (([verb.word, name], act) for choices in acts for name, act in choices.items())


def parsers() -> Iterator[tuple[list[str], argparse.ArgumentParser]]:
    """The same of all commands."""
    for verb in VERBS.values():
        yield from parsers_of(verb)


def run_in(place: Path, home: Path, line: str) -> Outcome:
    words = [word.replace("_", " ") for word in line.split()]
    return run_here(words, place, {"NAMEKEEPER_HOME": str(home), **NOWHERE}, io.StringIO())


def explains_itself(verb: Verb, place: Path, home: Path) -> None:
    """Help, and one clear line on an option that there is not."""
    asked = run_in(place, home, f"{verb.word} --help")
    assert (asked.code, asked.err) == (0, "")
    assert f"usage: namekeeper {verb.word}" in asked.out
    wrong = run_in(place, home, f"{verb.word} --no-such-option")
    assert (wrong.code, wrong.out) == (2, "")
    assert wrong.err.splitlines()[-1].startswith(f"namekeeper {verb.word}: ")


def has_its_examples(verb: Verb) -> None:
    """Every act that prints JSON has an example."""
    keys = set(examples_of(verb.word))
    for begin, parser in parsers_of(verb):
        if any("--json" in action.option_strings for action in parser._actions):
            assert " ".join(begin) in keys, f"{' '.join(begin)} has no example in tests/contract/commands"


def prints_its_document(example: Example, place: Path, home: Path) -> None:
    """The example's last line prints the one document that it promises."""
    shutil.copytree(resources.sample_collection(), place / "animals")
    for name, text in TABLES.items():
        (place / name).write_text(text)
    for line in example.lines[:-1]:
        assert run_in(place, home, line).code == 0, line
    outcome = run_in(place, home, example.lines[-1])
    assert outcome.code in (0, 1), outcome.err
    found = Draft202012Validator(example.schema).iter_errors(json.loads(outcome.out))
    assert [f"{error.json_path}: {error.message}" for error in found] == []
