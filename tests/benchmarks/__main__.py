"""All benchmarks, one after the other: ``python -m tests.benchmarks [NAME]...``; each prints ratios of one run."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent


def benchmarks() -> list[str]:
    """Modules of this folder that run by themselves."""
    return sorted(
        path.stem
        for path in HERE.glob("*.py")
        if not path.stem.startswith("_") and "__main__" in path.read_text(encoding="utf-8")
    )


def main(wanted: list[str]) -> int:
    """Run those named, or all; 1 if one of them failed."""
    worst = 0
    for name in wanted or benchmarks():
        print(f"\n== {name} ==", flush=True)
        worst |= subprocess.run([sys.executable, "-m", f"tests.benchmarks.{name}"], check=False).returncode != 0
    return worst


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
