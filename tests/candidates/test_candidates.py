"""From clues to an answer, on small invented lists (contract section 2): each rule where it decides."""

from __future__ import annotations

import pytest

from namekeeper.evidence.candidates import MAY_BE_REAL, Lookup, Note, NoteCode
from namekeeper.evidence.statements import (
    ActKind,
    Dispute,
    Division,
    GenusRecord,
    Misuse,
    NameStatus,
    TaxonName,
    TradeForm,
)
from namekeeper.tasks.lookup import look_up
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import AnswerKind, How, Verification
from tests.candidates.fake_list import FakeList

A = AnswerKind


def answer(tag: str, *lists: FakeList, on: str | None = None) -> Lookup:
    (looked,) = look_up([tag], lists, PartialDate.parse(on) if on else None)
    return looked.lookup


def names(lookup: Lookup) -> list[str]:
    return [candidate.name for candidate in lookup.candidates]


def taxa(*listed: str) -> tuple[TaxonName, ...]:
    return tuple(TaxonName(name) for name in listed)


TWO = FakeList.of("Aurata minor", "Aurata grandis", "Borealis minor", former={"Cursor minor": "Aurata minor"})


@pytest.mark.parametrize(
    ("tag", "how", "name"),
    [
        ("Aurata grandis", How.ACCEPTED, "Aurata grandis"),
        ("aurata GRANDIS 0.1", How.ACCEPTED, "Aurata grandis"),
        ("Cursor minor", How.FORMER, "Aurata minor"),
        ("Aurata grande", How.EQUIVALENT, "Aurata grandis"),
        ("Aurata minus", How.EQUIVALENT, "Aurata minor"),
        ("A. grandis", How.ABBREVIATED, "Aurata grandis"),
        ("Aur. grandis", How.ABBREVIATED, "Aurata grandis"),
    ],
)
def test_one_species_on_firm_grounds(tag: str, how: How, name: str) -> None:
    lookup = answer(tag, TWO)
    assert (lookup.answer, names(lookup), lookup.candidates[0].how) == (A.ONE, [name], how)
    assert lookup.candidates[0].sources == ("fake",)


def test_an_abbreviation_that_fits_several_genera_gives_all_of_them() -> None:
    both = FakeList.of("Aurata minor", "Aquila minor", "Borealis minor")
    lookup = answer("A. minor", both)
    assert (lookup.answer, names(lookup)) == (A.SEVERAL, ["Aquila minor", "Aurata minor"])


def test_another_letter_class_counts_only_with_one_name_and_the_genus_written_out() -> None:
    one = FakeList.of("Aurata callida")
    assert answer("Aurata calida", one).answer is A.ONE
    assert answer("Aurata calida", one).candidates[0].how is How.EQUIVALENT
    # Chrysops calidus and callidus, the Code's own counter-example to Art. 58
    two = FakeList.of("Aurata callida", "Aurata kalida")
    guess = answer("Aurata calida", two)
    assert (guess.answer, {c.how for c in guess.candidates}) == (A.GUESS, {How.SIMILAR})
    assert answer("A. calida", one).answer is A.GUESS
    # all lists together have one such name, not each of them
    assert answer("Aurata calida", one, FakeList.of("Aurata kalida", key="other")).answer is A.GUESS


def test_a_genus_word_is_the_same_only_by_the_first_row() -> None:
    lookup = answer("Auratus grandis", TWO)
    assert (lookup.answer, names(lookup)) == (A.GUESS, ["Aurata grandis"])
    assert answer("AURATA grandis", TWO).answer is A.ONE


MISUSE = Misuse(
    "Aurata minor", "", taxa("Aurata minor", "Aurata grandis"), PartialDate.parse("1980"), PartialDate.parse("2010"),
    PartialDate.parse("2015"), "paper", Verification.VERIFIED,
)  # fmt: skip


@pytest.mark.parametrize(
    ("on", "expected"),
    [(None, A.SEVERAL), ("1975", A.ONE), ("1990", A.SEVERAL), ("2012", A.SEVERAL), ("2016", A.ONE)],
)
def test_a_misused_name_is_several_while_the_misuse_lasts(on: str | None, expected: AnswerKind) -> None:
    lookup = answer("Aurata minor", FakeList.of("Aurata minor", "Aurata grandis", misuses=[MISUSE]), on=on)
    assert lookup.answer is expected
    assert names(lookup)[0] == "Aurata minor"
    if expected is A.SEVERAL:
        assert [c.how for c in lookup.candidates] == [How.ACCEPTED, How.MISAPPLIED]


