"""All scenarios, in the order in which they are recorded."""

from __future__ import annotations

from tests.recorded.scenario import Scenario
from tests.recorded.scenarios import (
    checks,
    collections,
    faces,
    histories,
    label_sheets,
    lists,
    lookups,
    services,
    settling,
    tables,
    transfers,
)

SCENARIOS: tuple[Scenario, ...] = (
    *faces.SCENARIOS,
    *lookups.SCENARIOS,
    *checks.SCENARIOS,
    *services.SCENARIOS,
    *settling.SCENARIOS,
    *histories.SCENARIOS,
    *label_sheets.SCENARIOS,
    *lists.SCENARIOS,
    *collections.SCENARIOS,
    *transfers.SCENARIOS,
    *tables.SCENARIOS,
)
