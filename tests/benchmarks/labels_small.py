"""``labels --stale`` for 24 changed specimens, drawn directly and by way of HTML.

Run: ``python -m tests.benchmarks.labels_small [REPEATS]``. CPU seconds of whole processes in turn, median. The command
also reads the collection, opens the lists (compiled beforehand), checks the names for open choices, fits and writes
the file; it does not record the prints here, so runs are alike.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median

LIMIT = 0.4


def collection(folder: Path, count: int) -> None:
    """Invented animals whose name in force is newer than what they came with."""
    from tests.benchmarks.labels_speed import NAMES

    (folder / "specimens").mkdir(parents=True)
    for number in range(count):
        name = NAMES[number % len(NAMES)]
        text = (
            f'tag: "{name} 0.1"\nacquired: 2015-05-{1 + number % 28:02}\nsex: 0.1.0\nlocality: Locality {number % 10}\n'
            f"names:\n  - name: Brachypelma emilia\n    since: 2015-05-01\n    recorded: 2015-05-01\n"
            f"    standing: as-labelled\n  - name: {name}\n    authorship: Author, 1900\n    since: 2021-01-01\n"
            f"    recorded: 2021-01-01\n    standing: moved\n"
        )
        (folder / "specimens" / f"INV-{number:04}.yaml").write_text(text, encoding="utf-8")


def cpu_of(command: list[str], environ: dict[str, str]) -> float:
    """CPU seconds of a process that must succeed."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, check=True, capture_output=True, env=environ)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as name:
        root = Path(name)
        os.environ["NAMEKEEPER_HOME"] = str(root / "home")
        collection(root / "animals", 24)
        labels = [sys.executable, "-m", "namekeeper", "labels", str(root / "animals"), "--stale", "--no-record"]
        labels += ["-o", str(root / "labels.pdf")]
        cpu_of(labels, dict(os.environ))  # compiles the lists
        times: dict[str, list[float]] = {"direct": [], "html": []}
        for _ in range(repeats):
            for engine, seconds in times.items():
                seconds.append(cpu_of([*labels, "--engine", engine], dict(os.environ)))
        ours, html = median(times["direct"]), median(times["html"])
        print(f"24 changed specimens: {ours:.2f} s / {html:.2f} s = {ours / html:.2f} (limit {LIMIT})")


if __name__ == "__main__":
    main()
