"""The decision table in DEVELOPERS.md is that of the code, and every rule of it is used."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from namekeeper.judging.rules import TABLE
from tests.judging import decision_table
from tests.judging.scenarios import SCENARIOS
from tests.judging.test_judging_scenarios import EXTRA

PAGE = Path(__file__).parents[2] / "DEVELOPERS.md"


def test_the_page_for_developers_shows_the_table_of_the_code() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert decision_table.MARK in page, "DEVELOPERS.md has lost its decision table"
    shown = page.split(decision_table.MARK)[1].split(decision_table.END)[0].strip()
    written = decision_table.markdown().split(decision_table.MARK)[1].split(decision_table.END)[0].strip()
    assert shown == written


def test_rule_ids_are_in_order_and_unique() -> None:
    assert [rule.id for rule in TABLE] == [f"D{number:02}" for number in range(1, len(TABLE) + 1)]


def test_every_rule_decides_some_scenario_and_gives_its_standing() -> None:
    decided = Counter[str]()
    for scenario in (*SCENARIOS, *EXTRA):
        verdict = scenario.judge()
        decided[verdict.rule] += 1
        for rule in TABLE:
            if rule.id == verdict.rule:
                assert verdict.standing is rule.standing
    assert [rule.id for rule in TABLE if not decided[rule.id]] == []
