"""Label dates against the dates of misuse, splits and revivals (contract section 4)."""

from __future__ import annotations

import pytest

from namekeeper.evidence.statements import ActKind, Division
from namekeeper.judging.windows import Usage, divides, usage
from namekeeper.words.terms import Verification
from tests.judging.build import day, misuse, taxon

# Mendoza & Francke 2017, Invertebrate Systematics 31(2): 157-179: most animals sold as smithi are B. hamorii
SMITHI = misuse("Brachypelma smithi", ["Brachypelma hamorii"], cleared="2017", start="1970")
ENDED = misuse("Aus bus", ["Aus cus"], cleared="2010-05-01", ended="2015", start="1990")
NEVER_CLEARED = misuse("Aus bus", ["Aus cus"])


@pytest.mark.parametrize(
    ("label", "state"),
    [
        ("1969", Usage.NONE),
        ("1970", Usage.MISAPPLIED),
        ("2016-12-31", Usage.MISAPPLIED),
        ("2017", Usage.MISAPPLIED),  # the paper is dated to the year only: the label may be older
        ("2017-06-01", Usage.MISAPPLIED),
        ("2017-12-31", Usage.WARNED),
        ("2018", Usage.WARNED),
        (None, Usage.MISAPPLIED),
    ],
)
def test_a_misuse_cleared_on_paper(label: str | None, state: Usage) -> None:
    assert usage(SMITHI, day(label)) is state


@pytest.mark.parametrize(
    ("label", "state"),
    [("1989-12", Usage.NONE), ("2010-04-30", Usage.MISAPPLIED), ("2010-05", Usage.WARNED), ("2010", Usage.MISAPPLIED),
     ("2010-05-01", Usage.WARNED), ("2015-03", Usage.WARNED), ("2016", Usage.NONE)],
)  # fmt: skip
def test_a_misuse_that_ended(label: str, state: Usage) -> None:
    assert usage(ENDED, day(label)) is state


def test_a_misuse_never_cleared_holds_for_every_label() -> None:
    assert {usage(NEVER_CLEARED, day(label)) for label in ("1900", "2026", None)} == {Usage.MISAPPLIED}


def test_one_decision_ends_the_warning_but_not_the_misuse() -> None:
    assert usage(SMITHI, day("2019"), decided_once=True) is Usage.NONE
    assert usage(SMITHI, day("2010"), decided_once=True) is Usage.MISAPPLIED


def division(kind: ActKind, since: str | None, sunk: str | None = None) -> Division:
    into = (taxon("Aus bus"), taxon("Aus cus"))
    return Division("Aus bus", into, kind, day(since), day(sunk), "as published", Verification.VERIFIED)


@pytest.mark.parametrize(
    ("kind", "since", "sunk", "label", "divided"),
    [
        (ActKind.SPLIT, "2017", None, "2016-12-31", True),
        (ActKind.SPLIT, "2017", None, "2017-03", True),
        (ActKind.SPLIT, "2017", None, "2018", False),
        (ActKind.SPLIT, "2017", None, None, True),
        (ActKind.SPLIT, None, None, "2020", True),
        # Heterometrus minotaurus: sunk 2020, revived 2023 (Prendini & Loria 2020; Kawai et al. 2023)
        (ActKind.REVIVAL, "2023", "2020", "2019", False),
        (ActKind.REVIVAL, "2023", "2020", "2020", True),
        (ActKind.REVIVAL, "2023", "2020", "2022-05-01", True),
        (ActKind.REVIVAL, "2023", "2020", "2024", False),
        (ActKind.REVIVAL, "2023", None, "1990", True),
    ],
)
def test_a_divided_name(kind: ActKind, since: str | None, sunk: str | None, label: str | None, divided: bool) -> None:
    assert divides(division(kind, since, sunk), day(label)) is divided
