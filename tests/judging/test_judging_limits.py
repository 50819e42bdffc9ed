"""What must not count: each condition of votes, facts and safety with the evidence that only it turns away."""

from __future__ import annotations

import pytest

from namekeeper.evidence.statements import (
    ActKind,
    Answer,
    Division,
    FailureKind,
    GenusRecord,
    Match,
    NameStatus,
    TradeForm,
)
from namekeeper.judging.question import Question
from namekeeper.judging.windows import begins_later, divides, may_be_before, surely_before
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import Standing, Verification
from tests.judging.build import accepted, act, answer, day, edition, failure, misuse, says, taxon, verdict

# Kuntner et al. 2019, Systematic Biology 68(4): 555-572
OLD, NEW = "Nephila clavipes (Linnaeus, 1767)", "Trichonephila clavipes (Linnaeus, 1767)"
MOVE = act("transfer", "Nephila clavipes", "Trichonephila clavipes", "2019")
STARTER = answer(says("Nephila clavipes", OLD, NEW, acts=(MOVE,)))
LIVE = edition("live", None)
STILL_OLD = answer(accepted("Nephila clavipes", OLD, by=LIVE))
# Invented names, as the Code has them in its examples.
BUS, CUS_BUS = "Aus bus Smith, 1900", "Cus bus (Smith, 1900)"


# Contract section 4, dissent: who rejects the new name by name


@pytest.mark.parametrize(
    "beside",
    [
        answer(accepted("Trichonephila clavipes", NEW, by=LIVE)),  # it lists both: no rejection
        answer(says("Trichonephila clavipes", NEW, OLD, by=LIVE, match=Match.SIMILAR)),  # a guess does not speak
    ],
    ids=["both", "guess"],
)
def test_what_is_no_rejection_of_the_new_name(beside: Answer) -> None:
    found = verdict(OLD, STARTER, STILL_OLD, beside, written="2015")
    assert (found.standing, found.safe) == (Standing.MOVED, True)


def test_a_rejection_by_another_catalogue_does_not_free_one_that_lags() -> None:
    other = answer(says("Trichonephila clavipes", NEW, OLD, by=edition("third", None)))
    found = verdict(OLD, STARTER, STILL_OLD, other, written="2015")
    assert [line.source for line in found.statements if line.lagging] == ["live"]


def test_a_revival_that_another_list_records_makes_nobody_lag() -> None:
    revived = Division(
        "Cus dus", (taxon(BUS), taxon("Cus dus")), ActKind.REVIVAL, day("2018"), None, "", Verification.VERIFIED
    )
    keeps = answer(accepted("Aus bus", BUS))
    sinks = answer(says("Aus bus", BUS, "Cus dus Jones, 1800", by=edition("old", "2015")))
    third = Answer(edition("third"), "Cus dus", divisions=(revived,))
    assert verdict(BUS, keeps, sinks, third, written="2020").standing is Standing.DISPUTED
    own = keeps._replace(divisions=(revived,))
    assert verdict(BUS, own, sinks, written="2020").standing is Standing.CURRENT


def test_a_source_that_accepts_a_name_and_calls_it_nude_contradicts_itself() -> None:
    told = answer(accepted("Aus bus", BUS), says("Aus bus", BUS, status=NameStatus.UNAVAILABLE))
    assert (verdict(BUS, told).standing, verdict(BUS, told).rule) == (Standing.DISPUTED, "D09")


# What the table looks at


def test_an_answer_on_the_genus_is_none_on_the_name() -> None:
    complete = edition("catalogue", "2026", complete="Animalia")
    on_genus = answer(accepted("Aus", "Aus", by=complete))
    off = failure("Aus bus", FailureKind.OFFLINE, by=complete)
    assert verdict("Aus bus", on_genus, off).standing is Standing.UNASKED


def test_a_trade_form_alone_says_that_the_species_is_open() -> None:
    assert verdict(Question("Aus", trade_form="blue")).standing is Standing.OPEN
    assert verdict(Question("Aus")).standing is Standing.UNASKED


def test_a_misuse_for_a_name_sunk_in_this_very_species_is_none() -> None:
    told = answer(says("Aus bus", BUS, CUS_BUS))._replace(misuses=(misuse("Aus bus", ["Cus bus"], cleared="2020"),))
    found = verdict(BUS, told, written="2015")
    assert (found.standing, found.safe) == (Standing.MOVED, True)


