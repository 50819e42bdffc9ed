"""Small checks of one specimen, ids, counts."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.records.checks import CHECKS, problems_of, questions_of
from namekeeper.records.identifiers import conflict_copy_of, counting_key, fault_of_id, free_ids
from namekeeper.records.specimen import Decision, Left, NameEntry, Paper, Sex, Specimen
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Place

TODAY = date(2026, 11, 25)
DAY = PartialDate.parse


def specimen(**fields: object) -> Specimen:
    fields.setdefault("tag", "x")
    return Specimen("A1", Place("specimens/A1.yaml", 1, "A1"), **fields)  # type: ignore[arg-type]


def entry(line: int = 7, **fields: object) -> NameEntry:
    return NameEntry("Genus species", line=line, **fields)  # type: ignore[arg-type]


GOOD = specimen(
    acquired=DAY("2014"),
    left=Left(DAY("2014-06"), "sold"),
    origin=("A2",),
    names=(entry(recorded=DAY("2014")), entry(recorded=DAY("2014-05-04")), entry(standing="undone", undoes="2")),
    decisions=(Decision("kept", DAY("2021")), Decision("printed", None), Decision("unprinted", None, undoes="2")),
    papers=(Paper("permit", "12", DAY("2020"), "Aus bus"),),
)
BAD = {
    "neither": (specimen(tag=" "), 1, "neither a tag nor a name"),
    "acquired ahead": (specimen(acquired=DAY("2027")), 3, "acquired 2027 lies in the future"),
    "left ahead": (specimen(left=Left(DAY("2030"), "sold")), 9, "left 2030 lies in the future"),
    "since ahead": (specimen(names=(entry(since=DAY("2999")),)), 7, "since 2999 lies in the future"),
    "decided ahead": (
        specimen(decisions=(Decision("kept", DAY("2999"), line=12),)),
        12,
        "recorded 2999 lies in the future",
    ),
    "not appended": (
        specimen(names=(entry(recorded=DAY("2021")), entry(8, recorded=DAY("2019")))),
        8,
        "entry recorded 2019 stands after one recorded 2021",
    ),
    "undoes nothing": (
        specimen(names=(entry(), entry(8, standing="undone", undoes="2"))),
        8,
        "undoes: '2' is not the number of an earlier entry",
    ),
    "undoes a word": (
        specimen(names=(entry(), entry(8, standing="undone", undoes="first"))),
        8,
        "undoes: 'first' is not the number of an earlier entry",
    ),
    "undoes without word": (
        specimen(names=(entry(undoes="1"),)),
        7,
        "undoes: belongs to an entry with standing: undone",
    ),
    "takes back no print": (
        specimen(decisions=(Decision("kept", None), Decision("unprinted", None, undoes="1", line=13))),
        13,
        "undoes: '1' is not the number of an earlier print",
    ),
    "takes back itself": (
        specimen(decisions=(Decision("unprinted", None, undoes="1", line=13),)),
        13,
        "undoes: '1' is not the number of an earlier print",
    ),
    "takes back without word": (
        specimen(decisions=(Decision("printed", None), Decision("printed", None, undoes="1", line=13))),
        13,
        "undoes: belongs to a decision of kind: unprinted",
    ),
    "paper ahead": (specimen(papers=(Paper("permit", date=DAY("2999")),)), 10, "papers 2999 lies in the future"),
    "standing": (specimen(names=(entry(standing="gone"),)), 7, "unknown standing 'gone'"),
    "kind": (specimen(decisions=(Decision("sold", None, line=5),)), 5, "unknown kind of decision 'sold'"),
    "left too early": (
        specimen(acquired=DAY("2014-05-03"), left=Left(DAY("2014-05-02"), "sold")),
        9,
        "left 2014-05-02, before it was acquired 2014-05-03",
    ),
    "its own parent": (specimen(origin=("a1",)), 4, "from: names the specimen itself"),
}
LINES = {"acquired": 3, "from": 4, "left": 9, "papers": 10}


def test_a_good_specimen_has_no_problems() -> None:
    assert problems_of(GOOD, LINES, TODAY) == ()


@pytest.mark.parametrize(("bad", "line", "what"), BAD.values(), ids=BAD.keys())
def test_a_problem_has_line_specimen_and_remedy(bad: Specimen, line: int, what: str) -> None:
    (problem,) = problems_of(bad, LINES, TODAY)
    assert (problem.what, problem.place) == (what, Place("specimens/A1.yaml", line, "A1"))
    assert problem.remedy


@pytest.mark.parametrize("gone", ["2014", "2014-05", "2014-05-03"])
def test_an_animal_may_leave_in_the_time_it_came_in(gone: str) -> None:
    assert problems_of(specimen(acquired=DAY("2014-05-03"), left=Left(DAY(gone), "sold")), LINES, TODAY) == ()


def test_a_name_stands_from_the_very_day_on() -> None:
    # contract section 5, history: latest since <= day
    one = specimen(names=(entry(since=DAY("2020-05-03")),))
    assert one.name_on(date(2020, 5, 3)) is not None
    assert one.name_on(date(2020, 5, 2)) is None


def test_every_check_has_a_case() -> None:
    caught = {check for bad, _, _ in BAD.values() for check in CHECKS if list(check(bad, LINES, TODAY))}
    assert caught == set(CHECKS)


def test_a_day_of_travel_is_no_future() -> None:
    tomorrow = PartialDate.of(TODAY + timedelta(days=1))
    assert problems_of(specimen(names=(entry(recorded=tomorrow),)), LINES, TODAY) == ()


@pytest.mark.parametrize("year", ["0001", "9999"])
def test_the_ends_of_the_calendar_do_not_break_a_check(year: str) -> None:
    ends = specimen(names=(entry(recorded=DAY(year)), entry(recorded=DAY("2014")), entry(recorded=DAY(year))))
    assert problems_of(ends, LINES, TODAY)


@pytest.mark.parametrize("text", ["INV-0007", "a", "2024_1", "x.y", "A" * 40, "console", "aux1"])
def test_ids_that_may_be(text: str) -> None:
    assert fault_of_id(text) is None


@pytest.mark.parametrize(
    "text", ["", "a b", "ä", "a/b", "..", ".x", "x.", "A" * 41, "CON", "nul.1", "com7", "lpt0.x.y"]
)
def test_ids_that_may_not_be(text: str) -> None:
    assert fault_of_id(text)


@given(st.text(max_size=45))
def test_an_id_is_a_safe_file_name(text: str) -> None:
    if fault_of_id(text) is None:
        assert text.isascii()
        assert 0 < len(text) <= 40
        assert not set(text) & set('/\\:*?"<>| \x00')


def test_copies_are_told_from_ids_of_their_own() -> None:
    stems = ["INV-1", "INV-1 (1)", "B-copy", "conflict-zone"]
    assert [conflict_copy_of(stem, stems) for stem in stems] == [None, "INV-1", None, None]


@pytest.mark.parametrize(
    ("taken", "first"),
    [([], "INV-0001"), (["INV-0007", "x"], "INV-0008"), (["inv-12000"], "INV-12001"), (["INV-x1"], "INV-0001")],
)
def test_new_ids_go_on_after_the_highest(taken: list[str], first: str) -> None:
    found = list(islice(free_ids(taken), 2))
    assert found[0] == first
    assert found[1] != first


@pytest.mark.parametrize(("text", "total"), [("0.1.0", 1), ("1.2", 3), ("10.20.30", 60), ("0012.0.0", 12)])
def test_counts(text: str, total: int) -> None:
    assert Sex.parse(f" {text} ").total == total


@pytest.mark.parametrize("text", ["", "1", "1.2.3.4", "a.b", "-1.0.0", "1,2", "٣.0.0", "1.2.", "9999999.0"])
def test_what_is_no_count(text: str) -> None:
    with pytest.raises(ValueError, match="no count like"):
        Sex.parse(text)


def test_an_entry_without_since_stands_from_the_day_the_animal_came() -> None:
    """Contract section 4, label date: ``since``, else ``acquired``, else unknown."""
    came = PartialDate.parse("2012")
    specimen = Specimen("A", Place("a.yaml"), tag="x", acquired=came, names=(NameEntry("Brachypelma vagans"),))
    assert specimen.name_on(date(2011, 12, 31)) is None
    assert specimen.name_on(date(2012, 1, 1)) == specimen.names[0]
    assert Specimen("B", Place("b.yaml"), tag="x", names=specimen.names).name_on(date(1900, 1, 1)) == specimen.names[0]


@pytest.mark.parametrize(
    ("acquired", "recorded", "asked"),
    [
        ("2026-11-20", ["2026-11-20", "2026-11-21"], True),
        ("2026-11-19", ["2026-11-20"], False),
        ("2026-11-20", ["2026-11-19", "2026-11-20"], False),
        ("2026-11", ["2026-11"], False),  # a month was given by the keeper: version 0.1 wrote days
        (None, ["2026-11-20"], False),
        ("2026-11-20", [], False),
    ],
)
def test_a_day_that_may_be_the_day_of_entering_is_asked_about(
    acquired: str | None, recorded: list[str], asked: bool
) -> None:
    names = tuple(entry(line, recorded=DAY(day)) for line, day in enumerate(recorded, 4))
    found = list(questions_of(specimen(acquired=DAY(acquired) if acquired else None, names=names)))
    assert [question.place.line for question in found] == [4] * asked
    assert all("did the animal come that day?" in question.what for question in found)


@pytest.mark.parametrize(
    "ordered",
    [
        ["A1", "A2", "A10"],
        ["HW-9", "HW-10", "HW-100"],
        ["a2", "A10"],
        ["2", "10", "A1"],
        ["A-1-2", "A-1-10", "A-2-1"],
        ["A01", "A1"],  # one number: as written
        ["rack A 2", "rack A 10", "rack B 1"],
    ],
)
def test_ids_and_places_are_in_the_order_of_a_person_who_counts(ordered: list[str]) -> None:
    upside_down = ordered[::-1]
    assert sorted(upside_down, key=counting_key) == ordered


@given(st.lists(st.text()))
def test_any_texts_have_one_order(texts: list[str]) -> None:
    ordered = sorted(texts, key=counting_key)
    upside_down = texts[::-1]
    assert sorted(upside_down, key=counting_key) == ordered
    assert sorted(ordered) == sorted(texts)
