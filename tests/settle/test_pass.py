"""The pass of ``settle`` at a terminal, key by key, with what is on the screen and in the files after it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.conftest import NOWHERE, Typed, run_here
from tests.settle.test_command import FILES, read

GBB = "tag: GBB 0.1\n"
EXACT = {"E1": "tag: Poecilotheria metallica 0.1\n", "E2": "tag: Chromatopelma cyaneopubescens\n"}


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    return written(tmp_path, FILES)


def written(tmp_path: Path, files: dict[str, str]) -> Path:
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    for identifier, text in files.items():
        (folder / "specimens" / f"{identifier}.yaml").write_text(text)
    return folder


def press(animals: Path, home: Path, keys: str) -> str:
    """All that is printed and said."""
    environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1", **NOWHERE}
    words = ["settle", "animals", "--offline", "--write"]
    outcome = run_here(words, animals.parent, environ, Typed(keys), Typed())
    return outcome.out + outcome.err


def test_a_pass_is_one_key_each_and_can_be_left_and_resumed(animals: Path, home: Path) -> None:
    first = press(animals, home, "owtq")
    assert "Tliltocatl vagans" in read(animals, "A1"), "written at once"
    assert "The same command goes on from here" in first
    assert "1 label says another name now: namekeeper labels animals" in first
    assert read(animals, "A4") == FILES["A4"]
    second = press(animals, home, "k" + "nBrachypelma hamorii\n" + "q")
    assert "A1" not in second
    assert "A4: name kept" in second
    assert "kind: kept" in read(animals, "A4")
    assert "Brachypelma hamorii" in read(animals, "A2")


def test_equal_names_with_one_target_are_asked_once(animals: Path, home: Path) -> None:
    shown = press(animals, home, "tq")
    assert "1/2  A1, A4 (2 alike)  Brachypelma vagans" in shown
    assert "t take it for all 2" in shown
    assert ["Tliltocatl vagans" in read(animals, one) for one in ("A1", "A4")] == [True, True]


@pytest.mark.parametrize(
    "key", ["x", "\n", " ", "\x1b[A", "\x1b[D", "\x1bOC", "\x1b[1;5C", "\x1b[3~", "\x1bt", "9", "é"]
)
def test_other_keys_do_nothing(animals: Path, home: Path, key: str) -> None:
    plain, odd = press(animals, home, "q"), press(animals, home, key + "q")
    assert plain == odd
    assert {one: read(animals, one) for one in FILES} == FILES


def test_a_number_that_is_not_offered_decides_nothing(animals: Path, home: Path) -> None:
    press(animals, home, "n99\nn\n9sq")
    assert {one: read(animals, one) for one in FILES} == FILES


def test_one_key_takes_a_single_candidate_of_equal_tags(tmp_path: Path, home: Path) -> None:
    animals = written(tmp_path, {"A": GBB, "B": GBB})
    shown = press(animals, home, "t")
    assert 'common name "GBB"' in shown
    assert [read(animals, one).count("name: Chromatopelma cyaneopubescens") for one in "AB"] == [1, 1]


def test_a_digit_takes_one_of_several(tmp_path: Path, home: Path) -> None:
    animals = written(tmp_path, {"A": "tag: Mex red knee\n"})
    shown = press(animals, home, "2")
    first, second = ("1  Brachypelma hamorii", "2  Brachypelma smithi")
    assert 0 < shown.index(first) < shown.index(second)
    assert "name: Brachypelma smithi" in read(animals, "A")


def test_exact_names_are_taken_in_one_go(tmp_path: Path, home: Path) -> None:
    animals = written(tmp_path, EXACT)
    shown = press(animals, home, "t")
    assert "1/1  2 tags name a species exactly as the lists have it. Take all 2?" in shown
    assert "name: Poecilotheria metallica" in read(animals, "E1")
    assert "name: Chromatopelma cyaneopubescens" in read(animals, "E2")


def test_exact_names_can_be_asked_one_by_one(tmp_path: Path, home: Path) -> None:
    animals = written(tmp_path, EXACT)
    shown = press(animals, home, "kw1" + "o" + "t" + "k")
    assert "2/2  E2" in shown
    assert "E2: stays without a name" in shown
    assert "name kept" not in shown
    assert "kind: kept" in read(animals, "E2")


def test_going_back_takes_the_last_answer_back(animals: Path, home: Path) -> None:
    shown = press(animals, home, "t" + "b" + "k" + "b" + "l")
    assert [shown.count(said) for said in ("A1: taken back", "A1: name kept", "A1: decide later")] == [2, 1, 1]
    now = read(animals, "A1")
    assert now.startswith(FILES["A1"]), "what stood there stays"
    order = ["standing: moved", "standing: undone"], ["kind: kept", "kind: undone", "kind: postponed"]
    assert all(sorted(words, key=now.index) == words for words in order)


def test_going_back_over_what_was_skipped_writes_nothing(animals: Path, home: Path) -> None:
    shown = press(animals, home, "sbq")
    assert shown.count("1/2  A1, A4") == 2
    assert {one: read(animals, one) for one in FILES} == FILES
    assert "This is the first question" in press(animals, home, "bq")


def test_a_typed_name_that_no_list_has_is_shown_first(animals: Path, home: Path) -> None:
    before = press(animals, home, "snBrachypelma hamorri\nxq")
    assert "No list here has Brachypelma hamorri. It may be right all the same. Spelt\n  similarly:" in before
    assert "1  Brachypelma hamorii" in before
    assert read(animals, "A2") == FILES["A2"], "another key leads back"
    press(animals, home, "snBrachypelma hamorri\n1q")
    assert "name: Brachypelma hamorii" in read(animals, "A2")


def test_a_typed_name_may_be_taken_as_written(animals: Path, home: Path) -> None:
    shown = press(animals, home, "snWonderbeast azure\nt")
    assert "nor any name like it" in shown
    assert "name: Wonderbeast azure" in read(animals, "A2")


def test_a_typed_former_name_leads_to_the_one_in_force(animals: Path, home: Path) -> None:
    shown = press(animals, home, "snBrachypelma vagans\n1")
    assert "Brachypelma vagans is a former name; in force is:" in shown
    assert "name: Tliltocatl vagans" in read(animals, "A2")


def test_what_cannot_be_a_name_is_asked_again(animals: Path, home: Path) -> None:
    assert "'x' is no scientific name" in press(animals, home, "snx\nq")


def test_where_nothing_waits_nothing_is_asked(tmp_path: Path, home: Path) -> None:
    animals = written(tmp_path, {"A": "tag: x\nnames: [{name: Avicularia avicularia, since: 2015}]\n"})
    assert press(animals, home, "") == "Nothing waits for a decision.\n"
