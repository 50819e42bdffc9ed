"""The hard set on sheets: no word of safety lost, nothing outside, nothing dropped in silence."""

from __future__ import annotations

import pytest

from namekeeper.labels.content import LabelWishes
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import plan_of
from tests.labels.animals import DAY
from tests.labels.contract import SHEETS, TEMPLATES, check_cautions, check_inside, check_letters, fitter
from tests.labels.hard import hard_animals

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it

PAIRS = (
    ("enclosure", "a4-3x8-70x37"),
    ("enclosure", "a4-3x11-70x25.4"),
    ("enclosure", "a4-4x12-45.7x21.2"),
    ("enclosure", "roll-62x29"),
    ("enclosure", "a4-2x5-105x57"),
    ("vial", "a4-7x27-25.4x10"),
    ("vial", "a4-5x13-38.1x21.2"),
    ("vial", "letter-4x20-44.5x12.7"),
    ("shelf", "letter-2x10-101.6x25.4"),
    ("shelf", "a4-cut-2x9-95x30"),
    ("display", "a4-cut-2x4-105x74"),
    ("display", "a4-cut-2x2-105x148.5"),
    ("display", "a4-3x8-70x37"),
    ("sale", "a4-3x8-70x37"),
    ("wet-specimen", "a4-cut-3x8-60x33"),
    ("log", "a4-cut-2x4-105x74"),
    ("helper", "a4-cut-2x2-105x148.5"),
    ("permit", "a4-cut-2x4-105x74"),
    ("list", "a4-list-1x38-190x7"),
)


def check_hard(workshop: Workshop, template: str, sheet: str) -> int:
    """How many of the hard labels are printed; the others are refused."""
    animals = hard_animals()
    plan = plan_of(animals, workshop, Choices(sheet=sheet, template=template), LabelWishes(title="Insect room"), DAY)
    assert len(plan.placed) + len(plan.refused) == len(animals)
    layout = plan.template.layout
    _, room = fitter(workshop, plan.sheet, layout)
    told = {(one.field, who) for one in plan.cutbacks() if one.dropped for who in one.specimens}
    shown = {name for block in layout.blocks for name in block.fields}
    assert "caution" in shown or not layout.on_enclosure, "what stands on an enclosure warns"
    for one in plan.placed:
        fitted = one.fitted
        check_inside(fitted, room, layout)
        if "caution" in shown:
            check_cautions(fitted)
        there = {name for block in fitted.sets for name in block.block.fields}
        for name in shown & set(fitted.content.fields):
            dropped = (name, fitted.content.specimen) in told
            assert dropped == (name in fitted.left_out)
            assert dropped or name in there
    if plan.placed:
        check_letters(plan, plan.pdf())
    return len(plan.placed)


@pytest.mark.parametrize(("template", "sheet"), PAIRS)
def test_hard_labels_keep_every_word_of_safety(workshop: Workshop, template: str, sheet: str) -> None:
    assert check_hard(workshop, template, sheet) >= 5


@pytest.mark.long
@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("template", TEMPLATES)
def test_hard_labels_on_every_sheet(workshop: Workshop, template: str, sheet: str) -> None:
    check_hard(workshop, template, sheet)
