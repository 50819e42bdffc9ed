"""Whatever words a person types, the answer is an exit code of the contract and never a traceback."""

from __future__ import annotations

import argparse
import io
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.conftest import NOWHERE, run_here
from tests.faces.verb_suite import parsers

PLAIN = """
animals nowhere A1 A2 B9 3 -1 con 2014 2014-13 -5 A1= -o out out.csv csv dwca,json xlsx t.csv empty.csv bytes.bin name=b
tag=a sold 1.2.3 day-first 9999 0000 \u202e é 🕷 -- --help Theraphosidae gbif gbif,itis starter enclosure shelf a4
Brachypelma vagans GBB - . .. * spider
"""
WORDS = [*PLAIN.split(), "", " ", "Brachypelma vagans", "Mexican red knee 5cm £30", "A1=Brachypelma smithi", "A1=!!"]

#: By the name of an argument, what makes sense there: with rubbish alone no command would ever begin its work.
FITTING = {
    "name": ["Brachypelma smithi"], "folder": ["animals"], "collection": ["animals"], "identifier": ["A1", "A3"],
    "others": ["A2"], "specimens": ["A1"], "only": ["A1"], "origin": ["A1"], "take": ["A1"], "keep": ["A1"],
    "later": ["A1"], "how": ["sold"], "on": ["2024-05"], "known": ["2020"], "year": ["2015"],
    "acquired": ["2020-01-31"], "sex": ["0.1.0"], "count": ["3"], "tag": ["GBB"], "tags": ["GBB", "B. smithi"],
    "table": ["t.csv"], "file": ["t.csv"], "column": ["name=b"], "output": ["out"], "key": ["own"], "edition": ["1"],
    "old": ["starter"], "new": ["starter"], "start": ["2"], "copies": ["2"], "used": ["1"], "max_age": ["3"],
}  # fmt: skip


def word_for(action: argparse.Action) -> st.SearchStrategy[str]:
    """What makes sense for an argument three times in four, else anything."""
    fitting = [*map(str, action.choices or ()), *FITTING.get(action.dest, WORDS)]
    return st.sampled_from([True, True, True, False]).flatmap(lambda fit: st.sampled_from(fitting if fit else WORDS))


@st.composite
def commands(draw: st.DrawFn) -> list[str]:
    """A verb and its act with options and arguments as they are meant to stand, and at times one word too many."""
    # All but the page, which answers until somebody closes it.
    begin, parser = draw(st.sampled_from([(begin, parser) for begin, parser in parsers() if begin != ["browse"]]))
    words = list(begin)
    known = [action for action in parser._actions if action.option_strings and action.dest != "help"]
    for option in draw(st.lists(st.sampled_from(known), max_size=3, unique_by=id)) if known else ():
        words.append(option.option_strings[-1])
        words += draw(st.lists(word_for(option), min_size=1, max_size=1)) if option.nargs != 0 else []
    for argument in (action for action in parser._actions if not action.option_strings):
        words.append(draw(word_for(argument)))
    return words + draw(st.sampled_from([[], [], [], ["--"], [""], ["A1"]]))


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """One index of the starter list for all examples, and a pocket file of two names: all take half a minute."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("namekeeper.tasks.pocket.written_words", lambda _whole: iter(("Brachypelma smithi", "GBB")))
        yield tmp_path_factory.mktemp("home")


def run_in_a_new_folder(home: Path, words: list[str]) -> tuple[int, str]:
    """Exit code of a command beside a small collection and odd files, and all it said."""
    place = Path(tempfile.mkdtemp(dir=home))
    (place / "animals" / "specimens").mkdir(parents=True)
    (place / "t.csv").write_text("a,b\nx,Brachypelma vagans\n")
    (place / "empty.csv").touch()
    (place / "bytes.bin").write_bytes(bytes(range(256)))
    for identifier, text in (("A1", "names: [{name: Brachypelma vagans}]\n"), ("A2", "tag: GBB\nsex: 0.0.3\n")):
        (place / "animals" / "specimens" / f"{identifier}.yaml").write_text(text)
    try:
        outcome = run_here(words, place, {"NAMEKEEPER_HOME": str(home), **NOWHERE}, io.StringIO("x\n"))
        return outcome.code, outcome.out + outcome.err
    finally:
        shutil.rmtree(place)


@settings(max_examples=200)
@given(words=commands())
def test_any_words_are_answered(home: Path, words: list[str]) -> None:
    code, said = run_in_a_new_folder(home, words)
    assert code in (0, 1, 2, 3)
    assert code != 2 or said


@pytest.mark.long
@settings(max_examples=30_000)
@given(words=commands())
def test_many_words_are_answered(home: Path, words: list[str]) -> None:
    code, said = run_in_a_new_folder(home, words)
    assert code in (0, 1, 2, 3)
    assert code != 2 or said


@pytest.mark.parametrize("words", [["lookup", "--", "--"], ["collection", "join", "animals", "--", "--", "A1"]])
def test_a_second_pair_of_dashes_is_an_error(home: Path, words: list[str]) -> None:
    code, said = run_in_a_new_folder(home, words)
    assert (code, said.splitlines()[-1]) == (2, f"namekeeper {words[0]}: '--' can stand only once")
