"""The JSON that each command prints, by command and act; every command has its own module in ``commands``."""

from __future__ import annotations

import importlib

from namekeeper.faces.cli.main import VERBS
from tests.contract.shapes import Example


def examples_of(verb: str) -> dict[str, Example]:
    """The examples of one command; a new one brings its own module."""
    module = importlib.import_module(f"tests.contract.commands.{verb}")
    found: dict[str, Example] = module.EXAMPLES
    return found


EXAMPLES = {key: example for verb in VERBS.values() for key, example in examples_of(verb.word).items()}
DOCUMENTS = {key: example.schema for key, example in EXAMPLES.items()}


def problems(command: str, document: object) -> list[str]:
    """What is wrong with the document of ``command``; empty if it keeps the contract."""
    from jsonschema import Draft202012Validator

    validator = Draft202012Validator(DOCUMENTS[command])
    return [f"{error.json_path}: {error.message}" for error in validator.iter_errors(document)]
