"""Fitting: nothing outside its label, floors kept, fields giving way in the stated order, refusals in words."""

from __future__ import annotations

import random
from collections.abc import Sequence

import pytest
import segno
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.labels.fit import Fitter
from namekeeper.labels.fitted import Fitted, Misfit, Room
from namekeeper.labels.layout import PT, STEP, wished_name_size
from namekeeper.labels.text import Face
from namekeeper.tasks.label_bench import Workshop
from namekeeper.words.terms import MisfitReason
from tests.labels.animals import content_of, planned, real_names
from tests.labels.contract import LONGEST, TEMPLATES, check_fit, check_inside, fitter


def check_all(workshop: Workshop, names: Sequence[str]) -> int:
    """Every name on every sheet with every template; returns how many fitted."""
    contents = [content_of(name, locality="Locality", common="a common name") for name in names]
    fitted = 0
    for template in workshop.templates():
        for sheet in workshop.sheets.values():
            one, room = fitter(workshop, sheet, template.layout)
            fitted += sum(check_fit(one, room, template.layout, content, 21) for content in contents)
    return fitted


def test_real_names_on_every_sheet_with_every_template_fit_or_are_refused(workshop: Workshop) -> None:
    # Large templates have no room on small labels; that every sheet and template has its match, the contract tells.
    names = random.Random(8).sample(real_names(), 12)
    assert check_all(workshop, names) > len(names) * len(workshop.sheets) * len(TEMPLATES) / 2


@pytest.mark.long
def test_five_thousand_real_names_on_every_sheet_with_every_template(workshop: Workshop) -> None:
    assert check_all(workshop, real_names()) > 0


def test_the_longest_names_fit_on_the_smallest_labels(workshop: Workshop) -> None:
    layout = workshop.template("vial").layout
    one, _ = fitter(workshop, workshop.sheets["a4-7x27-25.4x10"], layout)
    for name in LONGEST:
        found = one.fit(content_of(name))
        assert isinstance(found, Fitted), name
        assert found.size_of("name") * PT * workshop.measure.x_height(Face.MEDIUM_ITALIC) >= 0.9


def test_the_width_promised_is_the_width_of_the_font_itself(workshop: Workshop) -> None:
    # Measured with the layout engine: 22.4 mm hold "Encyocratella olivacea" in italic up to 7.0 pt (by test there).
    width = workshop.measure.width("Encyocratella olivacea", Face.REGULAR_ITALIC)
    assert width * 7.0 * PT == pytest.approx(22.4, abs=0.5)


def test_the_name_is_large_enough_wherever_leaving_out_other_fields_makes_room(workshop: Workshop) -> None:
    wished = wished_name_size(workshop.measure)
    for sheet in workshop.sheets.values():
        one, _ = fitter(workshop, sheet, workshop.template("enclosure").layout)
        found = one.fit(content_of("Grammostola pulchra", locality="far away " * 9, stage="juvenile"), 21)
        if isinstance(found, Fitted) and found.size_of("name") * STEP < wished:
            assert set(found.left_out) >= {"authorship", "locality", "stage", "qr"}


def test_fields_give_way_in_the_stated_order(workshop: Workshop) -> None:
    layout = workshop.template("enclosure").layout
    order = {name: number for number, name in reversed(list(enumerate(layout.gives_way)))}
    content = content_of("Grammostola pulchra", stage="juvenile", locality="Campeche", stands_at="rack A", common="pet")
    for height in range(60, 5, -1):
        found = Fitter(layout, Room(60, height / 2, 2.4, 2.4), workshop.measure).fit(content, 21)
        if isinstance(found, Fitted):
            places = [order[name] for name in found.left_out if name != "caution"]
            assert places == sorted(places)


def test_a_word_that_is_too_long_is_named(workshop: Workshop) -> None:
    name = "Myxococcus llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogochensis"  # NCBI Taxonomy
    one, _ = fitter(workshop, workshop.sheets["a4-7x27-25.4x10"], workshop.template("vial").layout)
    found = one.fit(content_of(name))
    assert isinstance(found, Misfit)
    assert (found.reason, found.field) == (MisfitReason.WORD, "name")
    assert (found.room.width, found.room.height) == pytest.approx((23.4, 8.0))


def test_a_locality_of_three_thousand_letters_is_left_out_not_cut(workshop: Workshop) -> None:
    one, room = fitter(workshop, workshop.sheets["a4-3x8-70x37"], workshop.template("enclosure").layout)
    found = one.fit(content_of("Grammostola pulchra", locality="Campeche " * 333))
    assert isinstance(found, Fitted)
    assert "locality" in found.left_out
    check_inside(found, room, workshop.template("enclosure").layout)


def test_a_qr_code_has_its_best_size_where_there_is_room(workshop: Workshop) -> None:
    layout = workshop.template("enclosure").layout
    assert layout.square is not None
    least, best = layout.square
    assert least < best
    found = Fitter(layout, Room(90, 60, 2.4, 2.4), workshop.measure).fit(content_of("Grammostola pulchra"), 21)
    assert isinstance(found, Fitted)
    assert found.module == best


def test_a_wished_qr_code_is_refused_with_its_size_and_an_optional_one_left_out(workshop: Workshop) -> None:
    small, pattern = "a4-4x16-45.7x16.9", "https://example.org/our/animals/of/the/insect/room/{id}"
    (refused,) = planned(workshop, small, "enclosure", 1, square=pattern).refused
    modules = segno.make_qr(pattern.replace("{id}", "INV-0007"), error="m", boost_error=False).symbol_size()[0]
    assert refused.misfit.reason is MisfitReason.QR
    assert refused.misfit.square == pytest.approx(modules * 0.33)
    assert refused.larger is not None
    assert planned(workshop, refused.larger.key, "enclosure", 1, square=pattern).refused == ()
    optional = planned(workshop, small, "enclosure", 1)
    assert optional.placed[0].fitted.left_out.count("qr") == 1


@settings(max_examples=60, deadline=None)
@given(
    name=st.lists(st.text("abcdefghijklmnopqrstuvwxyzäéß.×", min_size=1, max_size=24), min_size=1, max_size=5),
    width=st.floats(3, 200),
    height=st.floats(1, 150),
    modules=st.sampled_from([0, 21, 33]),
    template=st.sampled_from(TEMPLATES),
)
def test_any_name_in_any_room_fits_or_is_refused(
    workshop: Workshop, name: list[str], width: float, height: float, modules: int, template: str
) -> None:
    layout = workshop.template(template).layout
    room = Room(width, height, 2, 2)
    fitting = Fitter(layout, room, workshop.measure)
    check_fit(fitting, room, layout, content_of("A" + " ".join(name)), modules)
