"""The contract over every template and sheet that ships, and over one of each that is added by the recipe."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest

from namekeeper import resources
from namekeeper.labels.sheets import StickerSheet
from namekeeper.tasks.label_bench import Workshop, open_workshop
from namekeeper.words.errors import InputError
from tests.conftest import Outcome
from tests.contract.schemas import DOCUMENTS
from tests.labels.contract import SHEETS, TEMPLATES, check_letters, check_sheet, check_template, many

LAYOUT = """\
title: Flag of three lines for a rack
padding: 2
blocks:
  - {show: name, zone: head, weight: medium, size: [5, 20], lines: 3}
  - {show: [id, sex, caution], zone: foot, size: [5, 9], lines: 3}
gives_way: [caution, sex, caution]
"""
MARKUP = """<div class="head">{{ zone("head") }}</div><div class="foot">{{ zone("foot") }}</div>\n"""
STYLE = ".label { color: #123 }\n"
SHEET = "a4-2x9-90x30:  {paper: a4, grid: 2x9, label: [90, 30], first: [15, 13.5]}\n"


@pytest.mark.parametrize("key", TEMPLATES)
def test_a_shipped_template_keeps_the_contract(workshop: Workshop, key: str) -> None:
    check_template(workshop, key)


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
def test_a_shipped_sheet_keeps_the_contract(workshop: Workshop, sheet: StickerSheet) -> None:
    check_sheet(workshop, sheet)


@pytest.fixture
def shipped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of what ships, with a template and a sheet more, by the steps of "Add a ..." in DEVELOPERS.md."""
    root = tmp_path / "shipped"
    shutil.copytree(resources.label_templates(), root)
    (root / "rack-flag").mkdir()
    for name, text in (("layout.yaml", LAYOUT), ("label.html", MARKUP), ("label.css", STYLE)):
        (root / "rack-flag" / name).write_text(text, encoding="utf-8")
    with (root / "sheets.yaml").open("a", encoding="utf-8") as file:
        file.write(SHEET)
    monkeypatch.setattr(resources, "label_templates", lambda: root)
    return root


def test_an_added_template_and_sheet_keep_the_contract(shipped: Path) -> None:
    workshop = open_workshop(None)
    check_template(workshop, "rack-flag")
    check_sheet(workshop, workshop.sheets["a4-2x9-90x30"])


def test_an_added_template_and_sheet_are_listed_and_used(
    command: Callable[..., Outcome], shipped: Path, tmp_path: Path
) -> None:
    listed = json.loads(command("labels", "--templates", "--json").out)["templates"]
    assert {one["name"] for one in listed} == {*TEMPLATES, "rack-flag"}
    title, folder = "Flag of three lines for a rack", str(shipped / "rack-flag")
    assert {"key": "rack-flag", "name": "rack-flag", "title": title, "folder": folder} in listed
    sheets = json.loads(command("labels", "--sheets", "--json").out)
    jsonschema.validate(sheets, DOCUMENTS["sheets"])
    assert {one["key"] for one in sheets["sheets"]} == {*SHEETS, "a4-2x9-90x30"}
    (tmp_path / "animals" / "specimens").mkdir(parents=True)
    (tmp_path / "animals" / "specimens" / "A-1.yaml").write_text('tag: "GBB"\n', encoding="utf-8")
    asked = ("--template", "rack-flag", "--sheet", "a4-2x9-90x30", "--no-record")
    assert command("labels", "animals", "-o", "out.pdf", *asked).code == 0
    assert (tmp_path / "out.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("label.html", '{{ zone("foot") }}', ""),  # what was fitted is not drawn
        ("label.css", "#123", "#ddd"),  # too pale
        ("layout.yaml", "title: Flag of three lines for a rack\n", ""),
        ("layout.yaml", "size: [5, 20]", "size: [150, 150]"),  # no room anywhere
    ],
)
def test_a_template_that_breaks_the_contract_is_noticed(shipped: Path, file: str, old: str, new: str) -> None:
    path = shipped / "rack-flag" / file
    path.write_text(path.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    with pytest.raises((AssertionError, InputError)):
        check_template(open_workshop(None), "rack-flag")


def test_letters_that_are_not_the_planned_ones_are_noticed(workshop: Workshop) -> None:
    one, other = (many(workshop, "a4-3x8-70x37", "vial", [name]) for name in ("Aus bus", "Cus dus"))
    with pytest.raises(AssertionError):
        check_letters(one, other.pdf())
