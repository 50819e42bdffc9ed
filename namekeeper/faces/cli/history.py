"""``namekeeper history``: which names stood on a label, since when and why."""

from __future__ import annotations

import argparse
from pathlib import Path

from namekeeper.faces.cli.arguments import desk_of, partial_date, report_problems
from namekeeper.faces.cli.context import Context
from namekeeper.faces.console import Console
from namekeeper.labels.naming import name_text
from namekeeper.records.history import DatedEntry
from namekeeper.tasks.collection import open_collection
from namekeeper.tasks.history import SpecimenHistory, histories

HELP = "which names stood on a label, since when and why"


def options(parser: argparse.ArgumentParser) -> None:
    """Specimen, day on the label, day of knowledge, year."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the collection")
    parser.add_argument("specimens", metavar="ID", nargs="*", help="only these; all without")
    parser.add_argument("--on", metavar="DATE", type=partial_date, help="the name on the label that day")
    parser.add_argument("--known", metavar="DATE", type=partial_date, help="as it was recorded at that day")
    parser.add_argument("--year", metavar="Y", type=int, help="what changed in that year")
    parser.add_argument("--json", action="store_true", help="one JSON document on stdout")


def run(args: argparse.Namespace, context: Context) -> int:
    """Show the history; 2 if files have problems (a past entry changed outside the tool is one)."""
    collection = open_collection(desk_of(args.folder, context), context.console.say)
    told = histories(collection, context.today, only=args.specimens, on=args.on, known=args.known, year=args.year)
    if args.json:
        context.console.json({"specimens": [_document(history) for history in told]})
    else:
        for history in told:
            show_history(history, context.console, by_day=bool(args.on or args.known))
        if not told:
            context.console.put("No name changed." if args.year else "No specimens.")
    asked = set(args.specimens)
    problems = [p for p in collection.problems if not asked or p.place.specimen in asked]
    report_problems(problems, context, quiet=True)
    return 2 if problems else 0


def _document(history: SpecimenHistory) -> dict[str, object]:
    return {
        "specimen": history.specimen.id,
        "entries": [_entry(dated) for dated in history.entries],
        "on": {"date": history.on.isoformat(), "name": history.name.name if history.name else None},
    }


def _entry(dated: DatedEntry) -> dict[str, object]:
    entry = dated.entry
    return {
        "name": entry.name,
        "authorship": entry.authorship,
        "since": entry.since.text if entry.since else None,
        "recorded": entry.recorded.text if entry.recorded else None,
        "standing": entry.standing,
        "according_to": entry.according_to,
        "source": entry.source,
        "retrieved": entry.retrieved,
        "link": entry.link,
        "licence": entry.licence,
        "decided_by": entry.decided_by,
        "note": entry.note,
        "form": entry.form,
        "qualifier": entry.qualifier,
        "trade_form": entry.trade_form,
        "undone": dated.undone,
    }


def show_history(history: SpecimenHistory, console: Console, *, by_day: bool = False) -> None:
    """The dated names of one specimen."""
    specimen = history.specimen
    console.heading(specimen.id)
    if specimen.tag:
        console.put(f"tag: {specimen.tag}")
    if by_day:
        console.put(f"on {history.on}: {name_text(history.name) if history.name else 'only the tag'}")
    console.table(
        ("since", "recorded", "name", "standing", "why"),
        [_row(dated) for dated in history.entries],
    )
    if specimen.left:
        console.put(f"left {specimen.left.date or ''}: {specimen.left.how}")


def _row(dated: DatedEntry) -> tuple[str, ...]:
    entry = dated.entry
    standing = entry.standing + (" (undone)" if dated.undone else "")
    if entry.undoes:
        standing += f" entry {entry.undoes}"
    why = "; ".join(text for text in (entry.according_to, entry.source, entry.form, entry.note, entry.link) if text)
    return (
        str(entry.since or ""),
        str(entry.recorded or ""),
        f"{name_text(entry)} {entry.authorship}".strip(),
        standing,
        why,
    )
