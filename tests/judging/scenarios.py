"""Labels written by hand, each on a published act: all groups together."""

from __future__ import annotations

from tests.judging import (
    scenarios_disputed,
    scenarios_divided,
    scenarios_merged,
    scenarios_misuse,
    scenarios_moved,
    scenarios_open,
    scenarios_rank_and_doubt,
)
from tests.judging.scenario import Scenario
from tests.judging.tally import Tally

SCENARIOS: tuple[Scenario, ...] = (
    *scenarios_moved.SCENARIOS,
    *scenarios_rank_and_doubt.SCENARIOS,
    *scenarios_merged.SCENARIOS,
    *scenarios_misuse.SCENARIOS,
    *scenarios_divided.SCENARIOS,
    *scenarios_disputed.SCENARIOS,
    *scenarios_open.SCENARIOS,
)


def count() -> Tally:
    tally = Tally("hand-written scenarios")
    for scenario in SCENARIOS:
        tally.count(scenario.title, scenario.told(scenario.judge()), scenario.expected())
    return tally
