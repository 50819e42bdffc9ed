"""Every document on record is as promised, and a key holds one kind of thing in all of them."""

from __future__ import annotations

import ast
import json
import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from types import MappingProxyType

from tests.contract.kinds import kinds
from tests.contract.schemas import DOCUMENTS, problems
from tests.recorded.records import FOLDER

ROOT = Path(__file__).parents[2]
_LINE = re.compile(r"^=== namekeeper (.*?)(?:  \(.*)?$", re.MULTILINE)
_DOCUMENT = re.compile(r"^--- stdout: JSON on one line, laid out here\n((?:\| .*\n)+)", re.MULTILINE)
#: What a record shows in place of what differs from run to run.
_FLEETING = (('"bytes": "SIZE"', '"bytes": 1'), ('"last_answer": "THEN"', '"last_answer": "2026-07-01T12:00:00+00:00"'))
_TOLD_BY_OPTION = MappingProxyType(
    {
        "--sheets": "sheets",
        "--templates": "labels --templates",
        "--test-page": "labels --test-page",
        "--status": "labels --status",
        "--since-last": "check --since-last",
    }
)

#: Keys that hold several kinds of thing. Documents keep their keys once they are out, so these stay; a new one gets a
#: word of its own.
SEVERAL = MappingProxyType(
    {
        "column": {"count", "text"},  # of a sheet of labels, counted from 1; of a table, by its header
        "columns": {"count", "table", "list of record"},  # of a sheet; by field; those that are not read
        "common": {"list of text", "list of record"},  # names on a tag; names of a species with their language
        "files": {"list of text", "record"},  # of an export; of the demo, by what is in them
        "former": {"list of text", "list of record", "count"},  # on a tag; of a species; in a list
        "labels": {"list of record", "text"},  # on sheets; the demo's file of them
        "left": {"record", "number", "list of record"},  # the collection (word of the file); margin; rows and cells
        "on": {"record", "text", "yes-no"},  # name on a day; day of a stock; whether a service is asked
        "rows": {"count", "list of record"},  # of a sheet; those of a table that are passed over
        "specimens": {"list of record", "list of text", "count"},  # told; changed; exported
        "uncertain": {"yes-no", "list of text"},  # a tag; animals that may have been there
        "why": {"text", "list of text"},  # the reasons of a verdict are many
    }
)


def printed() -> Iterator[tuple[str, str, object]]:
    """Every document on record: the scenario, the command by its key, the document."""
    for path in sorted(FOLDER.iterdir()):
        _, *runs = _LINE.split(path.read_text(encoding="utf-8"))
        for line, record in zip(runs[::2], runs[1::2], strict=True):
            found = _DOCUMENT.search(record)
            if found:
                text = "".join(row[2:] for row in found[1].splitlines())
                for fleeting, steady in _FLEETING:
                    text = text.replace(fleeting, steady)
                yield f"{path.stem}: {line}", command_of(shlex.split(line)), json.loads(text)


def command_of(words: list[str]) -> str:
    """The key of the document that a command line prints."""
    by_option = [_TOLD_BY_OPTION[word] for word in words if word in _TOLD_BY_OPTION]
    plain = [word for word in words if not word.startswith("-")]
    return by_option[0] if by_option else next(key for key in (" ".join(plain[:2]), plain[0]) if key in DOCUMENTS)


def test_every_document_on_record_is_as_promised() -> None:
    told = list(printed())
    wrong = [(where, found) for where, command, document in told if (found := problems(command, document))]
    assert wrong == []
    assert len(told) > 100
    assert set(DOCUMENTS) - {command for _, command, _ in told} == set()


def test_a_key_holds_one_kind_of_thing_in_all_documents() -> None:
    several = {key: set(by_kind) for key, by_kind in kinds(DOCUMENTS).items() if len(by_kind) > 1}
    assert several == dict(SEVERAL)


def test_every_document_is_made_where_the_sentences_are() -> None:
    """A command hands on what ``faces/telling`` makes, and makes no part of a document itself."""
    calls = [
        (path.name, call)
        for path in sorted((ROOT / "namekeeper" / "faces" / "cli").glob("*.py"))
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Attribute) and call.func.attr == "json"
    ]
    assert len(calls) > 15
    own = [
        (name, call.lineno)
        for name, call in calls
        if any(isinstance(part, ast.Dict) and any(part.keys) for part in ast.walk(call))
    ]
    assert own == []
