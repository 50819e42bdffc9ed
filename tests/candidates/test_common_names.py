"""Common names bring every species the list has for them, and several where there are several."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from namekeeper.evidence.candidates import NoteCode
from namekeeper.evidence.interfaces import NameList
from namekeeper.tasks.lookup import look_up
from namekeeper.words.terms import AnswerKind
from tests.candidates.common_names import by_name, measure_common
from tests.candidates.starter import starter_commons

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it

# A table of common names with their sources that lies beside the project, not in it
SHARED = Path(__file__).parents[3] / "shared" / "reference" / "common_names.csv"


def test_every_common_name_of_the_starter_list_brings_all_its_species(lists: tuple[NameList, ...]) -> None:
    figures = measure_common(by_name(starter_commons()), lists)
    assert figures.asked > 1000
    assert figures.complete >= 0.98 * figures.asked, figures.missed
    assert figures.several == figures.ambiguous, figures.missed


@pytest.mark.skipif(not SHARED.exists(), reason="the table lies outside the project")
def test_the_table_of_common_names_is_found_by_98_percent(lists: tuple[NameList, ...]) -> None:
    rows = csv.DictReader(SHARED.read_text(encoding="utf-8").splitlines())
    figures = measure_common(by_name((row["common_name"], row["scientific_name"]) for row in rows), lists)
    assert figures.asked > 1000
    assert figures.complete >= 0.98 * figures.asked, figures.missed
    assert figures.several == figures.ambiguous, figures.missed


def test_a_common_name_is_no_surer_than_the_scientific_one(lists: tuple[NameList, ...]) -> None:
    """Where a name in force is used for other animals, too, its common names leave the same choice.

    Where sources differ on that name only, the animal is the same; a doubtful name says so with its candidate.
    """
    ones: dict[str, list[str]] = {}
    for looked in look_up(sorted({common for common, _ in starter_commons()}), lists):
        if looked.lookup.answer is AnswerKind.ONE:
            ones.setdefault(next(c.name for c in looked.lookup.candidates if c.firm and c.is_species), []).append(
                looked.tag
            )
    assert len(ones) > 500
    surer = {}
    for looked in look_up(ones, lists):
        others = [c for c in looked.lookup.candidates if c.firm and c.is_species and c.name != looked.tag]
        if any(all(note.code is not NoteCode.DISPUTED for note in other.notes) for other in others):
            surer[looked.tag] = ones[looked.tag]
    assert surer == {}
