"""Lines, grids and boxes for the pen: where they lie, and layouts that cannot be drawn."""

from __future__ import annotations

import pytest

from namekeeper.labels.drawing import Box, Letters
from namekeeper.labels.fill_in import Area, read_fill_in
from namekeeper.labels.layout import layout_from
from namekeeper.tasks.label_bench import Workshop
from namekeeper.words.errors import InputError, Place
from tests.labels.animals import planned
from tests.labels.contract import TEMPLATES, check_letters

LABEL = Area(0, 0, 100, 60)
FREE = Area(7, 20, 86, 50)
BLOCKS = [{"show": "name", "size": ["5", "10"]}, {"show": "id", "size": ["5", "8"]}]


def test_lines_to_write_on_stand_in_the_room_left_free_under_their_words() -> None:
    found = read_fill_in({"blanks": {"words": ["Vet", "Keeper"], "row": "8", "size": "7"}}, 7)
    assert found.words == ("Vet", "Keeper")
    drawn = found.drawn(FREE, LABEL, 0.3)
    lines = [one for one in drawn if isinstance(one, Box)]
    words = [one for one in drawn if isinstance(one, Letters)]
    assert len(lines) == len(words) == 2
    for line, word in zip(lines, words, strict=True):
        assert (line.x, line.width) == (FREE.left, FREE.width)
        assert FREE.top < word.baseline < line.y <= FREE.bottom
    assert lines[1].y - lines[0].y >= 8


def test_a_grid_fills_the_room_left_free() -> None:
    found = read_fill_in({"grid": {"columns": {"Date": "1", "Meal": "3"}, "row": "6"}}, 7)
    boxes = [one for one in found.drawn(FREE, LABEL, 0.3) if isinstance(one, Box)]
    assert max(box.y + box.height for box in boxes) == pytest.approx(FREE.bottom)
    assert all(FREE.left <= box.x and box.x + box.width <= FREE.left + FREE.width + 0.1 for box in boxes)
    (upright,) = [box for box in boxes if box.height > 1]
    assert upright.x == pytest.approx(FREE.left + FREE.width / 4, abs=0.1)
    assert len(boxes) == 1 + int((FREE.bottom - FREE.top - 1.2) / 6)


def test_a_box_to_tick_stands_in_the_padding() -> None:
    drawn = read_fill_in({"tick": "3.4", "floor": "yes"}, 7).drawn(FREE, LABEL, 0.3)
    sides = [box for box in drawn if isinstance(box, Box) and box.y < 50]
    assert len(sides) == 4
    assert all(box.x > 0 and box.x + box.width < FREE.left for box in sides)


@pytest.mark.parametrize(
    ("keys", "fault"),
    [
        ({"blanks": {"words": []}}, "list that holds something"),
        ({"blanks": {"words": ["Vet"], "row": "3", "size": "12"}}, "higher than its rows"),
        ({"blanks": {"words": ["Vet"]}, "grid": {"columns": {"Date": "1"}}}, "do not stand on one label"),
        ({"grid": {"columns": {}}}, "words with their share"),
        ({"grid": {"columns": {"Date": "0"}}}, "column 'Date' should be a number"),
        ({"grid": {"rows": "3"}}, "unknown key 'rows'"),
        ({"tick": "3"}, "which is only 2 mm wide"),
        ({"floor": "perhaps"}, "floor should be yes or no"),
        ({"made_for": ["70"]}, "made_for should be"),
        ({"order": "colour"}, "order: 'colour' is none of"),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_the_key(keys: dict[str, object], fault: str) -> None:
    with pytest.raises(InputError, match=fault):
        layout_from("own", {"blocks": BLOCKS, **keys}, 20, Place("layout.yaml"))


@pytest.mark.parametrize("key", TEMPLATES)
def test_nothing_printed_reaches_into_what_is_left_for_the_pen(workshop: Workshop, key: str) -> None:
    layout = workshop.template(key).layout
    plan = planned(workshop, layout.sheet or "a4-cut-2x4-105x74", key)
    free = plan.template.layout.fill_in.least
    for one in plan.placed:
        room = float(plan.sheet.height) - 2 * float(plan.sheet.inset(*plan.template.layout.pads)[1])
        upper = sum(block.height for block in one.fitted.sets if block.block.zone != "side")
        assert upper + free <= room + 0.01


def test_a_list_of_a_large_collection_goes_on_over_its_pages(workshop: Workshop) -> None:
    plan = planned(workshop, "a4-list-1x38-190x7", "list", 120)
    assert (plan.pages, plan.refused) == (4, ())
    assert [sum(one.page == page for one in plan.placed) for page in range(4)] == [38, 38, 38, 6]
    check_letters(plan, plan.pdf())
