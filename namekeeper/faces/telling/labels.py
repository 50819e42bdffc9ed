"""What ``labels`` says, for persons and for programs (contract section 5)."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

from namekeeper.faces.console import Console
from namekeeper.labels.layout import Layout
from namekeeper.labels.markup import Placed
from namekeeper.labels.ruler_page import instructions
from namekeeper.labels.sheets import StickerSheet, shown
from namekeeper.labels.status import LabelStatus
from namekeeper.tasks.labels import LabelPlan


def plan(done: LabelPlan, written: Path | None, console: Console, *, as_json: bool) -> None:
    """A run of labels; ``written`` is None where nothing was printed."""
    if as_json:
        console.json(
            {
                "pages": done.pages if written else 0,
                "labels": [_label(one, done.sheet) for one in done.placed] if written else [],
                "refused": [{"specimen": one.specimen.id, "why": one.why} for one in done.refused],
            }
        )
    elif written is not None:
        sheets = "1 page" if done.pages == 1 else f"{done.pages} pages"
        labels = "1 label" if len(done.placed) == 1 else f"{len(done.placed)} labels"
        console.put_folded(f"{labels} on {sheets} of {done.sheet.key}: {written}")
        if written.suffix.casefold() == ".pdf":
            console.put_folded("Print at actual size (100 %).")


def _label(one: Placed, sheet: StickerSheet) -> dict[str, object]:
    row, column = divmod(one.place, sheet.columns)
    x, y = sheet.corner(one.place)
    return {
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


def sheets(found: Sequence[StickerSheet], console: Console, *, as_json: bool) -> None:
    """All sheets known."""
    if as_json:
        console.json({"sheets": [_sheet(one) for one in found]})
        return
    rows = [
        (one.key, f"{one.columns} x {one.rows}", f"{shown(one.width)} x {shown(one.height)}", one.warning())
        for one in found
    ]
    console.table(("sheet", "grid", "label, mm", ""), rows)


def _sheet(one: StickerSheet) -> dict[str, object]:
    return {
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
        "warning": one.warning(),
    }


def templates(found: Sequence[tuple[Layout, Path]], console: Console, *, as_json: bool) -> None:
    """All templates known."""
    if as_json:
        rows = [{"name": layout.key, "title": layout.title, "folder": str(folder)} for layout, folder in found]
        console.json({"templates": rows})
        return
    console.table(("template", "", "folder"), [(layout.key, layout.title, str(folder)) for layout, folder in found])
    console.put()
    console.put_folded("To make your own, copy a folder into label_templates/ of your collection and change it.")


def test_page(sheet: StickerSheet, written: Path, console: Console, *, as_json: bool) -> None:
    """A test page was written."""
    if as_json:
        console.json({"sheet": sheet.key, "file": str(written)})
    else:
        console.put_folded(f"Test page: {written}")
        for line in instructions(sheet):
            console.put_folded(line)


def _mm(length: Fraction) -> float:
    return round(float(length), 6)
