"""The commands that change a collection, as a keeper calls them, on the starter list."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome
from tests.contract.schemas import problems

Command = Callable[..., Outcome]

FILES = {
    "A1": """\
tag: B. vagans 0.1
acquired: 2010
names:
- name: Brachypelma vagans  # as sold
  authorship: (Ausserer, 1875)
  since: 2010-05
  recorded: 2010-05-04
""",
    "A2": "tag: red thing\nacquired: 2005\nsex: 0.0.12\n",
    "A3": "tag: pinktoe\nnames: [{name: Avicularia avicularia, since: 2015, recorded: 2015}]\n",
    "A4": "tag: B. vagans\nacquired: 2011\nnames:\n  - name: Brachypelma vagans\n    since: 2011\n    recorded: 2011\n",
}


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    for identifier, text in FILES.items():
        (folder / "specimens" / f"{identifier}.yaml").write_text(text)
    return folder


@pytest.fixture
def settle(command: Command, animals: Path) -> Command:
    return lambda *words: command("settle", "animals", "--offline", *words)


def changes(outcome: Outcome) -> list[dict[str, object]]:
    document = json.loads(outcome.out)
    assert problems("settle", document) == []
    made: list[dict[str, object]] = document["changes"]
    return made


def read(animals: Path, identifier: str) -> str:
    return (animals / "specimens" / f"{identifier}.yaml").read_text()


def test_safe_proposals_are_shown_then_written_then_gone(settle: Command, animals: Path) -> None:
    shown = changes(settle("--take-safe", "--json"))
    assert shown == [
        {
            "specimen": i,
            "old": "Brachypelma vagans",
            "new": "Tliltocatl vagans",
            "standing": "moved",
            "written": False,
            "already": False,
            "doubt": None,
            "doubt_left_out": None,
            "unlisted": False,
            "similar": [],
        }
        for i in ("A1", "A4")
    ]
    assert {i: read(animals, i) for i in FILES} == FILES
    written = changes(settle("--take-safe", "--json", "--write"))
    assert [row["written"] for row in written] == [True, True]
    assert read(animals, "A1").startswith(FILES["A1"])
    assert "\n- name: Tliltocatl vagans\n  authorship: (Ausserer, 1875)\n  since: 2026-11-25\n" in read(animals, "A1")
    assert changes(settle("--take-safe", "--json", "--write")) == []


def test_taking_keeping_and_undoing(settle: Command, command: Command, animals: Path) -> None:
    done = settle(
        "--take", "A2=Brachypelma hamorii", "--keep", "A1", "--later", "A4", "--note", "seen", "--write", "--json"
    )
    assert [(row["specimen"], row["new"], row["standing"]) for row in changes(done)] == [
        ("A1", "Brachypelma vagans", "kept"),
        ("A2", "Brachypelma hamorii", "chosen"),
        ("A4", "Brachypelma vagans", "postponed"),
    ]
    assert done.code == 1, "what was postponed stays open"
    assert [row["specimen"] for row in changes(settle("--take-safe", "--json"))] == ["A4"]
    undone = changes(settle("--undo", "A1", "--undo", "A2", "--write", "--json"))
    assert [(row["old"], row["new"], row["standing"]) for row in undone] == [
        ("Brachypelma vagans", "Brachypelma vagans", "undone"),
        ("Brachypelma hamorii", "red thing", "undone"),
    ]
    assert [row["specimen"] for row in changes(settle("--take-safe", "--json"))] == ["A1", "A4"]
    assert "hamorii" in read(animals, "A2"), "nothing is deleted"
    history = json.loads(command("history", "animals", "A2", "--json").out)
    assert problems("history", history) == []
    assert [(e["standing"], e["undone"]) for e in history["specimens"][0]["entries"]] == [
        ("chosen", True),
        ("undone", False),
    ]
    assert history["specimens"][0]["on"] == {"date": "2026-11-25", "name": None, "label": None}


@pytest.mark.parametrize(
    ("words", "what"),
    [
        (("--take", "A1"), "is not ID=NAME"),
        (("--take", "A1=X y", "--take", "A1=X z"), "A1 was given two names"),
        (("--keep", "B7"), "there is no animal 'B7'"),
        (("--on", "soon"), "is no date"),
    ],
)
def test_wrong_orders_change_nothing(settle: Command, animals: Path, words: tuple[str, ...], what: str) -> None:
    refused = settle(*words, "--take-safe", "--write")
    assert refused.code == 2
    assert what in refused.err
    assert {i: read(animals, i) for i in FILES} == FILES


def test_a_file_that_cannot_take_it_is_told_and_the_others_go_on(settle: Command, animals: Path) -> None:
    odd = FILES["A4"].replace("names:\n", "names: &n\n")
    (animals / "specimens" / "A4.yaml").write_text(odd)
    done = settle("--take-safe", "--write", "--json")
    assert done.code == 2
    assert [row["written"] for row in changes(done)] == [True, False]
    assert "specimens/A4.yaml:3: names: carries an anchor or tag" in done.err
    assert read(animals, "A4") == odd


def test_problems_elsewhere_do_not_hinder(settle: Command, animals: Path) -> None:
    (animals / "specimens" / "B1.yaml").write_text("tag: x\nsxe: 1.0.0\n")
    done = settle("--take-safe", "--write", "--json")
    assert done.code == 2
    assert "specimens/B1.yaml:2: unknown key 'sxe' (did you mean sex:?)" in done.err
    assert [row["written"] for row in changes(done)] == [True, True]


class TestEverydayLife:
    def test_an_animal_that_left_is_checked_no_more_and_keeps_its_history(
        self, command: Command, animals: Path
    ) -> None:
        assert command("collection", "left", "animals", "A1", "--how", "sold").code == 0
        assert read(animals, "A1") == FILES["A1"], "without --write nothing is written"
        assert command("collection", "left", "animals", "A1", "--how", "sold", "--on", "2021-06", "--write").code == 0
        assert "left: {date: 2021-06, how: sold}\nnames:" in read(animals, "A1")
        checked = json.loads(command("check", "animals", "--offline", "--json").out)
        assert "A1" not in [row["specimen"] for row in checked["results"]]
        history = json.loads(command("history", "animals", "A1", "--json").out)
        assert history["specimens"][0]["entries"][0]["name"] == "Brachypelma vagans"
        again = command("collection", "left", "animals", "A1", "--how", "died", "--write")
        assert (again.code, "A1 left already: sold on 2021-06" in again.err) == (2, True)

    def test_offspring_inherit_tag_names_dates_and_form(self, command: Command, animals: Path) -> None:
        form = "\n- name: Tliltocatl vagans\n  since: 2021\n  recorded: 2021\n  standing: chosen\n  form: ex vagans\n"
        (animals / "specimens" / "A1.yaml").write_text(FILES["A1"].rstrip("\n") + form)
        made = json.loads(command("collection", "add", "animals", "--from", "A1", "--count", "3", "--json").out)
        assert made["specimens"] == ["INV-0001", "INV-0002", "INV-0003"]
        assert read(animals, "INV-0002") == (
            'tag: "B. vagans 0.1"\nsex: 0.0.1\nfrom: A1\nnames:\n'
            "  - name: Brachypelma vagans\n    authorship: (Ausserer, 1875)\n    since: 2010-05\n"
            "    recorded: 2026-11-25\n    standing: as-labelled\n    note: inherited from A1\n"
            "  - name: Tliltocatl vagans\n    since: 2021\n    recorded: 2026-11-25\n    standing: chosen\n"
            "    note: inherited from A1\n    form: ex vagans\n"
        )
        assert "decisions:" not in read(animals, "A1"), "of a parent nothing is written but its id in its young"

    def test_a_seller_is_no_parent(self, command: Command, animals: Path) -> None:
        made = command("collection", "add", "animals", "--tag", "GBB 1.0", "--from", "a friend", "--id", "G1")
        assert made.code == 0
        assert read(animals, "G1") == 'tag: "GBB 1.0"\nsex: 1.0.0\nfrom: a friend\n'

    def test_a_count_changes_and_the_old_one_is_remembered(self, command: Command, animals: Path) -> None:
        assert command("collection", "count", "animals", "A2", "1.2.5", "--write").code == 0
        assert "sex: 1.2.5\n" in read(animals, "A2")
        assert "note: 0.0.12 -> 1.2.5" in read(animals, "A2").replace('"', "")

    def test_groups_are_joined_only_under_one_name(self, command: Command, animals: Path) -> None:
        refused = command("collection", "join", "animals", "A2", "A3", "--write")
        assert (refused.code, "do not carry the same name" in refused.err) == (2, True)
        command("collection", "add", "animals", "--from", "A2", "--count", "2", "--sex", "0.1.1")
        joined = command("collection", "join", "animals", "A2", "INV-0001", "INV-0002", "--write", "--json")
        assert json.loads(joined.out)["written"] is True
        assert "sex: 0.2.14\n" in read(animals, "A2")
        assert "left: {date: 2026-11-25, how: joined A2}" in read(animals, "INV-0001")

    @pytest.mark.parametrize(
        ("words", "what"),
        [
            (("add", "animals"), "no tag was given"),
            (("add", "animals", "--tag", "x\udcff"), "no text in the encoding of your terminal"),
            (("add", "animals", "--tag", "x", "--id", "con"), "kept by Windows"),
            (("add", "animals", "--tag", "x", "--id", "a1"), "is taken"),
            (("add", "animals", "--tag", "x", "--count", "0"), "a count is from 1 to 1000"),
            (("add", "nowhere", "--tag", "x"), "no such folder"),
            (("count", "animals", "A2", "many"), "no count like"),
            (("left", "animals", "A2", "--how", " ", "--write"), "how did it leave"),
            (("join", "animals", "A2", "A2", "--write"), "joined with other groups"),
            (("new", "animals/specimens/A1.yaml"), "cannot be made"),
            (("verify", "animals/specimens/A1.yaml"), "a file, not a folder"),
        ],
    )
    def test_what_cannot_be_is_refused(
        self, command: Command, animals: Path, words: tuple[str, ...], what: str
    ) -> None:
        refused = command("collection", *words)
        assert refused.code == 2
        assert what in refused.err
        assert {path.stem for path in (animals / "specimens").iterdir()} == set(FILES)

    def test_a_new_collection_is_whole_and_made_once(self, tmp_path: Path, command: Command) -> None:
        assert command("collection", "new", "fresh").code == 0
        assert command("collection", "verify", "fresh").code == 0
        again = command("collection", "new", "fresh")
        assert (again.code, "there is a collection here already" in again.err) == (2, True)


def test_verify_tells_all_and_accepts_what_the_keeper_says(command: Command, animals: Path, settle: Command) -> None:
    settle("--take-safe", "--write")
    (animals / "specimens" / "A1.yaml").write_text(read(animals, "A1").replace("2010-05\n", "2009-05\n"))
    told = command("collection", "verify", "animals", "--json")
    document = json.loads(told.out)
    assert problems("collection verify", document) == []
    assert told.code == 2
    assert [(row["file"], row["line"]) for row in document["problems"]] == [("specimens/A1.yaml", 4)]
    assert command("history", "animals", "A1").code == 2
    assert command("history", "animals", "A2").code == 0
    assert command("collection", "verify", "animals", "--accept").code == 2, "nothing without --write"
    assert command("collection", "verify", "animals", "--accept", "--write").code == 0


def test_history_shows_what_changed_in_a_year(command: Command, animals: Path) -> None:
    shown = command("history", "animals", "--year", "2015")
    assert "Avicularia avicularia" in shown.out
    assert "vagans" not in shown.out
    assert command("history", "animals", "--year", "1999").out == "No name changed.\n"


def test_tables_carries_the_new_name_into_a_feeding_log(tmp_path: Path, command: Command, settle: Command) -> None:
    settle("--take-safe", "--write")
    log = "animal;species;date\nA1;Brachypelma vagans;2024\n;Nonesuch unlisted;2024\nA1;B. vagans;=TODAY()\n"
    (tmp_path / "log.csv").write_text(log)
    shown = command("tables", "animals", "log.csv", "--json")
    document = json.loads(shown.out)
    assert problems("tables", document) == []
    assert [(row["row"], row["column"], row["new"]) for row in document["changes"]] == [
        (2, "species", "Tliltocatl vagans"),
        (4, "species", "T. vagans"),
    ]
    assert shown.code == 1
    assert list(tmp_path.glob("log-new*")) == []
    assert command("tables", "animals", "log.csv", "--write").code == 0
    expected = log.replace("Brachypelma vagans", "Tliltocatl vagans").replace("B. vagans", "T. vagans")
    assert (tmp_path / "log-new-names.csv").read_text() == expected
    assert (tmp_path / "log.csv").read_text() == log
    assert command("tables", "animals", "log.csv", "--write").code == 0
    assert (tmp_path / "log-new-names-2.csv").exists()
    refused = command("tables", "animals", "log.csv", "-o", "log.csv", "--write")
    assert (refused.code, "is there already" in refused.err) == (2, True)


def test_a_tag_that_was_kept_returns_only_with_other_candidates(
    command: Command, settle: Command, animals: Path
) -> None:
    (animals / "specimens" / "A2.yaml").write_text("tag: Mexican red knee\n")
    open_before = command("check", "animals", "--offline", "--only", "A2").code
    settle("--keep", "A2", "--write")
    assert (open_before, command("check", "animals", "--offline", "--only", "A2").code) == (1, 0)
    kept = read(animals, "A2")
    digest = next(line.split()[-1].strip('"') for line in kept.splitlines() if "digest:" in line)
    (animals / "specimens" / "A2.yaml").write_text(kept.replace(digest, "0" * 16))
    assert command("check", "animals", "--offline", "--only", "A2").code == 1


@pytest.mark.parametrize("order", ["--take", "--correct"])
@pytest.mark.parametrize(
    ("name", "signs"),
    [("<b>Brachypelma</b> hamorii", "< >"), ("Brachypelma&nbsp;hamorii", "&nbsp;"), ("Brachypelma\u200b x", "U+200B")],
)  # fmt: skip
def test_what_is_pasted_with_more_than_a_name_is_refused(
    settle: Command, animals: Path, order: str, name: str, signs: str
) -> None:
    before = read(animals, "A1")
    outcome = settle(order, f"A1={name}", "--write")
    assert outcome.code == 2
    assert f"holds what stands in no name: {signs} (type the name alone" in outcome.err
    assert read(animals, "A1") == before
