"""``namekeeper labels`` as a keeper types it."""

from __future__ import annotations

import json
import stat
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

import jsonschema
import pypdf
import pytest
import yaml
from PIL import Image

from namekeeper.words.errors import FileError, Place
from tests.conftest import Outcome, Typed, run_here
from tests.contract.schemas import DOCUMENTS
from tests.labels.contract import SHEETS, TEMPLATES

Command = Callable[..., Outcome]

MOVED = """\
tag: "Mex red rump 0.1 4cm"
acquired: 2014-05-03
sex: 0.1.0
place: rack B
names:
  - name: Brachypelma vagans
    authorship: (Ausserer, 1875)
    since: 2014-05-03
    recorded: 2014-05-03
    standing: as-labelled
  - name: Tliltocatl vagans
    authorship: (Ausserer, 1875)
    since: 2021-02-11
    recorded: 2021-02-11
    standing: moved
"""
PLAIN = """\
tag: "GBB 0.0.1"
acquired: 2021-11-02
place: rack A
names:
  - name: Chromatopelma cyaneopubescens
    authorship: (Strand, 1907)
    since: 2021-11-02
    recorded: 2021-11-02
    standing: as-labelled
"""
TAG_ONLY = 'tag: "P. metallica / regalis?"\nacquired: 2023-01-01\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Three animals: a moved name, a plain one, a tag."""
    root = tmp_path / "animals"
    (root / "specimens").mkdir(parents=True)
    for name, text in (("A-1", MOVED), ("A-2", PLAIN), ("A-3", TAG_ONLY)):
        (root / "specimens" / f"{name}.yaml").write_text(text, encoding="utf-8")
    return root


def document(outcome: Outcome) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(outcome.out)
    return found


def pages(path: Path) -> list[str]:
    return [page.extract_text() for page in pypdf.PdfReader(path).pages]


def test_labels_of_a_collection_are_printed_and_told_in_json(command: Command, folder: Path, tmp_path: Path) -> None:
    done = command("labels", "animals", "-o", "out.pdf", "--json")
    assert done.code == 0, done.err
    told = document(done)
    jsonschema.validate(told, DOCUMENTS["labels"])
    assert told["pages"] == 1
    assert told["refused"] == []
    first, second, third = told["labels"]
    assert [one["specimen"] for one in told["labels"]] == ["A-1", "A-2", "A-3"]
    assert (first["page"], first["row"], first["column"], first["x"], first["y"]) == (1, 1, 1, 0, 0.5)
    assert (third["row"], third["column"], third["x"], third["width"]) == (1, 3, 140, 70)
    assert first["name"] == "Tliltocatl vagans"
    assert first["name_pt"] > 9
    assert any("was Brachypelma vagans" in line for line in first["lines"])
    assert any("Hairs" in line for line in first["lines"])
    assert second["name"] == "Chromatopelma cyaneopubescens"
    assert third["name"] == "“P. metallica / regalis?”"
    assert any("unsettled" in line for line in third["lines"])
    assert any("Bite" in line for line in third["lines"])  # by its open choices
    (text,) = pages(tmp_path / "out.pdf")
    assert "Tliltocatl vagans" in text


def test_printing_is_recorded_and_stale_labels_are_found(command: Command, folder: Path, tmp_path: Path) -> None:
    before = document(command("labels", "animals", "--status", "--json"))["status"]
    assert [(one["specimen"], one["printed"], one["stale"]) for one in before] == [
        ("A-1", None, True),  # it came as Brachypelma vagans
        ("A-2", None, False),
        ("A-3", None, False),
    ]
    made = command("labels", "animals", "--stale", "-o", "out.pdf", "--json")
    assert "nothing is remembered of this sheet; once it comes out well, --printed remembers it" in made.err
    assert document(command("labels", "animals", "--status", "--json"))["status"] == before
    stale = document(command("labels", "animals", "--stale", "-o", "out.pdf", "--json", "--printed"))
    assert [one["specimen"] for one in stale["labels"]] == ["A-1"]
    after = document(command("labels", "animals", "--status", "--json"))["status"]
    assert after[0] == {
        "specimen": "A-1",
        "printed": "Tliltocatl vagans",
        "in_force": "Tliltocatl vagans",
        "stale": False,
    }
    written = (folder / "specimens" / "A-1.yaml").read_text(encoding="utf-8")
    assert written.startswith(MOVED)
    (decision,) = yaml.safe_load(written)["decisions"]
    assert decision["kind"] == "printed"
    again = command("labels", "animals", "--stale", "-o", "again.pdf")
    assert again.code == 0
    assert "every enclosure says the name in force" in again.err
    assert not (tmp_path / "again.pdf").exists()


