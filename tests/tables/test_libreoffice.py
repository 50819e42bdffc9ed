"""Tables that LibreOffice wrote, and ours as LibreOffice reads them: formulas stay (skips without it)."""

from __future__ import annotations

import csv
import io
import shutil
import subprocess
import zipfile
from pathlib import Path

import pytest

from namekeeper.tables.open_table import read_table
from namekeeper.tasks.tables import TableWishes, plan_table
from tests.tables.samples import NEW, OLD, xlsx
from tests.tables.test_rewriting import COLLECTION

OFFICE = shutil.which("soffice") or shutil.which("libreoffice")
pytestmark = [pytest.mark.long, pytest.mark.skipif(OFFICE is None, reason="LibreOffice is not installed")]


def converted(path: Path, kind: str, tmp_path: Path) -> Path:
    """The file converted by LibreOffice, with a profile of the test's own."""
    target = tmp_path / "converted"
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    command = [str(OFFICE), profile, "--headless", "--convert-to", kind, "--outdir", str(target), str(path)]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    return target / f"{path.stem}.{kind.split(':', maxsplit=1)[0]}"


@pytest.mark.parametrize("kind", ["xlsx", "ods"])
def test_formulas_of_a_real_table_stay(tmp_path: Path, kind: str) -> None:
    source = tmp_path / "table.xlsx"
    source.write_bytes(xlsx())
    table = converted(source, kind, tmp_path)
    before = table.read_bytes()
    plan = plan_table(COLLECTION, before, TableWishes("species"))
    assert [change.row for change in plan.changes] == [2, 3, 5, 6]
    old, new = (zipfile.ZipFile(io.BytesIO(raw)) for raw in (before, plan.content))
    changed = [name for name in old.namelist() if old.read(name) != new.read(name)]
    assert changed == ["xl/worksheets/sheet1.xml" if kind == "xlsx" else "content.xml"]

    renamed = tmp_path / f"renamed.{kind}"
    renamed.write_bytes(plan.content)
    shown = converted(renamed, "csv", tmp_path).read_text(encoding="utf-8")
    rows = list(csv.reader(io.StringIO(shown)))
    assert [row[2] for row in rows[1:4]] == [NEW, f"{NEW} (Ausserer, 1875)", "Grammostola pulchra"]
    # LibreOffice shows the stored result of a formula until it calculates again; the report lists the cell.
    assert [row[4] for row in rows[1:4]] == ["25", "19.5", f"{OLD} x"]
    listed = [left for left in plan_table(COLLECTION, plan.content, TableWishes("sum")).left if left.row == 4]
    assert [left.why for left in listed] == ["a formula: it follows when the table is recalculated"]
    assert [sheet.name for sheet in read_table(plan.content).sheets] == ["Feeding", "Sales"]
    assert read_table(plan.content).sheets[1].rows[0].cells == ("sold & gone", OLD)
