"""Rubbish in: an answer or a clear error, nothing executed, nothing printed raw, nothing lost."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from namekeeper.evidence.interfaces import NameList
from namekeeper.faces.telling.lookup import lookup_document
from namekeeper.tasks.lookup import look_up
from namekeeper.tasks.tags import TagAnswers
from tests.candidates.starter import opened_starter

Command = Callable[..., Any]
RUBBISH = {
    "binary": random.Random(1).randbytes(2000).decode("latin-1").replace("\n", " "),
    "controls": "".join(map(chr, range(1, 32))).replace("\n", "").replace("\r", ""),
    "terminal": "\x1b[2J\x1b]0;gone\x07Brachypelma\x1b[31m hamorii\x9b0m",
    "right to left": "\u202eirromah amleplehcarB\u202c \u2067עכביש\u2069",
    "punctuation": "!?.,;:-_()[]{}<>/\\|'\"#*+~",
    "formula": '=HYPERLINK("http://example.invalid";"x")',
    "command": "$(touch gone); `id` | tee %s %n {0} {{7*7}}",
    "database": "'; DROP TABLE name; --",
    "lone surrogate": "Brachypelma \ud800 hamorii",
    "marks": "B" + "\u0301" * 500,
    "emoji": "🕷️🕸️👩‍🔬🏳️‍🌈" * 20,
    "zero width": "\u200bBrachypelma\u200d \ufeffhamorii\u2060",
}


@pytest.mark.parametrize("tag", RUBBISH.values(), ids=RUBBISH)
def test_rubbish_gets_an_answer_and_is_never_printed_raw(command: Command, tmp_path: Path, tag: str) -> None:
    text = command("lookup", "--offline", tag)
    assert text.code in (0, 1)
    assert "\x1b" not in text.out
    assert not any(ord(letter) < 32 and letter != "\n" for letter in text.out)
    assert not any(letter in text.out for letter in "\u202e\u2067\u009b")
    assert text.err == ""
    assert not (tmp_path / "gone").exists()
    data = json.loads(command("lookup", "--offline", "--json", tag).out)
    assert data["results"][0]["tag"] == tag


@pytest.mark.parametrize("kind", ["controls", "punctuation", "emoji"])
def test_what_is_no_name_finds_none(command: Command, kind: str) -> None:
    (result,) = json.loads(command("lookup", "--offline", "--json", RUBBISH[kind]).out)["results"]
    assert (result["answer"], result["candidates"]) == ("none", [])


@pytest.mark.parametrize("kind", ["binary", "formula", "command", "database"])
def test_words_among_rubbish_might_be_a_name_and_find_nothing(command: Command, kind: str) -> None:
    (result,) = json.loads(command("lookup", "--offline", "--json", RUBBISH[kind]).out)["results"]
    assert (result["answer"], result["candidates"]) in (("none", []), ("unasked", []))


def test_a_line_of_a_megabyte_is_named_and_the_others_are_answered(command: Command, tmp_path: Path) -> None:
    (tmp_path / "tags.txt").write_text(f"Brachypelma hamorii\n{'x' * 1_000_000}\nGBB\n", encoding="utf-8")
    outcome = command("lookup", "--offline", "--json", "--from", "tags.txt")
    assert outcome.code == 2
    assert [result["tag"] for result in json.loads(outcome.out)["results"]] == ["Brachypelma hamorii", "GBB"]
    assert "tag 2" in outcome.err
    assert len(outcome.err) < 200


def test_a_binary_file_is_answered_or_refused(command: Command, tmp_path: Path) -> None:
    (tmp_path / "photo.jpg").write_bytes(b"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x81\x8d\x8f\x90" * 50)
    outcome = command("lookup", "--offline", "--from", "photo.jpg")
    assert outcome.code in (1, 2)
    assert "\x00" not in outcome.out
    assert "Traceback" not in outcome.err


@pytest.fixture(scope="module")
def lists(tmp_path_factory: pytest.TempPathFactory) -> Any:
    with opened_starter(tmp_path_factory.mktemp("starter")) as starter:
        yield starter


@given(st.text(max_size=300))
@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_text_gets_an_answer(lists: tuple[NameList, ...], text: str) -> None:
    (looked,) = look_up([text], lists)
    data = lookup_document(TagAnswers((looked,)))
    json.dumps(data)
    assert looked.lookup.answer.value in ("one", "several", "guess", "genus", "none", "unasked")
    assert (looked.lookup.answer.value in ("none", "unasked")) == (not looked.lookup.candidates)


def test_standard_input_is_decoded_like_a_file(tmp_path: Path) -> None:
    """One tag in an older encoding spoils no other, and no half letter reaches the JSON."""
    content = "Küstenvogelspinne\n".encode() + "Gr\u00fcne GBB\n".encode("cp1252")
    (tmp_path / "tags.txt").write_bytes(content)
    told = []
    for source, stdin in ((str(tmp_path / "tags.txt"), b""), ("-", content)):
        line = [sys.executable, "-m", "namekeeper", "lookup", "--offline", "--json", "--from", source]
        environ = {**os.environ, "NAMEKEEPER_HOME": str(tmp_path / "home"), "PYTHONIOENCODING": "utf-8:strict"}
        done = subprocess.run(line, input=stdin, capture_output=True, check=False, env=environ)
        told.append([result["tag"] for result in json.loads(done.stdout)["results"]])
    assert told == [["Küstenvogelspinne", "Grüne GBB"]] * 2