@pytest.mark.parametrize(("typed", "recorded"), [("y\n", True), ("n\n", False), ("\n", False), ("", False)])
def test_at_a_terminal_the_keeper_is_asked_whether_the_sheet_came_out(
    folder: Path, tmp_path: Path, home: Path, typed: str, recorded: bool
) -> None:
    environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1"}
    words = ["labels", "animals", "-o", "out.pdf", "--only", "A-1"]
    done = run_here(words, tmp_path, environ, Typed(typed), Typed())
    assert done.code == 0
    assert "Did the sheet come out well?" in done.out
    assert ("kind: printed" in (folder / "specimens" / "A-1.yaml").read_text(encoding="utf-8")) is recorded
    assert (home / "state" / "label-sheets.json").exists() is recorded


def test_an_animal_that_was_renamed_while_its_label_lay_in_the_printer_is_told(
    folder: Path, tmp_path: Path, home: Path
) -> None:
    file = folder / "specimens" / "A-1.yaml"

    class Slow(Typed):
        def readline(self, size: int = -1, /) -> str:  # type: ignore[override]
            file.write_text(MOVED.replace("Tliltocatl vagans", "Tliltocatl albopilosus"), encoding="utf-8")
            return super().readline(size)

    environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1"}
    done = run_here(["labels", "animals", "-o", "out.pdf"], tmp_path, environ, Slow("y\n"), Typed())
    assert done.code == 2
    assert "A-1: not written: its label says Tliltocatl albopilosus by now" in done.err
    assert "printed" not in file.read_text(encoding="utf-8")
    assert "kind: printed" in (folder / "specimens" / "A-2.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "how",
    [["--no-record"], [], ["--printed", "--template", "display", "--sheet", "a4-cut-2x2-105x148.5"]],
)
def test_what_is_no_enclosures_label_or_not_to_be_recorded_changes_no_file(
    command: Command, folder: Path, how: list[str]
) -> None:
    assert command("labels", "animals", "-o", "out.pdf", *how).code == 0
    assert (folder / "specimens" / "A-1.yaml").read_text(encoding="utf-8") == MOVED


def test_the_sheet_in_the_drawer_is_gone_on_with(command: Command, folder: Path) -> None:
    command("labels", "animals", "-o", "out.pdf", "--only", "A-1", "--used", "1-2,4", "--printed")
    fresh = command("labels", "animals", "-o", "out.pdf", "--only", "A-2", "--json", "--no-record")
    assert "--drawer uses it" in fresh.err
    assert document(fresh)["labels"][0]["column"] == 1
    more = document(command("labels", "animals", "-o", "out.pdf", "--drawer", "--json"))["labels"]
    assert [(one["row"], one["column"]) for one in more] == [(2, 2), (2, 3), (3, 1)]


def test_start_copies_and_order(command: Command, folder: Path) -> None:
    asked = ("--start", "23", "--copies", "2", "--order", "place", "--json")
    told = document(command("labels", "animals", "-o", "out.pdf", *asked))
    assert told["pages"] == 2
    assert [(one["specimen"], one["page"], one["row"], one["column"]) for one in told["labels"]] == [
        ("A-3", 1, 8, 2),
        ("A-3", 1, 8, 3),
        ("A-2", 2, 1, 1),
        ("A-2", 2, 1, 2),
        ("A-1", 2, 1, 3),
        ("A-1", 2, 2, 1),
    ]
    by_name = document(command("labels", "animals", "-o", "out.pdf", "--order", "name", "--json"))
    assert [one["specimen"] for one in by_name["labels"]] == ["A-2", "A-1", "A-3"]


