"""What every template and every sheet must keep to, shipped or added: run over each that is there.

``check_template`` and ``check_sheet`` ask nothing but what the recipes in DEVELOPERS.md promise.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from io import BytesIO

import pdfplumber
import pytest
from jinja2 import Template

from namekeeper import resources
from namekeeper.labels.content import LabelContent, LabelWishes, SpeciesFacts
from namekeeper.labels.fill_in import NOTHING_TO_FILL_IN
from namekeeper.labels.fit import Fitter
from namekeeper.labels.fitted import QUIET, Fitted, Room
from namekeeper.labels.layout import Layout, Zone
from namekeeper.labels.render import render_pdf
from namekeeper.labels.sheet_list import shipped_sheets
from namekeeper.labels.sheets import StickerSheet
from namekeeper.labels.templates import template_folders
from namekeeper.records.specimen import NameEntry
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import LabelPlan, plan_of
from namekeeper.words.terms import MisfitReason
from tests.labels.animals import DAY, HAIRS, content_of, planned, specimen, when
from tests.labels.pdf_reading import filled_boxes, letters

TEMPLATES = tuple(template_folders(resources.label_templates(), None))
SHEETS = shipped_sheets(resources.label_templates())
#: Long real names; the first from memory (a soldier fly of Brunetti, 1923), the others in NCBI Taxonomy and the lists.
LONGEST = (
    "Parastratiosphecomyia stratiosphecomyioides",
    "Chromatopelma cyaneopubescens",
    "Pseudhapalopus spinulopalpus",
    "Paramycosphaerella dicranopteridis-flexuosae",
)
TOLERANCE = 0.01  # mm


def check_template(workshop: Workshop, key: str) -> None:
    """A template: named and titled, every fit within its label and complete, and drawn as it was fitted."""
    template = workshop.template(key)
    assert template.folder.name == key
    assert template.layout.title != key, "layout.yaml gives the template a title"
    roomy = [sheet for sheet in workshop.sheets.values() if fits_all(workshop, sheet, template.layout, LONGEST)]
    assert roomy, "no sheet takes the longest names"
    largest = sorted(roomy, key=lambda sheet: sheet.width * sheet.height, reverse=True)
    for sheet in {largest[0], largest[len(largest) // 2], largest[-1]}:
        for plan in (many(workshop, sheet.key, key, LONGEST), planned(workshop, sheet.key, key)):
            pdf = plan.pdf()
            check_letters(plan, pdf)
            check_contrast(pdf)
            assert plan.pdf() == pdf, "the same labels give the same bytes"


def check_sheet(workshop: Workshop, sheet: StickerSheet) -> None:
    """A sheet: its arithmetic closes, its key tells its measures, and labels lie where it says."""
    assert sheet.faults() == ()
    assert sheet.key.endswith(f"{float(sheet.width):.1f}x{float(sheet.height):.1f}".replace(".0", ""))
    if sheet.places > 1:
        assert f"{sheet.columns}x{sheet.rows}" in sheet.key
    last = sheet.corner(sheet.places - 1)
    assert last[0] + sheet.width + sheet.right == sheet.paper[0]
    assert last[1] + sheet.height + sheet.bottom == sheet.paper[1]
    fitting = [template.key for template in workshop.templates() if fits_all(workshop, sheet, template.layout, LONGEST)]
    assert fitting, "no template gets the longest names on it"
    plan = many(workshop, sheet.key, fitting[-1], ["Aus bus"] * sheet.places)
    boxes = filled_boxes(as_boxes(plan))
    assert len(boxes) == sheet.places
    for one, box in zip(plan.placed, boxes, strict=True):
        x, y = (float(side) for side in sheet.corner(one.place))
        read = (box.left, box.top, box.right, box.bottom)
        assert read == pytest.approx((x, y, x + float(sheet.width), y + float(sheet.height)), abs=TOLERANCE)
    check_direct_places(plan)


def check_direct_places(plan: LabelPlan) -> None:
    """Labels that say the same, drawn directly: their first letters lie alike on every place."""
    capitals = [letter.box for letter in letters(plan.pdf()) if letter.text == "A"]
    a_label = len(capitals) // len(plan.placed)
    found = []
    for one, box in zip(plan.placed, capitals[::a_label], strict=True):
        x, y = (float(side) for side in plan.correction.apply(plan.sheet.corner(one.place)))
        found.append((box.left - x, box.top - y))
    assert all(0 < left < plan.sheet.width and 0 < top < plan.sheet.height for left, top in found)
    for place in found:
        assert place == pytest.approx(found[0], abs=TOLERANCE)


def fits_all(workshop: Workshop, sheet: StickerSheet, layout: Layout, names: Sequence[str]) -> bool:
    """Whether all these names fit, without and with a QR code; whatever fits is checked, what does not has a reason."""
    one, room = fitter(workshop, sheet, layout)
    found = True
    for name in names:
        for modules in (0, 21):
            found &= check_fit(one, room, layout, content_of(name, locality="Locality", common="a name"), modules)
    return found


def check_fit(one: Fitter, room: Room, layout: Layout, content: LabelContent, modules: int) -> bool:
    """A content that fits keeps within its room and is complete; one that does not has a reason."""
    found = one.fit(content, modules)
    if isinstance(found, Fitted):
        check_inside(found, room, layout)
        check_complete(found, layout)
        return True
    assert found.reason in (MisfitReason.WORD, MisfitReason.TEXT)
    return False


def fitter(workshop: Workshop, sheet: StickerSheet, layout: Layout) -> tuple[Fitter, Room]:
    pad_x, pad_y = sheet.inset(*layout.pads)
    room = Room(float(sheet.width - 2 * pad_x), float(sheet.height - 2 * pad_y), float(pad_x), float(pad_y))
    return Fitter(layout, room, workshop.measure), room


def check_inside(fitted: Fitted, room: Room, layout: Layout) -> None:
    """Every line within its column, all columns within the room, nothing below its floor."""
    head = lower = side = 0.0
    for one in fitted.sets:
        assert one.block.least <= one.size <= max(one.block.most, one.block.least, one.block.roomy)
        left = one.block.zone is not Zone.SIDE and fitted.side_width > 0
        width = room.width - (fitted.side_width + layout.side_gap if left else 0.0)
        assert one.width <= width + 1e-6
        assert len(one.lines) <= one.block.lines
        if one.block.zone is Zone.SIDE:
            side += one.height
        elif one.block.zone is Zone.HEAD or (layout.wide_body and one.block.zone is Zone.BODY):
            head += one.height
        else:
            lower += one.height
            square = fitted.square - min(QUIET * fitted.module, room.pad_x) if fitted.square else 0.0
            assert one.width <= width - square + 1e-6
    square = fitted.square - min(QUIET * fitted.module, room.pad_y) if fitted.square else 0.0
    lower = max(lower, square)
    assert head + lower + (layout.gap if head and lower else 0.0) <= room.height + 1e-5
    assert side <= room.height + 1e-5


def check_complete(fitted: Fitted, layout: Layout) -> None:
    """Name, id and, where the template shows it, a caution are there in full, whatever gave way."""
    text = " ".join(fitted.lines())
    words = text.replace("·", " ").split()
    assert fitted.content.specimen in words
    for word in fitted.content.printed_name.split():
        assert word in text
    if any("caution" in block.fields for block in layout.blocks):
        check_cautions(fitted)


ACTIONS = {
    "Bite": ("medical help",),
    "Hairs": ("eyes",),
    "Irritant": ("eyes",),
    "Listed": ("check list", "check the current list"),
    "Law": ("check rules", "check local rules", "ask the authority"),
}


def check_cautions(fitted: Fitted) -> None:
    """Every topic of caution stands there with what to do, and the keeper's own words as they are."""
    forms = fitted.content.fields.get("caution", ())
    text = " ".join(line.text for one in fitted.sets if "caution" in one.block.fields for line in one.lines)
    for piece in forms[0] if forms else ():
        topic, rest = piece[0].text, "".join(run.text for run in piece[1:])
        _, found, after = text.partition(topic)
        assert found, f"{fitted.content.specimen}: no word of {topic}"
        meant = ACTIONS.get(topic, (rest.strip(),))
        assert any(words in after for words in meant), f"{fitted.content.specimen}: {topic} without what to do"