def test_no_common_name_settles_a_misused_name() -> None:
    listed = FakeList.of("Aurata minor", "Aurata grandis", misuses=[MISUSE], commons=[("golden dwarf", "Aurata minor")])
    assert answer("Aurata minor golden dwarf", listed).answer is A.SEVERAL


@pytest.mark.parametrize(("on", "expected"), [(None, A.SEVERAL), ("2001", A.SEVERAL), ("2020", A.ONE)])
def test_a_divided_name_may_be_any_part_on_labels_older_than_the_split(on: str | None, expected: AnswerKind) -> None:
    into = taxa("Aurata minor", "Aurata grandis")
    split = Division(
        "Aurata minor", into, ActKind.SPLIT, PartialDate.parse("2010"), None, "paper", Verification.VERIFIED
    )
    lookup = answer("Aurata minor", FakeList.of("Aurata minor", "Aurata grandis", divisions=[split]), on=on)
    assert lookup.answer is expected


def test_sources_that_differ_stand_side_by_side() -> None:
    dispute = Dispute("Aurata minor", taxa("Aurata minor", "Borealis minor"), "two papers", Verification.VERIFIED)
    assert answer("Aurata minor", FakeList.of("Aurata minor", "Borealis minor", disputes=[dispute])).answer is A.SEVERAL
    other = FakeList.of("Cursor grandis", former={"Aurata minor": "Cursor grandis"}, key="other")
    assert names(answer("Aurata minor", FakeList.of("Aurata minor"), other)) == ["Cursor grandis"]


def test_a_doubtful_name_is_never_one() -> None:
    listed = FakeList(names={"Aurata dubia": (NameStatus.DOUBTFUL, ())})
    lookup = answer("Aurata dubia", listed)
    assert lookup.answer is A.SEVERAL
    assert [(c.name, c.how) for c in lookup.candidates] == [("Aurata dubia", How.DOUBTFUL)]


COMMON = FakeList.of(
    "Aurata minor", "Aurata grandis", "Borealis minor",
    commons=[
        ("golden dwarf", "Aurata minor"), ("red knee", "Aurata grandis"), ("red knee", "Borealis minor"),
        ("northern glory", "Borealis minor"),
    ],
)  # fmt: skip


@pytest.mark.parametrize(
    ("tag", "expected", "shown"),
    [
        ("golden dwarf", A.ONE, ["Aurata minor"]),
        ("Dwarf, golden tarantula", A.ONE, ["Aurata minor"]),
        ("golden dwarf tarantula sling", A.ONE, ["Aurata minor"]),
        ("red knee", A.SEVERAL, ["Aurata grandis", "Borealis minor"]),
        ("red knee A. grandis", A.ONE, ["Aurata grandis"]),
        ("glory 0.1", A.GUESS, ["Borealis minor"]),
        ("Aurata grandis northern glory", A.SEVERAL, ["Aurata grandis", "Borealis minor"]),
        ("golden", A.NONE, []),
        ("tarantula", A.NONE, []),
        ("spider sp", A.NONE, []),
        ("black", A.NONE, []),
    ],
)
def test_clues_work_together(tag: str, expected: AnswerKind, shown: list[str]) -> None:
    lookup = answer(tag, COMMON)
    assert (lookup.answer, sorted(names(lookup))) == (expected, shown)


def test_agreement_of_clues_goes_first() -> None:
    listed = FakeList.of("Aurata minor", "Aquila minor", commons=[("queen", "Aurata minor"), ("queen", "Aquila minor")])
    lookup = answer("Aurata minor or Aquila minor", listed)
    assert names(lookup) == ["Aquila minor", "Aurata minor"]
    assert lookup.answer is A.SEVERAL


@pytest.mark.parametrize(
    "tag",
    [
        "Aurata sp.",
        "Aurata spp.",
        "Aurata",
        "Aurata aff. minor",
        "Aurata nr. minor",
        "Aurata sp. blue",
        "Aurata zzyzxa",
    ],
)
def test_only_the_genus_is_known(tag: str) -> None:
    lookup = answer(tag, TWO)
    assert (lookup.answer, names(lookup)) == (A.GENUS, ["Aurata"])
    assert lookup.candidates[0].rank == "genus"


