"""The pocket file in a browser: how long it takes to open and to answer, as on a phone six times slower than this.

``python -m tests.benchmarks.pocket_speed [TAGS]``. The file of the starter list, opened in Debian's chromium; made
tags (``tests/pocket/tags.py``) are typed into the page one by one under six-fold throttling of the processor (Chrome
DevTools Protocol, ``Emulation.setCPUThrottlingRate``). Limits: first open 300 ms unthrottled, an answer 100 ms at the
95th percentile and 250 ms at most; read them on a machine that does nothing else.
"""

from __future__ import annotations

import sys
import time
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from namekeeper.faces.telling.pocket import pocket_page
from namekeeper.outside import Outside
from namekeeper.sources.lists.registry import starter
from namekeeper.tasks.pocket import fill_pocket
from tests.chromium import chromium
from tests.pocket.tags import made_tags

THROTTLE = 6
OPEN, USUAL, MOST = 300.0, 100.0, 250.0  # ms
_ASK = """tags => tags.map(tag => {
  const field = document.getElementById("tag");
  field.value = tag;
  const started = performance.now();
  document.getElementById("ask").requestSubmit();
  return performance.now() - started;
})"""


def measure(many: int) -> tuple[float, list[float]]:
    """Milliseconds until the file is open, and of every answer in ascending order."""
    with TemporaryDirectory() as root:
        outside = Outside.of(Path(root), {"NAMEKEEPER_HOME": f"{root}/home"}, lambda: datetime.now(UTC), print)
        file = Path(root) / "pocket.html"
        file.write_text(pocket_page(fill_pocket(outside, None)), encoding="utf-8")
        own = starter(outside.places, outside.notice)
        tags = made_tags(list(own.whole().every_name()), list(own.whole().every_common()), many)
        own.close()
        with chromium() as browser:
            page = browser.new_page(viewport={"width": 390, "height": 844})
            page.goto("about:blank")
            started = time.perf_counter()
            page.goto(file.as_uri())
            opened = (time.perf_counter() - started) * 1000
            page.evaluate("pocket.ready()")
            page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": THROTTLE})
            return opened, sorted(page.evaluate(_ASK, tags))


def main(arguments: list[str]) -> int:
    """1 if a limit is passed."""
    opened, answers = measure(int(arguments[0]) if arguments else 1000)
    usual, most = answers[int(len(answers) * 0.95)], answers[-1]
    worst = 0
    for what, found, limit in (("first open", opened, OPEN), ("95 of 100", usual, USUAL), ("slowest", most, MOST)):
        print(f"{what}: {found:.0f} ms (limit {limit:.0f})")
        worst |= found > limit
    return worst


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
