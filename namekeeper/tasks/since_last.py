"""What a check says that the last one did not: for a job that runs on a schedule and is quiet when nothing changed."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from namekeeper.files.memory import recall, remember
from namekeeper.files.places import Places
from namekeeper.words.errors import FileError, Place, Problem

_VERSION = 1
_UNASKED = "unasked"
_TOLD = ("label", "standing", "proposed", "safe", "choices")


@dataclass(frozen=True, slots=True)
class SinceLast:
    """``changed`` holds the rows of the report that are new or say something else, ``gone`` specimens no longer in it.

    ``first`` if there was no earlier check to compare with: then every row counts as new. ``problem`` if this check
    could not be remembered, or the last one could not be read.
    """

    first: bool
    changed: tuple[Mapping[str, object], ...]
    gone: tuple[str, ...]
    problem: Problem | None = None

    @property
    def quiet(self) -> bool:
        """Whether there is nothing to tell."""
        return not self.changed and not self.gone and self.problem is None


def remember_and_compare(
    report_json: Mapping[str, object], folder: Path, places: Places, *, partial: bool = False
) -> SinceLast:
    """Compare a check (contract section 5, ``check``) with the last one of that folder, then remember it.

    Dates, editions and staleness do not count as change. A name that could not be asked this time is not news, and
    what was known of it stays remembered. ``partial``: only some specimens were checked or readable, so none
    counts as gone.
    """
    path = places.state / "checks" / f"{_digest(folder)}.json"
    before, problem = _remembered(path)
    rows = {str(row.get("specimen")): row for row in _rows(report_json)}
    now = {specimen: _essence(row) for specimen, row in rows.items()}
    known = before or {}
    silent = {specimen for specimen, essence in now.items() if essence["standing"] == _UNASKED and specimen in known}
    changed = [specimen for specimen in rows if specimen not in silent and known.get(specimen) != now[specimen]]
    gone = () if partial else tuple(specimen for specimen in known if specimen not in rows)
    kept = {specimen: essence for specimen, essence in known.items() if partial or specimen in rows}
    memory = kept | {specimen: essence for specimen, essence in now.items() if specimen not in silent}
    if memory != before:
        problem = _remember(path, memory) or problem
    return SinceLast(before is None, tuple(rows[specimen] for specimen in changed), gone, problem)


def _digest(folder: Path) -> str:
    return hashlib.sha256(os.fsencode(os.path.realpath(folder))).hexdigest()[:32]


def _rows(report_json: Mapping[str, object]) -> list[Mapping[str, object]]:
    rows = report_json.get("results")
    return [row for row in rows if isinstance(row, Mapping)] if isinstance(rows, list | tuple) else []


def _essence(row: Mapping[str, object]) -> dict[str, object]:
    """What a row says, as it comes back from a file."""
    essence: dict[str, object] = json.loads(json.dumps({key: row.get(key) for key in _TOLD}, default=str))
    return essence


def _remembered(path: Path) -> tuple[dict[str, dict[str, object]] | None, Problem | None]:
    what = "what the last check said cannot be read"
    damaged = Problem(what, "everything counts as new this time", Place(str(path)))
    try:
        whole = recall(path)
    except FileError:
        return None, damaged
    if whole is None:
        return None, None
    rows = whole.get("results") if isinstance(whole, dict) and whole.get("version") == _VERSION else None
    if isinstance(rows, dict) and all(isinstance(row, dict) for row in rows.values()):
        return rows, None
    return None, damaged


def _remember(path: Path, memory: Mapping[str, object]) -> Problem | None:
    try:
        remember(path, {"version": _VERSION, "results": memory})
    except FileError:
        return Problem("this check cannot be remembered", "the next one will tell the same again", Place(str(path)))
    return None
