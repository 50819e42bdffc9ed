"""``namekeeper lookup`` from outside: the documents, exit codes, files, the prompt (contract sections 0 and 2)."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import Typed, run_here
from tests.contract.schemas import problems
from tests.reading.corpus import entries

Command = Callable[..., Any]


def document(outcome: Any) -> Any:
    found = json.loads(outcome.out)
    assert problems("lookup", found) == []
    return found


def test_the_example_of_the_contract(command: Command) -> None:
    tag = "P. metallica / regalis? 0.1 5-6cm BL CB gooty £30"
    outcome = command("lookup", "--offline", "--json", tag)
    (result,) = document(outcome)["results"]
    assert result["tag"] == tag
    assert {key: value for key, value in result["reading"].items() if key != "spans"} == {
        "scientific": ["P. metallica", "P. regalis"], "former": [], "common": ["gooty"], "qualifier": "?",
        "uncertain": True, "trade_form": None, "locality": None, "sex": "0.1.0", "size_cm": [5.0, 6.0],
        "size_of": "body", "stage": None, "instar": None, "source_mark": "CB", "price": "£30",
        "seller": None, "cross": False, "denied": False, "unheard": [], "alternatives": [], "leftover": "",
    }  # fmt: skip
    assert {"field": "sex", "start": 24, "end": 27} in result["reading"]["spans"]
    assert result["answer"] == "several"
    first = result["candidates"][0]
    assert (first["name"], first["authorship"], first["how"], first["matched"], first["range"], first["sources"]) == (
        "Poecilotheria metallica", "Pocock, 1899", "abbreviated", "P. metallica", ["India"], ["starter"],
    )  # fmt: skip
    assert outcome.code == 1


def test_every_tag_of_the_corpus_fits_the_schema(command: Command) -> None:
    tags = [entry.tag for entry in entries()]
    outcome = command("lookup", "--offline", "--json", "--from", "-", stdin="\n".join(tags))
    assert [result["tag"] for result in document(outcome)["results"]] == tags


@pytest.mark.parametrize(
    ("tag", "code"), [("Brachypelma hamorii", 0), ("red knee", 1), ("male", 1), ("Ursus arctos", 1)]
)
def test_exit_codes(command: Command, tag: str, code: int) -> None:
    assert command("lookup", "--offline", tag).code == code
    assert command("lookup", "--offline", "--json", tag).code == code


def test_several_tags_give_the_worst_code_and_keep_their_order(command: Command) -> None:
    outcome = command("lookup", "--offline", "--json", "Brachypelma hamorii", "red knee", "Brachypelma emilia")
    assert [result["answer"] for result in document(outcome)["results"]] == ["one", "several", "one"]
    assert outcome.code == 1


def test_the_date_decides_which_meanings_are_open(command: Command) -> None:
    # Mendoza & Francke 2017, Invertebrate Systematics 31: 157-179: the trade's smithi was mostly hamorii
    for date, answer in ((None, "several"), ("2005", "several"), ("1950", "one"), ("2005-06-01", "several")):
        options = ["--on", date] if date else []
        (result,) = document(command("lookup", "--offline", "--json", *options, "Brachypelma smithi"))["results"]
        assert result["answer"] == answer, date


@pytest.mark.parametrize("date", ["yesterday", "2014-13", "2014-02-30", "03/04/2014", ""])
def test_a_date_that_is_none_is_refused(command: Command, date: str) -> None:
    outcome = command("lookup", "--offline", "--on", date, "Brachypelma smithi")
    assert (outcome.code, outcome.out) == (2, "")
    assert f"argument --on: '{date}' " in outcome.err


@pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16"])
def test_tags_come_from_a_file_in_any_usual_coding(command: Command, tmp_path: Path, coding: str) -> None:
    (tmp_path / "tags.txt").write_bytes('Brachypelma hamorii ½"\r\n\r\n   \r\nsklípkan kadeřavý\r\n'.encode(coding))
    found = document(command("lookup", "--offline", "--json", "--from", "tags.txt"))
    assert [result["tag"] for result in found["results"]] == ['Brachypelma hamorii ½"', "sklípkan kadeřavý"]
    assert [result["answer"] for result in found["results"]] == ["one", "one"]


def test_a_file_of_the_old_windows_coding_is_read(command: Command, tmp_path: Path) -> None:
    (tmp_path / "tags.txt").write_bytes('Kraushaar-Vogelspinne Männchen ½"\n'.encode("cp1252"))
    (result,) = document(command("lookup", "--offline", "--json", "--from", "tags.txt"))["results"]
    assert (result["answer"], result["reading"]["sex"]) == ("one", "1.0.0")


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("--from", "missing.txt"), "missing.txt"),
        (("--from", "."), "no tags from here"),
        (("--from", "empty.txt"), "no tag in it"),
        (("Brachypelma hamorii", "--from", "empty.txt"), "together"),
        ((), "no tag"),
        (("--json",), "no tag"),
    ],
)
def test_wrong_input_is_told_in_one_line(
    command: Command, tmp_path: Path, arguments: tuple[str, ...], told: str
) -> None:
    (tmp_path / "empty.txt").write_text("\n \n", encoding="utf-8")
    outcome = command("lookup", "--offline", *arguments)
    assert (outcome.code, outcome.out) == (2, "")
    assert told in outcome.err
    assert len(outcome.err.splitlines()) == 1


def typed(lines: str, home: Path) -> tuple[int, str]:
    environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1"}
    outcome = run_here(["lookup", "--offline"], home, environ, Typed(lines), Typed())
    return outcome.code, outcome.out


def test_without_a_tag_a_terminal_gets_a_prompt_until_an_empty_line(tmp_path: Path) -> None:
    code, shown = typed("Brachypelma hamorii\nred knee\n\nnever read\n", tmp_path)
    assert code == 1
    assert shown.count("tag> ") == 3
    assert "Brachypelma hamorii Tesmoingt, Cleton & Verdez, 1997" in shown
    assert "may be any of these" in shown.lower()
    assert "never read" not in shown


def test_the_prompt_ends_with_the_input(tmp_path: Path) -> None:
    assert typed("", tmp_path)[0] == 0
    code, shown = typed("Brachypelma hamorii", tmp_path)
    assert (code, shown.count("tag> ")) == (0, 2)


def test_text_fits_80_columns_and_says_everything(command: Command) -> None:
    outcome = command(
        "lookup", "--offline", "Mex red knee (B. smithi) 0.0.1 2cm £15 premolt", "Chilobrachys sp. electric blue"
    )
    assert max(map(len, outcome.out.splitlines())) <= 80
    expected = (
        "you choose", "2 clues agree", "Brachypelma hamorii", "from Mexico", "size 2 cm", "price £15", "premolt",
        "trade form", "Chilobrachys natanicharum",
    )  # fmt: skip
    assert [words for words in expected if words not in outcome.out] == []


@pytest.mark.parametrize(
    ("tag", "answer", "names"),
    [
        ("Foo bar", "several", ["Foo bar", "Foo newbar"]),
        ("Foo bar Other, 1950", "one", ["Foo newbar"]),
        ("Foo bar Müller, 1900", "one", ["Foo bar"]),
    ],
)
def test_homonyms_are_told_apart_by_the_author_alone(
    command: Command, tmp_path: Path, tag: str, answer: str, names: list[str]
) -> None:
    """Two nominal taxa of one spelling: Articles 52 and 53.3 of the Code; the names are invented."""
    rows = 'name,authorship,accepted_name\nFoo bar,"Müller, 1900",\nFoo newbar,"Other, 1950",\n'
    (tmp_path / "l.csv").write_text(rows + 'Foo bar,"Other, 1950",Foo newbar\n', encoding="utf-8")
    assert command("lists", "add", "l.csv", "--as", "own").code == 0
    (result,) = json.loads(command("lookup", "--offline", "--json", tag).out)["results"]
    assert (result["answer"], sorted(found["name"] for found in result["candidates"])) == (answer, names)
