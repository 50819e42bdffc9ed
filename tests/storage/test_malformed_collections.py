"""Collections with one thing wrong: twenty of the two hundred of ``python -m tests.storage.malformed_collections``."""

from __future__ import annotations

from pathlib import Path

from tests.storage.malformed_collections import faults


def test_the_right_file_and_line_is_named_and_nothing_written(tmp_path: Path) -> None:
    found = [fault for seed in range(20) for fault in faults(tmp_path / str(seed), tmp_path / "home", seed)]
    assert found == []