def many(workshop: Workshop, sheet: str, template: str, names: Sequence[str]) -> LabelPlan:
    """A plan of animals with these names."""
    animals = [
        (
            specimen(f"N-{number:04}", NameEntry(name, "Author, 1900"), acquired=when("2020-01-01")),
            SpeciesFacts(cautions=(HAIRS,)),
        )
        for number, name in enumerate(names)
    ]
    return plan_of(animals, workshop, Choices(sheet=sheet, template=template), LabelWishes(square_off=True), DAY)


def as_boxes(plan: LabelPlan) -> bytes:
    """The same labels as grey boxes without text or marks, by way of HTML."""
    layout = replace(plan.template.layout, fill_in=NOTHING_TO_FILL_IN)
    template = replace(plan.template, layout=layout, style=".label { background: #ddd }", markup=Template(""))
    boxes = replace(plan, template=template, sheet=replace(plan.sheet, marks=False))
    return render_pdf(replace(boxes.job(), meant=()))


def check_letters(plan: LabelPlan, pdf: bytes) -> None:
    """No ink of a letter outside its label, and the text on each label is the text planned."""
    width, height = float(plan.sheet.width), float(plan.sheet.height)
    for page in range(plan.pages):
        texts: dict[int, list[str]] = {}
        places = [one.place for one in plan.placed if one.page == page]
        corners = {place: tuple(map(float, plan.sheet.corner(place))) for place in places}
        recent: tuple[int, ...] = ()  # letters of one label follow each other
        for letter in letters(pdf, page):
            box = letter.box
            x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
            for place in (*recent, *corners):
                left, top = corners[place]
                if left <= x <= left + width and top <= y <= top + height:
                    break
            else:  # the footer, outside all labels
                assert y > float(plan.sheet.paper[1] - plan.sheet.bottom)
                continue
            recent = (place,)
            assert box.left >= left
            assert box.right <= left + width
            assert box.top >= top
            assert box.bottom <= top + height
            texts.setdefault(place, []).append(letter.text)
        for one in plan.placed:
            if one.page == page:
                words = (*one.fitted.lines(), *plan.template.layout.fill_in.words)
                meant = Counter("".join(words).replace(" ", ""))
                assert Counter("".join(texts.get(one.place, ()))) == meant


def check_contrast(pdf: bytes) -> None:
    """Everything is dark enough on white."""
    with pdfplumber.open(BytesIO(pdf)) as document:
        colours = {char["non_stroking_color"] for page in document.pages for char in page.chars}
    assert colours
    for colour in colours:
        assert contrast(colour) >= 4.5  # WCAG 2.2, success criterion 1.4.3


def contrast(colour: tuple[float, ...]) -> float:
    """Contrast with white by the formula of WCAG 2.2 ("relative luminance")."""
    red, green, blue = colour * 3 if len(colour) == 1 else colour
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in (red, green, blue)]
    return 1.05 / (0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2] + 0.05)
