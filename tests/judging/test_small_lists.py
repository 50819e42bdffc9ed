"""A label asks only the parts of a list that it needs, and keys of different rows are different types."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

import pytest

from namekeeper.evidence.interfaces import Near
from namekeeper.evidence.statements import Caution, Edition, GenusRecord, Statement, TradeForm
from namekeeper.judging.question import known_here, question_of
from namekeeper.records.specimen import Collection, NameEntry, Settings
from namekeeper.tasks.settle import plan
from namekeeper.tasks.settle_orders import Orders
from namekeeper.words.spelling import EndingKey, PlainKey, ending_key, letter_key, plain_key
from tests.judging.build import edition
from tests.settle.findings import entry, finding, specimen, statement, verdict


class NoNames:
    """A list with no name at all; its genus Aus went to Cus."""

    edition: Edition = edition("small")

    def named(self, name: str) -> tuple[Statement, ...]:
        return ()

    def genus(self, genus: str) -> GenusRecord | None:
        moved = GenusRecord("Aus", None, "feminine", accepted=False, moved_to=("Cus",), moved_whole=True)
        return moved if genus == "Aus" else None


class Adjectives(NoNames):
    """The same, and every epithet is an adjective."""

    def forms(self, genus: str | None, words: str) -> tuple[TradeForm, ...]:
        return ()

    def cautions(self, taxa: Iterable[str]) -> tuple[Caution, ...]:
        return ()

    def word_class(self, epithet: str) -> str | None:
        return "adjective"


class OneLikeIt(NoNames):
    """The same, and Cus bus is like every name."""

    def similar(self, name: str, limit: int = 8) -> tuple[Near, ...]:
        return (Near(statement("Cus bus", self.edition, subject="Cus bus"), 1, 0.9),)

    def similar_genus(self, genus: str, limit: int = 8) -> tuple[tuple[GenusRecord, int], ...]:
        return ()


def test_a_label_needs_names_and_notes() -> None:
    label = NameEntry("Aus magnus")
    question = known_here(question_of(label), [Adjectives()])
    assert ([record.moved_to for record in question.genus_records], question.word_class) == ([("Cus",)], "adjective")


def test_settling_needs_names_and_similar_ones() -> None:
    found = finding(specimen("A1", entry()), verdict())
    everyone = Collection("", Settings(), (found.specimen,), ())
    (change,) = plan(everyone, [found], Orders(take={"A1": "Cus bas"}), [OneLikeIt()], date(2026, 11, 25))
    assert change.unlisted is not None
    assert change.unlisted.near == ("Cus bus",)


def test_keys_of_different_rows_are_not_compared() -> None:
    """The comparisons below are refused by the type checker, which also refuses an ``ignore`` that is not needed."""
    plain, ending, letter = (key("Aus magna") for key in (plain_key, ending_key, letter_key))
    assert (plain, ending, letter) == ("aus magna", "aus magnus", "aus magnus")
    assert not plain_key("Aus magna") == ending_key("Aus magna")  # type: ignore[comparison-overlap]  # noqa: SIM201
    assert ending_key("Aus bus") == letter_key("Aus bus")  # type: ignore[comparison-overlap]
    known: set[EndingKey] = {ending_key("Aus magna")}
    assert plain_key("Aus magna") not in known  # type: ignore[comparison-overlap]
    by_key: dict[PlainKey, str] = {plain_key("Aus bus"): "Aus bus"}
    with pytest.raises(KeyError):
        by_key[ending_key("Aus magna")]  # type: ignore[index]