def test_a_misuse_of_a_combination_that_only_a_follow_up_names_is_not_of_this_label() -> None:
    further = answer(says("Dus bus", "Dus bus Jones, 1950", "Eus bus (Jones, 1950)"))
    noted = further._replace(misuses=(misuse("Dus bus", ["Fus gus"]),))
    found = verdict(BUS, answer(says("Aus bus", BUS, CUS_BUS)), noted, written="2015")
    assert (found.standing, found.safe) == (Standing.MOVED, True)


def test_of_two_agreeing_statements_the_one_that_knows_both_authors_tells_the_change() -> None:
    bare = answer(says("Aus bus", "Aus bus", "Cus bus", by=edition("spidercatalog", "2026")))
    full = answer(says("Aus bus", BUS, "Cus bus (Jones, 1950)"))
    # By its authors the second is a junior synonym, not the same species under another genus.
    assert verdict("Aus bus", bare, full).standing is Standing.MERGED


def test_a_split_has_no_time_of_being_sunk() -> None:
    odd = Division("Aus bus", (taxon("Aus bus"),), ActKind.SPLIT, day("2020"), day("2010"), "", Verification.VERIFIED)
    assert divides(odd, day("2005"))
    assert not divides(odd._replace(kind=ActKind.REVIVAL), day("2005"))


def test_a_genus_that_is_gone_leaves_no_rest_and_is_settled_by_no_date() -> None:
    gone = GenusRecord("Aus", None, "masculine", False, ("Cus", "Dus"), moved_year="2017")
    question = Question("Aus", label_date=day("2020"), qualifier="sp.", genus_records=(gone,))
    assert [one.name for one in verdict(question, answer(asked="Aus")).choices] == ["Cus", "Dus"]


# Contract section 4, safe: the statement itself is verified, fresh and not of a part


def test_an_act_from_memory_is_never_safe() -> None:
    recalled = MOVE._replace(verification=Verification.MEMORY)
    assert verdict(OLD, STARTER, written="2015").safe
    assert not verdict(OLD, answer(says("Nephila clavipes", OLD, NEW, acts=(recalled,))), written="2015").safe


def test_a_kept_answer_past_its_time_is_never_safe() -> None:
    assert not verdict(OLD, STARTER._replace(stale=True), written="2015").safe


def test_a_synonym_in_part_does_not_carry_what_another_source_only_recalls() -> None:
    part = answer(says("Aus bus", BUS, CUS_BUS, status=NameStatus.AMBIGUOUS, by=edition("gbif", "2026")))
    recalled = answer(says("Aus bus", BUS, CUS_BUS, recalled=True))
    found = verdict(BUS, recalled, part, written="2010")
    assert (found.standing, found.safe) == (Standing.MOVED, False)


def test_a_source_that_holds_it_for_a_junior_synonym_does_not_carry_a_move() -> None:
    recalled = answer(
        says("Aus bus", BUS, CUS_BUS, recalled=True, acts=(act("transfer", "Aus bus", "Cus bus", "2010"),))
    )
    other_author = answer(says("Aus bus", BUS, "Cus bus (Jones, 1950)", by=edition("gbif", "2026")))
    found = verdict(BUS, recalled, other_author, written="2005")
    assert (found.standing, found.safe) == (Standing.MOVED, False)


def test_a_newer_copy_past_its_time_takes_nothing_from_an_older_fresh_one() -> None:
    older = answer(says("Aus bus", BUS, CUS_BUS, by=edition("first", "2024", upstream="catalogue")))
    newer = answer(says("Aus bus", BUS, CUS_BUS, by=edition("second", "2026", upstream="catalogue"), stale=True))
    assert verdict(BUS, older, newer, written="2010").safe
    assert not verdict(BUS, newer, written="2010").safe


def test_a_choice_beside_a_move_is_never_safe() -> None:
    form = TradeForm("Aus", "blue", taxon("Cus dus"), "invented", Verification.VERIFIED)
    found = verdict(
        Question("Aus bus", "Smith, 1900", day("2010"), trade_forms=(form,)), answer(says("Aus bus", BUS, CUS_BUS))
    )
    assert (found.standing, found.safe, [one.name for one in found.choices]) == (Standing.MOVED, False, ["Cus dus"])


def test_a_label_of_the_very_day_is_on_the_unsafe_side() -> None:
    use = misuse("Aus bus", ["Fus gus"], start="2010-05-03")
    assert not begins_later(use, day("2010-05-03"))
    assert begins_later(use, day("2010-05-02"))
    assert surely_before(taken := PartialDate.parse("2010-05-03"), taken) is False
    assert may_be_before(taken, taken) is False
