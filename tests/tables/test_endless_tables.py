"""Tables that no keeper has: cells repeated ten thousand million times, endless lines and rows: refused in words.

In a process with limits of the system's: 700 MB of addresses and 30 s of processor time (each takes about two).
"""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.limited import MB, run_limited

pytest.importorskip("resource", reason="limits of this kind are of POSIX systems")
_OFFICE = "urn:oasis:names:tc:opendocument:xmlns:"
#: OpenDocument 1.3, part 3, 19.675 and 19.677: both attributes may say any number.
_SHEET = f"""<office:document-content xmlns:office="{_OFFICE}office:1.0" xmlns:table="{_OFFICE}table:1.0"
xmlns:text="{_OFFICE}text:1.0"><office:body><office:spreadsheet><table:table table:name="a">
<table:table-row table:number-rows-repeated="1048576"><table:table-cell table:number-columns-repeated="16384"
office:value-type="string"><text:p>Brachypelma vagans</text:p></table:table-cell></table:table-row>
</table:table></office:spreadsheet></office:body></office:document-content>"""


def repeated(path: Path) -> None:
    with zipfile.ZipFile(path, "w") as packed:
        packed.writestr("content.xml", _SHEET)


def columns(count: int) -> Callable[[Path], None]:
    def make(path: Path) -> None:
        rows = (",".join([cell] * count) for cell in ("name", "Brachypelma vagans"))
        path.write_text("\n".join(rows), encoding="utf-8")

    return make


def one_line(path: Path) -> None:
    path.write_text("name\n" + "a" * 30_000_000, encoding="utf-8")


#: How it is made, what is said of it (nothing: it is read), and the commands that read it so.
CASES: dict[str, tuple[Callable[[Path], None], str]] = {
    "repeated.ods": (repeated, "a cell is repeated over more than 4,000,000 places"),
    "columns.csv": (columns(200_000), "a row has 200,000 cells, 16,384 at most are read"),
    "line.csv": (one_line, "a cell holds more than 100,000 characters"),
    "wide.csv": (columns(16_000), ""),
}


@pytest.mark.parametrize("name", CASES)
def test_an_endless_table_is_refused_and_fills_nothing(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    make, words = CASES[name]
    monkeypatch.setenv("NAMEKEEPER_HOME", str(tmp_path / "home"))
    animals = tmp_path / "animals" / "specimens"
    animals.mkdir(parents=True)
    make(tmp_path / name)
    given = ("collection", "import", str(animals.parent), str(tmp_path / name))
    done = run_limited("namekeeper", *given, memory=700 * MB, seconds=30)
    assert "Traceback" not in done.stderr
    assert words in done.stderr
    assert (done.returncode == 2) == bool(words), done.stderr
    assert list(animals.iterdir()) == []


@pytest.mark.parametrize("name", ["repeated.ods"])
def test_no_name_is_carried_into_one(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NAMEKEEPER_HOME", str(tmp_path / "home"))
    (tmp_path / "animals" / "specimens").mkdir(parents=True)
    repeated(tmp_path / name)
    given = ("tables", str(tmp_path / "animals"), str(tmp_path / name))
    done = run_limited("namekeeper", *given, memory=700 * MB, seconds=30)
    assert (done.returncode, "Traceback" in done.stderr) == (2, False)
    assert CASES[name][1] in done.stderr
