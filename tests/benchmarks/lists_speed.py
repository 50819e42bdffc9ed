"""Whole catalogues on one laptop (issue 6): adding 580,000 real names, finding them, finding them misspelt.

Run: ``python -m tests.benchmarks.lists_speed [add|exact|similar]``. Every part prints ratios of one run, with the limit
of the issue behind. Times are of the processor, so that a busy machine does not count; parts run in processes of their
own, so that memory is that of the part.
"""

from __future__ import annotations

import csv
import random
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from tests.benchmarks.lists_names import FOLDER, damaged, real_names, table

#: Limits of issue 6.
ADD, ADD_WITHOUT_SIMILAR, ADD_MEGABYTES = 12, 5, 300
EXACT, SIMILAR, SIMILAR_MEGABYTES, TRUE_FIRST, GROWTH = 5, 150, 150, 990, 2
_FEW = 50_000


def megabytes() -> float:
    """Most memory this process ever held (Linux; not ``ru_maxrss``, which a child begins with that of its parent)."""
    status = Path("/proc/self/status").read_text(encoding="utf-8")
    return int(status.partition("VmHWM:")[2].split()[0]) / 1024


def plain(source: Path) -> float:
    """Seconds of a plain CSV read and batched insert of the same columns."""
    place = FOLDER / "plain.sqlite"
    place.unlink(missing_ok=True)
    started = time.process_time()
    database = sqlite3.connect(place)
    database.execute("CREATE TABLE name (id, name, accepted_id)")
    with source.open(encoding="utf-8", newline="") as file:
        rows = csv.reader(file)
        next(rows)
        while batch := [row for _number, row in zip(range(10_000), rows, strict=False)]:
            database.executemany("INSERT INTO name VALUES (?, ?, ?)", batch)
    database.commit()
    database.close()
    return time.process_time() - started


def add(source: Path, place: Path, *, similar: bool = True) -> float:
    """Seconds of adding the table as the command does it."""
    from namekeeper.evidence.statements import ListWishes
    from namekeeper.sources.lists.adding import build, edition_of, open_source
    from namekeeper.sources.lists.list_file import Skips

    started = time.process_time()
    skips, wishes = Skips(), ListWishes()
    with open_source(source, wishes, skips) as opened:
        build(opened.list, edition_of("ncbi", opened.list.described(), wishes), place, skips, similar=similar)
    return time.process_time() - started


def index_of(count: int | None = None) -> Path:
    """The index of so many names taken evenly, built if need be."""
    names = real_names()
    chosen = names if count is None else sorted(random.Random(count).sample(names, count))
    place = FOLDER / f"index-{len(chosen)}.sqlite"
    place.unlink(missing_ok=True)
    add(table(chosen), place)
    return place


def measure_add() -> None:
    """Ratios to the plain insert; memory at two sizes, each in a process of its own."""
    source = table(real_names())
    place = FOLDER / "added.sqlite"
    for similar, limit in ((True, ADD), (False, ADD_WITHOUT_SIMILAR)):
        plain_seconds, own_seconds = _best_of_pairs(
            partial(plain, source), partial(add, source, place, similar=similar)
        )
        words = "with" if similar else "without"
        print(
            f"add {words} similar: {own_seconds / plain_seconds:.1f} times a plain insert (limit {limit})", flush=True
        )
    for count in (100_000, 300_000, len(real_names())):
        names = real_names()[:count]
        _part("memory", str(table(names)))


def measure_memory(source: str) -> None:
    add(Path(source), FOLDER / "memory.sqlite")
    print(f"memory of adding {Path(source).stem}: {megabytes():.0f} MB (limit {ADD_MEGABYTES}, flat)", flush=True)


def measure_exact(place: str) -> None:
    """Accepted and former names asked of the index, against one indexed select of one column."""
    from namekeeper.sources.lists.index_reader import IndexList

    names = real_names()
    bare = sqlite3.connect(FOLDER / "bare.sqlite")
    bare.execute("DROP TABLE IF EXISTS name")
    bare.execute("CREATE TABLE name (name)")
    bare.executemany("INSERT INTO name VALUES (?)", ((name,) for name in names))
    bare.execute("CREATE INDEX by_name ON name (name)")
    bare.commit()
    chance = random.Random(1)
    asked = {
        "accepted": [names[number] for number in chance.sample(range(0, len(names), 4), 5000)],
        "former": [names[number] for number in chance.sample(range(3, len(names), 4), 5000)],
    }
    index = IndexList.open(Path(place))

    def select(these: Sequence[str]) -> None:
        for name in these:
            bare.execute("SELECT name FROM name WHERE name = ?", (name,)).fetchone()

    def ask(these: Sequence[str]) -> None:
        for name in these:
            index.named(name)

    for kind, these in asked.items():
        bare_seconds, own_seconds = _best_of_pairs(_timed(select, these), _timed(ask, these), repeats=5)
        print(f"{kind} name: {own_seconds / bare_seconds:.1f} times a bare select (limit {EXACT})", flush=True)
    bare.close()
    index.close()


