"""The PDF read back: places, text, type, contrast, QR codes, wishes to the print dialog, sameness."""

from __future__ import annotations

import hashlib
import os
import random
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from io import BytesIO
from pathlib import Path

import pdfplumber
import pypdf
import pytest
import zxingcpp
from fontTools.ttLib import TTFont

from namekeeper.labels import markup
from namekeeper.labels.pages import Correction
from namekeeper.labels.text import Face
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.labels import ruler_pdf
from namekeeper.words.errors import InputError
from tests.labels.animals import planned, real_names
from tests.labels.contract import SHEETS, TEMPLATES, TOLERANCE, as_boxes, check_direct_places, check_letters, many
from tests.labels.pdf_reading import embedded_fonts, filled_boxes, outlines, raster

EIGHT_SHEETS = (
    "a4-3x8-70x37",
    "a4-2x7-99.1x38.1",
    "a4-4x12-45.7x21.2",
    "letter-3x10-66.7x25.4",
    "a4-5x13-38.1x21.2",
    "letter-2x5-101.6x50.8",
    "a4-cut-2x4-105x74",
    "roll-62x29",
)


def test_a_printers_offset_and_scale_move_every_label(workshop: Workshop) -> None:
    plan = many(workshop, "a4-3x7-63.5x38.1", "vial", ["Aus bus"] * 21)
    correction = Correction(Fraction(1, 2), Fraction(-5, 4), Fraction(1005, 1000), Fraction(998, 1000))
    boxes = filled_boxes(as_boxes(replace(plan, correction=correction)))
    for one, box in zip(plan.placed, boxes, strict=True):
        x, y = (float(side) for side in plan.sheet.corner(one.place))
        assert (box.left, box.top) == pytest.approx((x * 1.005 + 0.5, y * 0.998 - 1.25), abs=TOLERANCE)
    check_direct_places(replace(plan, correction=correction))


@pytest.mark.parametrize(
    ("sheet", "offset", "off"),
    [
        ("roll-62x29", "[-2.5, 0]", True),
        ("roll-62x29", "[-0.2, 0.5]", False),
        ("a4-3x8-70x37", "[4.9, 0]", True),  # 5 mm of padding less a bar of 1 mm
        ("a4-3x8-70x37", "[-3.5, 2]", False),
    ],
)
def test_a_correction_pushes_nothing_printed_off_the_paper(
    workshop: Workshop, sheet: str, offset: str, off: bool
) -> None:
    numbers = offset.strip("[]").split(", ")
    printers = {"home": Correction(Fraction(numbers[0]), Fraction(numbers[1]))}
    here = replace(workshop, settings=replace(workshop.settings, printers=printers, printer="home"))
    if off:
        with pytest.raises(InputError, match="off the paper"):
            planned(here, sheet, "enclosure", 1)
    else:
        assert planned(here, sheet, "enclosure", 1).correction == printers["home"]


def test_a_printer_without_a_name_is_not_that_of_rolls(workshop: Workshop) -> None:
    shift = Correction(Fraction(1, 2))
    here = replace(workshop, settings=replace(workshop.settings, printers={"": shift}))
    assert planned(here, "a4-3x8-70x37", "enclosure", 1).correction == shift
    assert planned(here, "roll-62x29", "enclosure", 1).correction == Correction()


def test_a_test_page_is_printed_once_more_with_the_correction_and_fits_a_roll(workshop: Workshop) -> None:
    sheet = SHEETS["a4-3x8-70x37"]
    assert len(pypdf.PdfReader(BytesIO(ruler_pdf(workshop, sheet, Correction()))).pages) == 1
    with pdfplumber.open(BytesIO(ruler_pdf(workshop, sheet, Correction(Fraction(3, 2), Fraction(-2))))) as document:
        plain, corrected = document.pages
        at = {page.page_number: {(rect["x0"], rect["top"]) for rect in page.rects} for page in (plain, corrected)}
    moved = {(round(x + 1.5 * 72 / 25.4, 1), round(y - 2 * 72 / 25.4, 1)) for x, y in at[1]}
    there = {(round(x, 1), round(y, 1)) for x, y in at[2]}
    assert len(moved & there) > 0.7 * len(moved)  # all but the combs, which belong to the paper's edges
    with pdfplumber.open(BytesIO(ruler_pdf(workshop, SHEETS["roll-62x29"], Correction()))) as document:
        (page,) = document.pages
        numbers = [word["text"] for word in page.extract_words()]
        inside = [rect["x0"] > -0.3 and rect["x1"] < page.width + 0.3 and rect["top"] > -0.3 for rect in page.rects]
    assert numbers.count("10") == 2
    assert "50" in numbers
    assert all(inside)


