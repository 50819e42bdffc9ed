"""Carry new names into a keeper's other tables: what is certain is changed, everything else is listed."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.verdicts import Verdict
from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.reading import read_named
from namekeeper.records.specimen import Collection, NameEntry, Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tables.grid import EditableTable
from namekeeper.tables.open_table import editable
from namekeeper.tasks.check import check_collection
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.renaming import CollectionNames, Judged, WhyStays
from namekeeper.tasks.table_view import SheetView
from namekeeper.words.errors import NOWHERE, InputError, Problem
from namekeeper.words.terms import Standing

#: Judges names that no label of the collection carries: the new entry, or why there is none; None for a good name.
JudgeOthers = Callable[[Sequence[str]], Judged]


@dataclass(frozen=True, slots=True)
class CellChange:
    """A cell that changes; ``row`` from 1 with the header counted, ``column`` its header or letter."""

    row: int
    column: str
    old: str
    new: str
    sheet: str = ""


@dataclass(frozen=True, slots=True)
class CellLeft:
    """A cell with an outdated or unclear name that stays as it is, and why."""

    row: int
    column: str
    value: str
    why: WhyStays
    sheet: str = ""


@dataclass(frozen=True, slots=True)
class IdsFound:
    """By which column of a sheet the animals are found, and in how many rows it holds an id of the collection."""

    sheet: str
    column: str
    rows: int


@dataclass(frozen=True, slots=True)
class TablePlan:
    """What would change in a table, what would not, and the file with the changes made."""

    changes: tuple[CellChange, ...]
    left: tuple[CellLeft, ...]
    content: bytes
    ids: tuple[IdsFound, ...] = ()


@dataclass(frozen=True, slots=True)
class TableWishes:
    """Headers the keeper names: the column to look into and that of the ids; None: found out here."""

    column: str | None = None
    id_column: str | None = None
    encoding: str = ""  # of a text table; empty: found out


@dataclass(frozen=True, slots=True)
class Rewritten:
    """What changes in a table; ``written`` is the new table, None if it was not made."""

    plan: TablePlan
    written: Path | None
    problems: tuple[Problem, ...] = ()  # in files of the collection

    @property
    def exit_code(self) -> int:
        """0 if nothing is left to do, 1 if cells are left or not written, 2 if the collection has problems."""
        open_end = self.plan.left or (self.plan.changes and self.written is None)
        return 2 if self.problems else 1 if open_end else 0


def rewrite_table(
    desk: CollectionDesk, table: Path, wishes: TableWishes, target: Path | None = None, *, write: bool
) -> Rewritten:
    """Find outdated names in a table, and with ``write`` make a new one beside it or at ``target``.

    :raises InputError: if it is no such table, has no column of that header, or ``target`` exists.
    :raises FileError: if a file cannot be read or written.
    """
    outside, collection = desk.outside, desk.open()
    place = outside.folder / table
    with open_lists(outside.places, outside.notice) as lists:
        plan = plan_table(collection, read_named(place), wishes, _judge_with(lists, collection, desk.today))
    path = _new_path(place, outside.folder / target if target else None)
    made = write and bool(plan.changes)
    if made:
        replace_whole(DiskFiles(), path, plan.content)
    return Rewritten(plan, path if made else None, collection.problems)


def plan_table(
    collection: Collection, content: bytes, wishes: TableWishes, judge_others: JudgeOthers = lambda names: {}
) -> TablePlan:
    """Find outdated names in a CSV, XLSX or ODS table: by the specimen's id in the row, else by the name.

    :raises InputError: if it is no such table or has no column of that header.
    """
    file = editable(content, wishes.encoding)
    known = CollectionNames.of(collection)
    changes: list[CellChange] = []
    left: list[CellLeft] = []
    edits: dict[str, dict[tuple[int, int], str]] = {}
    sheets = [SheetView.of(sheet, known, wishes.column, wishes.id_column) for sheet in file.sheets()]
    _require(wishes.column, sheets, [view for view in sheets if view.searched])
    _require(wishes.id_column, sheets, [view for view in sheets if view.id_column is not None])
    others = judge_others(tuple(dict.fromkeys(name for view in sheets for name in view.unknown_names(known))))
    for view in sheets:
        found = [(spot, view.outcome(spot, known, others)) for spot in view.candidates()]
        wanted = {(s.row, s.column): new for s, (new, _) in found if new}
        unsafe = file.unsafe(view.name, wanted)
        for spot, (new, why) in found:
            place = (spot.row, spot.column)
            reason = why or unsafe.get(place, "")
            if reason:
                left.append(CellLeft(spot.row, view.title(spot.column), spot.text, reason, view.name))
            elif new:
                changes.append(CellChange(spot.row, view.title(spot.column), spot.text, new, view.name))
        edits[view.name] = {place: new for place, new in wanted.items() if place not in unsafe}
    ids = tuple(IdsFound(v.name, v.title(v.id_column), len(v.ids)) for v in sheets if v.id_column is not None)
    return TablePlan(tuple(changes), tuple(left), _made(file, edits, content), ids)


def _require(header: str | None, sheets: Sequence[SheetView], having: Sequence[SheetView]) -> None:
    if header is not None and not having:
        what = f"the table has no column '{header}'"
        raise InputError(what, remedy="its columns: " + ", ".join(dict.fromkeys(t for v in sheets for t in v.titles())))


def _judge_with(lists: Sequence[NameList], collection: Collection, today: date) -> JudgeOthers:
    """Names that are on no label are judged as a check without a label date would."""

    def judge(names: Sequence[str]) -> Judged:
        asked = tuple(Specimen(str(i), NOWHERE, names=(NameEntry(name),)) for i, name in enumerate(names))
        report = check_collection(Collection("", collection.settings, asked, ()), lists, today)
        judged: dict[str, NameEntry | Verdict | None] = {}
        for finding in report.findings:
            verdict = finding.verdict
            if verdict.safe and verdict.proposed:
                judged[finding.label] = NameEntry(verdict.proposed.name, verdict.proposed.authorship)
            elif verdict.standing not in (Standing.CURRENT, Standing.UNASKED, Standing.UNKNOWN):
                judged[finding.label] = verdict
        return judged

    return judge


def _new_path(table: Path, given: Path | None) -> Path:
    """Where the new table goes: beside the old one, never over a file that is there.

    :raises InputError: if the given file exists.
    """
    if given is not None:
        if os.path.exists(given):  # noqa: PTH110 - never raises
            what = f"{given} is there already"
            raise InputError(what, remedy="give another name with -o")
        return given
    number = 1
    while True:
        path = table.with_name(f"{table.stem}-new-names{'' if number == 1 else f'-{number}'}{table.suffix}")
        if not os.path.exists(path):  # noqa: PTH110 - never raises
            return path
        number += 1


def _made(file: EditableTable, edits: Mapping[str, Mapping[tuple[int, int], str]], content: bytes) -> bytes:
    wanted = {sheet: cells for sheet, cells in edits.items() if cells}
    return file.replaced(wanted) if wanted else content
