"""A warm check (every answer kept) against the offline check of the same collection that judges, as a ratio.

``python -m tests.benchmarks.services_warm [SPECIMENS] [NAMES] [REPEATS]``. The collection is made of accepted species
of the starter list; the services are a server on this machine that accepts every name.
"""

from __future__ import annotations

import io
import sys
import time
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from namekeeper.files.places import Places
from namekeeper.sources.lists.registry import open_lists
from tests.conftest import run_here
from tests.services.local_server import serving
from tests.services.local_services import accepting, everywhere

LIMIT = 2.0


def collection(folder: Path, specimens: int, names: list[str]) -> None:
    """A folder with that many specimens, the names dealt out in turn."""
    (folder / "specimens").mkdir(parents=True)
    for number in range(specimens):
        name = names[number % len(names)]
        text = f"acquired: 2020-01-01\nnames:\n  - name: {name}\n    since: 2020-01-01\n    standing: as-labelled\n"
        (folder / "specimens" / f"S{number:05}.yaml").write_text(text, encoding="utf-8")


def species(places: Places, count: int) -> list[str]:
    """Names of the starter list in alphabetical order."""
    found: list[str] = []
    with open_lists(places, lambda text: None) as (starter, *_):
        for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ":
            found += [s.subject.name for s in starter.prefixed(letter, count) if len(s.subject.name.split()) == 2]
    return found[:count]


def measure(specimens: int, names: int, repeats: int) -> tuple[float, float, float, int, int]:
    """Best seconds offline, offline by the verdicts of the last check, and warm; questions asked cold and warm."""
    with TemporaryDirectory() as root, serving(accepting) as server:
        home = {"offline": Path(root) / "offline", "online": Path(root) / "online"}
        folder = Path(root) / "animals"
        collection(
            folder, specimens, species(Places(*(home["offline"] / part for part in ("cache", "state", "data"))), names)
        )

        def check(where: str, *more: str, anew: bool = False) -> float:
            for verdicts in home[where].rglob("verdicts/*.json") if anew else ():
                verdicts.unlink()
            environ = everywhere(server) | {"NAMEKEEPER_HOME": str(home[where])}
            words = ["check", str(folder), "--json", *more]
            start = time.perf_counter()
            run_here(words, Path(root), environ, io.StringIO(), clock=lambda: datetime.now(UTC))
            return time.perf_counter() - start

        check("offline", "--offline")
        check("online")
        cold = len(server.asked)
        rounds = [
            (check("offline", "--offline", anew=True), check("offline", "--offline"), check("online"))
            for _ in range(repeats)
        ]
        warm = len(server.asked) - cold
    judged, kept, online = map(min, zip(*rounds, strict=True))
    return judged, kept, online, cold, warm


def main(arguments: list[str]) -> None:
    specimens, names, repeats = (int(value) for value in (*arguments, *("1000", "120", "5")[len(arguments) :]))
    offline, kept, online, cold, warm = measure(specimens, names, repeats)
    print(
        f"{specimens} specimens, {names} names: warm {online:.2f} s / offline {offline:.2f} s = {online / offline:.2f} "
        f"(limit {LIMIT}); offline by kept verdicts {kept:.2f} s; questions of three services: cold {cold}, warm {warm}"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