SMALL = "a4-4x16-45.7x16.9"
NO_ROOM = f"40.9 x 12.1 mm ({SMALL}); the smallest sheet that would do is"
NO_CODE = "a QR code of 13.5 mm beside name and id does not fit into"
LONG_WORD = "Myxococcus llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogochensis"  # NCBI Taxonomy


@pytest.mark.parametrize(
    ("asked", "tag", "why"),
    [
        (("--qr", "https://example.org/our/animals/of/the/insect/room/{id}"), "GBB", f"{NO_CODE} {NO_ROOM} a4-"),
        ((), LONG_WORD, f"a word of the name is wider than {NO_ROOM.replace(' mm', ' mm allows')} letter-"),
        ((), "GBB " * 200, f"name, id and caution do not fit into 40.9 x 12.1 mm ({SMALL}); no sheet known is large"),
        ((), "\U0001f577", "the name has '\U0001f577' (spider, U+1F577), which no shipped type can draw"),
    ],
)
def test_why_a_label_is_refused_is_told_in_words(
    command: Command, folder: Path, asked: tuple[str, ...], tag: str, why: str
) -> None:
    (folder / "specimens" / "A-4.yaml").write_text(f'tag: "{tag}"\n', encoding="utf-8")
    done = command("labels", "animals", "-o", "out.pdf", "--only", "A-4", "--sheet", SMALL, *asked, "--json")
    assert done.code == 2
    (refused,) = document(done)["refused"]
    assert refused["why"].startswith(why)
    assert f"no label from template enclosure: {refused['why']} (" in done.err


def test_a_field_that_cannot_be_drawn_is_left_out_and_told(command: Command, folder: Path) -> None:
    (folder / "specimens" / "A-4.yaml").write_text('tag: "GBB"\nlocality: "near 蛛"\n', encoding="utf-8")
    done = command("labels", "animals", "-o", "out.pdf", "--only", "A-4", "--no-record", "--json")
    assert done.code == 0
    assert "locality" in document(done)["labels"][0]["dropped"]
    assert "left out, no shipped type has these letters: locality (A-4, for '蛛')" in done.err


def test_settings_of_the_collection_are_used(command: Command, folder: Path) -> None:
    (folder / "collection.yaml").write_text(
        "title: Our room\n"
        "labels:\n"
        "  sheet: mine\n  template: vial\n  qr: no\n  cautions: no\n  was: no\n"
        "  sheets:\n    mine: {paper: a4, grid: 2x2, label: [90, 40], first: [10, 20]}\n"
        "printer: {offset: [0.5, -1.25], scale: [1.005, 1]}\n",
        encoding="utf-8",
    )
    told = document(command("labels", "animals", "-o", "out.pdf", "--json"))
    assert (told["labels"][0]["x"], told["labels"][0]["y"], told["labels"][0]["width"]) == (10, 20, 90)
    assert not any("Hairs" in line for one in told["labels"] for line in one["lines"])


def test_a_preview_is_a_picture_of_the_page(command: Command, folder: Path, tmp_path: Path) -> None:
    done = command("labels", "animals", "--preview", "page.png")
    assert done.code == 0, done.err
    with Image.open(tmp_path / "page.png") as picture:
        assert picture.format == "PNG"
        assert picture.size == pytest.approx((210 / 25.4 * 150, 297 / 25.4 * 150), abs=2)
    assert (folder / "specimens" / "A-1.yaml").read_text(encoding="utf-8") == MOVED


def test_sheets_templates_and_test_page(command: Command, tmp_path: Path) -> None:
    sheets = document(command("labels", "--sheets", "--json"))
    jsonschema.validate(sheets, DOCUMENTS["sheets"])
    assert [one["key"] for one in sheets["sheets"]] == list(SHEETS)
    assert "a4-3x8-70x37" in command("labels", "--sheets").out
    templates = document(command("labels", "--templates", "--json"))["templates"]
    assert {one["name"] for one in templates} == set(TEMPLATES)
    assert set(TEMPLATES) >= {"enclosure", "vial", "shelf", "display"}  # what other programs rely on
    assert "copy a folder" in command("labels", "--templates").out
    assert command("labels", "--test-page", "letter-3x10-66.7x25.4", "-o", "test.pdf").code == 0
    assert "letter-3x10-66.7x25.4" in pages(tmp_path / "test.pdf")[0]


