"""The labels of a run look like one family: few sizes of names, one baseline, the rule at one place."""

from __future__ import annotations

import pytest

from namekeeper.labels.content import LabelWishes
from namekeeper.labels.layout import STEP
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import LabelPlan, plan_of
from tests.labels.animals import DAY, planned, real_names
from tests.labels.contract import SHEETS, TEMPLATES, many
from tests.labels.hard import hard_animals

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it

PAIRS = (
    ("enclosure", "a4-3x8-70x37"),
    ("enclosure", "a4-5x13-38.1x21.2"),
    ("vial", "a4-7x27-25.4x10"),
    ("shelf", "letter-2x10-101.6x25.4"),
    ("display", "a4-cut-2x4-105x74"),
)


def hard_plan(workshop: Workshop, template: str, sheet: str, *, each_largest: bool = False) -> LabelPlan:
    choices = Choices(sheet=sheet, template=template, each_largest=each_largest)
    return plan_of(hard_animals(), workshop, choices, LabelWishes(), DAY)


def name_sizes(plan: LabelPlan) -> list[float]:
    return [one.fitted.size_of("name") for one in plan.placed]


@pytest.mark.parametrize(("template", "sheet"), PAIRS)
def test_a_run_shows_three_sizes_of_names_at_most(workshop: Workshop, template: str, sheet: str) -> None:
    shared, largest = (hard_plan(workshop, template, sheet, each_largest=each) for each in (False, True))
    assert len(set(name_sizes(shared))) <= 3 < len(set(name_sizes(largest)))
    # What stands on a label does not depend on its neighbours, only how large it is.
    assert [one.fitted.left_out for one in shared.placed] == [one.fitted.left_out for one in largest.placed]


def test_nine_of_ten_names_are_as_large_as_all_nine_can_be(workshop: Workshop) -> None:
    names = real_names()[::40]
    shared = many(workshop, "a4-3x8-70x37", "enclosure", names)
    sizes = name_sizes(shared)
    assert sum(size == max(sizes) for size in sizes) >= 0.9 * len(sizes)
    # A quarter of a point more, and fewer than nine of ten would fit: the labels themselves say how large they can be.
    alone = [max(name_sizes(many(workshop, "a4-3x8-70x37", "enclosure", [name]))) for name in names]
    assert sum(size >= max(sizes) + 1 / STEP for size in alone) < 0.9 * len(alone)


def most_alike(found: list[float]) -> int:
    """How many of these are the same to a hundredth of a millimetre."""
    return max(sum(abs(one - other) < 0.01 for other in found) for one in found)


@pytest.mark.parametrize(("template", "sheet"), PAIRS)
def test_names_stand_on_one_baseline(workshop: Workshop, template: str, sheet: str) -> None:
    plan = many(workshop, sheet, template, real_names()[::80])
    found = []
    for number, page in enumerate(plan.drawn()):
        there = [one for one in plan.placed if one.page == number]
        for one, label in zip(there, page.labels, strict=True):
            at = [block.block.name for block in one.fitted.sets].index("name")
            found.append(label.blocks[at][0].baseline - float(plan.sheet.corner(one.place)[1]))
    assert most_alike(found) >= 0.9 * len(found)


@pytest.mark.parametrize(("template", "sheet"), [PAIRS[0], PAIRS[4]])
def test_the_rule_stands_at_one_place(workshop: Workshop, template: str, sheet: str) -> None:
    plan = many(workshop, sheet, template, real_names()[::80])
    rule = plan.template.layout.rule
    assert rule is not None
    found: list[float] = []
    for number, page in enumerate(plan.drawn()):
        there = [one for one in plan.placed if one.page == number]
        for one, label in zip(there, page.labels, strict=True):
            top = float(plan.sheet.corner(one.place)[1])
            found.extend(box.y - top for box in label.boxes if box.height == rule.thick)
    assert len(found) == len(plan.placed)
    assert most_alike(found) >= 0.9 * len(found)


def test_columns_at_the_left_are_of_one_width(workshop: Workshop) -> None:
    plan = planned(workshop, "letter-2x10-101.6x25.4", "shelf", 20)
    assert len({round(one.fitted.side_width, 6) for one in plan.placed}) == 1


@pytest.mark.parametrize("key", TEMPLATES)
def test_type_grows_with_a_label_larger_than_meant(workshop: Workshop, key: str) -> None:
    layout = workshop.template(key).layout
    if layout.made_for is None:
        pytest.skip("made for every size alike")
    width, height = layout.made_for
    assert layout.grown(width, height) == layout
    large, sheet = layout.grown(2 * width, 2 * height), SHEETS["a4-2x5-105x57"]
    for block, grown in zip(layout.blocks, large.blocks, strict=True):
        assert (grown.least, grown.most) == (block.least, 2 * block.most)
    assert layout.grown(float(sheet.width), float(sheet.height)).gives_way == layout.gives_way
