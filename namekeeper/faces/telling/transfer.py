"""Names and animals in a keeper's other files: what came in, what went out, what changes in a table."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from namekeeper.evidence.verdicts import Verdict
from namekeeper.faces.telling.lists import guess_document
from namekeeper.faces.telling.parts import BLANK, Grid, Heading, Part, TextLine
from namekeeper.faces.telling.verdicts import in_short, in_words
from namekeeper.tasks.tables import CellLeft, Rewritten
from namekeeper.tasks.transfer import Exported, Imported, ImportPlan

_ROWS_SHOWN = 12


def import_document(done: Imported) -> dict[str, object]:
    """The JSON of ``collection import``."""
    plan = done.plan
    return {
        "columns": dict(plan.headers),
        "imported": [{"row": number, "specimen": specimen.id} for number, specimen in plan.specimens],
        "left": [{"row": row.row, "why": row.why} for row in plan.left],
        "written": done.written,
        **guess_document(plan.guessed_encoding),
    }


def import_parts(done: Imported) -> Iterator[Part]:
    """How the table was read, its first animals, and the rows that are left."""
    plan = done.plan
    yield TextLine(f"Read as {plan.told}.")
    if plan.headers:
        yield Grid(("field", "column"), list(plan.headers.items()))
        yield BLANK
    yield from _animals(plan)
    if plan.left:
        yield Heading("Rows that are left")
        yield Grid(("row", "why"), [(str(row.row), row.why) for row in plan.left])
    yield BLANK
    count = f"{len(plan.specimens)} rows {'written' if done.written else 'would be written'}"
    yield TextLine(f"{count}, {len(plan.left)} left.")
    if not done.written:
        yield TextLine("Nothing is written without --write.")


def _animals(plan: ImportPlan) -> Iterator[Part]:
    rows = [
        (str(row), animal.id, animal.tag, animal.names[-1].name if animal.names else "", str(animal.acquired or ""))
        for row, animal in plan.specimens[:_ROWS_SHOWN]
    ]
    yield Grid(("row", "id", "tag", "name", "acquired"), rows)
    if len(plan.specimens) > _ROWS_SHOWN:
        yield TextLine(f"... and {len(plan.specimens) - _ROWS_SHOWN} more")


def export_document(done: Exported) -> dict[str, object]:
    """The JSON of ``collection export``."""
    return {"files": [str(path) for path in done.files], "specimens": done.specimens}


def export_parts(done: Exported) -> Iterator[Part]:
    """What was exported, and where to."""
    yield TextLine(f"{done.specimens} specimens: {', '.join(map(str, done.files))}")


def tables_document(done: Rewritten) -> dict[str, object]:
    """The JSON of ``tables`` (contract section 5)."""
    plan = done.plan
    changes = [{"row": c.row, "column": c.column, "old": c.old, "new": c.new, "sheet": c.sheet} for c in plan.changes]
    left = [{"row": c.row, "column": c.column, "value": c.value, "why": _why(c), "sheet": c.sheet} for c in plan.left]
    return {"changes": changes, "left": left}


def _why(left: CellLeft, tell: Callable[[Verdict], str] = in_short) -> str:
    return left.why if isinstance(left.why, str) else tell(left.why)


def tables_parts(done: Rewritten) -> Iterator[Part]:
    """The cells that change, those that stay, and what was written."""
    plan = done.plan
    yield Grid(("row", "column", "old", "new"), [(str(c.row), c.column, c.old, c.new) for c in plan.changes])
    if plan.left:
        yield Heading("Cells that stay as they are")
        yield Grid(
            ("row", "column", "value", "why"),
            [(str(c.row), c.column, c.value, _why(c, partial(in_words, label=c.value))) for c in plan.left],
        )
    if not plan.changes:
        yield TextLine("No cell changes.")
    elif done.written is not None:
        yield TextLine(f"{len(plan.changes)} cells changed in the new table {done.written}")
    else:
        yield TextLine(f"{len(plan.changes)} cells would change. Nothing is written without --write.")
