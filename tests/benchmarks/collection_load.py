"""Loading and checking 10,000 specimens, as ratios to the bare C YAML event parse of the same files.

Run: ``python -m tests.benchmarks.collection_load [COUNT]``. The parse reads every file and takes every event of
PyYAML's C parser (libyaml); nothing is kept. Processor time, best of five rounds taken in turn, so that a busy machine
hits all alike. ``check`` is a whole offline check with the loading in it.
"""

from __future__ import annotations

import gc
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import ExitStack
from datetime import UTC, date, datetime
from pathlib import Path

import yaml

from namekeeper.files.places import Places
from namekeeper.records.specimen import NameEntry, Sex, Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.storage.changes import accept_history
from namekeeper.storage.collection_folder import load_collection
from namekeeper.storage.emit import specimen_text
from namekeeper.tasks.check import check_collection
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NOWHERE

TODAY = date(2026, 11, 25)
ROUNDS = 5
NAMES = (
    ("Brachypelma vagans", "(Ausserer, 1875)"),
    ("Grammostola pulchra", "Mello-Leitão, 1921"),
    ("Avicularia versicolor", "(Walckenaer, 1837)"),
    ("Poecilotheria metallica", "Pocock, 1899"),
    ("Chromatopelma cyaneopubescens", "(Strand, 1907)"),
    ("Haplopelma lividum", "Smith, 1996"),
    ("Psalmopoeus irminia", "Saager, 1994"),
)


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as temporary, ExitStack() as opened:
        folder, places = Path(temporary) / "animals", _places(Path(temporary))
        _fill(folder, count)
        specimens = load_collection(folder, TODAY).specimens
        assert len(specimens) == count
        accept_history(folder, specimens, places, lambda: datetime(2026, 11, 25, tzinfo=UTC))
        files = sorted((folder / "specimens").glob("*.yaml"))
        lists = opened.enter_context(open_lists(places, print))

        def check() -> object:
            return check_collection(load_collection(folder, TODAY), lists, TODAY)

        jobs = {"bare parse": lambda: _parse(files), "load": lambda: load_collection(folder, TODAY), "check": check}
        rounds = [{name: _timed(job) for name, job in jobs.items()} for _ in range(ROUNDS)]
        best = {name: min(times[name] for times in rounds) for name in jobs}
        for name, seconds in best.items():
            print(
                f"{name:10} {seconds:7.3f} s for {count} specimens, {seconds / best['bare parse']:.2f} x the bare parse"
            )


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


def _fill(folder: Path, count: int) -> None:
    """Specimens as keepers have them: a tag, a few facts, and for most a second name."""
    (folder / "specimens").mkdir(parents=True)
    for number in range(count):
        since = PartialDate.parse(f"{2008 + number % 18}-{number % 12 + 1:02d}-{number % 28 + 1:02d}")
        entries = [NameEntry(*NAMES[(number + i) % len(NAMES)], since, since) for i in range(1 + (number % 3 > 0))]
        specimen = Specimen(
            f"INV-{number:05d}",
            NOWHERE,
            f"tag as the seller wrote it, number {number} 0.1 4cm",
            since,
            Sex.parse("0.1.0"),
            locality="Campeche" if number % 2 else "",
            names=tuple(entries),
        )
        (folder / "specimens" / f"{specimen.id}.yaml").write_text(specimen_text(specimen), encoding="utf-8")


def _places(root: Path) -> Places:
    return Places(root / "cache", root / "state", root / "data")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
