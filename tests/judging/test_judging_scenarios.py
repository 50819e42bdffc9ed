"""Hand-written labels on published acts come out as expected; each names its source."""

from __future__ import annotations

import pytest

from namekeeper.evidence.statements import NameStatus
from tests.judging.build import answer, edition, failure, says
from tests.judging.scenario import Scenario, heard, label
from tests.judging.scenarios import SCENARIOS

# Cases without a published act: what the contract says of silence, failure and sources that are undecided themselves.
COMPLETE = edition("catalogue", "2026", complete="Aus")
EXTRA = (
    Scenario("nobody lists it", "contract section 4", label("Aus nullus", "2020"),
             (answer(by=COMPLETE, asked="Aus nullus"),), "unknown"),
    Scenario("nobody could be asked", "contract section 4", label("Aus nullus", "2020"),
             (failure("Aus nullus"),), "unasked", words="could not be reached"),
    Scenario("the source itself names two", "contract section 4", label("Aus bus", "2020"),
             (heard(says("Aus bus", "Aus bus Smith, 1900", "Cus bus (Smith, 1900)", "Dus bus (Smith, 1900)",
                         status=NameStatus.AMBIGUOUS)),), "divided", choices=("Cus bus", "Dus bus")),
    Scenario("the source itself says misapplied", "Darwin Core taxonomicStatus misapplied", label("Aus bus", "2020"),
             (heard(says("Aus bus", "Aus bus", "Cus dus Jones, 1950", status=NameStatus.MISAPPLIED)),),
             "misapplied", choices=("Cus dus",)),
)  # fmt: skip


@pytest.mark.parametrize("scenario", [*SCENARIOS, *EXTRA], ids=lambda scenario: scenario.title)
def test_scenario(scenario: Scenario) -> None:
    assert scenario.source
    verdict = scenario.judge()
    assert scenario.told(verdict) == scenario.expected(), verdict.reasons


def test_there_are_at_least_forty() -> None:
    assert len({scenario.title for scenario in SCENARIOS}) == len(SCENARIOS) >= 40
