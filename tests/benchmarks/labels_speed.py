"""Speed of label sheets against one plain HTML document of the same labels through the same layout engine.

Run: ``python -m tests.benchmarks.labels_speed [LABELS] [REPEATS]``. Every measurement is a process of its own; the
table shows medians, their ratios and limits, and peak memory. "Plain" is what a careful person
writes by hand: one document, every label placed by its own style, the same lines in the same type; its QR codes are
inline SVG. Ours includes fitting, drawing, tags and, with QR, making the symbols; there are 400 distinct names.
"""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import time
from datetime import date
from statistics import median

from namekeeper.evidence.statements import Caution
from namekeeper.labels.content import LabelWishes, SpeciesFacts
from namekeeper.records.specimen import NameEntry, Sex, Specimen
from namekeeper.tasks.label_bench import open_workshop
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import LabelPlan, plan_of
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Place
from namekeeper.words.terms import Verification
from tests.labels.animals import real_names

SHEET = "a4-3x7-63.5x38.1"
NAMES = (
    "Tliltocatl vagans", "Chromatopelma cyaneopubescens", "Poecilotheria metallica", "Avicularia avicularia",
    "Cyriocosmus elegantissimus", "Grammostola pulchra", "Pterinochilus murinus", "Lasiodora parahybana",
)  # fmt: skip
CAUTION = Caution("Tliltocatl", "genus", "urticating_setae", "Types I and III", "", "", "", Verification.VERIFIED)
LIMITS = {"plain": 0.1, "plain with QR": 0.1}
MOST_MEMORY = 120  # MB
DISTINCT = 400


def specimens(count: int) -> list[Specimen]:
    """Invented animals; dates and ids differ, names repeat as they do in a collection."""
    names = real_names()[::12][:DISTINCT]
    found = []
    for number in range(count):
        day = PartialDate.of(date(2015 + number % 10, 1 + number % 12, 1 + number % 28))
        found.append(
            Specimen(
                id=f"INV-{number:05d}",
                place=Place(specimen=f"INV-{number:05d}"),
                acquired=day,
                sex=Sex("0.1.0", 0, 1, 0),
                locality=f"Locality {number % 10}",
                names=(NameEntry(names[number % len(names)], authorship="Author, 1900", since=day),),
            )
        )
    return found


def plan(count: int, *, square: bool) -> LabelPlan:
    workshop = open_workshop(None)
    known = SpeciesFacts(cautions=(CAUTION,))
    wishes = LabelWishes(square="{id}" if square else "", square_off=not square)
    animals = [(specimen, known) for specimen in specimens(count)]
    return plan_of(animals, workshop, Choices(sheet=SHEET), wishes, date(2026, 11, 25))


def ours(count: int, *, square: bool) -> tuple[float, int]:
    start = time.process_time()
    pdf = plan(count, square=square).pdf()
    return time.process_time() - start, len(pdf)


def plain(count: int, *, square: bool) -> tuple[float, int]:
    """The hand-made document of the same fitted labels; only its rendering is timed, symbols included."""
    from tests.benchmarks.labels_plain import plain_document, render_plainly

    made = plan(count, square=square)
    start = time.process_time()
    pdf = render_plainly(plain_document(made, square=square))
    return time.process_time() - start, len(pdf)


def main() -> None:
    if sys.argv[1:2] == ["--one"]:
        kind, count, square = sys.argv[2], int(sys.argv[3]), sys.argv[4] == "qr"
        seconds, size = (ours if kind == "ours" else plain)(count, square=square)
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        sys.stdout.write(json.dumps({"seconds": seconds, "bytes": size, "peak": peak}))
        return
    compare(int(sys.argv[1]) if len(sys.argv) > 1 else 3000, int(sys.argv[2]) if len(sys.argv) > 2 else 5)


def compare(count: int, repeats: int) -> None:
    """Print the two comparisons."""
    for square, name in (("no", "plain"), ("qr", "plain with QR")):
        runs: dict[str, list[dict[str, float]]] = {"ours": [], "plain": []}
        for _ in range(repeats):
            for kind, done in runs.items():
                done.append(measured(kind, count, square))
        middle = {kind: median(run["seconds"] for run in made) for kind, made in runs.items()}
        peak = {kind: max(run["peak"] for run in made) for kind, made in runs.items()}
        print(
            f"{count} labels against {name}: {middle['ours']:.1f} s / {middle['plain']:.1f} s = "
            f"{middle['ours'] / middle['plain']:.3f} (limit {LIMITS[name]}); peak {peak['ours']:.0f} MB "
            f"(limit {MOST_MEMORY}, plain {peak['plain']:.0f}); {runs['ours'][0]['bytes'] / 1000:.0f} kB "
            f"({runs['plain'][0]['bytes'] / 1000:.0f})",
            flush=True,
        )


def measured(kind: str, count: int, square: str) -> dict[str, float]:
    """One measurement in a process of its own."""
    command = [sys.executable, "-m", "tests.benchmarks.labels_speed", "--one", kind, str(count), square]
    result: dict[str, float] = json.loads(subprocess.run(command, check=True, capture_output=True).stdout)
    return result


if __name__ == "__main__":
    main()
