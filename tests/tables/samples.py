"""Small tables of our own in every format: formulas, formats, a second sheet, an annotation, repeated cells."""

from __future__ import annotations

import io
from datetime import date
from typing import Any

OLD, NEW = "Brachypelma vagans", "Tliltocatl vagans"
AUTHOR = "(Ausserer, 1875)"


def xlsx() -> bytes:
    """Two sheets; names as shared strings, one in rich text, one in a formula; styles, widths, a merged cell."""
    from openpyxl import Workbook
    from openpyxl.cell.rich_text import CellRichText, TextBlock
    from openpyxl.cell.text import InlineFont
    from openpyxl.styles import Font, PatternFill

    book = Workbook()
    sheet: Any = book.active
    sheet.title = "Feeding"
    sheet.append(["id", "date", "species", "price", "sum"])
    sheet.append(["INV-0001", date(2024, 5, 3), OLD, 12.5, "=D2*2"])
    sheet.append(["INV-0001", date(2024, 5, 9), f"{OLD} {AUTHOR}", 7, "=SUM(D2:D3)"])
    sheet.append(["INV-0002", date(2024, 6, 1), "Grammostola pulchra", 1, '=C2&" x"'])
    italic = InlineFont(i=True)
    sheet.append(["INV-0001", None, CellRichText(TextBlock(italic, OLD), f" {AUTHOR}"), 3, None])
    sheet.append(["INV-0001", None, "B. vagans", 3, f'="{OLD}"'])
    sheet["C2"].font, sheet["C2"].fill = Font(italic=True, color="FF0000"), PatternFill("solid", fgColor="FFFF00")
    sheet["D2"].number_format = "0.00"
    sheet.column_dimensions["C"].width = 31
    sheet.merge_cells("A8:C8")
    sheet["A8"] = f"fed {OLD} twice"
    other = book.create_sheet("Sales")
    other.append(["what", "name"])
    other.append(["sold & gone", OLD])
    return _saved(book)


def _saved(book: Any) -> bytes:
    target = io.BytesIO()
    book.save(target)
    return target.getvalue()


def ods() -> bytes:
    """One sheet with a formula, a style, an annotation that holds the old name, a repeated row and two paragraphs."""
    from odf.office import Annotation
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.style import Style, TextProperties
    from odf.table import Table, TableCell, TableRow
    from odf.text import P, Span

    document = OpenDocumentSpreadsheet()
    italic = Style(name="italic", family="text")
    italic.addElement(TextProperties(fontstyle="italic"))
    document.automaticstyles.addElement(italic)
    table = Table(name="Futter & Co")

    def row(*cells: Any, **attributes: Any) -> None:
        made = TableRow(**attributes)
        for cell in cells:
            made.addElement(cell if not isinstance(cell, str) else text(cell))
        table.addElement(made)

    def text(*paragraphs: str, **attributes: Any) -> Any:
        cell = TableCell(valuetype="string", **attributes)
        for paragraph in paragraphs:
            cell.addElement(P(text=paragraph))
        return cell

    def number(value: float) -> Any:
        return TableCell(valuetype="float", value=value)

    row("id", "species", "amount")
    row("INV-0001", OLD, number(3))
    row("INV-0001", f"{OLD} {AUTHOR}", TableCell(valuetype="float", value=6, formula="of:=[.C2]*2"))
    row("INV-0001", OLD, number(1), numberrowsrepeated=2)
    span = TableCell(valuetype="string")
    paragraph = P()
    paragraph.addElement(Span(stylename=italic, text=OLD))
    paragraph.addText(f" {AUTHOR}")
    span.addElement(paragraph)
    row("INV-0001", span, number(2))
    noted = text("Grammostola pulchra")
    annotation = Annotation()
    annotation.addElement(P(text=OLD))
    noted.addElement(annotation)
    row("INV-0002", noted, TableCell(valuetype="string", formula="of:=[.B2]", stringvalue=OLD))
    row("INV-0001", text(OLD, "second line"), number(2))
    row("", text(OLD, numbercolumnsrepeated=2))
    document.spreadsheet.addElement(table)
    target = io.BytesIO()
    document.write(target)
    return target.getvalue()
