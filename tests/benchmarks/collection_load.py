"""Loading, checking and telling 10,000 specimens, as ratios to the bare C YAML event parse of the same files.

Run: ``python -m tests.benchmarks.collection_load [COUNT]``. The parse reads every file and takes every event of
PyYAML's C parser (libyaml); nothing is kept. The collection is that of :mod:`tests.benchmarks.keepers_animals`.
Processor time, best of five rounds in turn, so that a busy machine hits all alike; garbage is collected as seldom as by
the installed command. Parts and wholes: ``check`` is the first offline check, with loading and with lists that are
opened anew; ``check --json`` and ``history`` are whole commands behind their start, with all that they print and keep.
"""

from __future__ import annotations

import gc
import io
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from shutil import rmtree

import yaml

from namekeeper.outside import Outside
from namekeeper.records.specimen import Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.storage.changes import accept_history
from namekeeper.storage.collection_folder import load_collection
from namekeeper.tasks.check import check_collection
from tests.benchmarks.keepers_animals import fill
from tests.conftest import run_here

NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)
TODAY = NOW.date()
ROUNDS = 5
LIMITS = {"check": 5.0, "history": 2.5}


def main(count: int) -> int:
    """1 if a limit is passed."""
    gc.set_threshold(50_000, 20, 20)
    with tempfile.TemporaryDirectory() as temporary:
        best = measure(Path(temporary), count)
    worst = 0
    for name, seconds in best.items():
        ratio = seconds / best["bare parse"]
        told = f" (limit {LIMITS[name]})" if name in LIMITS else ""
        print(f"{name:12} {seconds:7.3f} s for {count} specimens, {ratio:.2f} x the bare parse{told}")
        worst |= name in LIMITS and ratio > LIMITS[name]
    return int(worst)


def measure(root: Path, count: int) -> dict[str, float]:
    """Seconds of each part and whole."""
    home = {"NAMEKEEPER_HOME": str(root / "home")}
    folder, places = root / "animals", Outside.of(root, home, lambda: NOW, print).places
    fill(folder, count, places)
    specimens = load_collection(folder, TODAY).specimens
    print(_told(specimens))
    accept_history(folder, specimens, places, lambda: NOW)
    files = sorted((folder / "specimens").glob("*.yaml"))

    def check() -> object:
        with open_lists(places, print) as lists:
            return check_collection(load_collection(folder, TODAY), lists, TODAY)

    def command(*words: str) -> object:
        rmtree(places.cache / "verdicts", ignore_errors=True)
        done = run_here((*words, str(folder)), root, home, io.StringIO(), clock=lambda: NOW)
        assert done.code in (0, 1), done.err
        return done

    jobs: dict[str, Callable[[], object]] = {
        "bare parse": lambda: _parse(files),
        "load": lambda: load_collection(folder, TODAY),
        "check": check,
        "check --json": lambda: command("check", "--offline", "--json"),
        "history": lambda: command("history"),
    }
    rounds = [{name: _timed(job) for name, job in jobs.items()} for _ in range(ROUNDS)]
    return {name: min(times[name] for times in rounds) for name in jobs}


def _told(specimens: tuple[Specimen, ...]) -> str:
    """How much of the work is distinct."""
    entries = [(specimen, specimen.names[-1]) for specimen in specimens]
    names = {entry.name for _, entry in entries}
    whole = {(entry.name, entry.since, specimen.locality) for specimen, entry in entries}
    return f"{len(names)} names, {len(whole)} sets of name, date and locality"


def _timed(job: Callable[[], object]) -> float:
    gc.collect()
    started = time.process_time()
    result = job()
    seconds = time.process_time() - started
    del result  # taking a collection down again is not part of loading it
    return seconds


def _parse(files: list[Path]) -> None:
    for path in files:
        with path.open(encoding="utf-8") as stream:
            for _ in yaml.parse(stream, Loader=yaml.CLoader):
                pass


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000))
