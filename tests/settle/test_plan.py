"""What orders come to: entries with their grounds, decisions with their digest, undoing that only adds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import pytest

from namekeeper.records.specimen import (
    Collection,
    Decision,
    NameEntry,
    Settings,
    Specimen,
    dated_entries,
    known_on,
    last_undoable,
    touches_year,
)
from namekeeper.tasks.check import Finding
from namekeeper.tasks.history import histories
from namekeeper.tasks.settle import Planned, plan
from namekeeper.tasks.settle_names import form_after
from namekeeper.tasks.settle_orders import Orders
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError
from namekeeper.words.terms import Standing
from tests.settle.findings import AUTHOR, entry, finding, specimen, verdict

TODAY = date(2026, 11, 25)


def settle(findings: Sequence[Finding], orders: Orders, *others: Specimen) -> tuple[Planned, ...]:
    everyone = (*(found.specimen for found in findings), *others)
    return plan(Collection("", Settings(), everyone, ()), findings, orders, (), TODAY)


def added(planned: Planned) -> NameEntry:
    assert planned.insertion is not None
    assert isinstance(planned.insertion.entry, NameEntry)
    return planned.insertion.entry


def decided(planned: Planned) -> Decision:
    assert planned.insertion is not None
    assert isinstance(planned.insertion.entry, Decision)
    return planned.insertion.entry


def test_a_safe_proposal_is_taken_with_all_its_grounds() -> None:
    (change,) = settle([finding(specimen("A1", entry()), verdict(safe=True))], Orders(take_safe=True))
    assert (change.old, change.new, change.standing, change.written) == (
        "Brachypelma vagans", "Tliltocatl vagans", "moved", False,
    )  # fmt: skip
    assert added(change) == NameEntry(
        "Tliltocatl vagans",
        AUTHOR,
        PartialDate.of(TODAY),
        PartialDate.of(TODAY),
        "moved",
        according_to="Mendoza & Francke 2020",
        source="starter 2026.1",
        retrieved="2026-11-01",
        link="https://a.example/x",
        licence="CC0",
        decided_by="keeper, as a safe proposal",
    )
    assert change.insertion is not None
    assert change.insertion.made_for is not None
    assert change.insertion.made_for.verdict == "d1"


def test_what_is_not_safe_is_not_taken_by_take_safe() -> None:
    assert settle([finding(specimen("A1", entry()), verdict(safe=False))], Orders(take_safe=True)) == ()


def test_what_was_kept_in_sight_of_the_same_statements_is_not_taken_again() -> None:
    kept = Decision("kept", PartialDate.of(TODAY), "Brachypelma vagans", "d1")
    animal = specimen("A1", entry(), decisions=(kept,))
    assert settle([finding(animal, verdict(safe=True, digest="d1"))], Orders(take_safe=True)) == ()
    assert len(settle([finding(animal, verdict(safe=True, digest="d2"))], Orders(take_safe=True))) == 1


@pytest.mark.parametrize("text", ["Tliltocatl vagans", "tliltocatl VAGANS", "Tliltocatl vagans (Ausserer, 1875)"])
def test_a_proposal_is_taken_by_its_name(text: str) -> None:
    (change,) = settle([finding(specimen("A1", entry()), verdict())], Orders(take={"A1": text}))
    assert (change.new, added(change).authorship, added(change).decided_by) == ("Tliltocatl vagans", AUTHOR, "keeper")


def test_a_choice_keeps_the_old_name_as_form() -> None:
    judged = verdict(Standing.DIVIDED, None, ("Poecilotheria subfusca", "Poecilotheria bara"))
    found = finding(specimen("A1", entry("Poecilotheria bara")), judged)
    (change,) = settle([found], Orders(take={"A1": "Poecilotheria subfusca"}))
    assert (change.standing, added(change).form, added(change).authorship) == ("divided", "ex bara", "Author, 1900")


def test_a_name_of_ones_own_is_chosen_not_proposed() -> None:
    (change,) = settle([finding(specimen("A1", entry()), verdict())], Orders(take={"A1": "Grammostola rosea"}))
    assert (change.standing, added(change).form, added(change).source) == ("chosen", "ex vagans", "")


def test_a_tag_is_settled_to_a_candidate() -> None:
    judged = verdict(Standing.UNNAMED, None, ("Brachypelma hamorii",))
    (change,) = settle([finding(specimen("A1"), judged)], Orders(take={"A1": "Brachypelma hamorii"}))
    assert (change.old, change.standing, added(change).form) == ("Mex red rump", "chosen", "")


def test_a_trade_form_can_be_taken() -> None:
    (change,) = settle(
        [finding(specimen("A1"), verdict(Standing.UNNAMED, None))], Orders(take={"A1": 'Aphonopelma sp. "Panama"'})
    )
    assert (added(change).name, added(change).qualifier, added(change).trade_form) == ("Aphonopelma", "sp.", "Panama")


def test_taking_the_name_that_stands_there_is_keeping_it() -> None:
    (change,) = settle([finding(specimen("A1", entry()), verdict())], Orders(take={"A1": "Brachypelma vagans"}))
    assert (change.standing, decided(change).kind) == ("kept", "kept")


@pytest.mark.parametrize(
    ("orders", "kind"),
    [(Orders(keep=("A1",), note="my reason"), "kept"), (Orders(later=("A1",), note="my reason"), "postponed")],
)
def test_a_decision_remembers_what_was_judged(orders: Orders, kind: str) -> None:
    found = finding(specimen("A1", entry()), verdict(digest="d9"))
    (change,) = settle([found], orders)
    assert (change.old, change.new) == ("Brachypelma vagans", "Brachypelma vagans")
    assert decided(change) == Decision(
        kind, PartialDate.of(TODAY), "Brachypelma vagans", "d9", "Tliltocatl vagans", "my reason", "keeper"
    )


def test_undoing_adds_and_the_earlier_name_stands_again() -> None:
    animal = specimen("A1", entry(), entry("Tliltocatl vagans", since="2021-02-11", standing="moved"))
    (change,) = settle([], Orders(undo=("A1",)), animal)
    assert (change.old, change.new, change.standing) == ("Tliltocatl vagans", "Brachypelma vagans", "undone")
    assert (added(change).standing, added(change).undoes) == ("undone", "2")
    after = replace(animal, names=(*animal.names, added(change)))
    assert [dated.undone for dated in dated_entries(after)] == [False, True, False]
    present = after.entry_in_force()
    assert present is not None
    assert present.name == "Brachypelma vagans"
    assert last_undoable(after) is None


def test_undoing_takes_back_the_decision_on_the_present_name_first() -> None:
    kept = Decision("kept", PartialDate.of(TODAY), "Tliltocatl vagans", "d1")
    animal = specimen("A1", entry(), entry("Tliltocatl vagans", since="2021", standing="moved"), decisions=(kept,))
    (change,) = settle([], Orders(undo=("A1",)), animal)
    assert (decided(change).kind, decided(change).digest, change.new) == ("undone", "d1", "Tliltocatl vagans")
    again = replace(animal, decisions=(*animal.decisions, decided(change)))
    assert not finding(again, verdict(digest="d1")).kept
    (second,) = settle([], Orders(undo=("A1",)), again)
    assert added(second).undoes == "2"


def test_what_the_animal_came_with_is_not_undone() -> None:
    with pytest.raises(InputError, match="nothing to undo"):
        settle([], Orders(undo=("A1",)), specimen("A1", entry()))


@pytest.mark.parametrize(
    ("orders", "words"),
    [
        (Orders(take={"B9": "Grammostola rosea"}), "there is no animal 'B9'"),
        (Orders(keep=("a1",), later=("A1",)), "A1 has two orders at once"),
        (Orders(take={"a1": "Grammostola rosea", "A1": "GBB"}), "A1 was given two names"),
        (Orders(keep=("A1",), later=("A1",)), "A1 has two orders at once"),
        (Orders(take={"A1": "!!"}), "!!"),
        (Orders(take_safe=True, on=PartialDate.parse("2027")), "--on lies in the future"),
        (
            Orders(take={"A1": "Grammostola rosea"}, on=PartialDate.parse("2013")),
            "has carried Brachypelma vagans since",
        ),
        (Orders(keep=("GONE",)), "GONE left the collection"),
    ],
)
def test_orders_that_cannot_be_are_refused(orders: Orders, words: str) -> None:
    with pytest.raises(InputError) as refused:
        settle([finding(specimen("A1", entry()), verdict(safe=True))], orders, specimen("GONE", entry()))
    assert words in str(refused.value)
    assert refused.value.remedy


@pytest.mark.parametrize(
    ("old", "new", "standing", "form"),
    [
        (entry("Brachypelma vagans"), "Tliltocatl vagans", "moved", ""),
        (entry("Poecilotheria bara"), "Poecilotheria subfusca", "merged", "ex bara"),
        (entry("Euathlus vulpinus"), "Homoeomma vulpinus", "misapplied", "ex Euathlus vulpinus"),
        (entry("Poecilotheria bara", form="ex uniformis"), "Poecilotheria subfusca", "merged", "ex uniformis, ex bara"),
        (entry("Poecilotheria bara", form="ex uniformis"), "Genus bara", "moved", "ex uniformis"),
        (entry("Cubaris sp."), "Cubaris murina", "open", "ex Cubaris sp."),
        (entry("Aphonopelma", trade_form="Panama"), "Aphonopelma xwalxwal", "open", '"Panama"'),
        (entry("Avicularia avicularia variegata"), "Avicularia rufa", "merged", "ex avicularia variegata"),
    ],
)
def test_the_line_keeps_its_name(old: NameEntry, new: str, standing: str, form: str) -> None:
    assert form_after(old, new, standing) == form


def test_uncertainty_follows_the_same_identification_only() -> None:
    animal = specimen("A1", entry("Avicularia minatrix", qualifier="cf."))
    orders = Orders(take={"A1": "Ybyrapora minatrix"})
    (moved,) = settle([finding(animal, verdict(proposed="Ybyrapora minatrix"))], orders)
    assert added(moved).qualifier == "cf."
    (chosen,) = settle([finding(animal, verdict(Standing.DIVIDED, None, ("Ybyrapora minatrix",)))], orders)
    assert added(chosen).qualifier == ""


class TestHistory:
    animal = specimen(
        "A1",
        entry(),
        entry("Tliltocatl vagans", since="2020", standing="moved")._replace(recorded=PartialDate.parse("2021-02-11")),
        NameEntry("Tliltocatl vagans", recorded=PartialDate.parse("2022-01-01"), standing="undone", undoes="2"),
    )

    @pytest.mark.parametrize(
        ("on", "known", "name"),
        [
            ("2014", None, None),  # the earliest day 2014 can mean is before the label was written
            ("2015", None, "Brachypelma vagans"),
            ("2020-06", "2020-12-31", "Brachypelma vagans"),
            ("2020-06", "2021-12-31", "Tliltocatl vagans"),
            ("2020-06", "2022-01-01", "Brachypelma vagans"),
            ("2020-06", None, "Brachypelma vagans"),
        ],
    )
    def test_two_time_axes(self, on: str, known: str | None, name: str | None) -> None:
        collection = Collection("", Settings(), (self.animal,), ())
        seen = PartialDate.parse(known) if known else None
        (told,) = histories(collection, TODAY, on=PartialDate.parse(on), known=seen)
        assert (told.name.name if told.name else None) == name

    def test_what_changed_in_a_year(self) -> None:
        collection = Collection("", Settings(), (self.animal, specimen("A2", entry())), ())
        (told,) = histories(collection, TODAY, year=2020)
        assert [dated.number for dated in told.entries] == [2]
        assert histories(collection, TODAY, year=1999) == ()
        assert touches_year(self.animal.names[2], 2022)

    def test_what_was_known_is_the_beginning_of_the_list(self) -> None:
        assert len(known_on(self.animal, date(2021, 2, 10)).names) == 1
        assert len(known_on(self.animal, date(2021, 2, 11)).names) == 2

    @pytest.mark.parametrize(
        ("recorded", "winner"),
        [(("2020-01-02", "2020-01-01"), 0), (("2020-01-01", "2020-01-01"), 1), (("2020", "2021"), 1)],
    )
    def test_ties_go_by_recorded_then_order(self, recorded: tuple[str, str], winner: int) -> None:
        same = [entry(f"Genus s{i}")._replace(recorded=PartialDate.parse(day)) for i, day in enumerate(recorded)]
        found = specimen("A1", *same).name_on(TODAY)
        assert found == same[winner]