def measure_similar(large: str, small: str) -> None:
    """Time, truth and memory of similar search; the scan runs in another process."""
    from namekeeper.sources.lists.folding import folded
    from namekeeper.sources.lists.index_reader import IndexList

    pairs = damaged([folded(name) for name in real_names()], 1000)
    index, few = IndexList.open(Path(large)), IndexList.open(Path(small))
    few_names = [
        f"{genus} {rest}" for genus, rest in few._database.execute("SELECT genus, rest FROM name WHERE rest <> ''")
    ]
    few_pairs = damaged(few_names, 1000)
    del few_names
    index.similar("Brachypelma smithy")
    seconds, few_seconds = _best_of_pairs(
        _timed(lambda: [index.similar(wrong) for _, wrong in pairs]),
        _timed(lambda: [few.similar(wrong) for _, wrong in few_pairs]),
        repeats=5,
    )
    found = [index.similar(wrong) for _, wrong in pairs]
    tops = [folded(near[0].statement.subject.name) if near else "" for near in found]
    first = sum(top == name for (name, _), top in zip(pairs, tops, strict=True))
    growth = seconds / few_seconds
    seconds /= len(pairs)
    print(f"similar: {1e6 * seconds:.0f} us a query; {growth:.2f} times that of {_FEW} names (limit {GROWTH})")
    print(f"true name first: {first} of 1000 (limit {TRUE_FIRST})", flush=True)
    distances = FOLDER / "distances.csv"
    with distances.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(
            (wrong, near[0].distance if near else 99) for (_, wrong), near in zip(pairs, found, strict=True)
        )
    (FOLDER / "seconds.txt").write_text(str(seconds), encoding="utf-8")
    index.close()
    few.close()


def measure_scan() -> None:
    """The same queries by optimal string alignment over every name (rapidfuzz)."""
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    from namekeeper.sources.lists.folding import folded

    names = [folded(name) for name in real_names()]
    with (FOLDER / "distances.csv").open(encoding="utf-8", newline="") as file:
        ours = [(wrong, int(distance)) for wrong, distance in csv.reader(file)]
    started = time.process_time()
    best = [process.extractOne(wrong, names, scorer=OSA.distance)[1] for wrong, _ in ours]
    seconds = (time.process_time() - started) / len(ours)
    farther = sum(distance > nearest for (_, distance), nearest in zip(ours, best, strict=True))
    own = float((FOLDER / "seconds.txt").read_text(encoding="utf-8"))
    print(f"similar: {seconds / own:.0f} times faster than the scan (limit {SIMILAR})")
    print(f"our best answer is farther than the scan's: {farther} of {len(ours)} (limit 0)", flush=True)


def measure_similar_memory(place: str) -> None:
    from namekeeper.sources.lists.index_reader import IndexList

    index = IndexList.open(Path(place))
    with (FOLDER / "distances.csv").open(encoding="utf-8", newline="") as file:
        for wrong, _ in csv.reader(file):
            index.similar(wrong)
    print(f"memory of 1000 similar searches: {megabytes():.0f} MB (limit {SIMILAR_MEGABYTES})", flush=True)
    index.close()


def _timed(job: Callable[..., object], *arguments: object) -> Callable[[], float]:
    def run() -> float:
        started = time.process_time()
        job(*arguments)
        return time.process_time() - started

    return run


def _best_of_pairs(one: Callable[[], float], other: Callable[[], float], repeats: int = 3) -> tuple[float, float]:
    """Least times of two jobs that take turns, so that a busy machine is busy for both."""
    pairs = [(one(), other()) for _ in range(repeats)]
    return min(pair[0] for pair in pairs), min(pair[1] for pair in pairs)


def _part(*arguments: str) -> None:
    subprocess.run([sys.executable, "-m", "tests.benchmarks.lists_speed", *arguments], check=True)


def main(arguments: list[str]) -> int:
    FOLDER.mkdir(exist_ok=True)
    parts: dict[str, Callable[..., None]] = {
        "memory": measure_memory,
        "exact-in": measure_exact,
        "similar-in": measure_similar,
        "scan-in": measure_scan,
        "similar-memory-in": measure_similar_memory,
    }
    if arguments and arguments[0] in parts:
        parts[arguments[0]](*arguments[1:])
        return 0
    wanted = arguments or ["add", "exact", "similar"]
    if "add" in wanted:
        measure_add()
    if {"exact", "similar"} & set(wanted):
        large, small = str(index_of()), str(index_of(_FEW))
    if "exact" in wanted:
        _part("exact-in", large)
    if "similar" in wanted:
        _part("similar-in", large, small)
        _part("scan-in")
        _part("similar-memory-in", large)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
