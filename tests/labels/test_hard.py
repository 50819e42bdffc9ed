"""The hard set on sheets: no word of safety lost, nothing outside, nothing dropped in silence."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from namekeeper.labels.content import LabelWishes, make_content
from namekeeper.labels.fitted import Fitted
from namekeeper.labels.qr import symbol
from namekeeper.labels.text import SEPARATOR, Variant, plain
from namekeeper.tasks.label_bench import Workshop, layout_on
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import plan_of
from tests.labels.animals import DAY
from tests.labels.contract import SHEETS, TEMPLATES, check_cautions, check_inside, check_letters, fitter
from tests.labels.hard import hard_animals

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it

PAIRS = (
    ("enclosure", "a4-3x11-70x25.4"),
    ("enclosure", "roll-62x29"),
    ("vial", "a4-7x27-25.4x10"),
    ("vial", "letter-4x20-44.5x12.7"),
    ("shelf", "letter-2x10-101.6x25.4"),
    ("display", "a4-3x8-70x37"),
    ("sale", "a4-3x8-70x37"),
    ("wet-specimen", "a4-cut-3x8-60x33"),
    ("log", "a4-cut-2x4-105x74"),
    ("helper", "a4-cut-2x2-105x148.5"),
    ("permit", "a4-cut-2x4-105x74"),
    ("list", "a4-list-1x38-190x7"),
)
WISHES = LabelWishes(title="Insect room", price=True)


def check_hard(workshop: Workshop, template: str, sheet: str) -> int:
    """How many of the hard labels are printed; the others are refused."""
    animals = hard_animals()
    plan = plan_of(animals, workshop, Choices(sheet=sheet, template=template), WISHES, DAY)
    assert len(plan.placed) + len(plan.refused) == len(animals)
    layout = plan.template.layout
    _, room = fitter(workshop, plan.sheet, layout)
    assert "caution" in layout.fields or not layout.on_enclosure, "what stands on an enclosure warns"
    sayable = {one.id: make_content(one, known, WISHES).fields for one, known in animals}
    told = {(who, name) for who, name, _ in plan.undrawn()}
    told |= {(who, one.field) for one in plan.cutbacks() if one.dropped for who in one.specimens}
    for one in plan.placed:
        check_inside(one.fitted, room, layout)
        if "caution" in layout.fields:
            check_cautions(one.fitted)
        who = one.fitted.content.specimen
        for name in layout.fields & set(sayable[who]):
            assert says(one.fitted, name, sayable[who][name]) != ((who, name) in told), f"{who}: {name}"
    if plan.placed:
        check_letters(plan, plan.pdf())
    return len(plan.placed)


def says(fitted: Fitted, name: str, forms: Sequence[Variant]) -> bool:
    """Whether a field stands on a label in one of its forms."""
    lines = (line.text for one in fitted.sets if name in one.block.fields for line in one.lines)
    text = bare("".join(lines))
    return any(bare(plain(form)) in text for form in forms)


def bare(text: str) -> str:
    return text.replace(SEPARATOR, "").replace(" ", "")


@pytest.mark.parametrize(("template", "sheet"), PAIRS)
def test_hard_labels_keep_every_word_of_safety(workshop: Workshop, template: str, sheet: str) -> None:
    assert check_hard(workshop, template, sheet) >= 5


def test_a_sheet_is_advised_that_the_whole_fit_would_advise(workshop: Workshop) -> None:
    check_advice(workshop, "display", "a4-3x11-70x25.4")


def check_advice(workshop: Workshop, template: str, sheet: str) -> None:
    """What is found quickly is the smallest label on which the content fits indeed."""
    found = workshop.template(template)
    plan = plan_of(hard_animals(), workshop, Choices(sheet=sheet, template=template), WISHES, DAY)
    by_size = sorted(SHEETS.values(), key=lambda one: (one.width * one.height, one.paper != plan.sheet.paper, one.key))
    fitters = {one.key: fitter(workshop, one, layout_on(one, found))[0] for one in by_size}
    assert plan.refused
    for refused in plan.refused:
        content = refused.misfit.content
        modules = symbol(content.square).modules if content.square and found.layout.square else 0
        fits = (one for one in by_size if isinstance(fitters[one.key].fit(content, modules), Fitted))
        assert refused.larger == next(fits, None)


@pytest.mark.long
@pytest.mark.parametrize("template", TEMPLATES)
def test_every_template_has_the_right_sheet_advised(workshop: Workshop, template: str) -> None:
    check_advice(workshop, template, "a4-7x27-25.4x10")


@pytest.mark.long
@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("template", TEMPLATES)
def test_hard_labels_on_every_sheet(workshop: Workshop, template: str, sheet: str) -> None:
    check_hard(workshop, template, sheet)
