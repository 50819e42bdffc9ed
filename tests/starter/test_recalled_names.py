"""Common names that no source was seen for: offered as a guess, and how many they are."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest

from namekeeper.evidence.candidates import NoteCode
from namekeeper.evidence.interfaces import NameList
from namekeeper.judging.common_words import core_of, words_of
from namekeeper.tasks.lookup import look_up
from namekeeper.words.terms import AnswerKind, How
from tests.starter.tables import Row, name_in_force, rows

#: One row a recalled name in another language than English: how it was looked up, and what was seen instead.
ASKED = Path(__file__).with_name("data") / "recalled_names.csv"
COLUMNS = ("vernacularName", "language", "scientificName")

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it


@cache
def bearers(kind: str) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = {}
    for row in rows("common"):
        found.setdefault(row["vernacularName"], []).append(row)
    return {name: own for name, own in found.items() if all(row["kind"] == kind for row in own)}


def asked() -> list[Row]:
    with ASKED.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines, strict=True))


def test_each_recalled_name_of_another_language_was_looked_up() -> None:
    recalled = [row for row in rows("common") if (row["confidence"], row["kind"]) == ("memory", "common")]
    expected = {tuple(row[key] for key in COLUMNS) for row in recalled if row["language"] != "en"}
    written = [tuple(row[key] for key in COLUMNS) for row in asked()]
    assert written == sorted(set(written))
    assert set(written) ^ expected == set()


def test_the_record_says_what_was_seen_instead() -> None:
    answers = {row["answer"] for row in asked()}
    assert answers == {"not found", "near form seen", "in a dictionary"}  # none was left unasked
    assert [row for row in asked() if not row["remark"]] == []


def test_a_name_that_only_memory_gives_is_never_one_without_a_witness(lists: tuple[NameList, ...]) -> None:
    recalled = [name for name, own in bearers("common").items() if all(row["confidence"] == "memory" for row in own)]
    looked = dict(zip(recalled, look_up(recalled, lists), strict=True))
    sure = {name: found.lookup.candidates for name, found in looked.items() if found.lookup.answer is AnswerKind.ONE}
    assert len(sure) <= 0.05 * len(recalled)
    for name, candidates in sure.items():
        # The same words of the same animal, with or without the word for its group, were seen or are a nickname.
        seen = [
            row
            for row in rows("common")
            if (row["confidence"] == "verified" or row["kind"] != "common") and _same(row, name)
        ]
        # A common name may be a scientific one, too ("blatta cinerea").
        by_common = {candidate.name for candidate in candidates if candidate.how is How.COMMON}
        assert by_common <= {name_in_force(row["scientificName"]) for row in seen}, name


def _same(row: Row, name: str) -> bool:
    """Whether the words but for the animal group are the same, in another order or written together."""
    own, other = _core(row["vernacularName"]), _core(name)
    return sorted(own) == sorted(other) or "".join(own) == "".join(other)


@cache
def _core(name: str) -> tuple[str, ...]:
    return tuple(core_of(words_of(name)))


def test_a_name_seen_in_a_source_needs_no_second_one(lists: tuple[NameList, ...]) -> None:
    seen = [
        name
        for name, own in bearers("common").items()
        if len(own) == 1 and own[0]["confidence"] == "verified" and " " in own[0]["scientificName"]
    ]
    noted = [
        name
        for name, found in zip(seen, look_up(seen, lists), strict=True)
        for candidate in found.lookup.candidates
        if candidate.name == bearers("common")[name][0]["scientificName"]
        and any(note.code is NoteCode.RECALLED for note in candidate.notes)
    ]
    assert noted == []


@pytest.mark.parametrize("tag", ["OBT 0.1", "GBB sling"])
def test_nicknames_of_the_trade_stay_firm(lists: tuple[NameList, ...], tag: str) -> None:
    (found,) = look_up([tag], lists)
    assert found.lookup.answer is AnswerKind.ONE


def test_a_second_meaning_from_memory_still_makes_a_name_ambiguous(lists: tuple[NameList, ...]) -> None:
    # Seen: Limax maximus; from memory: Achatina achatina. Dropping the second would be a silent pick.
    (found,) = look_up(["tijgerslak"], lists)
    assert found.lookup.answer is AnswerKind.SEVERAL
    assert {"Limax maximus", "Achatina achatina"} <= {candidate.name for candidate in found.lookup.candidates}
