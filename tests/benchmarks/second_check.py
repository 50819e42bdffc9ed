"""A second check of a collection against the first, in the same run: what it costs where nothing or one animal changed.

``python -m tests.benchmarks.second_check [SPECIMENS] [NAMES]``. Offline checks of the task, each with lists that are
opened anew; processor time, the median of some rounds, each in a folder and cache of its own. Names are those of the
starter list in alphabetical order. Every check reads all files, which nothing can spare it, so the limits hold for what
is done beyond loading: until November 2026 they held for the whole, of which loading was then a small part.
"""

from __future__ import annotations

import gc
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from namekeeper.outside import Outside
from namekeeper.storage.collection_folder import load_collection
from namekeeper.tasks.check import check_folder
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.online import ServiceWishes
from tests.benchmarks.services_warm import collection, species

LIMITS = {"nothing changed": 0.25, "one animal changed": 0.3}
ROUNDS = 5


def measure(specimens: int, names: int) -> dict[str, float]:
    """Seconds of loading, of the first check and of those after it."""
    with TemporaryDirectory() as root:
        home = {"NAMEKEEPER_HOME": f"{root}/home"}
        outside = Outside.of(Path(root), home, lambda: datetime(2026, 11, 25, 12, tzinfo=UTC), print)
        folder = Path(root) / "animals"
        collection(folder, specimens, species(outside.places, names))  # which compiles the starter list too
        desk = CollectionDesk.at(folder, outside)

        def check() -> object:
            return check_folder(desk, ServiceWishes(offline=True))

        loading = _timed(lambda: load_collection(folder, outside.clock().date()))
        first, second = _timed(check), _timed(check)
        changed = folder / "specimens" / "S00000.yaml"
        changed.write_text(changed.read_text(encoding="utf-8") + "note: looked at\n", encoding="utf-8")
        return {"load": loading, "first": first, "nothing changed": second, "one animal changed": _timed(check)}


def _timed(job: Callable[[], object]) -> float:
    gc.collect()
    started = time.process_time()
    job()
    return time.process_time() - started


def main(arguments: list[str]) -> int:
    """1 if a limit is passed."""
    specimens, names = (int(value) for value in (*arguments, *("1000", "300")[len(arguments) :]))
    rounds = [measure(specimens, names) for _ in range(ROUNDS)]
    worst = 0
    for what, limit in LIMITS.items():
        whole = median(seconds[what] / seconds["first"] for seconds in rounds)
        ratio = median((seconds[what] - seconds["load"]) / (seconds["first"] - seconds["load"]) for seconds in rounds)
        worst |= ratio > limit
        print(
            f"{what}: {whole:.2f} of the first check of {specimens} animals of {names} names, "
            f"{ratio:.2f} beyond loading (limit {limit})"
        )
    return int(worst)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
