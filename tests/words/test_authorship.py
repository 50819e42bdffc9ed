"""Authorships: reading, printing, comparing. Forms by Code Art. 51 and Rec. 22A, 51A-51E; names of real authors."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.words.authorship import Authorship
from namekeeper.words.parsing import parse_authorship


@pytest.mark.parametrize(
    ("text", "authors", "year", "brackets"),
    [
        ("Pocock, 1899", ("Pocock",), "1899", False),
        ("(Ausserer, 1875)", ("Ausserer",), "1875", True),
        ("(F. O. Pickard-Cambridge, 1897)", ("F. O. Pickard-Cambridge",), "1897", True),
        ("Tesmoingt, Cleton & Verdez, 1997", ("Tesmoingt", "Cleton", "Verdez"), "1997", False),
        ("von Wirth & Striffler, 2005", ("von Wirth", "Striffler"), "2005", False),
        ("(C. L. Koch, 1842)", ("C. L. Koch",), "1842", True),
        ("Mello-Leitão, 1923", ("Mello-Leitão",), "1923", False),
        ("Sigvardt et al., 2019", ("Sigvardt", "et al."), "2019", False),
        ("Casey, T.L., 1922", ("T. L. Casey",), "1922", False),
        ("Smith ex Jones, 1900", ("Smith",), "1900", False),  # zoology credits the first (Rec. 51E)
        ("[Smith], 1800", ("Smith",), "1800", False),  # Rec. 51D
        ("", (), "", False),
    ],
)
def test_an_authorship_is_read(text: str, authors: tuple[str, ...], year: str, brackets: bool) -> None:
    read = parse_authorship(text)
    assert (read.authors, read.year, read.brackets) == (authors, year, brackets)
    assert bool(read) == bool(text)
    assert parse_authorship(str(read)) == read


def test_the_work_and_a_wrong_imprint_are_kept() -> None:
    assert parse_authorship("(Geoffroy in Fourcroy, 1785)").in_work == "Fourcroy, 1785"
    imprint = parse_authorship('Storr, 1970 ["1969"]')
    assert (imprint.year, imprint.imprint_year) == ("1970", "1969")


@pytest.mark.parametrize(
    ("text", "short"),
    [
        ("Pocock, 1899", "Pocock, 1899"),
        ("(F. O. Pickard-Cambridge, 1897)", "(Pickard-Cambridge, 1897)"),
        ("von Wirth & Striffler, 2005", "von Wirth & Striffler, 2005"),
        ("Tesmoingt, Cleton & Verdez, 1997", "Tesmoingt et al., 1997"),
    ],
)
def test_labels_get_a_short_form(text: str, short: str) -> None:
    assert parse_authorship(text).short() == short


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("(Ausserer, 1875)", "Ausserer, 1875"),
        ("F. O. Pickard-Cambridge, 1897", "Pickard-Cambridge, 1897"),
        ("Günther, 1864", "Guenther, 1864"),
        ("Günther, 1864", "Gunther, 1864"),
        ("Sigvardt, Rogers, De los Ríos, Palero & Olesen, 2019", "Sigvardt et al., 2019"),
        ("Linn., 1758", "Linnaeus, 1758"),
        ("Pocock", "Pocock, 1899"),
        ("", "Pocock, 1899"),
        ("von Wirth, 1991", "Wirth, 1991"),
        ('Storr, 1970 ["1969"]', "Storr, 1969"),
    ],
)
def test_the_same_act_is_recognised(one: str, other: str) -> None:
    assert parse_authorship(one).same_author(parse_authorship(other))
    assert parse_authorship(other).same_author(parse_authorship(one))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        # Culex affinis Stephens, 1825 and Culex affinis Adams, 1903 (Code Art. 57, example)
        ("Stephens, 1825", "Adams, 1903"),
        # Townsend 1891 and 1926 (Code Art. 57.3.1, example)
        ("Townsend, 1891", "Townsend, 1926"),
        ("Koch, 1842", "Simon, 1842"),
        ("Smith & Jones, 1900", "Smith, 1900"),
    ],
)
def test_different_acts_stay_apart(one: str, other: str) -> None:
    assert not parse_authorship(one).same_author(parse_authorship(other))


@given(st.text(max_size=200))
def test_reading_an_authorship_never_fails(text: str) -> None:
    read = parse_authorship(text)
    assert isinstance(read, Authorship)
    assert isinstance(read.short(), str)
