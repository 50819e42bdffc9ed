"""One vote an upstream, lagging sources, dissent, trust (contract section 4)."""

from __future__ import annotations

from namekeeper.evidence.statements import FailureKind, Match, NameStatus, Statement
from namekeeper.evidence.verdicts import ReasonCode
from namekeeper.judging.ballot import Trust
from namekeeper.judging.question import Question
from namekeeper.judging.verdict import judge
from namekeeper.words.terms import Standing
from tests.judging.build import TODAY, accepted, act, answer, codes, edition, failure, says, verdict

OLD, NEW = "Nephila clavipes (Linnaeus, 1767)", "Trichonephila clavipes (Linnaeus, 1767)"
# Kuntner et al. 2019, Systematic Biology 68(4): 555-572
MOVE = (act("transfer", "Nephila clavipes", "Trichonephila clavipes", "2019"),)
STARTER = answer(says("Nephila clavipes", OLD, NEW, acts=MOVE))


def test_a_source_dated_before_the_act_lags() -> None:
    late = answer(accepted("Nephila clavipes", OLD, by=edition("copy", "2018-12")))
    found = verdict(OLD, STARTER, late, written="2015")
    assert found.standing is Standing.MOVED
    assert found.safe
    assert [line.lagging for line in found.statements] == [True, False]
    assert ReasonCode.LAGGING in codes(found)


def test_a_source_dated_after_the_act_dissents() -> None:
    dissent = answer(accepted("Nephila clavipes", OLD, by=edition("other", "2022")))
    found = verdict(OLD, STARTER, dissent, written="2015")
    assert found.standing is Standing.DISPUTED
    assert not found.safe
    assert found.proposed is None
    assert [choice.name for choice in found.choices] == ["Nephila clavipes", "Trichonephila clavipes"]


def test_the_year_of_the_act_itself_is_the_unsafe_side() -> None:
    assert (
        verdict(OLD, STARTER, answer(accepted("Nephila clavipes", OLD, by=edition("o", "2019")))).standing == "disputed"
    )


def test_an_undated_source_cannot_be_after_the_act() -> None:
    undated = answer(accepted("Nephila clavipes", OLD, by=edition("live", None)))
    assert verdict(OLD, STARTER, undated, written="2015").safe


def test_an_undated_source_that_rejects_the_new_name_itself_dissents() -> None:
    live = edition("live", None)
    old = answer(accepted("Nephila clavipes", OLD, by=live))
    new = answer(says("Trichonephila clavipes", NEW, OLD, by=live))
    assert verdict(OLD, STARTER, old, new, written="2015").standing is Standing.DISPUTED


def test_copies_of_one_upstream_have_one_vote_by_the_newest_edition() -> None:
    older = answer(accepted("Nephila clavipes", OLD, by=edition("copy-a", "2020", upstream="catalogue")))
    newer = answer(says("Nephila clavipes", OLD, NEW, by=edition("copy-b", "2024", upstream="catalogue")))
    found = verdict(OLD, STARTER, older, newer, written="2015")
    assert found.standing is Standing.MOVED
    assert found.safe
    # and an agreeing copy that recalls only, or is stale, takes nothing away
    stale = answer(says("Nephila clavipes", OLD, NEW, by=edition("copy-c", "2025", upstream="starter"), stale=True))
    assert verdict(OLD, STARTER, stale, written="2015").safe


ALBOPILOSUM = "Brachypelma albopilosum Valerio, 1980"


def spelt(target: str, source: str) -> Statement:
    return says("Brachypelma albopilosum", ALBOPILOSUM, target, by=edition(source, "2024"))


def test_authorship_brackets_and_endings_are_no_dissent() -> None:
    other = spelt("Tliltocatl albopilosum Valerio, 1980", "gbif")
    mine = spelt("Tliltocatl albopilosus (Valerio, 1980)", "starter")
    found = verdict(ALBOPILOSUM, answer(mine), answer(other), written="2010")
    assert (found.standing, found.safe) == (Standing.MOVED, True)
    assert found.proposed is not None
    assert (found.proposed.name, found.proposed.authorship) == ("Tliltocatl albopilosus", "(Valerio, 1980)")


