"""What the page costs on a collection of 1,000 animals: seconds beside the ratio to the task called directly.

``python -m tests.benchmarks.page_speed [SPECIMENS]``. Answers of the app in this process, without a network; processor
time, which other work on the machine does not change, but wall time for the sheet, which another process draws; the
median of some rounds. Limits in seconds: the collection 0.3 warm and 2.5 at first, an animal, a decision and a tag
0.1, the picture of a sheet 1.5; in bytes: a picture 100,000, a first page with all that it needs 120,000.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from urllib.parse import urlsplit

from namekeeper.faces.page.app import create_app
from namekeeper.faces.page.keeping import Keeping
from namekeeper.faces.page.safety import Guard
from namekeeper.tasks.aka import find_names
from namekeeper.tasks.check import check_folder
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_run import page_picture
from namekeeper.tasks.labels import LabelDesk
from namekeeper.tasks.tags import TagDesk
from namekeeper.tasks.watch import KEPT_ONLY
from tests.benchmarks.services_warm import collection, species
from tests.conftest import world

_ROUNDS = 5
_TAG = "Mex red knee (B. smithi) 0.0.1"
#: Seconds.
LIMITS = {
    "collection, first": 2.5,
    "collection, warm": 0.3,
    "one animal": 0.1,
    "one decision": 0.1,
    "one tag": 0.1,
    "sheet, warm": 1.5,
}


def timed(job: Callable[[], object], rounds: int = _ROUNDS, clock: Callable[[], float] = time.process_time) -> float:
    """Seconds, the median of some rounds."""
    took = []
    for _ in range(rounds):
        started = clock()
        job()
        took.append(clock() - started)
    return median(took)


def measure(root: Path, specimens: int) -> tuple[dict[str, tuple[float, float]], dict[str, int]]:
    """Seconds of each answer and of the task behind it; and bytes of a picture and of a first page."""
    outside = world(root, root / "home")
    folder = root / "animals"
    collection(folder, specimens, species(outside.places, 300))
    keeping = Keeping.of(outside)
    keeping.patience = 600.0
    keeping.open(folder)
    guard = Guard(8000)
    client = create_app(keeping, guard, lambda: None).test_client()
    base = f"http://{guard.host}"
    assert client.get(urlsplit(guard.start_link).path, base_url=base).status_code == 303

    def page(path: str) -> Callable[[], bytes]:
        def asked() -> bytes:
            with client.get(path, base_url=base) as answer:
                assert answer.status_code == 200, path
                return bytes(answer.get_data())

        return asked

    desk, animal, sheet = CollectionDesk.at(folder, outside), "S00007", "/labels/sheet.png?which=all"

    def tag() -> object:
        with TagDesk.open(outside, offline=True) as tags:
            return tags.read_all([_TAG])

    def drawn() -> object:
        labels = LabelDesk.open(desk)
        return page_picture(labels.plan(labels.workshop(), Choices(only=ids)), 1, 100, 12)

    first = timed(page("/animals"), 1)
    ids = tuple(one.id for one in keeping.in_view().view().collection.kept())[:24]
    label = keeping.in_view().view().finding(animal).label
    checked = timed(lambda: check_folder(desk, KEPT_ONLY))
    page(sheet)()
    seconds = {
        "collection, first": (first, checked),
        "collection, warm": (timed(page("/animals")), checked),
        "one animal": (timed(page(f"/animal/{animal}")), timed(lambda: find_names(label, outside))),
        "one decision": (timed(page(f"/decide/{animal}")), timed(lambda: check_folder(desk, KEPT_ONLY, (animal,)))),
        "one tag": (timed(page(f"/lookup?tags={_TAG}")), timed(tag)),
        "sheet, warm": (timed(page(sheet), clock=time.perf_counter), timed(drawn, clock=time.perf_counter)),
    }
    parts = ("/animals", "/static/look.css", "/static/page.js", "/static/label.woff")
    sizes = {"picture of a sheet": len(page(sheet)()), "first page": sum(len(page(part)()) for part in parts)}
    keeping.end(5)
    return seconds, sizes


def main(arguments: list[str]) -> int:
    """1 if a limit is passed."""
    with TemporaryDirectory() as root:
        seconds, sizes = measure(Path(root), int(arguments[0]) if arguments else 1000)
    worst = 0
    for what, (asked, task) in seconds.items():
        print(f"{what}: {1000 * asked:.0f} ms, {asked / task:.2f} of the task ({1000 * task:.0f} ms)")
        worst |= asked > LIMITS[what]
    for what, size in sizes.items():
        print(f"{what}: {size} bytes")
        worst |= size > (100_000 if what.startswith("picture") else 120_000)
    return int(worst)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
