"""A keeper's laptop with 580,000 names added: whole ``lookup`` processes, misspelt tags, and a file of 10,000 tags.

Run: ``python -m tests.benchmarks.lists_process [COUNT]``. Times are of the processor, medians of interleaved runs.
Processes write their bytecode into a folder of the benchmark, as an installed package has it, whatever the
environment says. Tags are looked up in this process; garbage is collected as seldom as by the installed command.
"""

from __future__ import annotations

import gc
import os
import random
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from statistics import median

from tests.benchmarks.lists_names import FOLDER, damaged, real_names, table

#: Limits: times an empty process, and how much faster than a scan of every name.
EXACT, SIMILAR, MISSPELT = 7, 12, 30
_RUNS = 15
_ROUNDS = 3
_SCANNED = 50  # so many of the tags are scanned for
_HOME = FOLDER / "home"
_ENVIRON = {
    **{key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"},
    "NAMEKEEPER_HOME": str(_HOME),
    "PYTHONPYCACHEPREFIX": str(FOLDER / "bytecode"),
}
_NOISE = ("0.1 5cm CB", "1.1.0 adult", "L4 12 EUR", "sub adult female", "x3", "ex Mexico", "")


def processor_seconds(command: list[str]) -> float:
    """User and system time of a child process."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, env=_ENVIRON, check=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def namekeeper(*arguments: str) -> list[str]:
    return [sys.executable, "-m", "namekeeper", *arguments]


def measure_processes() -> None:
    jobs = {
        "pass": [sys.executable, "-c", "pass"],
        "exact": namekeeper("lookup", "--offline", "Tliltocatl vagans"),
        "similar": namekeeper("lookup", "--offline", "Tliltocatl vagnas"),
    }
    seconds: dict[str, list[float]] = {job: [] for job in jobs}
    for _run in range(_RUNS):
        for job, command in jobs.items():
            seconds[job].append(processor_seconds(command))
    bare = median(seconds["pass"])
    for job, limit in (("exact", EXACT), ("similar", SIMILAR)):
        print(f"lookup, {job}: {median(seconds[job]) / bare:.1f} times a bare process (limit {limit})", flush=True)


def mixed_tags(count: int) -> list[str]:
    """Whole, shortened and misspelt names and common names among what else stands on tags."""
    names = real_names()
    chance = random.Random(7)
    wrong = iter(damaged(names, count // 4))
    commons = ("Mexican red knee", "GBB", "Rotknie-Vogelspinne", "emperor scorpion", "curly hair")
    tags = []
    for number in range(count):
        name = chance.choice(names)
        genus, _, epithet = name.partition(" ")
        text = (name, f"{genus[0]}. {epithet}", next(wrong)[1] if number % 4 == 2 else "", chance.choice(commons))[
            number % 4
        ]
        tags.append(f"{text} {chance.choice(_NOISE)}".strip())
    return tags


def measure_tags(count: int) -> None:
    """Looking tags up in two lists, against reading them and asking a dictionary for the names read."""
    from namekeeper.files.places import Places
    from namekeeper.reading.tag import read_tag
    from namekeeper.sources.lists.registry import open_lists
    from namekeeper.tasks.lookup import look_up

    tags = mixed_tags(count)
    known = set(real_names())
    with open_lists(Places.from_environ(_ENVIRON), print) as lists:
        list(look_up(tags[:50], lists))
        started = time.process_time()
        found = sum(text in known for tag in tags for text in read_tag(tag).scientific)
        read = time.process_time() - started
        started = time.process_time()
        answers = list(look_up(tags, lists))
        looked = time.process_time() - started
    print(
        f"{len(answers)} tags: {1e3 * looked / count:.2f} ms a tag, {looked / read:.1f} times reading and a dictionary"
    )
    print(f"(the dictionary had {found} of the names as written)", flush=True)


def measure_misspelt(count: int) -> None:
    """Misspelt names as whole tags: the part that an index alone takes, and the whole, against a scan of every name.

    The whole is reading, similar names in both lists, common names spelt so, and the answer; best of some rounds.
    """
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    from namekeeper.files.places import Places
    from namekeeper.sources.lists.folding import folded
    from namekeeper.sources.lists.registry import open_lists
    from namekeeper.tasks.lookup import look_up

    names = [folded(name) for name in real_names()]
    tags = [wrong for _, wrong in damaged(real_names(), count, seed=2112)]
    asked = [folded(tag) for tag in tags[:: max(1, count // _SCANNED)]]

    def scan() -> None:
        for text in asked:
            process.extractOne(text, names, scorer=OSA.distance)

    def whole() -> None:
        with open_lists(Places.from_environ(_ENVIRON), print) as lists:
            for _ in look_up(tags, lists):
                pass

    def part() -> None:
        with open_lists(Places.from_environ(_ENVIRON), print) as lists:
            for tag in tags:
                for origin in lists:
                    origin.similar(tag)

    best = {job: min(_seconds(job) for _ in range(_ROUNDS)) for job in (scan, part, whole)}
    one = best[scan] / len(asked)
    for job, limit in ((part, ""), (whole, f" (limit {MISSPELT})")):
        each = best[job] / count
        times = f"{one / each:.0f} times faster than a scan{limit}"
        print(f"{count} misspelt tags, {job.__name__}: {1e3 * each:.2f} ms a tag, {times}", flush=True)


def _seconds(job: Callable[[], None]) -> float:
    started = time.process_time()
    job()
    return time.process_time() - started


def main(arguments: list[str]) -> int:
    gc.set_threshold(50_000, 20, 20)
    FOLDER.mkdir(exist_ok=True)
    if not (_HOME / "data" / "lists" / "ncbi" / "current").is_file():
        source = str(table(real_names()))
        subprocess.run(namekeeper("lists", "add", source, "--as", "ncbi", "--edition", "1"), env=_ENVIRON, check=True)
    processor_seconds(namekeeper("lookup", "--offline", "Tliltocatl vagnas"))
    measure_processes()
    measure_misspelt(2_000)
    measure_tags(int(arguments[0]) if arguments else 10_000)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