def test_a_newer_list_that_knows_a_later_act_leads_whatever_its_trust() -> None:
    # Acuña et al. 2025, ZooKeys 1233: 139-193; the catalogue list is of late 2021
    old, new = "Orphnaecus philippinus (Schmidt, 1999)", "Selenobrachys philippinus Schmidt, 1999"
    catalogue = answer(accepted("Orphnaecus philippinus", old, by=edition("spidercatalog", "2021-12")))
    acts = (act("transfer", "Orphnaecus philippinus", "Selenobrachys philippinus", "2025"),)
    found = verdict(old, catalogue, answer(says("Orphnaecus philippinus", old, new, acts=acts)), written="2018")
    assert (found.standing, found.safe) == (Standing.MOVED, True)


def test_a_change_without_dated_act_cannot_be_newer_than_its_edition() -> None:
    list_2024 = answer(says("Aus bus", "Aus bus Smith, 1900", "Cus bus (Smith, 1900)", by=edition("new", "2024")))
    list_2021 = answer(accepted("Aus bus", "Aus bus Smith, 1900", by=edition("old", "2021")))
    list_2025 = answer(accepted("Aus bus", "Aus bus Smith, 1900", by=edition("newer", "2025")))
    undated = answer(says("Aus bus", "Aus bus Smith, 1900", "Dus bus (Smith, 1900)", by=edition("live", None)))
    assert verdict("Aus bus Smith, 1900", list_2024, list_2021, written="2010").standing is Standing.MOVED
    assert verdict("Aus bus Smith, 1900", list_2024, list_2025, written="2010").standing is Standing.DISPUTED
    assert verdict("Aus bus Smith, 1900", list_2024, undated, written="2010").standing is Standing.DISPUTED


def test_the_keepers_order_leads_before_the_defaults() -> None:
    replies = [
        answer(spelt("Tliltocatl albopilosus (Valerio, 1980)", "starter")),
        answer(spelt("Tliltocatl albopilosum Valerio, 1980", "gbif")),
    ]
    orders: list[tuple[str, ...]] = [("gbif",), ("starter",), ()]
    found = [judge(Question("Brachypelma albopilosum"), replies, Trust.of(order), TODAY).proposed for order in orders]
    assert [name and name.name.split()[1] for name in found] == ["albopilosum", "albopilosus", "albopilosus"]
    assert {name and name.authorship for name in found} == {"(Valerio, 1980)"}


def test_trust_ranks_specialists_first() -> None:
    trust, group = Trust(), frozenset({"Theraphosidae", "Araneae"})
    specialist = edition("your-export", "2024", complete="Araneae")  # behind "my-list" by the alphabet
    order = sorted(
        (edition("gbif"), edition("starter"), edition("my-list"), specialist, edition("checklistbank")),
        key=lambda found: trust.rank(found, group),
    )
    assert [found.source for found in order] == ["your-export", "my-list", "starter", "checklistbank", "gbif"]
    assert Trust.of(["gbif"]).rank(edition("gbif"), group) < Trust.of(["gbif"]).rank(specialist, group)


def test_only_exact_and_code_equivalent_matches_speak() -> None:
    guess = says("Brachypelma smiti", "Brachypelma smithi", "Brachypelma smithi", match=Match.SIMILAR)
    found = verdict("Brachypelma smiti", answer(guess), written="2019")
    assert found.standing is Standing.UNASKED
    assert not found.safe


def test_a_plant_of_the_same_spelling_does_not_speak() -> None:

    plant = says("Aus bus", "Aus bus L.", "Cus bus Mill.")
    plant = plant._replace(subject=plant.subject._replace(kingdom="Plantae"))
    assert verdict("Aus bus", answer(plant)).standing is Standing.UNASKED


