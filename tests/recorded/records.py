"""Where the record of a scenario lies."""

from __future__ import annotations

from pathlib import Path

from tests.recorded.scenario import Scenario

FOLDER = Path(__file__).parent / "records"


def record_of(scenario: Scenario) -> Path:
    """The file of its record."""
    return FOLDER / f"{scenario.name}.txt"
