"""The story of the demo, step by step."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from shlex import quote

from namekeeper.faces.telling.check import check_parts
from namekeeper.faces.telling.collection import history_parts
from namekeeper.faces.telling.lookup import lookup_parts
from namekeeper.faces.telling.parts import Folded, Grid, Heading, Part, TextLine, counted
from namekeeper.tasks.check import Report
from namekeeper.tasks.demo import Demo
from namekeeper.tasks.history import SpecimenHistory
from namekeeper.tasks.lookup import Looked

_TITLES = {"labels": "fresh labels for what changed", "report": "the report of the check"}


def demo_document(demo: Demo) -> dict[str, object]:
    """The JSON of ``demo`` (contract section 5)."""
    return {"path": str(demo.desk.folder), "files": {key: str(path) for key, path in demo.files.items()}}


def tags_told(demo: Demo, looked: Sequence[Looked]) -> Iterator[Part]:
    yield Heading("1. Reading sellers' tags")
    yield from lookup_parts(looked)
    yield Heading("2. A collection of our own")
    yield Folded(f"The insect room of an invented nature house was copied to {demo.shown}.")


def check_told(report: Report) -> Iterator[Part]:
    yield Heading(f"3. Checking {counted(len(report.findings), 'label')}")
    yield from check_parts(report)


def taken_told(changes: int) -> Iterator[Part]:
    yield Heading(f"4. {counted(changes, 'change')} that needed no judgement, now taken")
    yield Folded("The old names stay in each history, with the day and the paper. The rest waits for you.")


def history_told(history: SpecimenHistory) -> Iterator[Part]:
    yield Heading(f"5. The history of {history.specimen.id}")
    yield from history_parts(history)


def end_told(demo: Demo, program: str) -> Iterator[Part]:
    """What was written, and commands to go on with, as they run when pasted; ``program`` calls this one."""
    folder = quote(demo.shown)
    yield Heading("6. What was written")
    rows = [(_TITLES[key], f"{demo.shown}/{path.name}") for key, path in demo.files.items()]
    yield Grid(("what", "where"), [("the collection", demo.shown), *rows])
    yield Heading("What to try next")
    for line in (
        f"check {folder} --offline",
        f"settle {folder} --offline --write",
        f"history {folder} HW-011",
        'lookup "T. albopilosum curly hair 0.0.3"',
        'aka "Tliltocatl vagans"',
        "collection new my-animals",
    ):
        yield TextLine(f"  {program} {line}")