@pytest.mark.parametrize("template", TEMPLATES)
def test_letters_stay_on_their_label_and_say_what_was_planned(workshop: Workshop, template: str) -> None:
    rng = random.Random(template)
    plans = [
        many(workshop, sheet, template, rng.sample(real_names(), min(12, SHEETS[sheet].places)))
        for sheet in EIGHT_SHEETS
    ]
    drawn = [plan for plan in plans if plan.placed]
    assert drawn
    for plan in drawn:
        check_letters(plan, plan.pdf())


@pytest.mark.long
def test_two_thousand_labels_drawn(workshop: Workshop) -> None:
    rng = random.Random(2000)
    names = real_names()
    done = 0
    while done < 2000:
        template = rng.choice(TEMPLATES)
        plan = many(workshop, rng.choice(list(SHEETS)), template, rng.sample(names, 40))
        if plan.placed:
            check_letters(plan, plan.pdf())
        done += len(plan.placed)


def test_names_are_set_in_the_outlines_of_the_true_italic(workshop: Workshop) -> None:
    plan = many(workshop, "a4-3x8-70x37", "enclosure", ["Pseudhapalopus spinulopalpus", "Grammostola pulchra"])
    pdf = plan.pdf()
    shipped = {face: outlines(TTFont(path)) for face, path in workshop.fonts.items()}
    with pdfplumber.open(BytesIO(pdf)) as document:
        chars = document.pages[0].chars
    largest = max(char["size"] for char in chars)
    used = {char["fontname"] for char in chars if char["size"] >= 12}
    assert largest > 12
    (name_face,) = used
    embedded = {key.lstrip("/"): font for key, font in embedded_fonts(pdf).items()}
    drawn = outlines(embedded[name_face])
    assert drawn
    assert drawn <= shipped[Face.MEDIUM_ITALIC]
    assert not drawn & shipped[Face.MEDIUM]
    for font in embedded.values():
        assert any(outlines(font) <= known for known in shipped.values())


@pytest.mark.parametrize("pattern", ["", "https://example.org/animals/{id}"])
def test_every_qr_code_is_read_from_the_page_at_300_dpi(workshop: Workshop, pattern: str) -> None:
    plan = planned(workshop, "a4-3x6-63.5x46.6", "enclosure", 18, square=pattern)
    codes = zxingcpp.read_barcodes(
        raster(plan.pdf(), dpi=300), formats=zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
    )
    wanted = Counter(one.fitted.content.square for one in plan.placed if one.fitted.square)
    assert sum(wanted.values()) == 18
    assert Counter(code.text for code in codes) == wanted


def test_the_modules_of_a_qr_code_are_large_enough_and_its_quiet_zone_is_white(workshop: Workshop) -> None:
    plan = planned(workshop, "a4-3x8-70x37", "enclosure", 24)
    picture = raster(plan.pdf(), dpi=600)
    for mark in plan.job().squares:
        assert mark.module >= 0.33
        side, quiet = mark.symbol.modules * mark.module, 4 * mark.module
        left, top = mark.left - quiet, mark.top - quiet
        region = picture[pixel(top) : pixel(mark.top + side + quiet), pixel(left) : pixel(mark.left + side + quiet)]
        rim = pixel(quiet) - 2
        for strip in (region[:rim], region[-rim:], region[:, :rim], region[:, -rim:]):
            assert strip.min() > 200


def pixel(length: float) -> int:
    return round(length / 25.4 * 600)


