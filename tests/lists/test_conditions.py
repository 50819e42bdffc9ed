"""Conditions of the index one by one: memory on the way, missing ends, twins, references by name. Invented names."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import ExitStack, closing
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.evidence.statements import NameStatus
from namekeeper.sources.lists.compare import EditionChange, compare
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.starter import open_starter
from namekeeper.words.terms import Verification
from tests.lists.making import written

MakeIndex = Callable[..., IndexList]


def row(key: str, name: str, status: str = "", accepted: str = "", author: str = "Roe, 1900", **more: str) -> UsageRow:
    return UsageRow(2, key, name, author, status=status, accepted_key=accepted, **more)


@pytest.mark.parametrize("recalled", ["1", "2", ""])
def test_one_recalled_step_makes_the_whole_chain_recalled(recalled: str, tmp_path: Path, index: MakeIndex) -> None:
    # Contract section 4, safe: the statement is verified, not from memory.
    chain = (("1", "Aus bus", "2"), ("2", "Cus bus", "3"), ("3", "Dus bus", ""))
    rows = [
        row(key, name, "synonym" if to else "", to, confidence="memory" if key == recalled else "verified")
        for key, name, to in chain
    ]
    (told,) = index(tmp_path / "i", *rows).named("Aus bus")
    assert [target.name for target in told.targets] == ["Dus bus"]
    assert told.verification is (Verification.MEMORY if recalled else Verification.VERIFIED)


def test_a_bare_table_may_be_recalled(tmp_path: Path, index: MakeIndex) -> None:
    listed = index(tmp_path / "i", UsageRow(2, "", "Aus bus", confidence="memory"), UsageRow(3, "", "Aus cus"))
    assert listed.named("Aus bus")[0].verification is Verification.MEMORY
    assert listed.named("Aus cus")[0].verification is Verification.VERIFIED


def test_a_misuse_without_a_species_is_no_fault_and_a_synonym_without_one_is(tmp_path: Path, index: MakeIndex) -> None:
    listed = index(tmp_path / "i", row("1", "Aus bus", "misapplied"), row("2", "Aus cus", "synonym"))
    (misused,), (sunk,) = listed.named("Aus bus"), listed.named("Aus cus")
    assert (misused.status, misused.targets, misused.fault) == (NameStatus.MISAPPLIED, (), None)
    assert sunk.fault == "the list gives no accepted name"


def test_a_synonym_stays_one_whatever_the_code_says_of_the_name(tmp_path: Path, index: MakeIndex) -> None:
    rows = (row("1", "Aus bus", "synonym", "2", name_status="nomen nudum"), row("2", "Cus bus"))
    (told,) = index(tmp_path / "i", *rows).named("Aus bus")
    assert (told.status, [target.name for target in told.targets]) == (NameStatus.SYNONYM, ["Cus bus"])
    (nude,) = index(tmp_path / "j", row("1", "Aus bus", "accepted", name_status="nomen nudum")).named("Aus bus")
    assert nude.status is NameStatus.UNAVAILABLE


def test_a_name_that_shares_an_identifier_with_another_stays(tmp_path: Path, index: MakeIndex) -> None:
    listed = index(tmp_path / "i", row("1", "Aus bus"), row("1", "Aus cus"), row("1", "Aus bus"))
    assert [len(listed.named(name)) for name in ("Aus bus", "Aus cus")] == [1, 1]


def test_a_reference_by_name_means_the_accepted_of_two_homonyms(tmp_path: Path, index: MakeIndex) -> None:
    rows = (
        row("1", "Aus bus", "synonym", "9"),
        row("2", "Aus bus", author="Doe, 1800"),
        UsageRow(4, "3", "Cus dus", "Roe, 1900", status="synonym", accepted_name="Aus bus"),
        row("9", "Eus eus"),
    )
    (told,) = index(tmp_path / "i", *rows).named("Cus dus")
    assert [(target.name, target.authorship) for target in told.targets] == [("Aus bus", "Doe, 1800")]


def test_editions_without_identifiers_are_compared_by_name_and_author(tmp_path: Path) -> None:
    written(tmp_path / "old", UsageRow(2, "", "Aus bus", "Roe, 1900"), UsageRow(3, "", "Aus cus", "Roe, 1900"))
    written(
        tmp_path / "new",
        UsageRow(2, "", "Aus bus", "Doe, 1800"),
        UsageRow(3, "", "Aus bus", "Roe, 1900", status="synonym", accepted_name="Aus cus"),
        UsageRow(4, "", "Aus cus", "Roe, 1900"),
    )
    assert list(compare(tmp_path / "old", tmp_path / "new")) == [EditionChange("", "Aus bus", "Aus cus", "merged")]


def test_how_a_genus_moved(tmp_path: Path, at_end: ExitStack) -> None:
    # Fukushima & Bertani 2017, ZooKeys 659: 1-185: some species left Avicularia, which stands.
    starter = at_end.enter_context(closing(open_starter(resources.data("starter"), tmp_path, lambda _: None)))
    record = starter.genus("Avicularia")
    assert record is not None
    assert (record.accepted, record.moved_whole) == (True, False)
    assert "Caribena" in record.moved_to
    # Pérez-Miles, Bonaldo & Miglio 2014, ZooKeys 448: 1-8: Bumba replaces Maraca.
    whole = starter.genus("Maraca")
    assert whole is not None
    assert (whole.moved_to, whole.moved_whole) == (("Bumba",), True)
