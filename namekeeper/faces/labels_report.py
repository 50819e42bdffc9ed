"""What ``labels`` says, for persons and for programs (contract section 5)."""

from __future__ import annotations

import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path

from namekeeper.faces.console import Console
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_memory import LabelStatus
from namekeeper.tasks.label_plan import LabelPlan, Refused, WaitingSheet
from namekeeper.tasks.labels import RulerSheet
from namekeeper.words.errors import Problem
from namekeeper.words.terms import MisfitReason


def plan(done: LabelPlan, written: Path | None, console: Console, *, as_json: bool) -> None:
    """A run of labels; ``written`` is None where nothing was printed."""
    if as_json:
        console.json(
            {
                "pages": done.pages if written else 0,
                "labels": list(_labels(done)) if written else [],
                "refused": [{"specimen": one.specimen.id, "why": why(one, done)} for one in done.refused],
            }
        )
    elif written is not None:
        sheets = "1 page" if done.pages == 1 else f"{done.pages} pages"
        labels = "1 label" if len(done.placed) == 1 else f"{len(done.placed)} labels"
        console.put_folded(f"{labels} on {sheets} of {done.sheet.key}: {written}")
        if written.suffix.casefold() == ".pdf":
            console.put_folded("Print at actual size (100 %).")


def _labels(done: LabelPlan) -> Iterator[dict[str, object]]:
    sheet = done.sheet
    for one in done.placed:
        row, column = divmod(one.place, sheet.columns)
        x, y = sheet.corner(one.place)
        yield {
            "specimen": one.fitted.content.specimen,
            "page": one.page + 1,
            "row": row + 1,
            "column": column + 1,
            "x": _mm(x),
            "y": _mm(y),
            "width": _mm(sheet.width),
            "height": _mm(sheet.height),
            "name": one.fitted.content.printed_name,
            "name_pt": one.fitted.size_of("name"),
            "lines": list(one.fitted.lines()),
            "left_out": list(one.fitted.left_out),
            "shortened": list(one.fitted.shortened),
        }


def why(one: Refused, done: LabelPlan) -> str:
    """Why a label cannot be printed, and which sheet would do."""
    misfit = one.misfit
    if misfit.reason is MisfitReason.CHARACTER:
        name = unicodedata.name(misfit.character, "a character without a name").lower()
        code = f"U+{ord(misfit.character):04X}"
        return f"the {misfit.field} has '{misfit.character}' ({name}, {code}), which no shipped type can draw"
    room = f"{max(0.0, misfit.room.width):.1f} x {max(0.0, misfit.room.height):.1f} mm"
    if misfit.reason is MisfitReason.QR:
        what = f"a QR code of {misfit.square:.1f} mm beside name and id does not fit into {room}"
    elif misfit.reason is MisfitReason.WORD:
        what = f"a word of the {misfit.field} is wider than {room} allows"
    else:
        what = f"name, id and caution do not fit into {room}"
    larger = f"the smallest sheet that would do is {one.larger.key}" if one.larger else "no sheet known is large enough"
    return f"{what} ({done.sheet.key}); {larger}"


def problem(one: Refused, done: LabelPlan) -> Problem:
    """The same with what to do."""
    remedy = "take a larger sheet or another template, or correct what the specimen says"
    if one.misfit.reason is MisfitReason.CHARACTER:
        remedy = "settle a name where only the tag is known, or write that field in other letters"
    return Problem(f"no label from template {done.template.key}: {why(one, done)}", remedy, one.specimen.place)


def waiting(one: WaitingSheet) -> str:
    """A reminder of the partly used sheet."""
    return f"a sheet {one.key} with {one.free} free places should lie in your drawer; --drawer uses it"


