"""``python -m tests.soak [SECONDS] [SEED]``: the long soak (30 minutes if nothing is said), and its report."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.soak.run import soak

if __name__ == "__main__":
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 1800.0
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    with tempfile.TemporaryDirectory() as place:
        report = soak(Path(place), seconds, seed)
    print("\n".join(report.lines()))
    sys.exit(1 if report.found else 0)
