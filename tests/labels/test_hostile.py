"""Pictures, fonts and markup that would harm whoever draws them: each is refused with its file, and nothing is left.

All in one process with limits of the system's: 1.5 GB of addresses and 60 s of processor time for some sixty runs (they
take 12 s). A picture without end, or a place on this machine that is called, would show.
"""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from namekeeper.labels import markup, render
from namekeeper.labels.pictures import picture_content
from namekeeper.labels.templates import template_folders
from namekeeper.labels.vectors import check_vector
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.lists import list_states
from namekeeper.words.errors import InputError
from tests.conftest import Outcome, world
from tests.labels.animals import planned
from tests.labels.hostile import BLOCKS, CASES, DRAWN, SHAPE, SVG
from tests.limited import MB, run_limited

pytest.importorskip("resource", reason="limits of this kind are of POSIX systems")

Told = Mapping[str, list[Any]]


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Told:
    """What became of every case."""
    root = tmp_path_factory.mktemp("hostile")
    list_states(world(root, root / "home"))  # the starter list is compiled once, outside of the limits
    done = run_limited("tests.labels.hostile", str(root), str(root / "home"), memory=1500 * MB, seconds=60)
    shutil.rmtree(root, ignore_errors=True)
    assert done.returncode == 0, done.stderr[-2000:]
    found: Told = json.loads(done.stdout)
    return found


@pytest.mark.parametrize("case", CASES)
def test_it_is_refused_with_its_file_and_nothing_is_left(case: str, told: Told) -> None:
    wanted = CASES[case]
    code, template, err, left, whole = told[case]
    assert code == wanted.code, err
    assert "Traceback" not in err
    if code == DRAWN:
        assert (left, whole) == (["l.pdf"], True)
        return
    (line,) = [line for line in err.splitlines() if line.startswith("namekeeper: ")]
    assert wanted.words in line
    assert f"/label_templates/{template}/" in line
    assert line.endswith(")"), "the remedy"
    assert len(line) < 700
    assert left == []


def test_the_labels_are_printed_without_it_and_nobody_was_called(told: Told) -> None:
    code, document, err, callers = told["others"]
    assert (code, callers) == (0, 0), err
    assert [row["specimen"] for row in json.loads(document)["labels"]] == ["A1", "A2"]


@pytest.mark.parametrize("case", [case for case in CASES if CASES[case].picture and CASES[case].code != DRAWN])
def test_a_picture_is_refused_before_anything_draws_it(case: str, tmp_path: Path) -> None:
    """The same without the command: what the library that draws would do is never tried."""
    CASES[case].make(tmp_path / "mine")
    with pytest.raises(ValueError, match=re.escape(CASES[case].words)):
        picture_content(tmp_path / "mine", f"mark{CASES[case].suffix}")


PLAIN = """\
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:app="urn:app">
<title>A mark</title><app:view zoom="1"/><style>.a { stroke: red }</style>
<defs>
<linearGradient id="f"><stop/><stop offset="1" stop-color="red"/></linearGradient>
<linearGradient id="g" xlink:href="#f"/>
<clipPath id="c"><circle r="9"/></clipPath>
<marker id="m"><path d="M0 0L1 1"/></marker>
<symbol id="s"><rect width="2" height="2"/></symbol>
</defs>
<g clip-path="url(#c)" style="fill: url(#g)">
<rect class="a" width="9" height="9"/><path d="M0 0L9 9" marker-end="url(#m)"/>
</g>
<use xlink:href="#s" x="4"/><text y="9">A</text>
</svg>
"""


def test_a_vector_picture_as_programs_write_them_is_no_fault() -> None:
    """Prologue, names of the program that drew it, references to parts of itself (SVG 1.1, 5 and 11.6)."""
    check_vector(PLAIN.encode())
    check_vector(PLAIN.encode("utf-16"))


@pytest.mark.parametrize("share", [0.8, 1.3])
def test_what_a_picture_may_hold_ends_where_it_is_said(share: float) -> None:
    """5,000 shapes, the picture itself being one: through references too."""
    tens = "".join(f'<g id="t{level}">{f"<use href={quoted(level - 1)}/>" * 10}</g>' for level in (1, 2))
    inner = f'<defs><rect id="t0"/>{tens}</defs>' + '<use href="#t2"/>' * int(share * 5000 / 222)
    if share < 1:
        check_vector(SVG.format(inner).encode())
    else:
        with pytest.raises(ValueError, match="more than a picture on a label has"):
            check_vector(SVG.format(inner).encode())


def quoted(level: int) -> str:
    return f'"#t{level}"'


def test_a_picture_that_goes_between_two_labels_is_shown_on_all_and_one_that_goes_before_is_told(
    workshop: Workshop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Read once when the template is, and once, for all labels, when they are drawn."""
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "layout.yaml").write_text(f"{BLOCKS}picture: {{file: mark.svg, size: [5, 5]}}\n", encoding="utf-8")
    mark = mine / "mark.svg"
    mark.write_text(SVG.format(SHAPE), encoding="utf-8")
    plan = planned(replace(workshop, folders=template_folders(tmp_path, None)), "a4-3x8-70x37", "mine", count=50)
    reads = []
    monkeypatch.setattr(markup, "LABELS_AT_ONCE", 24)

    def read_and_remove(folder: Path, name: str) -> bytes:
        reads.append(name)
        content = picture_content(folder, name)
        mark.unlink()
        return content

    with monkeypatch.context() as patched:
        patched.setattr(render, "picture_content", read_and_remove)
        assert len(plan.job().parts) == 3
        assert plan.pdf().startswith(b"%PDF")
    assert reads == ["mark.svg"]
    with pytest.raises(InputError, match=r"layout\.yaml: the picture 'mark\.svg' cannot be shown: No such file"):
        plan.pdf()


ODD_NAMES = (
    "two\nlines",
    "\x1b[31mred",
    "\u202egnp.x",
    "a" * 200,
    "sp ace",
    "ünï",
    "-o",
    "'quoted\"",
    "%2e%2e",
    os.fsdecode(b"\xff"),
)


def test_templates_of_any_name_are_listed_used_and_shown_without_harm(
    command: Callable[..., Outcome], tmp_path: Path
) -> None:
    """Names with line ends, signs that steer a terminal, bytes that are no text."""
    collection = tmp_path / "c"
    (collection / "specimens").mkdir(parents=True)
    (collection / "specimens" / "A1.yaml").write_text("names:\n- name: Brachypelma smithi\n", encoding="utf-8")
    for name in ODD_NAMES:
        folder = collection / "label_templates" / name
        folder.mkdir(parents=True)
        (folder / "layout.yaml").write_text(f"{BLOCKS}picture: {{file: mark.png, size: [5, 5]}}\n", encoding="utf-8")
    for name in ODD_NAMES:
        done = command("labels", "c", "-o", "l.pdf", f"--template={name}", "--no-record")
        assert done.code == 2, (name, done.err)
        assert "'mark.png' cannot be shown: No such file" in done.err, (name, done.err)
        assert not {"\x1b", "\u202e"} & set(done.err)
        assert not (tmp_path / "l.pdf").exists()
    shown = command("labels", "c", "--templates")
    assert shown.code == 2, "the pictures are missing"
    assert "enclosure" in shown.out
    assert not {"\x1b", "\u202e"} & {*shown.out, *shown.err}
