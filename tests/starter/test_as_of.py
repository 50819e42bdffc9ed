"""As of when: where authorship and status were seen, up to which year, and what a newer revision does to it."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Match, Statement
from namekeeper.evidence.verdicts import ReasonCode
from namekeeper.faces.telling.evidence import says
from namekeeper.judging.ballot import Trust
from namekeeper.judging.question import question_of
from namekeeper.judging.verdict import judge
from namekeeper.records.specimen import NameEntry
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import Standing
from tests.judging.build import answer
from tests.judging.build import says as said
from tests.starter.tables import accepted, author_and_year, parts, rows

PAGES = [Path(__file__).parents[2] / name for name in ("README.md", "DEVELOPERS.md")]
TODAY = date(2026, 11, 25)


@pytest.mark.parametrize("column", ["authorshipSource", "statusSource"])
def test_every_source_resolves(column: str) -> None:
    known = {row["key"] for row in rows("sources")}
    assert {key for row in rows("species") for key in parts(row[column])} - known == set()


def test_an_authorship_says_where_it_was_seen() -> None:
    assert [row for row in rows("species") if bool(row["authorship"]) != bool(row["authorshipSource"])] == []


def test_a_status_says_where_it_was_seen_and_up_to_when() -> None:
    assert [row for row in rows("species") if not row["statusSource"]] == []
    undated = {
        row["scientificName"] for row in rows("species") if not row["statusAsOf"] and row["statusSource"] != "memory"
    }
    assert undated == {"Homoeomma strabo", "Homoeomma stradlingi"}  # an article without a date of what it follows
    dated = [row for row in rows("species") if row["statusAsOf"]]
    assert [row for row in dated if not re.fullmatch(r"20[0-2]\d|19\d\d", row["statusAsOf"])] == []
    assert [row for row in dated if parts(row["statusSource"]) == ["memory"]] == []


def test_no_status_is_older_than_its_name() -> None:
    dated = [row for row in rows("species") if row["statusAsOf"] and row["authorship"]]
    assert [row for row in dated if row["statusAsOf"] < author_and_year(row["authorship"])[1]] == []


def test_a_former_name_that_a_catalogue_alone_gives_says_up_to_when() -> None:
    kinds = {row["key"]: row["kind"] for row in rows("sources")}
    dated = {"wsc-synonyms-2020": "2020", "wsc-species-2021": "2021", "ncbi-taxonomy": "2024", "wikipedia-en": "2024"}
    of_lists = [
        row
        for row in rows("former")
        if row["confidence"] == "verified"
        and not any(kinds[key] == "paper" for key in parts(row["source"]))
        and set(parts(row["source"])) & set(dated)
    ]
    assert len(of_lists) >= 60
    for row in of_lists:
        assert row["statusAsOf"] == max(dated[key] for key in parts(row["source"]) if key in dated), row
    assert [row for row in rows("former") if row["statusAsOf"] and row["statusAsOf"] < row["year"]] == []
    assert [row for row in rows("former") if row["statusAsOf"] and row["confidence"] == "memory"] == []


def test_a_change_that_a_newer_revision_may_have_undone_is_told(lists: tuple[NameList, ...]) -> None:
    # Acanthoscurria altmanni: sunk by the catalogue's list of 2020-04-20; acts on the genus are younger.
    told = [
        followed(lists[0], row["formerName"])
        for row in rows("former")
        if row["statusAsOf"] == "2020" and row["confidence"] == "verified"
    ]
    overtaken = [one for one in told if one.revised]
    assert overtaken
    assert all(one.as_of < one.revised for one in overtaken)


def test_the_pages_say_how_many_rows_are_not_independent_of_one_catalogue() -> None:
    # World Spider Catalog, list of valid species of late 2021: rows written with it at hand and agreeing with it
    tarantulas = [row for row in accepted() if row["group"] == "tarantula"]
    authors = sum(parts(row["authorshipSource"]) == ["wsc-check"] for row in tarantulas)
    statuses = sum(parts(row["statusSource"]) == ["wsc-check"] for row in tarantulas)
    told = f"{authors} authorships and {statuses} statuses of the {len(tarantulas)} tarantulas"
    for page in PAGES:
        assert told in " ".join(page.read_text(encoding="utf-8").split()), page.name


def followed(one: NameList, name: str) -> Statement:
    (statement,) = one.named(name)
    return statement


def test_a_status_older_than_a_revision_is_told(lists: tuple[NameList, ...]) -> None:
    # Galleti-Lima et al. 2023 take species out of Pterinopelma; this one was followed to the catalogue of 2021 only
    statement = followed(lists[0], "Pterinopelma felipeleitei")
    assert (statement.as_of, statement.revised) == ("2021", "2023")
    assert says(statement).endswith("(as of 2021; the genus was revised in 2023)")
    # Mendoza & Francke 2020 are the newest act on Tliltocatl that the list knows
    assert followed(lists[0], "Tliltocatl vagans").revised == ""


def verdict_on(*statements: Statement) -> tuple[bool, set[ReasonCode]]:
    question = question_of(NameEntry(statements[0].asked, "", PartialDate.parse("2010")))
    found = judge(question, [answer(*statements)], Trust(), TODAY)
    assert found.standing is Standing.MOVED
    return found.safe, {reason.code for reason in found.reasons}


MOVED = said("Brachypelma vagans", "Brachypelma vagans (Ausserer, 1875)", "Tliltocatl vagans (Ausserer, 1875)")


def test_what_is_followed_far_enough_is_safe() -> None:
    assert verdict_on(MOVED._replace(as_of="2021")) == (True, {ReasonCode.MOVED})


def test_what_a_newer_revision_overtook_is_not_safe() -> None:
    safe, reasons = verdict_on(MOVED._replace(as_of="2021", revised="2024"))
    assert not safe
    assert ReasonCode.UNSAFE_OUTDATED in reasons
    assert ReasonCode.UNSAFE_NO_AUTHORSHIP not in reasons


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("Brachypelma vagans", "Tliltocatl vagans (Ausserer, 1875)"),
        ("Brachypelma vagans (Ausserer, 1875)", "Tliltocatl vagans"),
    ],
)
def test_nothing_is_safe_without_an_authorship_of_both_names(old: str, new: str) -> None:
    safe, reasons = verdict_on(said("Brachypelma vagans", old, new))
    assert not safe
    assert ReasonCode.UNSAFE_NO_AUTHORSHIP in reasons


def test_a_spelling_that_only_ends_otherwise_needs_its_authorship_too() -> None:
    respelled = said("Aphonopelma iodium", "Aphonopelma iodius", "Aphonopelma iodius", match=Match.ENDING)
    question = question_of(NameEntry("Aphonopelma iodium"))
    assert not judge(question, [answer(respelled)], Trust(), TODAY).safe
