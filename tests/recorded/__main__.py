"""``python -m tests.recorded [SCENARIO ...]`` plays the scenarios and writes their records anew."""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path

from tests.recorded.playing import play, warmed
from tests.recorded.records import record_of
from tests.recorded.scenario import Run
from tests.recorded.scenarios import SCENARIOS


def main(wanted: list[str]) -> int:
    """Write the records; 2 for a scenario that there is not."""
    unknown = sorted(set(wanted) - {scenario.name for scenario in SCENARIOS})
    if unknown:
        print(f"there is no scenario '{unknown[0]}'", file=sys.stderr)
        return 2
    begun = time.perf_counter()
    chosen = [scenario for scenario in SCENARIOS if not wanted or scenario.name in wanted]
    with tempfile.TemporaryDirectory() as folder:
        warm = warmed(Path(folder) / "warm")
        for scenario in chosen:
            own = time.perf_counter()
            text = play(scenario, Path(folder) / scenario.name, warm)
            record_of(scenario).write_text(text, encoding="utf-8", newline="\n")
            print(f"{scenario.name}: {len(text) / 1000:.1f} kB, {time.perf_counter() - own:.1f} s")
    lines = sum(isinstance(step, Run) for scenario in chosen for step in scenario.steps)
    print(f"{lines} command lines in {len(chosen)} scenarios, {time.perf_counter() - begun:.1f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