def notices(done: LabelPlan) -> tuple[str, ...]:
    """What to know before printing: edges that stay white, what was left out or shortened, lists that failed."""
    edge = _near_edge(done.sheet.near_edges(), done.sheet.usual_edge)
    unasked = {
        f"cautions may be missing, a list could not be asked: {one.edition.title}: {one.why}" for one in done.failures
    }
    cut = [
        f"{'no room for' if one.dropped else 'shorter'} {one.field}: {_few(one.specimens)}" for one in done.cutbacks()
    ]
    return (*([f"{done.sheet.key}: {edge}"] if edge else ()), *cut, *sorted(unasked))


def not_remembered(fault: Problem) -> str:
    """The PDF is there, but what was printed could not be remembered."""
    return f"printed, but not remembered as printed: {fault}"


def _near_edge(edges: Sequence[str], within: Fraction) -> str:
    """A word of warning where labels reach the unprintable edge, else nothing."""
    if not edges:
        return ""
    return (
        f"labels reach into the {float(within):g} mm at the {', '.join(edges)} edge that many "
        "printers leave white; text keeps clear of it"
    )


def why_nothing(done: LabelPlan, *, stale: bool) -> str:
    """Why a run printed nothing; ``stale``: only labels that no longer say the name in force were asked for."""
    if done.refused:
        return "nothing was printed" + ("; --skip-refused prints the others" if done.placed else "")
    return "every enclosure says the name in force" if stale else "there is no animal to print a label for"


def _few(ids: Sequence[str]) -> str:
    counted = Counter(ids)
    first = ", ".join(list(counted)[:5])
    return first if len(counted) <= 5 else f"{first} and {len(counted) - 5} more"


def status(found: Sequence[LabelStatus], console: Console, *, as_json: bool) -> None:
    """What every enclosure says."""
    if as_json:
        rows = [
            {"specimen": one.specimen, "printed": one.printed, "in_force": one.in_force, "stale": one.stale}
            for one in found
        ]
        console.json({"status": rows})
        return
    console.table(
        ("specimen", "on the enclosure", "name in force", ""),
        [(one.specimen, one.printed or "as it came", one.in_force, "print" if one.stale else "") for one in found],
    )
    stale = sum(one.stale for one in found)
    console.put()
    console.put_folded(f"{stale} of {len(found)} labels no longer say the name in force.")


def sheets(workshop: Workshop, console: Console, *, as_json: bool) -> None:
    """All sheets known."""
    if as_json:
        console.json({"sheets": list(_sheets(workshop))})
        return
    rows = [
        (
            one.key,
            f"{one.columns} x {one.rows}",
            one.measures,
            _near_edge(one.near_edges(), one.usual_edge),
        )
        for one in workshop.sheets.values()
    ]
    console.table(("sheet", "grid", "label, mm", ""), rows)


def _sheets(workshop: Workshop) -> Iterator[dict[str, object]]:
    for one in workshop.sheets.values():
        yield {
            "key": one.key,
            "paper": [_mm(side) for side in one.paper],
            "columns": one.columns,
            "rows": one.rows,
            "width": _mm(one.width),
            "height": _mm(one.height),
            "left": _mm(one.left),
            "top": _mm(one.top),
            "pitch_x": _mm(one.pitch_x),
            "pitch_y": _mm(one.pitch_y),
            "marks": one.marks,
            "warning": _near_edge(one.near_edges(), one.usual_edge),
        }


def templates(workshop: Workshop, console: Console, *, as_json: bool) -> None:
    """All templates known."""
    found = [(one.key, one.layout.title, str(one.folder)) for one in workshop.templates()]
    if as_json:
        console.json({"templates": [{"name": key, "title": title, "folder": folder} for key, title, folder in found]})
        return
    console.table(("template", "", "folder"), found)
    console.put()
    console.put_folded("To make your own, copy a folder into label_templates/ of your collection and change it.")


def test_page(made: RulerSheet, written: Path, console: Console, *, as_json: bool) -> None:
    """A test page was written."""
    if as_json:
        console.json({"sheet": made.sheet, "file": str(written)})
    else:
        console.put_folded(f"Test page: {written}")
        for line in made.instructions:
            console.put_folded(line)


def _mm(length: Fraction) -> float:
    return round(float(length), 6)