@pytest.mark.parametrize("tag", ["Aurata cf. minor", "Aurata minor?", "cf. Aurata minor"])
def test_compare_and_query_keep_the_species_with_doubt(tag: str) -> None:
    (looked,) = look_up([tag], [TWO])
    assert looked.reading.uncertain
    assert (looked.lookup.answer, names(looked.lookup)) == (A.ONE, ["Aurata minor"])


def test_a_trade_form_is_never_taken_as_one() -> None:
    form = TradeForm("Aurata", "blue", TaxonName("Aurata caerulea"), "paper", Verification.VERIFIED)
    listed = FakeList.of("Aurata minor", "Aurata caerulea", trade_forms=[form])
    lookup = answer('Aurata sp. "blue"', listed)
    assert lookup.answer is A.GENUS
    assert "Aurata caerulea" in names(lookup)
    assert answer('Aurata minor "blue"', listed).answer is A.SEVERAL
    assert answer('Aurata caerulea "blue"', listed).answer is A.ONE


def test_a_cross_is_two_parents_and_never_one() -> None:
    lookup = answer("Aurata minor x grandis", TWO)
    assert (lookup.answer, sorted(names(lookup))) == (A.SEVERAL, ["Aurata grandis", "Aurata minor"])
    assert all(Note(NoteCode.CROSS_PARENT) in c.notes for c in lookup.candidates)


def test_a_guess_says_that_the_name_may_be_real_unless_the_list_is_complete() -> None:
    lookup = answer("Aurata grandos", TWO)
    assert lookup.answer is A.GUESS
    assert MAY_BE_REAL in lookup.candidates[0].notes
    complete = FakeList.of("Aurata grandis", complete_for=("Theraphosidae",))
    assert MAY_BE_REAL not in answer("Aurata grandos", complete).candidates[0].notes


def test_rivals_at_equal_distance_are_both_shown_and_score_less() -> None:
    alone = answer("Aurata dilitata", FakeList.of("Aurata dilatata"))
    # Halymenia dilitata, for dilatata or digitata: Rees 2014, PLoS ONE 9(9): e107510, Fig. 3
    rivals = answer("Aurata dilitata", FakeList.of("Aurata dilatata", "Aurata digitata"))
    assert rivals.answer is A.GUESS
    assert set(names(rivals)) == {"Aurata dilatata", "Aurata digitata"}
    assert max(c.score for c in rivals.candidates) < alone.candidates[0].score


def test_the_epithet_in_the_genus_that_took_it_in_is_a_guess() -> None:
    moved = {
        "Cursor": GenusRecord("Cursor", "Theraphosidae", None, accepted=False, moved_to=("Aurata",), moved_whole=True)
    }
    lookup = answer("Cursor grandis", FakeList.of("Aurata grandis", genera=moved))
    assert (lookup.answer, names(lookup)) == (A.GUESS, ["Aurata grandis"])
    assert Note(NoteCode.GENUS_WENT, ("Cursor", "Aurata")) in lookup.candidates[0].notes


def test_unasked_is_not_none() -> None:
    assert answer("Ursus maritimus", TWO).answer is A.UNASKED
    assert answer("Ursus maritimus", FakeList.of("Aurata minor", complete_for=("Animalia",))).answer is A.NONE
    assert answer("0.1 5cm £3", TWO).answer is A.NONE


def test_order_is_stable_whatever_the_order_of_lists() -> None:
    one, other = FakeList.of("Aurata minor", key="one"), FakeList.of("Aquila minor", key="two")
    assert answer("A. minor", one, other).candidates == answer("A. minor", other, one).candidates


def test_a_subspecies_that_is_not_listed_is_its_species_and_says_so() -> None:
    lookup = answer("Aurata grandis minima", TWO)
    assert names(lookup) == ["Aurata grandis"]
    assert Note(NoteCode.SUBSPECIES_UNLISTED, ("minima",)) in lookup.candidates[0].notes


def test_a_list_complete_for_another_group_is_not_fit_to_say_no() -> None:
    # contract section 2: none only from lists complete for the group
    snails = FakeList.of("Aurata grandis", complete_for=("Mollusca",))
    animals = FakeList.of("Aurata grandis", complete_for=("Animalia",))
    assert answer("Xyz qwertus", snails).answer is A.UNASKED
    assert answer("Xyz qwertus", animals).answer is A.NONE


def test_a_common_name_of_a_species_and_of_a_whole_genus_is_for_the_keeper() -> None:
    both = FakeList.of("Aurata grandis", "Aurata", commons=[("goldleg", "Aurata grandis"), ("goldleg", "Aurata")])
    assert answer("goldleg", both).answer is A.SEVERAL
