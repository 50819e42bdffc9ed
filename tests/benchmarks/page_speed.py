"""What the page costs on a collection of 1,000 animals: seconds beside the ratio to the task called directly.

``python -m tests.benchmarks.page_speed [SPECIMENS]``. Answers of the app, without a network, in processor time, which
other work on the machine does not change: that of this process, and for a sheet that of its drawing, which is done
here for once. A click on a place is timed in the browser, by the clock of the page, and the quickest counts. Else the
median of some rounds. Limits in seconds: the collection 0.3 warm and 2.5 at first, an animal, a decision and a tag
0.1, the picture of a sheet 1.5, a click 0.05; in bytes: a picture 100,000, a first page with all that it needs 120,000.
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
from namekeeper.faces.page.sheet_process import SheetMaker
from namekeeper.faces.page.sheets import COLOURS, DPI
from namekeeper.tasks.aka import find_names
from namekeeper.tasks.check import check_folder
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import LabelPlan
from namekeeper.tasks.label_run import page_picture
from namekeeper.tasks.labels import LabelDesk
from namekeeper.tasks.tags import TagDesk
from namekeeper.tasks.watch import KEPT_ONLY
from tests.benchmarks.services_warm import collection, species
from tests.chromium import chromium
from tests.conftest import world
from tests.page.driven.conftest import came_in, serving

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
    "click on a place": 0.05,
}
#: Milliseconds from a click until the place looks used; from the address of the labels.
_CLICKS = """() => [...document.querySelectorAll('[name="used"]')].map(box => {
    const start = performance.now();
    box.click();
    getComputedStyle(box.nextElementSibling).display;
    return performance.now() - start;
})"""


def timed(job: Callable[[], object], rounds: int = _ROUNDS) -> float:
    """Seconds of processor time, the median of some rounds."""
    took = []
    for _ in range(rounds):
        started = time.process_time()
        job()
        took.append(time.process_time() - started)
    return median(took)


def click(root: Path, folder: Path) -> float:
    """Seconds until a place looks used, on the page of all labels in a browser."""
    maker = SheetMaker()
    with (
        chromium() as browser,
        serving(root, root / "home", maker, folder) as (server, link),
        came_in(browser, link) as page,
    ):
        page.goto(f"http://{server.guard.host}/labels?which=all")
        page.locator('[name="used"]').first.wait_for(state="attached")
        return float(min(page.evaluate(_CLICKS))) / 1000


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

    def planned() -> LabelPlan:
        labels = LabelDesk.open(desk)
        return labels.plan(labels.workshop(), Choices())

    first = timed(page("/animals"), 1)
    label = keeping.in_view().view().finding(animal).label
    checked = timed(lambda: check_folder(desk, KEPT_ONLY))
    page(sheet)()
    plan = planned()
    drawing = timed(lambda: page_picture(plan, 1, DPI, COLOURS))
    seconds = {
        "collection, first": (first, checked),
        "collection, warm": (timed(page("/animals")), checked),
        "one animal": (timed(page(f"/animal/{animal}")), timed(lambda: find_names(label, outside))),
        "one decision": (timed(page(f"/decide/{animal}")), timed(lambda: check_folder(desk, KEPT_ONLY, (animal,)))),
        "one tag": (timed(page(f"/lookup?tags={_TAG}")), timed(tag)),
        "sheet, warm": (timed(page(sheet)) + drawing, drawing),
        "click on a place": (click(root, folder), 0.05),
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
    assert seconds.keys() == LIMITS.keys()
    for what, (asked, task) in seconds.items():
        print(f"{what}: {1000 * asked:.0f} ms, {asked / task:.2f} of the task ({1000 * task:.0f} ms)")
        worst |= asked > LIMITS[what]
    for what, size in sizes.items():
        print(f"{what}: {size} bytes")
        worst |= size > (100_000 if what.startswith("picture") else 120_000)
    return int(worst)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
