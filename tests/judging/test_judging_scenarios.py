"""Hand-written labels on published acts come out as expected; each names its source."""

from __future__ import annotations

import pytest

from tests.judging.scenario import Scenario
from tests.judging.scenarios import SCENARIOS


@pytest.mark.parametrize("scenario", SCENARIOS, ids=lambda scenario: scenario.title)
def test_scenario(scenario: Scenario) -> None:
    assert scenario.source
    verdict = scenario.judge()
    assert scenario.told(verdict) == scenario.expected(), verdict.why


def test_there_are_at_least_forty() -> None:
    assert len({scenario.title for scenario in SCENARIOS}) == len(SCENARIOS) >= 40
