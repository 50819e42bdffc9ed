"""Type: what ships is what was drawn, and what is missing is said in words."""

from __future__ import annotations

import builtins
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from namekeeper import resources
from namekeeper.labels import fonts
from namekeeper.labels.fonts import Measure, font_files
from namekeeper.labels.preview import page_png
from namekeeper.labels.qr import symbol
from namekeeper.labels.render import render_pdf
from namekeeper.labels.text import SIGNS, Face
from namekeeper.tasks.label_bench import Workshop
from namekeeper.words.errors import InputError, MissingLibraryError
from tests.labels import signs_face
from tests.labels.animals import planned


def test_the_face_of_signs_is_the_one_that_was_drawn() -> None:
    assert (resources.label_templates() / "fonts" / "signs.ttf").read_bytes() == signs_face.font()


def test_the_signs_stand_in_their_face_and_in_no_other(workshop: Workshop) -> None:
    text = "".join(sorted(SIGNS))
    assert workshop.measure.missing(text, Face.SIGNS) == ""
    assert workshop.measure.missing(text, Face.REGULAR) == text


def test_the_letter_x_is_as_high_as_measured_by_others(workshop: Workshop) -> None:
    # OS/2 sxHeight of the font itself says 526 of 1000.
    assert workshop.measure.x_height(Face.REGULAR) == pytest.approx(0.526, abs=0.002)


def test_missing_type_is_told_with_the_remedy(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(fonts, "_PACKAGE", "no_such_package_of_fonts")
    with pytest.raises(MissingLibraryError, match="fontpkg-fira-sans-condensed"):
        font_files(tmp_path)
    with pytest.raises(MissingLibraryError, match="cannot be measured"):
        Measure({Face.REGULAR: tmp_path / "missing.ttf"})


@pytest.mark.parametrize(
    ("damage", "words"),
    [
        (lambda whole: b"", "no whole font"),
        (lambda whole: whole[:5], "no whole font"),
        (lambda whole: whole[:200], "no whole font"),
        (lambda whole: whole[: len(whole) // 2], "no whole font"),
        (lambda whole: whole[:-4], "no whole font"),
        (lambda whole: b"\0" * len(whole), "no whole font"),
        (lambda whole: b"<svg/>" + whole, "no whole font"),
        (lambda whole: whole + bytes(50_000_000), "larger than 32 MB"),
    ],
    ids=["empty", "no directory", "half a directory", "half", "cut", "zeros", "no font", "50 MB"],
)
def test_a_damaged_font_is_told_with_its_file_and_draws_no_blanks(
    tmp_path: Path, damage: Callable[[bytes], bytes], words: str
) -> None:
    """A font cut short is measured and drawn all the same by the libraries, with glyphs that are not there."""
    files = font_files(resources.label_templates())
    broken = tmp_path / "broken.ttf"
    broken.write_bytes(damage(files[Face.REGULAR].read_bytes()))
    with pytest.raises(MissingLibraryError, match=words) as refused:
        Measure({**files, Face.REGULAR: broken})
    assert str(broken) in str(refused.value)
    assert "install namekeeper again" in str(refused.value)


@pytest.mark.parametrize("kind", ["pipe", "folder", "ring"])
def test_a_font_that_is_no_file_is_told_and_not_waited_for(tmp_path: Path, kind: str) -> None:
    odd = tmp_path / "odd.ttf"
    if kind == "pipe":
        os.mkfifo(odd)
    elif kind == "folder":
        odd.mkdir()
    else:
        odd.symlink_to(odd.name)
    with pytest.raises(MissingLibraryError, match=r"odd\.ttf"):
        Measure({**font_files(resources.label_templates()), Face.REGULAR: odd})


def test_signs_of_sex_are_as_high_as_capitals_and_stand_on_the_baseline(workshop: Workshop) -> None:
    text, signs = (workshop.measure.font(face) for face in (Face.REGULAR, Face.SIGNS))
    capital = text.get_glyph_extents(text.get_nominal_glyph(ord("H")))
    for sign in "♀♂":
        found = signs.get_glyph_extents(signs.get_nominal_glyph(ord(sign)))
        assert abs(found.y_bearing - capital.y_bearing) <= 10  # thousandths of an em
        assert abs(found.y_bearing + found.height) <= 10


@pytest.fixture
def without(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Makes the import of a library fail as it does where a system library is missing."""

    def block(name: str) -> None:
        real = builtins.__import__

        def fail(module: str, *rest: Any, **named: Any) -> Any:
            if module.partition(".")[0] == name:
                message = f"cannot load library 'libpango-1.0-0' for {name}\n\nAdditionally, ..."
                print("-----\nThe engine could not import some external libraries.")  # as it does, on stdout
                raise OSError(message)
            return real(module, *rest, **named)

        for module in [key for key in sys.modules if key.partition(".")[0] == name]:
            monkeypatch.delitem(sys.modules, module)
        monkeypatch.setattr(builtins, "__import__", fail)

    return block


def test_a_missing_system_library_is_told_with_the_remedy_for_three_systems(
    workshop: Workshop, without: Callable[[str], None], capsys: pytest.CaptureFixture[str]
) -> None:
    job = planned(workshop, "a4-3x8-70x37", "enclosure", 1).job()
    without("weasyprint")
    with pytest.raises(MissingLibraryError) as told:
        render_pdf(job)
    for words in ("libpango-1.0-0", "apt install", "brew install pango", "WEASYPRINT_DLL_DIRECTORIES"):
        assert words in str(told.value)
    assert "\n" not in str(told.value)
    assert capsys.readouterr().out == ""  # where a JSON document is asked for


def test_a_missing_preview_library_is_told(without: Callable[[str], None]) -> None:
    without("pypdfium2")
    with pytest.raises(MissingLibraryError, match="previews cannot be made"):
        page_png(b"")


def test_a_payload_too_long_for_any_symbol_is_refused() -> None:
    with pytest.raises(InputError, match="3000 characters"):
        symbol("x" * 3000)


def test_a_short_upper_case_id_takes_the_smallest_symbol() -> None:
    assert symbol("INV-0007").modules == 21  # version 1, ISO/IEC 18004
