"""Which findings one answer settles, and what is known of a typed name before it is taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from namekeeper.evidence.candidates import MAY_BE_REAL, Candidate
from namekeeper.evidence.statements import TaxonName
from namekeeper.evidence.verdicts import UNCERTAIN_TAG, Choice, Ground, GroundCode, Reason, ReasonCode, Verdict
from namekeeper.outside import Outside
from namekeeper.records.specimen import Decision, Specimen
from namekeeper.tasks.check import Finding, Report
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.online import ServiceWishes
from namekeeper.tasks.settle_collection import SettleDesk
from namekeeper.tasks.settle_names import Typed
from namekeeper.tasks.settle_orders import Orders
from namekeeper.tasks.settle_questions import is_exact, offers, questions
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NOWHERE, InputError
from namekeeper.words.terms import AnswerKind, How, Standing
from tests.settle.findings import entry, finding, specimen, verdict

TODAY = PartialDate.parse("2026-11-25").earliest


def candidate(how: How = How.ACCEPTED, matched: str = "Aus bus", rank: str = "species") -> Candidate:
    return Candidate.of(TaxonName("Aus bus", "Smith, 1900", rank), how, matched, "mine")


def tagged(identifier: str, tag: str, *found: Candidate, words: Sequence[str] = (AnswerKind.ONE.value,)) -> Finding:
    """An animal of which there is only the tag."""
    choices = tuple(Choice(one.name, one.authorship, (Ground(GroundCode.CLUE, about=one),)) for one in found)
    reasons = (Reason(ReasonCode.TAG_ONLY, tuple(words)),)
    judged = Verdict(Standing.UNNAMED, "unnamed", None, False, choices, (), reasons, (), "digest")
    return finding(Specimen(identifier, NOWHERE, tag), judged)


def asked(*findings: Finding) -> list[tuple[str, ...]]:
    return [question.ids for question in questions(Report(TODAY, findings))]


@pytest.mark.parametrize(
    ("found", "exact"),
    [
        (tagged("A", "Aus bus 0.1", candidate()), True),
        (tagged("A", "AUS BUS", candidate(matched="AUS BUS")), True),
        (tagged("A", "Aus bua", candidate(matched="Aus bua")), False),
        (tagged("A", "A. bus", candidate(How.ABBREVIATED, "A. bus")), False),
        (tagged("A", "Old bus", candidate(How.FORMER, "Old bus")), False),
        (tagged("A", "red one", candidate(How.COMMON, "red one")), False),
        (tagged("A", "Aus", candidate(rank="genus")), False),
        (tagged("A", "Aus bus", candidate().noted([MAY_BE_REAL])), False),
        (tagged("A", "Aus bus or Aus cus", candidate(), candidate()), False),
        (tagged("A", "Aus cf. bus", candidate(), words=(AnswerKind.ONE.value, UNCERTAIN_TAG)), False),
        (tagged("A", "Aus bus", candidate(), words=(AnswerKind.SEVERAL.value,)), False),
        (tagged("A", "Aus bus", candidate(), words=()), False),
        (finding(specimen("A", entry()), verdict(Standing.MERGED)), False),
    ],
)
def test_a_tag_is_exact_only_where_nothing_is_left_to_judge(found: Finding, *, exact: bool) -> None:
    assert is_exact(found) is exact


def test_exact_names_are_asked_about_in_one_go_and_first() -> None:
    first, second = (tagged(i, "Aus bus", candidate()) for i in ("A", "C"))
    other = finding(specimen("B", entry()), verdict(safe=True))
    group, rest = questions(Report(TODAY, (first, other, second)))
    assert (group.exact, group.ids, rest.ids) == (True, ("A", "C"), ("B",))
    assert group.taking() == {"A": "Aus bus", "C": "Aus bus"}
    assert (group.offers, group.single) == ((), None)
    assert [(one.ids, one.exact) for one in group.apart()] == [(("A",), False), (("C",), False)]
    assert asked(first, other) == [("B",), ("A",)], "one alone is asked about like any other"


def test_equal_tags_are_asked_once_for_all() -> None:
    gbb = candidate(How.COMMON, "GBB")
    same = [tagged("A", "GBB 0.1", gbb), tagged("B", " gbb  0.1", gbb)]
    elsewhere = replace(same[0], specimen=replace(same[0].specimen, id="C", locality="Paraguaná"))
    assert asked(*same, elsewhere, tagged("D", "GBB 1.0", gbb)) == [("A", "B"), ("C",), ("D",)]
    (question, *_) = questions(Report(TODAY, tuple(same)))
    assert question.single is not None
    assert question.taking(question.single.name) == {"A": "Aus bus", "B": "Aus bus"}


def named(identifier: str, judged: Verdict, **words: str) -> Finding:
    return finding(specimen(identifier, entry(**words)), judged)


def test_one_target_is_asked_once_and_a_choice_by_tag_place_and_date() -> None:
    merged = verdict(Standing.MERGED)
    assert asked(named("A", merged), named("B", merged, since="2019")) == [("A", "B")]
    assert asked(named("A", merged), named("B", merged, form="ex bara")) == [("A",), ("B",)]
    several = verdict(Standing.MISAPPLIED, None, ("Aus bus", "Aus cus"))
    assert asked(named("A", several), named("B", several)) == [("A", "B")]
    assert asked(named("A", several), named("B", several, since="2019")) == [("A",), ("B",)]
    assert asked(named("A", merged), named("B", replace(merged, digest="d2"))) == [("A",), ("B",)]


def test_what_was_postponed_comes_last() -> None:
    later = Decision("postponed", PartialDate.parse("2026-01-01"), "Brachypelma vagans", "d1")
    merged = verdict(Standing.MERGED)
    first = finding(specimen("A", entry(), decisions=(later,)), merged)
    assert asked(first, named("B", merged)) == [("B",), ("A",)]


def test_a_proposal_is_offered_first_and_once() -> None:
    proposed = verdict(Standing.OPEN, "Tliltocatl vagans", ("Aus bus", "Tliltocatl vagans"))
    assert [one.name for one in offers(named("A", proposed))] == ["Tliltocatl vagans", "Aus bus"]
    assert [one.name for one in offers(named("A", verdict(Standing.MOVED)))] == ["Tliltocatl vagans"]
    assert offers(named("A", verdict(Standing.DOUBTFUL, None))) == ()


@pytest.fixture
def animal(tmp_path: Path) -> Path:
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    (folder / "specimens" / "A.yaml").write_text("tag: curly\n")
    return folder


def looked_at(animal: Path, outside: Outside, text: str) -> Typed:
    with SettleDesk.open(CollectionDesk.at(animal, outside), ServiceWishes(offline=True)) as desk:
        return desk.look_at(desk.report.findings[0], text)


@pytest.mark.parametrize(
    ("text", "listed", "instead"),
    [
        ("Tliltocatl vagans", True, []),
        # Mendoza & Francke (2020, Zool. J. Linn. Soc. 188: 587-666) moved the species to Tliltocatl.
        ("Brachypelma vagans", True, ["Tliltocatl vagans"]),
        ("Brachypelma hamorri", False, ["Brachypelma hamorii"]),
        ("Wonderbeast azure", False, []),
        ("Brachypelma", True, []),
    ],
)
def test_a_typed_name_is_looked_at_before_it_is_taken(
    animal: Path, outside: Outside, text: str, *, listed: bool, instead: list[str]
) -> None:
    found = looked_at(animal, outside, text)
    assert (found.listed, [one.name for one in found.instead]) == (listed, instead)
    assert (found.wanted.name, bool(found.wanted.unlisted)) == (text, not listed)


def test_what_cannot_be_a_name_is_refused_before_it_is_taken(animal: Path, outside: Outside) -> None:
    with pytest.raises(InputError, match="no scientific name"):
        looked_at(animal, outside, "s")


def test_what_was_written_is_taken_back_and_judged_again(animal: Path, outside: Outside) -> None:
    with SettleDesk.open(CollectionDesk.at(animal, outside), ServiceWishes(offline=True)) as desk:
        (before,) = desk.report.findings
        settled = desk.settle(Orders(take={"A": "Tliltocatl albopilosus"}), write=True)
        undone, (now,) = desk.take_back(settled.changes)
    assert [(one.standing, one.written) for one in undone.changes] == [("undone", True)]
    assert (now.label, now.verdict.digest) == (before.label, before.verdict.digest)
    assert now.specimen.revision != before.specimen.revision
    assert [one.standing for one in now.specimen.names] == ["chosen", "undone"]
