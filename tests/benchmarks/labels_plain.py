"""The same labels as one plain HTML document: the yardstick of :mod:`tests.benchmarks.labels_speed`."""

from __future__ import annotations

from html import escape
from io import BytesIO

from namekeeper.labels.fitted import Fitted
from namekeeper.labels.layout import STEP, Zone
from namekeeper.tasks.label_plan import LabelPlan


def plain_document(plan: LabelPlan, *, square: bool) -> str:
    """Labels placed by a style of their own, lines by classes, QR codes as inline SVG."""
    sheet = plan.sheet
    pages: dict[int, list[str]] = {}
    for one in plan.placed:
        x, y = (float(side) for side in sheet.corner(one.place))
        style = f"position:absolute;left:{x}mm;top:{y}mm;width:{float(sheet.width)}mm;height:{float(sheet.height)}mm"
        inner = "".join(f'<div class="zone {zone}">{_lines(one.fitted, zone)}</div>' for zone in Zone)
        code = _svg(plan.symbols[one.fitted.content.square].payload) if square and one.fitted.square else ""
        pages.setdefault(one.page, []).append(f'<div style="{style}">{inner}{code}</div>')
    body = "".join(f'<div class="page">{"".join(labels)}</div>' for labels in pages.values())
    width, height = (float(side) for side in sheet.paper)
    fonts = plan.workshop.fonts.items()
    faces = "".join(f'@font-face{{font-family:{face};src:url("{path.as_uri()}")}}' for face, path in fonts)
    css = (
        f"{faces}@page{{size:{width}mm {height}mm;margin:0}}body{{margin:0}}"
        f".page{{position:relative;width:{width}mm;height:{height}mm;break-after:page}}"
        ".zone{padding:0 2.4mm}.foot{position:absolute;bottom:2mm}p{margin:0;line-height:1.15}"
        "svg{position:absolute;right:2mm;bottom:2mm;width:12mm}"
    )
    return f"<!DOCTYPE html><html><head><style>{css}</style></head><body>{body}</body></html>"


def _lines(fitted: Fitted, zone: Zone) -> str:
    lines = []
    for one in fitted.sets:
        if one.block.zone is zone:
            for line in one.lines:
                spans = "".join(f'<span style="font-family:{face}">{escape(text)}</span>' for text, face in line.parts)
                lines.append(f'<p style="font-size:{one.size / STEP}pt">{spans}</p>')
    return "".join(lines)


def _svg(payload: str) -> str:
    import segno

    target = BytesIO()
    segno.make_qr(payload, error="m", boost_error=False).save(target, kind="svg", xmldecl=False, svgns=True)
    return target.getvalue().decode()


def render_plainly(html: str) -> bytes:
    """The document as the engine makes it without any help of ours."""
    import weasyprint

    pdf: bytes = weasyprint.HTML(string=html).write_pdf()
    return pdf
