"""The command lines print, return and write what was recorded; where a change is meant, record anew and look at it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.recorded.playing import play, warmed
from tests.recorded.records import FOLDER, record_of
from tests.recorded.scenario import Run, Scenario
from tests.recorded.scenarios import SCENARIOS
from tests.recorded.sections import Section, differences, joined

_MOST_LINES = 300


@pytest.fixture(scope="session")
def warm(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return warmed(tmp_path_factory.mktemp("warm"))


@pytest.mark.parametrize("scenario", SCENARIOS, ids=lambda scenario: scenario.name)
def test_as_recorded(scenario: Scenario, tmp_path: Path, warm: Path) -> None:
    found = differences(record_of(scenario).read_text(encoding="utf-8"), play(scenario, tmp_path, warm))
    if found:
        more = [f"... and {len(found) - _MOST_LINES} lines more"] if len(found) > _MOST_LINES else []
        remedy = f"If this is meant (a row of the starter list counts too): python -m tests.recorded {scenario.name}"
        pytest.fail("\n".join(["not as recorded:", *found[:_MOST_LINES], *more, "", remedy]), pytrace=False)


def test_every_record_belongs_to_a_scenario() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {record_of(scenario).name for scenario in SCENARIOS}
    assert sum(isinstance(step, Run) for scenario in SCENARIOS for step in scenario.steps) >= 220


def test_what_holds_only_with_other_versions_is_left_out_and_all_else_is_compared() -> None:
    def record(version: str, help_text: str, other: str) -> str:
        return joined(["=== x", Section("exit 0"), Section("stdout", help_text, version), Section("stderr", other)])

    here = record("Python 3.11", "usage: a\n", "b\n")
    assert differences(here, here) == []
    assert differences(here, record("Python 3.12", "usage: A\n", "b\n")) == []
    assert "-| b" in differences(here, record("Python 3.12", "usage: A\n", "B\n"))
    assert "-| usage: a" in differences(here, record("Python 3.11", "usage: A\n", "b\n"))