def test_a_refused_label_stops_the_run_unless_it_is_skipped(command: Command, folder: Path, tmp_path: Path) -> None:
    (folder / "specimens" / "A-4.yaml").write_text('tag: "red knee \U0001f577 0.1"\n', encoding="utf-8")
    stopped = command("labels", "animals", "-o", "out.pdf", "--json")
    assert stopped.code == 2
    assert document(stopped)["refused"][0]["specimen"] == "A-4"
    assert "spider" in stopped.err
    assert "U+1F577" in stopped.err
    assert not (tmp_path / "out.pdf").exists()
    skipped = command("labels", "animals", "-o", "out.pdf", "--skip-refused", "--json")
    assert skipped.code == 1
    assert len(document(skipped)["labels"]) == 3
    assert (tmp_path / "out.pdf").exists()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["animals"], "where should the PDF go"),
        ([], "labels of which collection"),
        (["nowhere", "-o", "out.pdf"], "no such folder"),
        (["animals", "-o", "out.pdf", "--sheet", "a4-3x8"], "there is no sheet 'a4-3x8'"),
        (["animals", "-o", "out.pdf", "--sheet", "roll-0x5"], "have no size"),
        (["animals", "-o", "out.pdf", "--template", "poster"], "there is no template 'poster'"),
        (["animals", "-o", "out.pdf", "--only", "B-9"], "no animal 'B-9'"),
        (["animals", "-o", "out.pdf", "--start", "25"], "has no place 25"),
        (["animals", "-o", "out.pdf", "--start", "0"], "has no place 0"),
        (["animals", "-o", "out.pdf", "--used", "1-24"], "no free place"),
        (["animals", "-o", "out.pdf", "--used", "a"], "names no places"),
        (["animals", "-o", "out.pdf", "--copies", "0"], "from 1 to 1000"),
        (["animals", "-o", "out.pdf", "--printer", "office"], "there is no printer 'office'"),
        (["animals", "-o", "out.pdf", "--qr", "https://example.org"], "has no {id} in it"),
        (["animals", "-o", "out.pdf", "--qr", "{id}" + "x" * 3000], "too long"),
        (["animals", "-o", "missing/out.pdf"], "cannot be written"),
        (["animals", "--preview", "page.png", "--page", "3"], "there is no page 3"),
        (["--test-page", "a4-3x8", "-o", "out.pdf"], "there is no sheet"),
        (["--test-page", "a4-3x8-70x37"], "where should the PDF go"),
    ],
)
def test_wrong_input_is_told_in_one_line_and_leaves_no_file(
    command: Command, folder: Path, tmp_path: Path, arguments: list[str], words: str
) -> None:
    done = command("labels", *arguments)
    assert done.code == 2
    assert words in done.err
    assert [line for line in done.err.splitlines() if words in line]
    assert not list(tmp_path.glob("*.p*"))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("labels: {sheet: mine}", "there is no sheet 'mine'"),
        ("labels: {colour: red}", "unknown key 'colour'"),
        ("labels: all", "should be keys"),
        ("labels: {cautions: perhaps}", "cautions is one of"),
        ("labels: {copies: many}", "whole number"),
        ("labels: {order: size}", "order is one of"),
        ("labels: {sheets: {mine: {paper: a4, grid: 9x9, label: [70, 37], first: [0, 0]}}}", "wider than the paper"),
        ("printer: {offset: [1]}", "two numbers"),
        ("printer: {offset: [99, 0]}", "two numbers"),
        ("printer: {scale: [1, 2]}", "two numbers"),
        ("printer: {office: 3}", "should be keys"),
    ],
)
def test_settings_that_cannot_be_are_told(command: Command, folder: Path, text: str, words: str) -> None:
    (folder / "collection.yaml").write_text(text, encoding="utf-8")
    done = command("labels", "animals", "-o", "out.pdf")
    assert done.code == 2
    assert words in done.err
    assert "collection.yaml" in done.err or "mine" in done.err


