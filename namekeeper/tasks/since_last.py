"""What a check says that the last one did not: for a job that runs on a schedule and is quiet when nothing changed."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from namekeeper.files.memory import recall, remember
from namekeeper.tasks.check import UNREACHED, Finding, Report
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.words.errors import FileError, Place, Problem
from namekeeper.words.terms import Standing

_VERSION = 1


@dataclass(frozen=True, slots=True)
class News:
    """``report`` holds the findings of the ``whole`` check that are new or say something else than last time.

    ``gone`` are specimens no longer in the collection. ``first`` if there was no earlier check to compare with: then
    everything counts as new. ``problem`` if this check could not be remembered, or the last one could not be read.
    """

    whole: Report
    report: Report
    gone: tuple[str, ...]
    first: bool = False
    problem: Problem | None = None

    @property
    def quiet(self) -> bool:
        """Whether there is nothing to tell."""
        return not self.report.findings and not self.gone and self.problem is None

    @property
    def exit_code(self) -> int:
        """As of a check of what is new; a source that could not be asked is told even where the rest is no news."""
        return UNREACHED if self.whole.exit_code == UNREACHED else self.report.exit_code


def news_since_last(report: Report, desk: CollectionDesk, *, partial: bool) -> News:
    """Compare a check with the last one of that folder, then remember it.

    Dates, editions and staleness do not count as change. A name that could not be asked this time is not news, and
    what was known of it stays remembered. ``partial``: only some specimens were checked, so none counts as gone; nor
    does one where a file could not be read.
    """
    path = desk.outside.places.state / "checks" / f"{_digest(desk.folder)}.json"
    before, problem = _remembered(path)
    partial = partial or bool(report.problems)
    now = {finding.specimen.id: _essence(finding) for finding in report.findings}
    known = before or {}
    silent = {specimen for specimen, told in now.items() if told["standing"] == Standing.UNASKED and specimen in known}
    changed = {specimen for specimen in now if specimen not in silent and known.get(specimen) != now[specimen]}
    gone = () if partial else tuple(specimen for specimen in known if specimen not in now)
    kept = {specimen: essence for specimen, essence in known.items() if partial or specimen in now}
    memory = kept | {specimen: essence for specimen, essence in now.items() if specimen not in silent}
    if memory != before:
        problem = _remember(path, memory) or problem
    news = replace(report, findings=tuple(f for f in report.findings if f.specimen.id in changed))
    return News(report, news, gone, before is None, problem)


def _digest(folder: Path) -> str:
    return hashlib.sha256(os.fsencode(os.path.realpath(folder))).hexdigest()[:32]


def _essence(finding: Finding) -> dict[str, object]:
    """What a finding says, as it comes back from a file."""
    verdict, proposed = finding.verdict, finding.verdict.proposed
    return {
        "label": finding.label,
        "standing": str(verdict.standing),
        "proposed": {"name": proposed.name, "authorship": proposed.authorship} if proposed else None,
        "safe": verdict.safe,
        "choices": [{"name": one.name, "authorship": one.authorship} for one in verdict.choices],
    }


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
        return {specimen: _without_words(row) for specimen, row in rows.items()}, None
    return None, damaged


def _without_words(row: dict[str, object]) -> dict[str, object]:
    """A row as version 0.1 remembered it has the words of each choice's reason too; they are not compared."""
    choices = row.get("choices")
    if not isinstance(choices, list):
        return row
    bare = [{key: value for key, value in one.items() if key != "why"} for one in choices if isinstance(one, dict)]
    return row | {"choices": bare}


def _remember(path: Path, memory: Mapping[str, object]) -> Problem | None:
    try:
        remember(path, {"version": _VERSION, "results": memory})
    except FileError:
        return Problem("this check cannot be remembered", "the next one will tell the same again", Place(str(path)))
    return None
