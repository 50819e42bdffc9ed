"""What a PDF drawn directly holds, read back by libraries that did not make it (ISO 32000-2)."""

from __future__ import annotations

import builtins
import sys
from io import BytesIO
from typing import Any

import pdfplumber
import pypdf
import pytest
import zxingcpp

from namekeeper.labels.drawing import LabelDrawing, Letters, PageDrawing
from namekeeper.labels.pages import Correction, Markings
from namekeeper.labels.pdf_pages import pages_to_pdf
from namekeeper.labels.text import Face
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.labels import ruler_pdf
from tests.labels.animals import planned
from tests.labels.contract import SHEETS, TEMPLATES, TOLERANCE
from tests.labels.pdf_reading import MM, letters, raster


def reader(pdf: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(BytesIO(pdf), strict=True)


def catalog(pdf: bytes) -> Any:
    return reader(pdf).trailer["/Root"]


def test_title_language_and_size_are_those_of_the_plan(workshop: Workshop) -> None:
    pdf = planned(workshop, "a4-3x8-70x37", "enclosure", language="de").pdf()
    assert catalog(pdf)["/Lang"] == "de"
    assert catalog(pdf)["/MarkInfo"]["/Marked"].value is True
    found = reader(pdf)
    assert found.metadata is not None
    assert found.metadata.title == "Insect room, Hollin Weir"
    for page in found.pages:
        assert [float(side) * MM for side in page.mediabox] == pytest.approx([0, 0, 210, 297], abs=TOLERANCE)


def test_type_is_embedded_in_parts_with_what_each_glyph_stands_for(workshop: Workshop) -> None:
    plan = planned(workshop, "a4-3x8-70x37", "enclosure")
    fonts = reader(plan.pdf()).pages[0]["/Resources"]["/Font"]  # type: ignore[index]
    assert len(fonts) == 6
    for font in (one.get_object() for one in fonts.values()):
        descriptor = font["/DescendantFonts"][0]["/FontDescriptor"]
        assert font["/BaseFont"][7] == "+"  # a subset: six letters and a plus (9.9.2)
        assert len(descriptor["/FontFile2"].get_data()) < 40_000
        assert "beginbfchar" in font["/ToUnicode"].get_data().decode("ascii")


def texts_in_order(pdf: bytes) -> list[list[str]]:
    """By section of the tree of tags the text of its paragraphs, in the order in which a reader meets them."""
    with pdfplumber.open(BytesIO(pdf)) as document:
        marked: dict[tuple[int, int], str] = {}
        for number, page in enumerate(document.pages):
            for char in page.chars:
                if char["mcid"] is not None:
                    key = number, char["mcid"]
                    marked[key] = marked.get(key, "") + char["text"]
        pages = {page.page_obj.pageid: number for number, page in enumerate(document.pages)}
    root = catalog(pdf)["/StructTreeRoot"]
    found = []
    for section in root["/K"].get_object()["/K"]:
        parts = [part.get_object() for part in section.get_object()["/K"]]
        assert section.get_object()["/S"] == "/Sect"
        found.append(
            [
                str(part["/Alt"]) if part["/S"] == "/Figure" else marked[pages[part.raw_get("/Pg").idnum], part["/K"]]
                for part in parts
            ]
        )
    return found


def test_tags_give_the_text_in_the_order_of_reading(workshop: Workshop) -> None:
    plan = planned(workshop, "roll-62x29", "enclosure", 3)
    wanted = []
    for one in plan.placed:
        blocks = ["".join(line.text for line in block.lines) for block in one.fitted.sets]
        wanted.append(blocks + ([f"QR: {one.fitted.content.square}"] if one.fitted.square else []))
    assert texts_in_order(plan.pdf()) == wanted
    assert wanted[0][0] == "Tliltocatl vagans"


@pytest.mark.parametrize("key", TEMPLATES)
def test_every_template_gives_what_a_pdf_should_have(workshop: Workshop, key: str) -> None:
    sheet = workshop.template(key).layout.sheet or "a4-2x5-105x57"
    plan = planned(workshop, sheet, key, language="de")
    pdf = plan.pdf()
    assert plan.pdf() == pdf
    assert catalog(pdf)["/Lang"] == "de"
    read = reader(pdf)
    assert read.metadata is not None
    assert read.metadata.title == "Insect room, Hollin Weir"
    for page in read.pages:
        size = [float(side) * MM for side in page.mediabox[2:]]
        assert size == pytest.approx([float(side) for side in plan.sheet.paper], abs=TOLERANCE)
    for font in (one.get_object() for one in read.pages[0]["/Resources"]["/Font"].values()):  # type: ignore[index]
        assert font["/BaseFont"][7] == "+"
        assert "/FontFile2" in font["/DescendantFonts"][0]["/FontDescriptor"]
        assert "beginbfchar" in font["/ToUnicode"].get_data().decode("ascii")
    wanted = []
    for one in plan.placed:
        blocks = ["".join(line.text for line in block.lines) for block in one.fitted.sets]
        code = [f"QR: {one.fitted.content.square}"] if one.fitted.square else []
        wanted.append([*blocks, *plan.template.layout.fill_in.words, *code])
    assert texts_in_order(pdf) == wanted
    codes = [one.fitted.content.square for one in plan.placed if one.fitted.square and one.page == 0]
    for dpi in (150, 300):
        assert read_codes(pdf, dpi) == sorted(codes)


def test_words_in_another_language_than_the_labels_are_marked(workshop: Workshop) -> None:
    plan = planned(workshop, "roll-62x29", "enclosure", 2, language="it")
    root = catalog(plan.pdf())["/StructTreeRoot"]
    section = root["/K"]["/K"][1].get_object()
    said = [part.get_object().get("/Lang") for part in section["/K"]]
    # ISO 32000-2, 14.9.2: the name is Latin (ISO 639-1 la), the caution English where we have no words.
    blocks = [block.block.name for block in plan.placed[1].fitted.sets]
    assert said[blocks.index("name")] == "la"
    assert said[blocks.index("caution")] == "en"
    assert said[blocks.index("id")] is None


def test_every_mark_on_a_page_leads_back_to_its_tag(workshop: Workshop) -> None:
    pdf = planned(workshop, "roll-62x29", "enclosure", 2).pdf()
    numbers = catalog(pdf)["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    for number, page in enumerate(reader(pdf).pages):
        assert str(page["/StructParents"]) == str(number)
        assert numbers[2 * number] == number
        for mark, tag in enumerate(numbers[2 * number + 1].get_object()):
            assert tag.get_object()["/K"] == mark


def test_rules_and_marks_are_no_text(workshop: Workshop) -> None:
    with pdfplumber.open(BytesIO(planned(workshop, "a4-cut-2x4-105x74", "display").pdf())) as document:
        page = document.pages[0]
    assert {rect["tag"] for rect in page.rects} <= {"Artifact", "Figure"}
    assert {char["tag"] for char in page.chars} <= {"P", "Artifact"}


@pytest.mark.parametrize("dpi", [150, 300])
def test_qr_codes_are_read_at_the_usual_resolutions(workshop: Workshop, dpi: int) -> None:
    plan = planned(workshop, "a4-3x6-63.5x46.6", "enclosure", 18)
    wanted = sorted(one.fitted.content.square for one in plan.placed if one.fitted.square)
    assert read_codes(plan.pdf(), dpi) == wanted
    assert len(wanted) == 18


def read_codes(pdf: bytes, dpi: int) -> list[str]:
    """What the QR codes on the first page say."""
    qr = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
    return sorted(code.text for code in zxingcpp.read_barcodes(raster(pdf, dpi=dpi), formats=qr))


def test_letters_are_copied_one_by_one_marks_too(workshop: Workshop) -> None:
    text = "fi ffl Paraguaná x\u0323 AVATo"  # ligatures, an accent, a mark without a letter of its own, kerning
    line = Letters(10, 20, 12, ((text, Face.REGULAR_ITALIC),))
    page = PageDrawing(100, 50, (LabelDrawing((), ((line,),)),))
    pdf = pages_to_pdf((page,), workshop.measure, Markings("Test"))
    assert pypdf.PdfReader(BytesIO(pdf)).pages[0].extract_text().split() == text.split()
    mark = next(letter for letter in letters(pdf) if letter.text == "\u0323")
    assert mark.box.top > 20  # below the baseline


def test_nothing_but_wheels_is_needed(workshop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def fail(module: str, *rest: Any, **named: Any) -> Any:
        if module.partition(".")[0] == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(module, *rest, **named)

    for module in [key for key in sys.modules if key.partition(".")[0] == "weasyprint"]:
        monkeypatch.delitem(sys.modules, module)
    monkeypatch.setattr(builtins, "__import__", fail)
    assert planned(workshop, "a4-3x8-70x37", "enclosure").pdf().startswith(b"%PDF")
    assert ruler_pdf(workshop, SHEETS["a4-3x8-70x37"], Correction()).startswith(b"%PDF")