def test_an_existing_pdf_is_replaced_whole_or_not_at_all(command: Command, folder: Path, tmp_path: Path) -> None:
    target = tmp_path / "shut" / "out.pdf"
    target.parent.mkdir()
    target.write_bytes(b"old")
    target.parent.chmod(stat.S_IRUSR | stat.S_IXUSR)
    try:
        done = command("labels", "animals", "-o", "shut/out.pdf")
        if done.code == 2:  # root may write everywhere
            assert target.read_bytes() == b"old"
            assert (folder / "specimens" / "A-1.yaml").read_text(encoding="utf-8") == MOVED
        else:
            assert pypdf.PdfReader(BytesIO(target.read_bytes())).pages
    finally:
        target.parent.chmod(stat.S_IRWXU)
    assert [path.name for path in target.parent.iterdir()] == ["out.pdf"]


def test_a_broken_specimen_is_told_and_the_others_are_printed(command: Command, folder: Path, tmp_path: Path) -> None:
    (folder / "specimens" / "A-9.yaml").write_text("names: [", encoding="utf-8")
    done = command("labels", "animals", "-o", "out.pdf", "--json")
    assert done.code == 2
    assert "A-9" in done.err
    assert len(document(done)["labels"]) == 3


def test_right_to_left_text_and_emoji_in_a_field_that_is_not_printed_do_no_harm(command: Command, folder: Path) -> None:
    note = 'note: "\u05e2\u05db\u05d1\u05d9\u05e9 \U0001f577\ufe0f"\n'
    (folder / "specimens" / "A-4.yaml").write_text('tag: "GBB"\n' + note, encoding="utf-8")
    assert command("labels", "animals", "-o", "out.pdf", "--only", "A-4").code == 0
    (folder / "specimens" / "A-4.yaml").write_text('tag: "\u05e2\u05db\u05d1\u05d9\u05e9"\n', encoding="utf-8")
    refused = command("labels", "animals", "-o", "out.pdf", "--only", "A-4")
    assert refused.code == 2
    assert "hebrew letter ayin" in refused.err


def test_three_thousand_letters_of_locality_are_left_out_and_told(command: Command, folder: Path) -> None:
    (folder / "specimens" / "A-4.yaml").write_text(f'tag: "GBB"\nlocality: "{"Campeche " * 340}"\n', encoding="utf-8")
    done = command("labels", "animals", "-o", "out.pdf", "--only", "A-4", "--json")
    assert done.code == 0
    assert "dropped, no room: locality (A-4)" in done.err
    assert "locality" in document(done)["labels"][0]["dropped"]


def test_an_empty_collection_has_nothing_to_print(command: Command, folder: Path, tmp_path: Path) -> None:
    for path in (folder / "specimens").iterdir():
        path.unlink()
    done = command("labels", "animals", "-o", "out.pdf")
    assert done.code == 0
    assert "no animal to print a label for" in done.err
    assert not (tmp_path / "out.pdf").exists()


def test_prints_that_cannot_be_recorded_are_told_beside_the_pdf(
    command: Command, folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise FileError("the folder is in use", remedy="try again", place=Place("animals"))

    monkeypatch.setattr("namekeeper.tasks.desk.apply_changes", fail)
    done = command("labels", "animals", "-o", "out.pdf", "--printed")
    assert done.code == 2
    assert "printed, but not remembered as printed: animals: the folder is in use" in done.err
    assert (tmp_path / "out.pdf").exists()


def test_a_damaged_memory_of_the_drawer_is_no_memory(command: Command, folder: Path, home: Path) -> None:
    memory = home / "state" / "label-sheets.json"
    memory.parent.mkdir(parents=True)
    for text in ("{", "[" * 100_000, "[]", '{"a4-3x8-70x37": 3}', '{"a4-3x8-70x37": [-1, "x"]}'):
        memory.write_text(text, encoding="utf-8")
        told = document(command("labels", "animals", "-o", "out.pdf", "--drawer", "--json", "--no-record"))
        assert told["labels"][0]["column"] == 1


def test_offspring_carry_the_cautions_of_their_parents(command: Command, folder: Path) -> None:
    young = 'tag: "slings of our own"\nfrom: [A-1]\nnames:\n  - name: Aus bus\n    standing: as-labelled\n'
    (folder / "specimens" / "A-4.yaml").write_text(young, encoding="utf-8")
    told = document(command("labels", "animals", "-o", "out.pdf", "--only", "A-4", "--json"))
    assert any("Hairs" in line for line in told["labels"][0]["lines"])
