"""Sheets: exact lengths and an arithmetic that closes."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.labels.sheet_list import choose_sheet, length, sheet_from
from namekeeper.words.errors import InputError, Place
from tests.labels.contract import SHEETS

#: Right and bottom margins in mm that must remain. From memory of common practice, no source; computed by hand there.
REMAINS = {
    "a4-2x5-105x57": (0, 6),
    "a4-2x7-99.1x38.1": (4.65, 15.15),
    "a4-2x8-99.1x33.9": (4.65, 12.9),
    "a4-3x6-63.5x46.6": (7.25, 8.7),
    "a4-3x7-63.5x38.1": (7.25, 15.15),
    "a4-3x8-70x37": (0, 0.5),
    "a4-3x11-70x25.4": (0, 8.8),
    "a4-4x10-52.5x29.7": (0, 0),
    "a4-4x12-45.7x21.2": (9.85, 21.3),
    "a4-4x16-45.7x16.9": (9.85, 13.3),
    "a4-5x13-38.1x21.2": (4.75, 10.7),
    "a4-7x27-25.4x10": (8.6, 13.5),
    "letter-2x3-101.6x84.7": (25.4 * 5 / 32, 12.7),
    "letter-2x5-101.6x50.8": (25.4 * 5 / 32, 12.7),
    "letter-2x7-101.6x33.9": (25.4 * 5 / 32, 25.4 * 5 / 6),
    "letter-2x10-101.6x25.4": (25.4 * 5 / 32, 12.7),
    "letter-3x10-66.7x25.4": (25.4 * 3 / 16, 12.7),
    "letter-4x15-44.5x16.9": (25.4 * 9 / 32, 12.7),
    "letter-4x20-44.5x12.7": (25.4 * 9 / 32, 12.7),
}


@pytest.mark.parametrize("key", REMAINS)
def test_what_remains_at_the_right_and_at_the_bottom_is_what_was_computed_by_hand(key: str) -> None:
    right, bottom = REMAINS[key]
    assert float(SHEETS[key].right) == pytest.approx(right, abs=1e-9)
    assert float(SHEETS[key].bottom) == pytest.approx(bottom, abs=1e-9)


def test_every_paper_has_sheets_to_be_cut() -> None:
    assert {sheet.paper for sheet in SHEETS.values() if sheet.marks} == {
        (Fraction(210), Fraction(297)),  # ISO 216
        (Fraction(17, 2) * Fraction(254, 10), Fraction(11) * Fraction(254, 10)),  # 8 1/2 by 11 inches
    }


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("70", Fraction(70)),
        ("99.1", Fraction(991, 10)),
        ("1/3 in", Fraction(254, 30)),
        ("4 3/16 in", Fraction(254, 10) * Fraction(67, 16)),
        ("1 mm", Fraction(1)),
    ],
)
def test_lengths_are_exact(text: str, value: Fraction) -> None:
    assert length(text) == value


@pytest.mark.parametrize("text", ["", "seven", "1/0 in", "-3", "4 in 2", "1e3", "٣", "3 3/0 in"])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"is no length|divides by nought"):
        length(text)


@given(st.text(max_size=20))
def test_any_text_is_a_length_or_a_value_error(text: str) -> None:
    try:
        found = length(text)
    except ValueError:
        return
    assert found >= 0


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ("no fields", "has no fields"),
        ({"paper": "a4", "grid": "3x8", "label": ["70", "37"]}, "'first' is missing"),
        ({"paper": "a4", "grid": "3", "label": ["70", "37"], "first": ["0", "0"]}, "is no grid"),
        ({"paper": "a5", "grid": "1x1", "label": ["7", "3"], "first": ["0", "0"]}, "should be two lengths"),
        ({"paper": "a4", "grid": "3x8", "label": ["70.1", "37"], "first": ["0", "0"]}, "wider than the paper"),
        ({"paper": "a4", "grid": "3x9", "label": ["70", "37"], "first": ["0", "0"]}, "longer than the paper"),
        ({"paper": "a4", "grid": "2x2", "label": ["9", "9"], "first": ["0", "0"], "pitch": ["8", "9"]}, "overlap"),
        ({"paper": "a4", "grid": "0x8", "label": ["70", "37"], "first": ["0", "0"]}, "has no labels"),
        ({"paper": "a4", "grid": "1x1", "label": ["7", "3"], "first": ["0", "0"], "colour": "red"}, "unknown field"),
        ({"paper": "a4", "grid": "1x1", "label": ["7", "3"], "first": ["0", "0"], "marks": "many"}, "yes or no"),
    ],
)
def test_a_sheet_of_the_keepers_own_that_cannot_be_is_refused_in_words(fields: object, words: str) -> None:
    with pytest.raises(InputError, match=words) as refused:
        sheet_from("my-sheet", fields, Place("collection.yaml"))
    assert "my-sheet" in str(refused.value)


def test_text_keeps_clear_of_the_unprintable_edge() -> None:
    full_bleed = SHEETS["a4-4x10-52.5x29.7"]
    assert full_bleed.inset(Fraction(2), Fraction(2)) == (Fraction(5), Fraction(5))
    assert full_bleed.near_edges() == ("left", "right", "top", "bottom")
    roomy = SHEETS["a4-3x7-63.5x38.1"]
    assert roomy.inset(Fraction(2), Fraction(2)) == (Fraction(2), Fraction(2))
    assert roomy.near_edges() == ()


def test_a_roll_of_any_size_needs_no_entry() -> None:
    roll = choose_sheet("roll-29.5x90", SHEETS)
    assert (roll.width, roll.height, roll.places) == (Fraction(59, 2), Fraction(90), 1)


def test_an_unknown_sheet_is_refused_with_the_nearest() -> None:
    with pytest.raises(InputError, match="a4-3x8-70x37"):
        choose_sheet("a4-3x8-70x36", SHEETS)
