"""``labels --stale`` for 24 changed specimens against importing the engine and rendering the same document.

Run: ``python -m tests.benchmarks.labels_small [REPEATS]``. CPU seconds of whole processes, median; the limit of the
ratio is that of issue 8. The command also reads the collection, opens the lists (compiled beforehand), checks the
names for open choices, fits, writes the file and records the prints (which is switched off here, so runs are alike).
"""

from __future__ import annotations

import os
import pickle
import resource
import subprocess
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path
from statistics import median

LIMIT = 1.3
_BARE = """
import pickle, sys, weasyprint
from weasyprint.text.fonts import FontConfiguration
parts, css, out = pickle.load(open(sys.argv[1], "rb"))
fonts = FontConfiguration()
style = weasyprint.CSS(string=css, font_config=fonts)
weasyprint.HTML(string=parts).write_pdf(out, font_config=fonts, stylesheets=[style])
"""


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


def bare_job(folder: Path, target: Path) -> None:
    """The same document for the bare renderer, with the fonts by their files."""

    from namekeeper.labels.markup import FONT_SCHEME
    from namekeeper.outside import Outside
    from namekeeper.tasks.desk import CollectionDesk
    from namekeeper.tasks.label_plan import Choices
    from namekeeper.tasks.labels import LabelDesk

    outside = Outside.of(folder, os.environ, lambda: datetime.now(UTC), print)
    desk = LabelDesk.open(CollectionDesk(folder, outside))
    job = desk.plan(desk.workshop(), Choices(stale=True)).job()
    css = job.css
    for face, path in job.fonts.items():
        css = css.replace(f'"{FONT_SCHEME}{face}"', f'"{path.as_uri()}"')
    target.write_bytes(pickle.dumps((job.parts[0], css, str(target.with_suffix(".pdf")))))


def main() -> None:
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as name:
        root = Path(name)
        os.environ["NAMEKEEPER_HOME"] = str(root / "home")
        collection(root / "animals", 24)
        bare_job(root / "animals", root / "job.pickle")
        (root / "bare.py").write_text(_BARE, encoding="utf-8")
        labels = [sys.executable, "-m", "namekeeper", "labels", str(root / "animals"), "--stale", "--no-record"]
        labels += ["-o", str(root / "labels.pdf")]
        bare = [sys.executable, str(root / "bare.py"), str(root / "job.pickle")]
        times: dict[str, list[float]] = {"labels": [], "bare": []}
        for _ in range(repeats):
            times["labels"].append(cpu_of(labels, dict(os.environ)))
            times["bare"].append(cpu_of(bare, dict(os.environ)))
        ours, plain = median(times["labels"]), median(times["bare"])
        print(f"24 changed specimens: {ours:.2f} s / {plain:.2f} s = {ours / plain:.2f} (limit {LIMIT})")


if __name__ == "__main__":
    main()
