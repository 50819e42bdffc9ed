"""A few steps in the suite, a minute among the long proofs; ``python -m tests.soak`` takes half an hour."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.soak.run import soak


@pytest.mark.parametrize("seconds", [4, pytest.param(60, marks=pytest.mark.long)])
def test_nothing_is_lost_in_random_use(tmp_path: Path, seconds: int) -> None:
    report = soak(tmp_path, seconds, seed=1)
    assert report.found == [], "\n".join(report.lines())
    assert report.steps > 0
    assert report.counts["whole collection verified"] > 0
    assert seconds < 60 or report.grown() < 0.3
