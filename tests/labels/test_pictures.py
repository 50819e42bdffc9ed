"""Pictures and free fields in a template that is a layout alone."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pdfplumber
import pytest
from PIL import Image

from namekeeper import resources
from namekeeper.labels.content import LabelWishes, SpeciesFacts
from namekeeper.labels.templates import template_folders
from namekeeper.records.specimen import NameEntry, Paper, Sex
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import plan_of
from namekeeper.words.errors import InputError, Place
from tests.labels.animals import DAY, planned, specimen, when
from tests.labels.both_ways import check_both_ways
from tests.labels.pdf_reading import MM
from tests.labels.test_templates import SVG, draw

LAYOUT = """\
title: With a picture
padding: 2
picture: {file: mark.png, size: [10, 30]}
blocks:
  - {show: name, zone: head, size: [5, 14], lines: 3}
  - {show: [tag, acquired, sex, locality, common, stage, origin, stands], size: [5, 6], lines: 9}
  - {show: [note, size, price, papers], size: [5, 6], lines: 9}
  - {show: [id, caution], zone: foot, size: [5, 8], lines: 6, bar: {gap: 0.6, thick: 0.4}}
gives_way: [caution, tag, acquired, sex, locality, common, stage, origin, stands, note, size, price, papers, caution]
"""


def png(mode: str = "RGBA", size: tuple[int, int] = (30, 20)) -> bytes:
    """A red picture; its left half covers half with an alpha channel."""
    image = Image.new("RGB", size, "#c00000").convert(mode)
    if mode == "RGBA":
        image.putalpha(Image.new("L", (size[0] // 2, size[1]), 128).crop((0, 0, *size)).point(lambda dot: 255 - dot))
    target = BytesIO()
    image.save(target, "PNG")
    return target.getvalue()


@pytest.fixture
def pictured(tmp_path: Path) -> Path:
    """A template of a layout alone, with a picture beside the text."""
    folder = tmp_path / "label_templates" / "mine"
    folder.mkdir(parents=True)
    (folder / "layout.yaml").write_text(LAYOUT, encoding="utf-8")
    (folder / "mark.png").write_bytes(png())
    return tmp_path / "label_templates"


@pytest.mark.parametrize("mode", ["RGBA", "RGB", "L", "P", "1", "I;16"])
def test_a_layout_places_a_picture_beside_the_text(workshop: Workshop, pictured: Path, mode: str) -> None:
    (pictured / "mine" / "mark.png").write_bytes(png(mode) if mode != "I;16" else grey_of_16_bits())
    pdf = draw(workshop, pictured)
    with pdfplumber.open(BytesIO(pdf)) as document:
        (page,) = document.pages
        assert len(page.images) == 8
        for image in page.images:
            assert image["width"] * MM == pytest.approx(10, abs=0.01)
            assert image["height"] * MM == pytest.approx(20 / 3, abs=0.01)
            assert image["tag"] == "Artifact"
        first = page.images[0]
        assert (first["x0"] * MM, first["top"] * MM) == pytest.approx((5, 4.8), abs=0.8)
        beside = [char for char in page.chars if char["x0"] < first["x0"] + 70 / MM and char["top"] < 37 / MM]
        assert min(char["x0"] for char in beside) * MM == pytest.approx(first["x1"] * MM + 2, abs=0.5)
    assert draw(workshop, pictured) == pdf, "the same bytes twice"


def grey_of_16_bits() -> bytes:
    target = BytesIO()
    Image.new("I;16", (30, 20), 30_000).save(target, "PNG")
    return target.getvalue()


def test_a_picture_is_drawn_the_same_both_ways(workshop: Workshop, pictured: Path) -> None:
    folders = template_folders(resources.label_templates(), pictured)
    assert check_both_ways(planned(replace(workshop, folders=folders), "a4-2x5-105x57", "mine")) > 200


def test_a_vector_picture_goes_by_way_of_html(workshop: Workshop, pictured: Path) -> None:
    (pictured / "mine" / "layout.yaml").write_text(LAYOUT.replace("mark.png", "mark.svg"), encoding="utf-8")
    (pictured / "mine" / "mark.svg").write_text(SVG.format(""), encoding="utf-8")
    with pdfplumber.open(BytesIO(draw(workshop, pictured))) as document:
        boxes = [one for one in document.pages[0].rects if abs(one["width"] * MM - 10) < 0.1]
    assert len(boxes) == 8  # one a label


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ("mark.png, -> missing.png,", "'missing.png' cannot be shown: No such file"),
        ("mark.png, -> ../mark.png,", "a PNG or SVG beside layout.yaml"),
        ("mark.png, -> /etc/hostname,", "a PNG or SVG beside layout.yaml"),
        ("mark.png, -> link.png,", "'link.png' cannot be shown: it is a link"),
        ("mark.png, -> large.png,", "'large.png' cannot be shown: it is larger than 500 kB"),
        ("mark.png, -> torn.png,", "it is no whole PNG"),
        ("mark.png, -> huge.png,", "4 million at most"),
        ("mark.png, -> words.png,", "it is no whole PNG"),
        ("[10, 30] -> [10]", "should be [width, height]"),
        ("[10, 30] -> [10, wide]", "should be a number"),
        ("size: [10, 30] -> size: [10, 30], gap: 0.5", "that a bar takes in it"),
        ("size: [10, 30] -> size: [10, 30], turn: 5", "unknown key 'turn'"),
    ],
)
def test_a_picture_that_may_not_be_shown_is_told_with_file_and_line(
    workshop: Workshop, pictured: Path, tmp_path: Path, change: str, words: str
) -> None:
    folder = pictured / "mine"
    (tmp_path / "mark.png").write_bytes(png())
    (folder / "link.png").symlink_to(tmp_path / "mark.png")
    (folder / "large.png").write_bytes(png() + b" " * 500_000)
    (folder / "torn.png").write_bytes(png()[:70])
    (folder / "huge.png").write_bytes(png("L", (3000, 3000)))
    (folder / "words.png").write_text("no picture", encoding="utf-8")
    old, _, new = change.partition(" -> ")
    assert old in LAYOUT
    (folder / "layout.yaml").write_text(LAYOUT.replace(old, new), encoding="utf-8")
    with pytest.raises(InputError, match=re.escape(words)) as refused:
        draw(workshop, pictured)
    assert refused.value.place == Place(str(folder / "layout.yaml"), 3)


def test_every_field_of_a_specimen_can_be_placed(workshop: Workshop, pictured: Path) -> None:
    """The keys of a specimen's file (the file format in DEVELOPERS.md), by a template of a layout alone."""
    one = specimen(
        "K-1", NameEntry("Aus bus"), tag="Seller's words", acquired=when("2020-01-02"), sex=Sex("2.3.4", 2, 3, 4),
        locality="Campeche", common="Own name", stage="subadult", origin=("fair",), stands_at="rack A", note="My note",
        caution="My caution", size="4 cm", price="12", papers=(Paper("receipt", "77"),),
    )  # fmt: skip
    folders = template_folders(resources.label_templates(), pictured)
    shown = plan_of(
        [(one, SpeciesFacts())], replace(workshop, folders=folders), Choices(sheet="a4-2x5-105x57", template="mine"),
        LabelWishes(price=True), DAY,
    )  # fmt: skip
    text = " ".join(shown.placed[0].fitted.lines())
    for said in (
        "K-1", "Aus bus", "Seller's words", "2020-01-02", "2.3.4", "Campeche", "Own name", "subadult", "fair",
        "rack A", "My note", "My caution", "4 cm", "12", "receipt 77",
    ):  # fmt: skip
        assert said in text
