"""All messages that a keeper can meet stand in one list, which is read from top to bottom when it changes.

Would a keeper know what to do next? Does a word or an option belong to another program? ``messages.txt`` is written by
``python -m tests.faces.messages``; look at its ``git diff`` before you commit a new message.
"""

from __future__ import annotations

import ast

import pytest

from namekeeper.words.terms import Standing
from tests.faces.messages import LIST, PACKAGE, messages

#: Words of the trade of writing programs, that no keeper should have to know.
FOREIGN = ("null", "NoneType", "exception", "traceback", "boolean", "string", "parse", "regex", "deserial", "stack")
#: Errors here are reasons beside a row that is left out, in a list under one heading.
WHY_A_ROW = ("sources/lists/name_rows.py", "tables/import_names.py")


@pytest.fixture(scope="module")
def found() -> str:
    """The list as the code has it now."""
    return messages()


def test_the_list_is_that_of_the_code(found: str) -> None:
    assert LIST.read_text(encoding="utf-8") == found, "python -m tests.faces.messages writes the list anew"


@pytest.mark.parametrize("word", FOREIGN)
def test_no_message_speaks_of_programs(found: str, word: str) -> None:
    said = [line for line in found.splitlines() if line.startswith("    ")]
    plain = ["".join(part.partition("}")[2] for part in f"}}{line}".split("{")) for line in said]
    assert [line for line in plain if word in line] == []


def test_the_collector_finds_what_is_raised_named_and_shown(found: str) -> None:
    assert "    the folder you are in is gone\n" in found
    assert "there is no animal '{identifier}' (its id is the name of its file in specimens/ without .yaml)" in found
    assert "    {identifier} was given two names (leave one out)\n" in found
    assert "Take what needs no judgement: namekeeper settle {folder} --take-safe --write" in found
    assert "    This came from another site\n" in found
    assert "    Males.females.unsexed" in found  # between the tags of a page
    assert "    Picture of the label of {animal.id} as it would be printed now\n" in found  # for who cannot see it
    assert "    %d that wait for you\n" in found  # within a statement
    assert "    Namekeeper is closed: nothing was sent." in found  # of a script


def test_every_error_says_what_to_do() -> None:
    bare = []
    for path in (one for one in sorted(PACKAGE.rglob("*.py")) if one.relative_to(PACKAGE).as_posix() not in WHY_A_ROW):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not (isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call)):
                continue
            name = getattr(node.exc.func, "id", "")
            if name in ("InputError", "FileError", "MissingLibraryError") and "remedy" not in {
                word.arg for word in node.exc.keywords
            }:
                bare.append(f"{path.relative_to(PACKAGE).as_posix()}: {ast.unparse(node.exc)}")
    assert bare == []


def test_screens_show_no_closed_word_of_a_standing() -> None:
    from namekeeper.faces.telling.standings import STATES

    assert [word for word in Standing if word in {text.casefold() for text in STATES.values()}] == []