def test_a_failure_is_never_unknown() -> None:
    complete = edition("catalogue", "2026", complete="Aus")
    silent = answer(by=complete, asked="Aus bus")
    assert verdict("Aus bus", silent).standing is Standing.UNKNOWN
    failed = verdict("Aus bus", failure("Aus bus", by=complete))
    assert failed.standing is Standing.UNASKED
    assert failed.failed == ("catalogue",)
    assert [reason.about for reason in failed.reasons] == [failure("Aus bus", by=complete)]
    both = verdict("Aus bus", silent, failure("Aus bus", by=edition("second", "2026", complete="Aus")))
    assert both.standing is Standing.UNASKED
    offline = verdict("Aus bus", failure("Aus bus", FailureKind.OFFLINE))
    assert (offline.standing, offline.failed) == (Standing.UNASKED, ())


def test_a_list_complete_for_another_group_says_nothing() -> None:
    scorpions = edition("scorpions", "2026", complete="Scorpiones")
    assert verdict("Aus bus", answer(by=scorpions, asked="Aus bus")).standing is Standing.UNASKED
    everything = edition("all", "2026", complete="Animalia")
    assert verdict("Aus bus", answer(by=everything, asked="Aus bus")).standing is Standing.UNKNOWN


def test_a_lost_source_is_told_beside_a_verdict() -> None:
    found = verdict(OLD, STARTER, failure("Nephila clavipes"), written="2015")
    assert found.safe
    assert found.failed == ("gbif",)
    assert ReasonCode.FAILED in codes(found)


def test_bad_data_of_a_source_is_shown_and_picks_nothing() -> None:
    circle = says("Aus bus", "Aus bus", fault="the list leads from Aus bus in a circle")
    found = verdict("Aus bus", answer(circle))
    assert (found.standing, found.proposed, found.safe) == (Standing.UNASKED, None, False)
    assert found.statements[0].told == circle
    both = answer(
        accepted("Aus bus", "Aus bus Smith, 1900"), says("Aus bus", "Aus bus Smith, 1900", "Cus dus Fabricius, 1775")
    )
    found = verdict("Aus bus", both)
    assert (found.standing, found.proposed) == (Standing.DISPUTED, None)
    assert len(found.statements) == 2


def test_doubt_and_nude_names_propose_nothing() -> None:
    # Hamilton, Hendrixson & Bond 2016, ZooKeys 560: nomen dubium
    doubt = says("Aphonopelma radinum", "Aphonopelma radinum (Chamberlin & Ivie, 1939)", status=NameStatus.DOUBTFUL)
    found = verdict("Aphonopelma radinum", answer(doubt), written="2010")
    assert (found.standing, found.proposed, found.safe) == (Standing.DOUBTFUL, None, False)
    # Cifuentes & Bertani 2022, Zootaxa 5101(1): nomen nudum
    nude = says("Psalmopoeus maya", "Psalmopoeus maya Witt, 1996", status=NameStatus.UNAVAILABLE)
    assert verdict("Psalmopoeus maya", answer(nude), written="2010").standing is Standing.OPEN


def test_a_less_trusted_doubt_is_told_and_never_safe_but_no_dissent() -> None:
    doubt = says("Nephila clavipes", OLD, status=NameStatus.DOUBTFUL, by=edition("gbif", "2026"))
    found = verdict(OLD, STARTER, answer(doubt), written="2015")
    assert (found.standing, found.safe) == (Standing.MOVED, False)
    assert {ReasonCode.DOUBTED, ReasonCode.UNSAFE_DOUBTED} <= codes(found)
    kept = verdict(OLD, answer(accepted("Nephila clavipes", OLD)), answer(doubt))
    assert kept.standing is Standing.CURRENT
    bare = says("Nephila clavipes", OLD, status=NameStatus.UNAVAILABLE, by=edition("inaturalist", "2026"))
    assert verdict(OLD, answer(accepted("Nephila clavipes", OLD)), answer(bare)).standing is Standing.CURRENT


def test_a_doubt_of_the_most_trusted_source_is_a_dispute() -> None:
    doubt = says("Nephila clavipes", OLD, status=NameStatus.DOUBTFUL, by=edition("spidercatalog", "2026"))
    found = verdict(OLD, answer(accepted("Nephila clavipes", OLD)), answer(doubt))
    assert found.standing is Standing.DISPUTED