def test_the_pdf_asks_for_actual_size_and_has_title_and_language(workshop: Workshop) -> None:
    reader = pypdf.PdfReader(BytesIO(planned(workshop, "a4-3x8-70x37", "enclosure").pdf()))
    wishes = reader.trailer["/Root"]["/ViewerPreferences"]  # type: ignore[index]
    # ISO 32000-2 table 147
    assert wishes["/PrintScaling"] == "/None"
    assert wishes["/PickTrayByPDFSize"].value is True
    assert reader.metadata is not None
    assert reader.metadata.title == "Insect room, Hollin Weir"
    assert reader.trailer["/Root"]["/Lang"] == "en"  # type: ignore[index]
    assert [float(side) * 25.4 / 72 for side in reader.pages[0].mediabox[2:]] == pytest.approx([210, 297], abs=0.001)


def test_a_footer_outside_the_labels_says_sheet_and_date(workshop: Workshop) -> None:
    text = pypdf.PdfReader(BytesIO(planned(workshop, "a4-2x7-99.1x38.1", "shelf").pdf())).pages[0].extract_text()
    assert "a4-2x7-99.1x38.1 · shelf · 2026-11-25" in text
    full = pypdf.PdfReader(BytesIO(planned(workshop, "a4-3x8-70x37", "enclosure").pdf())).pages[0].extract_text()
    assert "2026-11-25" not in full  # no room there outside the labels


def test_every_one_of_several_pages_says_which_it_is(workshop: Workshop) -> None:
    pages = pypdf.PdfReader(BytesIO(planned(workshop, "a4-list-1x38-190x7", "list", 80).pdf())).pages
    texts = [page.extract_text() for page in pages]
    assert ["page 1 of 3" in texts[0], "page 2 of 3" in texts[1], "page 3 of 3" in texts[2]] == [True] * 3
    alone = pypdf.PdfReader(BytesIO(planned(workshop, "a4-list-1x38-190x7", "list", 4).pdf())).pages
    assert "page" not in alone[0].extract_text()


_IN_ANOTHER_PROCESS = """
import sys
from namekeeper.tasks.label_bench import open_workshop
from tests.labels.animals import planned
sys.stdout.buffer.write(planned(open_workshop(None), "a4-3x8-70x37", "enclosure", 30).pdf())
"""


def test_the_same_input_gives_the_same_bytes_in_another_process_without_any_font_installed(
    workshop: Workshop, tmp_path: Path
) -> None:
    here = planned(workshop, "a4-3x8-70x37", "enclosure", 30).pdf()
    no_fonts = tmp_path / "fonts.conf"
    no_fonts.write_text('<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig></fontconfig>')
    environ = {**os.environ, "PYTHONHASHSEED": "4711", "TZ": "Asia/Kolkata", "LC_ALL": "C"}
    environ["FONTCONFIG_FILE"] = str(no_fonts)
    root = Path(__file__).parents[2]
    there = subprocess.run(
        [sys.executable, "-c", _IN_ANOTHER_PROCESS], env=environ, cwd=root, capture_output=True, check=True
    ).stdout
    assert hashlib.sha256(here).hexdigest() == hashlib.sha256(there).hexdigest()


def test_pages_laid_out_in_parts_are_the_same_pages(workshop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    plan = planned(workshop, "roll-62x29", "enclosure", 9)
    plan = replace(plan, html=True)
    whole = plan.pdf()
    monkeypatch.setattr(markup, "LABELS_AT_ONCE", 2)
    assert len(plan.job().parts) == 5
    assert plan.pdf() == whole
    assert len(pypdf.PdfReader(BytesIO(whole)).pages) == 9


def test_rulers_of_the_test_page_are_a_hundred_millimetres_long(workshop: Workshop) -> None:
    with pdfplumber.open(BytesIO(ruler_pdf(workshop, SHEETS["a4-cut-3x8-60x33"], Correction()))) as document:
        lines = document.pages[0].rects
        text = document.pages[0].extract_text()
    long = [line for line in lines if max(line["width"], line["height"]) * 25.4 / 72 > 62]
    lengths = [max(line["width"], line["height"]) * 25.4 / 72 for line in long]
    assert lengths == pytest.approx([100, 100], abs=TOLERANCE)
    assert "collection.yaml" in text
    assert "actual size" in text
