"""Names and animals in a keeper's other files: what came in, what went out, what changes in a table."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from types import MappingProxyType

from namekeeper.evidence.verdicts import Verdict
from namekeeper.faces.telling.collection import fields_in_words, read_document
from namekeeper.faces.telling.documents import code, problem_rows
from namekeeper.faces.telling.lists import guess_document, guess_parts
from namekeeper.faces.telling.parts import BLANK, Grid, Heading, Part, TextLine, counted
from namekeeper.faces.telling.verdicts import in_short, in_words
from namekeeper.records.specimen import Specimen
from namekeeper.tasks.export import Exported
from namekeeper.tasks.renaming import Stays, StaysFor
from namekeeper.tasks.tables import CellLeft, Rewritten
from namekeeper.tasks.transfer import Imported, ImportPlan, RowKind, Unread, UnreadColumn

_ROWS_SHOWN = 12
_SAMPLE = 40
#: ``{0}`` stands for the names, or the id, that it is about.
_STAYS = MappingProxyType(
    {
        StaysFor.NEVER_CARRIED: "{0} never carried this name",
        StaysFor.MORE_BEHIND: "now {0}; something other than the authorship follows the name",
        StaysFor.SOMETHING_BEHIND: "now {0}; something follows the name in this cell",
        StaysFor.STILL_CARRIED: "some labels still carry this name: {0} is the other",
        StaysFor.SEVERAL: "may be {0}: give the specimen's id",
        StaysFor.AMONG_WORDS: "now {0}; the name is shortened or stands among other words",
        StaysFor.IN_FORMULA: "a formula holds this name as text: change it by hand",
    }
)
_ROW_KINDS = MappingProxyType(
    {
        RowKind.TITLE: "a title above the header",
        RowKind.HEADER: "the header again",
        RowKind.HEADING: "a heading over several columns",
        RowKind.TOTAL: "a sum",
        RowKind.EMPTY: "empty",
        RowKind.BROKEN: "its cells stand in no certain columns",
    }
)


def import_document(done: Imported) -> dict[str, object]:
    """The JSON of ``collection import``."""
    plan = done.plan
    return {
        "columns": dict(plan.headers),
        "imported": [
            {"row": number, **_imported(specimen), **read_document(plan.read_of(specimen.id))}
            for number, specimen in plan.specimens
        ],
        "left": [{"row": row.row, "why": row.why} for row in plan.left],
        "written": done.written,
        "read_as": plan.told,
        "unread": _unread_document(plan.unread),
        "refused": problem_rows(done.refused),
        **guess_document(plan.guessed),
    }


def _imported(specimen: Specimen) -> dict[str, object]:
    return {
        "specimen": specimen.id,
        "tag": specimen.tag or None,
        "name": specimen.names[-1].name if specimen.names else None,
        "acquired": specimen.acquired.text if specimen.acquired else None,
    }


#: What a column of a keeper's table may hold.
COLUMN_WORDS = MappingProxyType(
    {
        "id": "Number", "tag": "Tag, as the seller wrote it", "name": "Scientific name", "genus": "Genus",
        "subgenus": "Subgenus", "epithet": "Second word of the name", "infraspecific": "Third word of the name",
        "authorship": "Author and year", "author": "Author", "year": "Year of the name",
        "brackets": "Whether the author stands in brackets", "qualifier": "Doubt about the name (cf., aff., ?)",
        "since": "Has this name since", "decided_by": "Named by", "acquired": "Here since", "died": "Died on",
        "sold": "Sold on", "sex": "Sex, or count: male.female.unsexed", "males": "Males", "females": "Females",
        "unsexed": "Unsexed", "count": "How many", "locality": "Locality it came from",
        "municipality": "Municipality it came from", "province": "Province it came from",
        "country": "Country it came from", "from": "Seller", "place": "Where it stands", "note": "Note",
        "common": "Common name", "stage": "Stage", "size": "Size", "price": "Price",
    }
)  # fmt: skip


def import_parts(done: Imported) -> Iterator[Part]:
    """How the table was read, its first animals, and the rows that are left."""
    plan = done.plan
    yield TextLine(f"Read as {plan.told}.")
    yield from guess_parts(plan.guessed)
    if plan.headers:
        yield Grid(("field", "column"), list(plan.headers.items()))
        yield BLANK
    yield from _animals(plan)
    yield from _unread_parts(plan.unread)
    if plan.left:
        yield Heading("Rows that are left")
        yield Grid(("row", "why"), [(str(row.row), row.why) for row in plan.left])
    yield BLANK
    count = f"{counted(len(plan.specimens), 'row')} {'written' if done.written else 'would be written'}"
    yield TextLine(f"{count}, {len(plan.left)} left.")
    if not done.written:
        yield TextLine("Nothing is written without --write.")


def _unread_document(unread: Unread) -> dict[str, object]:
    """What of the table is not read; ``suggestion`` is a field for the column, null where none suggests itself."""
    return {
        "columns": [
            {"column": one.header, "sample": one.sample, "cells": one.cells, "suggestion": one.field or None}
            for one in unread.columns
        ],
        "sheets": [{"sheet": one.name, "rows": one.rows, "header": list(one.header)} for one in unread.sheets],
        "rows": [{"row": one.row, "sample": one.sample, "why": one.why.value} for one in unread.rows],
        "merged": unread.merged,
    }


def _unread_parts(unread: Unread) -> Iterator[Part]:
    """Columns, sheets and rows of which nothing is read, each with what to do about it."""
    if unread.columns:
        yield Heading("Columns that are not read")
        yield Grid(
            ("column", "first text", "cells", "to read it"),
            [(one.header, one.sample[:_SAMPLE], str(one.cells), _remedy(one)) for one in unread.columns],
        )
    if unread.sheets:
        yield Heading("Sheets that are not read")
        rows = [
            (one.name, str(one.rows), ", ".join(one.header)[:_SAMPLE], f"--sheet '{one.name}'") for one in unread.sheets
        ]
        yield Grid(("sheet", "rows", "header", "to read it"), rows)
    empty = sum(one.why is RowKind.EMPTY for one in unread.rows)
    passed = [one for one in unread.rows if one.why is not RowKind.EMPTY]
    if passed:
        yield Heading("Rows that are no animals")
        yield Grid(("row", "first text", "why"), [(str(r.row), r.sample[:_SAMPLE], _ROW_KINDS[r.why]) for r in passed])
    if empty or unread.merged:
        said = (f"{empty} empty between the others" if empty else "", _merged(unread.merged))
        yield TextLine(f"Rows: {'; '.join(filter(None, said))}.")


def _merged(count: int) -> str:
    cells = counted(count, "cell takes", "cells take")
    return f"{cells} the text of the merged cell around" if count else ""


def _remedy(column: UnreadColumn) -> str:
    return f"--column {column.field or 'FIELD'}='{column.header}'"


def _animals(plan: ImportPlan) -> Iterator[Part]:
    rows = [
        (
            str(row), animal.id, animal.tag, animal.names[-1].name if animal.names else "", str(animal.acquired or ""),
            fields_in_words(plan.read_of(animal.id).taken),
        )
        for row, animal in plan.specimens[:_ROWS_SHOWN]
    ]  # fmt: skip
    headers = ("row", "id", "tag", "name", "acquired", "read from the tag")
    told = len(headers) if any(row[-1] for row in rows) else len(headers) - 1
    yield Grid(headers[:told], [row[:told] for row in rows])
    if len(plan.specimens) > _ROWS_SHOWN:
        yield TextLine(f"... and {len(plan.specimens) - _ROWS_SHOWN} more")


def export_document(done: Exported) -> dict[str, object]:
    """The JSON of ``collection export``; ``licensed`` is null where no archive was asked for."""
    return {
        "files": [str(path) for path in done.files],
        "specimens": done.specimens,
        "kept_back": list(done.kept_back),
        "licensed": done.licensed,
        "problems": problem_rows(done.problems),
    }


def export_parts(done: Exported) -> Iterator[Part]:
    """What was exported, and where to."""
    yield TextLine(f"{counted(done.specimens, 'animal')}: {', '.join(map(str, done.files))}")
    if done.kept_back:
        fields = ",".join(done.kept_back)
        yield TextLine(f"Not in the archive: {', '.join(done.kept_back)}. With --with {fields} it goes out too.")


def unlicensed(done: Exported) -> tuple[str, ...]:
    """That nobody may use an archive without a licence, and what to do."""
    if done.licensed is not False:
        return ()
    what = "the archive says that no licence is given, so nobody may use it yet"
    return (f"{what}; write licence: and rights_holder: into collection.yaml, or give --licence and --rights-holder",)


def tables_document(done: Rewritten) -> dict[str, object]:
    """The JSON of ``tables`` (contract section 5)."""
    plan = done.plan
    return {
        "changes": [
            {"row": c.row, "column": c.column, "old": c.old, "new": c.new, "sheet": c.sheet} for c in plan.changes
        ],
        "left": [_left(cell) for cell in plan.left],
        "ids": [{"sheet": found.sheet, "column": found.column, "rows": found.rows} for found in plan.ids],
        "file": str(done.written) if done.written else None,
        "written": done.written is not None,
        "problems": problem_rows(done.problems),
    }


def _left(cell: CellLeft) -> dict[str, object]:
    """A cell that stays; ``reason`` is "verdict" where ``standing`` says it, null where the file cannot hold it."""
    why = cell.why
    return {
        "row": cell.row,
        "column": cell.column,
        "value": cell.value,
        "why": why_it_stays(cell),
        "reason": code(why.reason) if isinstance(why, Stays) else "verdict" if isinstance(why, Verdict) else None,
        "standing": code(why.standing) if isinstance(why, Verdict) else None,
        "sheet": cell.sheet,
    }


def why_it_stays(left: CellLeft, tell: Callable[[Verdict], str] = in_short) -> str:
    """Why a cell stays as it is; ``tell`` says what is held of its name."""
    match left.why:
        case Stays(reason, about):
            return _STAYS[reason].format(" or ".join(about))
        case Verdict():
            return tell(left.why)
        case said:
            return said


def tables_parts(done: Rewritten) -> Iterator[Part]:
    """The cells that change, those that stay, and what was written."""
    plan = done.plan
    for found in plan.ids:
        where = f" of sheet {found.sheet}" if found.sheet else ""
        yield TextLine(f"Ids stand in the column {found.column}{where}: rows with an id of yours: {found.rows}.")
    yield Grid(("row", "column", "old", "new"), [(str(c.row), c.column, c.old, c.new) for c in plan.changes])
    if plan.left:
        yield Heading("Cells that stay as they are")
        yield Grid(
            ("row", "column", "value", "why"),
            [(str(c.row), c.column, c.value, why_it_stays(c, partial(in_words, label=c.value))) for c in plan.left],
        )
    if not plan.changes:
        yield TextLine("No cell changes.")
    elif done.written is not None:
        yield TextLine(f"{counted(len(plan.changes), 'cell')} changed in the new table {done.written}")
    else:
        yield TextLine(f"{counted(len(plan.changes), 'cell')} would change. Nothing is written without --write.")
