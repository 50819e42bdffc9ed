"""Shipped templates drawn directly and by the HTML engine, which lays the same fit out by itself."""

from __future__ import annotations

from dataclasses import replace

import pytest

from namekeeper.tasks.label_bench import Workshop
from tests.labels.animals import planned
from tests.labels.both_ways import check_both_ways
from tests.labels.contract import SHEETS, TEMPLATES

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it

SIX = (
    ("enclosure", "a4-3x8-70x37"),
    ("vial", "a4-4x12-45.7x21.2"),
    ("shelf", "letter-2x10-101.6x25.4"),
    ("display", "letter-2x3-101.6x84.7"),
    ("log", "a4-cut-2x4-105x74"),
    ("list", "a4-list-1x38-190x7"),
)


@pytest.mark.parametrize(("template", "sheet"), SIX)
def test_both_ways_agree_in_every_glyph(workshop: Workshop, template: str, sheet: str) -> None:
    assert check_both_ways(planned(workshop, sheet, template)) > 200


@pytest.mark.long
@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("template", TEMPLATES)
def test_both_ways_agree_on_every_sheet(workshop: Workshop, template: str, sheet: str) -> None:
    plan = planned(workshop, sheet, template)
    if plan.placed:
        assert check_both_ways(plan) > 0
    else:
        assert plan.refused


def test_a_line_that_lies_elsewhere_would_be_noticed(workshop: Workshop) -> None:
    plan = planned(workshop, "a4-3x8-70x37", "enclosure", 3)
    layout = plan.template.layout
    moved = replace(plan.template, layout=replace(layout, gap=layout.gap + 0.2))

    class Elsewhere(type(plan)):  # type: ignore[misc]
        """The direct drawing has another white below the head than the HTML."""

        def drawn(self) -> object:
            return replace(plan, template=moved).drawn()

    fields = {name: getattr(plan, name) for name in plan.__dataclass_fields__}
    with pytest.raises(AssertionError, match="not drawn by way of HTML"):
        check_both_ways(Elsewhere(**fields))
