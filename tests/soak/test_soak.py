"""A few steps in the suite, a minute among the long proofs; ``python -m tests.soak`` takes half an hour."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from tests.soak.report import Report
from tests.soak.run import soak


@pytest.mark.parametrize("seconds", [4, pytest.param(60, marks=pytest.mark.long)])
def test_nothing_is_lost_in_random_use(tmp_path: Path, seconds: int) -> None:
    report = soak(tmp_path, seconds, seed=1)
    assert report.found == [], "\n".join(report.lines())
    assert report.steps > 0
    assert report.counts["whole collection verified"] > 0


def test_what_never_happened_and_memory_that_grew_are_findings() -> None:
    """Of a long soak; a short one may miss what comes by chance."""
    report = Report(1)
    report.memory = [(float(second), 100 + second // 10, 0) for second in range(300)]
    report.judge(60)
    assert report.found == []
    report.judge(300)
    assert "never met: changes completed for the dead" in report.found
    assert "never met: asked of a service that is lying: told as it is" in report.found
    assert "never met: fate of a command: killed with its journal written" in report.found
    assert report.found[-1] == "the memory of the server grew from 109 MB to 127 MB"
    level = Report(1, counts=Counter(dict.fromkeys(Report(1).never_met(), 1)))
    level.memory = [(float(second), 100 + second % 4, 0) for second in range(300)]
    level.judge(300)
    assert level.found == []
