"""No cell of an export is calculated by a spreadsheet, whatever stands unseen in front of it.

Signs: OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection), which names the full-width forms too; what
is unseen: general categories of UAX #44. What a spreadsheet skips was not tried here: all of it is guarded.
"""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.tables.delimited import guarded, unguarded
from tests.conftest import Outcome

SIGNS = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20", "\u2212", "\ufe66", "\ufe62", "\ufe63", "\ufe6b")
UNSEEN = (" ", "   ", "\u00a0", "\u3000", "\u2009", "\u200b", "\u200d", "\ufeff", "\u2060", "\u00ad", "\x0b", "\x1f",
          "\u202e", "\ufe0f", "\u3164", "\u2800", "\t", "\r", "\n", "'", "' ")  # fmt: skip


@pytest.mark.parametrize("sign", SIGNS)
@pytest.mark.parametrize("front", ["", *UNSEEN])
def test_a_formula_is_guarded_and_read_back(front: str, sign: str) -> None:
    text = f'{front}{sign}HYPERLINK("http://x")'
    assert guarded(text) == f"'{text}"
    assert unguarded(guarded(text)) == text


@pytest.mark.parametrize(
    "text", ["", " ", "Brachypelma smithi", "0.1.0", " x", "'x", "x=1", "\u00d7 Hybrida", "4-5 cm", "\u200bx", "(=1)"]
)
def test_what_is_none_stays(text: str) -> None:
    assert guarded(text) == text


@given(st.text(st.sampled_from([*"=+-@'x1 \t\r\n", *UNSEEN[4:20], *SIGNS[4:]])))
def test_any_text_comes_back(text: str) -> None:
    assert unguarded(guarded(text)) == text
    bare = guarded(text).lstrip("".join(UNSEEN[:-2]))
    assert not bare.startswith(SIGNS)


def test_exports_are_guarded_and_an_archive_is_not(command: Callable[..., Outcome], tmp_path: Path) -> None:
    (tmp_path / "c" / "specimens").mkdir(parents=True)
    evil = '\u200b\uff1dHYPERLINK("http://x")'
    (tmp_path / "c" / "specimens" / "A1.yaml").write_text(f"tag: '{evil}'\nlocality: '{evil}'\nnote: ' -1+1'\n")
    assert command("collection", "export", "c", "-o", "e.csv", "--as", "csv").code == 0
    row = next(csv.DictReader(io.StringIO((tmp_path / "e.csv").read_text("utf-8-sig"))))
    assert (row["tag"], row["locality"], row["note"]) == (f"'{evil}", f"'{evil}", "' -1+1")
    given_out = ("--licence", "CC0-1.0", "--rights-holder", "x")
    done = command("collection", "export", "c", "-o", "e.zip", "--as", "dwca", *given_out)
    assert done.code == 0, done.err
    with zipfile.ZipFile(tmp_path / "e.zip") as archive:
        core = archive.read("occurrence.csv").decode()
    assert evil.replace('"', '""') in core
    assert f"'{evil[:3]}" not in core
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert "open them in no spreadsheet" in " ".join(readme.split())
