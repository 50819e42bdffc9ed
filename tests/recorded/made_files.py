"""Archives and spreadsheets that are the same bytes on every machine: written here, with a fixed date, unpacked."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping, Sequence
from html import escape
from types import MappingProxyType

from tests.lists.making import AREAS, COMMON, META, TAXA

Grid = Sequence[Sequence[str]]
_DECLARED = '<?xml version="1.0" encoding="UTF-8"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml"


def zipped(files: Mapping[str, str]) -> bytes:
    """An archive of these texts, uncompressed: packing differs from library to library."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_STORED) as archive:
        for name, text in files.items():
            archive.writestr(zipfile.ZipInfo(name), text.encode())
    return target.getvalue()


def dwc_archive() -> bytes:
    """A Darwin Core archive of seven names, one row of them cut short."""
    taxa, common, areas = ("\n".join(rows) + "\n" for rows in ([*TAXA, "9\tbad"], COMMON, AREAS))
    return zipped({"meta.xml": META, "taxon.txt": taxa, "vernacular.txt": common, "distribution.txt": areas})


def coldp_archive() -> bytes:
    """A ColDP archive: one name in force and two synonyms (Mendoza & Francke 2020), and a species invented."""
    rows = (
        "col:ID\tcol:parentID\tcol:status\tcol:rank\tcol:scientificName\tcol:authorship",
        "1\t\taccepted\tgenus\tTliltocatl\tMendoza & Francke, 2020",
        "2\t1\taccepted\tspecies\tTliltocatl vagans\t(Ausserer, 1875)",
        "3\t2\tsynonym\tspecies\tBrachypelma vagans\t(Ausserer, 1875)",
        "4\t2\tsynonym\tspecies\tEurypelma vagans\tAusserer, 1875",
        "5\t1\taccepted\tspecies\tTliltocatl inventus\tRoe, 2001",
    )
    about = "title: Spiders for testing\nversion: 2024.1\nissued: 2024-02-03\nlicense: cc0-1.0\n"
    return zipped({"metadata.yaml": about, "NameUsage.tsv": "\n".join(rows) + "\n"})


def xlsx(sheets: Mapping[str, Grid]) -> bytes:
    """A workbook after ECMA-376, with shared strings."""
    strings = list(dict.fromkeys(cell for grid in sheets.values() for row in grid for cell in row if cell))
    numbers = range(1, len(sheets) + 1)
    related = f"{_PACKAGE}/relationships"
    files = {
        "[Content_Types].xml": f'<Types xmlns="{_PACKAGE}/content-types">'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Override PartName="/xl/workbook.xml" ContentType="{_TYPE}.sheet.main+xml"/>'
        f'<Override PartName="/xl/sharedStrings.xml" ContentType="{_TYPE}.sharedStrings+xml"/>'
        + "".join(
            f'<Override PartName="/xl/worksheets/sheet{n}.xml" ContentType="{_TYPE}.worksheet+xml"/>' for n in numbers
        )
        + "</Types>",
        "_rels/.rels": f'<Relationships xmlns="{related}">'
        f'<Relationship Id="rId1" Type="{_OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}"><sheets>'
        + "".join(
            f'<sheet name="{escape(name)}" sheetId="{n}" r:id="rId{n}"/>'
            for n, name in zip(numbers, sheets, strict=True)
        )
        + "</sheets></workbook>",
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{related}">'
        + "".join(
            f'<Relationship Id="rId{n}" Type="{_OFFICE}/worksheet" Target="worksheets/sheet{n}.xml"/>' for n in numbers
        )
        + f'<Relationship Id="rId99" Type="{_OFFICE}/sharedStrings" Target="sharedStrings.xml"/></Relationships>',
        "xl/sharedStrings.xml": f'<sst xmlns="{_MAIN}">'
        + "".join(f"<si><t>{escape(text)}</t></si>" for text in strings)
        + "</sst>",
    }
    for number, grid in zip(numbers, sheets.values(), strict=True):
        files[f"xl/worksheets/sheet{number}.xml"] = _worksheet(grid, strings)
    return zipped({name: _DECLARED + text for name, text in files.items()})


def _worksheet(grid: Grid, strings: Sequence[str]) -> str:
    rows = (
        f'<row r="{r}">'
        + "".join(
            f'<c r="{chr(ord("A") + c)}{r}" t="s"><v>{strings.index(text)}</v></c>'
            for c, text in enumerate(row)
            if text
        )
        + "</row>"
        for r, row in enumerate(grid, 1)
    )
    return f'<worksheet xmlns="{_MAIN}"><sheetData>{"".join(rows)}</sheetData></worksheet>'


_ODF = "urn:oasis:names:tc:opendocument:xmlns"
_ODS = "application/vnd.oasis.opendocument.spreadsheet"
_SPACES = MappingProxyType({part: f"{_ODF}:{part}:1.0" for part in ("office", "table", "text")})


def ods(sheets: Mapping[str, Grid]) -> bytes:
    """A spreadsheet after OASIS OpenDocument 1.2."""
    spaces = " ".join(f'xmlns:{part}="{uri}"' for part, uri in _SPACES.items())
    tables = "".join(
        f'<table:table table:name="{escape(name)}">'
        + "".join("<table:table-row>" + "".join(map(_cell, row)) + "</table:table-row>" for row in grid)
        + "</table:table>"
        for name, grid in sheets.items()
    )
    content = (
        f'<office:document-content {spaces} office:version="1.2"><office:body><office:spreadsheet>'
        f"{tables}</office:spreadsheet></office:body></office:document-content>"
    )
    manifest = (
        f'<manifest:manifest xmlns:manifest="{_ODF}:manifest:1.0" manifest:version="1.2">'
        f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{_ODS}"/>'
        '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>'
    )
    return zipped({"mimetype": _ODS, "content.xml": _DECLARED + content, "META-INF/manifest.xml": _DECLARED + manifest})


def _cell(text: str) -> str:
    if not text:
        return "<table:table-cell/>"
    return f'<table:table-cell office:value-type="string"><text:p>{escape(text)}</text:p></table:table-cell>'
