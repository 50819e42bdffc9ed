"""What ``labels`` says, for persons and for programs (contract section 5)."""

from __future__ import annotations

import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path

from namekeeper.faces.telling.documents import code, failure_rows, problem_rows
from namekeeper.faces.telling.outdated import outdated_rows
from namekeeper.faces.telling.parts import BLANK, Folded, Grid, Part, counted
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_choices import WaitingSheet
from namekeeper.tasks.label_memory import LabelStatus
from namekeeper.tasks.label_plan import SMALL_NAME, LabelPlan, Refused
from namekeeper.tasks.labels import Printed, RulerSheet
from namekeeper.words.errors import Problem
from namekeeper.words.terms import MisfitReason

CAME_OUT = (
    "Print it now. Did the sheet come out well? y (remember these labels as printed), else nothing is remembered:"
)
NOT_RECORDED = "nothing is remembered of this sheet; once it comes out well, --printed remembers it"


def printed_document(done: Printed, problems: Sequence[Problem]) -> dict[str, object]:
    """The JSON of a run of labels, with the problems of the collection's files."""
    plan = done.plan
    return {
        "pages": plan.pages if done.written else 0,
        "labels": list(_labels(plan)) if done.written else [],
        "refused": [_refused(one, plan) for one in plan.refused],
        "sheet": plan.sheet.key,
        "template": plan.template.key,
        "file": str(done.written) if done.written else None,
        "outdated": outdated_rows(done.outdated),
        "failures": failure_rows(plan.failures),
        "problems": problem_rows((*problems, *done.unremembered)),
    }


def _refused(one: Refused, plan: LabelPlan) -> dict[str, object]:
    """A label that cannot be printed; ``larger`` is the smallest sheet that would do."""
    return {
        "specimen": one.specimen.id,
        "why": why(one, plan),
        "reason": code(one.misfit.reason),
        "field": one.misfit.field or None,
        "larger": one.larger.key if one.larger else None,
    }


def printed_parts(done: Printed) -> Iterator[Part]:
    """How many labels were written where; nothing where none were."""
    plan, written = done.plan, done.written
    if written is None:
        return
    sheets, labels = counted(plan.pages, "page"), counted(len(plan.placed), "label")
    yield Folded(f"{labels} on {sheets} of {plan.sheet.key}: {written}")
    if written.suffix.casefold() == ".pdf":
        yield Folded("Print at actual size (100 %).")


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
            "dropped": [*one.fitted.left_out, *one.fitted.content.undrawn],
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
    cutbacks = done.cutbacks()
    cut = [
        f"{words} {'; '.join(f'{one.field} ({_few(one.specimens)})' for one in some)}"
        for words, dropped in (("dropped, no room:", True), ("in shorter words:", False))
        if (some := [one for one in cutbacks if one.dropped is dropped])
    ]
    if undrawn := done.undrawn():
        told = "; ".join(f"{name} ({who}, for '{sign}')" for who, name, sign in undrawn[:5])
        more = f" and {len(undrawn) - 5} more" if len(undrawn) > 5 else ""
        cut.append(f"left out, no shipped type has these letters: {told}{more}")
    small = done.small_names()
    if small:
        cut.append(f"names under {SMALL_NAME:g} pt, hard to read at arm's length: {_few(small)}")
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


def why_nothing(done: LabelPlan, *, narrowed: bool) -> str:
    """Why a run printed nothing; ``narrowed``: only labels that are due or outdated were asked for."""
    if done.refused:
        return "nothing was printed" + ("; --skip-refused prints the others" if done.placed else "")
    return "every enclosure says the name in force" if narrowed else "there is no animal to print a label for"


def _few(ids: Sequence[str]) -> str:
    counted = Counter(ids)
    first = ", ".join(list(counted)[:5])
    return first if len(counted) <= 5 else f"{first} and {len(counted) - 5} more"


def status_document(found: Sequence[LabelStatus], problems: Sequence[Problem]) -> dict[str, object]:
    """The JSON of ``labels --status``."""
    rows = [
        {"specimen": one.specimen, "printed": one.printed, "in_force": one.in_force, "stale": one.stale}
        for one in found
    ]
    return {"status": rows, "problems": problem_rows(problems)}


def status_parts(found: Sequence[LabelStatus]) -> Iterator[Part]:
    """What every enclosure says."""
    yield Grid(
        ("label", "on the enclosure", "name in force", ""),
        [(one.specimen, one.printed or "as it came", one.in_force, "print" if one.stale else "") for one in found],
    )
    stale = sum(one.stale for one in found)
    yield BLANK
    says = "says" if stale == 1 else "say"
    yield Folded(f"{stale} of {counted(len(found), 'label')} no longer {says} the name in force.")
    never = sum(one.printed is None and not one.stale for one in found)
    if never:
        yield Folded(f"{counted(never, 'more was', 'more were')} never printed; --due prints both.")


def sheets_document(workshop: Workshop) -> dict[str, object]:
    """The JSON of ``labels --sheets`` (contract section 5)."""
    return {"sheets": list(_sheets(workshop))}


def sheets_parts(workshop: Workshop) -> Iterator[Part]:
    """All sheets known."""
    rows = [
        (
            one.key,
            f"{one.columns} x {one.rows}",
            one.measures,
            ", ".join(one.near_edges()),
        )
        for one in workshop.sheets.values()
    ]
    yield Grid(("sheet", "grid", "label, mm", "close to the edge*"), rows)
    white = {f"{float(one.usual_edge):g}" for one in workshop.sheets.values()}
    yield BLANK
    yield Folded(
        f"* Here labels reach into the {' or '.join(sorted(white))} mm that many printers leave white; "
        "text keeps clear of it."
    )


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
            "near_edges": list(one.near_edges()),
            "warning": _near_edge(one.near_edges(), one.usual_edge),
        }


def templates_document(workshop: Workshop) -> dict[str, object]:
    """The JSON of ``labels --templates``."""
    rows = [
        {"key": one.key, "name": one.key, "title": one.layout.title, "folder": str(one.folder)}
        for one in workshop.templates()
    ]
    return {"templates": rows, "problems": problem_rows(workshop.faults())}


def templates_parts(workshop: Workshop) -> Iterator[Part]:
    """All templates known."""
    rows = [(one.key, one.layout.title, str(one.folder)) for one in workshop.templates()]
    yield Grid(("template", "", "folder"), rows)
    yield BLANK
    yield Folded("To make your own, copy a folder into label_templates/ of your collection and change it.")


def ruler_document(made: RulerSheet, written: Path) -> dict[str, object]:
    """The JSON of ``labels --test-page``."""
    return {"sheet": made.sheet, "file": str(written)}


def ruler_parts(made: RulerSheet, written: Path) -> Iterator[Part]:
    """A test page was written, and what to do with it."""
    yield Folded(f"Test page: {written}")
    for line in made.instructions:
        yield Folded(line)


def _mm(length: Fraction) -> float:
    return round(float(length), 6)
