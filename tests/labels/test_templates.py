"""A keeper's own template: used, and kept from files, network and mischief."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from unicodedata import normalize

import pdfplumber
import pytest

from namekeeper import resources
from namekeeper.labels.layout import smallest_size
from namekeeper.labels.templates import load_template, template_folders
from namekeeper.tasks.label_bench import Workshop
from namekeeper.words.errors import FileError, InputError
from tests.labels.animals import planned
from tests.labels.contract import TEMPLATES

MARKUP = """\
<div class="head">{{ zone("head") }}</div>
<div class="body">{{ zone("body") }}</div>
<div class="foot">{{ zone("foot") }}</div>
"""
STYLE = ".label { color: #000 }\n.b-caution { color: #222 }\n"
Change = Callable[[str, str], Path]


@pytest.fixture
def own(tmp_path: Path) -> Change:
    """A copy of the enclosure template with markup and a style of its own, in which one file has another text."""

    def change(file: str, text: str) -> Path:
        folder = tmp_path / "label_templates" / "mine"
        if not folder.exists():
            shutil.copytree(resources.label_templates() / "enclosure", folder)
            (folder / "label.html").write_text(MARKUP, encoding="utf-8")
            (folder / "label.css").write_text(STYLE, encoding="utf-8")
        (folder / file).write_text(text, encoding="utf-8")
        return tmp_path / "label_templates"

    return change


def draw(workshop: Workshop, root: Path) -> bytes:
    folders = template_folders(resources.label_templates(), root)
    plan = planned(replace(workshop, folders=folders), "a4-3x8-70x37", "mine")
    return plan.pdf()


def test_an_own_template_is_used_and_may_replace_a_shipped_one(workshop: Workshop, own: Change) -> None:
    own("layout.yaml", "blocks: [{show: name, size: [5, 9]}, {show: id, size: [5, 9]}]")
    root = own(
        "label.html", "<p style='font-size: 5pt'>{{ id }}, {{ text('name') }}{% if has_qr %} {{ width }}{% endif %}</p>"
    )
    assert draw(workshop, root).startswith(b"%PDF")
    (root / "mine").rename(root / "vial")
    assert template_folders(resources.label_templates(), root)["vial"] == root / "vial"


def test_a_template_is_found_however_its_name_is_composed(own: Change) -> None:
    """Some file systems of macOS hand out names decomposed (NFD), and keyboards write them composed."""
    root = own("layout.yaml", "blocks: [{show: name, size: [5, 9]}, {show: id, size: [5, 9]}]")
    (root / "mine").rename(root / normalize("NFD", "käfer"))
    folders = template_folders(resources.label_templates(), root)
    for typed in ("NFC", "NFD"):
        assert load_template(normalize(typed, "käfer"), folders, 0).folder.parent == root


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{% if %}", "cannot be read"),
        ("line one\n{{ zone('head') }", "cannot be read"),
        ("{{ nothing_there }}", "'nothing_there' is undefined"),
        ("{{ zone('attic') }}", "is not a valid Zone"),
        ("{{ ''.__class__.__mro__ }}", "is unsafe|access to attribute"),
        ("{{ zone.__globals__ }}", "is unsafe|access to attribute"),
        ("{% include '/etc/passwd' %}", "no loader"),
        ("{% import 'other' as other %}", "no loader"),
        ("{% for n in range(10000000) %}x{% endfor %}", "Range too big"),
        ("{{ 1 / 0 }}", "division by zero"),
        ("{{ 'x' * 10000000000 }}", "too large for a label"),
        ("{{ 10 ** 10 ** 10 }}", "too large for a label"),
        ("{% macro again() %}{{ again() }}{% endmacro %}{{ again() }}", "calls itself without end"),
        (MARKUP.replace('{{ zone("foot") }}', ""), "block 'caution' of .* is not drawn"),
        ("<img src='file:///etc/hostname'>", "may open nothing but the shipped fonts"),
        ("<img src='http://127.0.0.1:9/x.png'>", "may open nothing but the shipped fonts"),
        ("<img src='data:image/png;base64,AAAA'>", "may open nothing but the shipped fonts"),
        ("<link rel='stylesheet' href='https://example.org/x.css'>", "may open nothing but the shipped fonts"),
        ("<link rel='attachment' href='file:///etc/hostname'>", "may open nothing but the shipped fonts"),
    ],
)
def test_markup_that_asks_for_more_is_refused_in_one_line(
    workshop: Workshop, own: Change, text: str, words: str
) -> None:
    with pytest.raises(InputError, match=words) as refused:
        draw(workshop, own("label.html", text))
    assert "\n" not in str(refused.value)


def test_a_fault_in_the_markup_is_told_with_file_and_line(workshop: Workshop, own: Change) -> None:
    root = own("label.html", "<div>\n\n{% if zone %}\n")
    with pytest.raises(InputError) as refused:
        draw(workshop, root)
    assert refused.value.place.file == str(root / "mine" / "label.html")
    assert refused.value.place.line == 3


@pytest.mark.parametrize(
    "text",
    [
        ".label { background: url('file:///etc/hostname') }",
        "@font-face { font-family: x; src: url('file:///usr/share/fonts/x.ttf') } p { font-family: x }",
        "@font-face { font-family: x; src: url('label-font:../../etc/passwd') } p { font-family: x }",
    ],
)
def test_a_style_that_reads_files_or_the_network_is_refused(workshop: Workshop, own: Change, text: str) -> None:
    with pytest.raises(InputError, match="may open nothing but the shipped fonts"):
        draw(workshop, own("label.css", text))


@pytest.mark.parametrize(
    ("style", "text"),
    [
        (".b-name { font-size: 30pt }", "would stand outside its label"),
        (".head { margin-left: 40mm }", "would stand outside its label"),
        (".foot { bottom: -9mm }", "would stand outside its label"),
        (".head { margin-top: -9mm }", "would stand outside its label"),
        (".b-caution { visibility: hidden }", "block 'caution' of .* is not drawn"),
        (".foot { display: none }", "block 'caution' of .* is not drawn"),
        (".body { position: absolute; left: 0; top: 5mm }", "lie over each other"),
        (".b-caution { color: #fff }", "would be too pale to read"),
        (".b-caution { color: rgba(0, 0, 0, 0.2) }", "would be too pale to read"),
        (".foot { opacity: 0 }", "would be too pale to read"),
        (".label { background-color: #222 }", "would be too pale to read"),
        (".foot { overflow: hidden; width: 9mm }", "would be cut off"),
        (".body { overflow: hidden; height: 1mm }", "would be cut off"),
    ],
)
def test_a_style_that_moves_text_off_its_label_is_refused(
    workshop: Workshop, own: Change, style: str, text: str
) -> None:
    with pytest.raises(InputError, match=text):
        draw(workshop, own("label.css", STYLE + style))


def test_light_text_on_a_dark_ground_is_no_fault(workshop: Workshop, own: Change) -> None:
    root = own("label.css", STYLE + ".label p { background-color: #222; color: #fff }")
    assert draw(workshop, root).startswith(b"%PDF")


@pytest.mark.parametrize(
    ("style", "line"),
    [(".label { color: #000 }\n\n.foot { colour: red }\n", 3), ("@foo {}\n", 1), (".x {}\n.y { color }", 2)],
)
def test_a_fault_in_the_style_is_told_with_its_own_line(workshop: Workshop, own: Change, style: str, line: int) -> None:
    root = own("label.css", style)
    with pytest.raises(InputError) as refused:
        draw(workshop, root)
    assert (refused.value.place.file, refused.value.place.line) == (str(root / "mine" / "label.css"), line)


SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect width="9" height="9"/>{}</svg>'


def test_a_picture_of_the_templates_own_folder_is_shown(workshop: Workshop, own: Change) -> None:
    picture = "<img src='picture:mark.svg' style='position: absolute; right: 1mm; top: 1mm; width: 4mm'>"
    root = own("label.html", MARKUP + picture)
    own("mark.svg", SVG.format(""))
    with pdfplumber.open(BytesIO(draw(workshop, root))) as document:
        boxes = [one for one in document.pages[0].rects if abs(one["width"] - 4 / 25.4 * 72) < 0.1]
    assert len(boxes) == 8  # one a label


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("missing.svg", "No such file"),
        ("../layout.svg", "it is a link, or no PNG or SVG of the template's own folder"),
        ("large.svg", "it is larger than 500 kB"),
        ("layout.yaml", "it is a link, or no PNG or SVG of the template's own folder"),
        ("sly.svg", "<image> is not drawn on labels"),
    ],
)
def test_no_other_file_and_no_large_one_is_shown(workshop: Workshop, own: Change, name: str, words: str) -> None:
    root = own("label.html", MARKUP + f"<img src='picture:{name}'>")
    own("large.svg", SVG.format(" " * 500_000))
    own("sly.svg", SVG.format('<image href="file:///etc/hostname" width="9" height="9"/>'))
    with pytest.raises(InputError, match=f"the picture '{name}' cannot be shown: {words}"):
        draw(workshop, root)


def test_a_character_no_shipped_face_has_is_refused_in_a_template_too(workshop: Workshop, own: Change) -> None:
    with pytest.raises(InputError, match="cannot be drawn"):
        draw(workshop, own("label.html", "<p>蜘蛛</p>"))


@pytest.mark.parametrize("text", [".label { colour: red }", "@import url('https://example.org/x.css');", "}{"])
def test_a_style_that_cannot_be_read_is_told(workshop: Workshop, own: Change, text: str) -> None:
    with pytest.raises(InputError, match="cannot be drawn"):
        draw(workshop, own("label.css", text))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("blocks: [", "is no YAML"),
        ("- a list", "should be keys with values"),
        ("blocks: []", "should be a list"),
        ("blocks: [{show: name, size: [5, 9]}]", "no block shows the id"),
        ("blocks: [{show: [name, id], size: [2, 9]}]", "least is at least 5.0 pt"),
        ("blocks: [{show: [name, id], size: [9, 5]}]", "most is not less than least"),
        ("blocks: [{show: [name, id], size: 9}]", "should be a list"),
        ("blocks: [{show: [name, id, shoe], size: [5, 9]}]", "there is no field 'shoe'"),
        ("blocks: [{show: [name, id, name], size: [5, 9]}]", "two blocks show 'name'"),
        ("blocks: [{show: [name, id], size: [5, 9], zone: attic}]", "'attic' is none of head"),
        ("blocks: [{show: [name, id, sex], size: [5, 9]}]", "gives_way does not name 'sex'"),
        ("blocks: [{show: [name, id], size: [5, 9]}]\nqr: {module: [0.1, 0.2]}", "from 0.33"),
        ("colour: red\nblocks: [{show: [name, id], size: [5, 9]}]", "unknown key 'colour'"),
        ("title: A\ntitle: B", "the key 'title' stands here twice"),
        ("title: &a [*a]", r"\*a stands for what is marked &a elsewhere, which is not followed"),
        ("? [title]\n: B", "a key is no word"),
    ],
)
def test_a_layout_with_a_fault_is_refused_with_its_file(workshop: Workshop, own: Change, text: str, words: str) -> None:
    with pytest.raises(InputError, match=words) as refused:
        draw(workshop, own("layout.yaml", text))
    assert "layout.yaml" in str(refused.value)


@pytest.mark.parametrize(
    ("line", "old", "new"),
    [
        (2, "padding: 2", "padding: wide"),
        (3, "rule: {below: 0.9, thick: 0.3}", "rule: {below: 0.9, height: 0.3}"),
        (5, "show: name", "show: nom"),
        (7, "size: [5, 8]", "size: [8, 5]"),
        (8, "weight: bold", "weight: heavy"),
        (10, "grid: {columns: {Date: 3}}", "grid: {columns: {Date: wide}}"),
    ],
)
def test_a_fault_in_a_layout_is_told_with_its_line(
    workshop: Workshop, own: Change, line: int, old: str, new: str
) -> None:
    text = (
        "title: Mine\npadding: 2\nrule: {below: 0.9, thick: 0.3}\nblocks:\n  - {show: name, size: [5, 20]}\n"
        "  - show: [id, sex]\n    size: [5, 8]\n    weight: bold\ngap: 2\ngrid: {columns: {Date: 3}}\n"
        "gives_way: [sex]\n"
    )
    assert old in text
    with pytest.raises(InputError) as refused:
        draw(workshop, own("layout.yaml", text.replace(old, new)))
    assert refused.value.place.line == line


def test_names_are_escaped(workshop: Workshop) -> None:
    from namekeeper.labels.content import LabelWishes, SpeciesFacts
    from namekeeper.records.specimen import NameEntry
    from namekeeper.tasks.label_choices import Choices
    from namekeeper.tasks.label_plan import plan_of
    from tests.labels.animals import DAY, specimen

    animal = specimen("A1", NameEntry("Aus bus", "<b>Author</b> & <script>"))
    plan = plan_of([(animal, SpeciesFacts())], workshop, Choices(), LabelWishes(), DAY)
    assert plan.pdf().startswith(b"%PDF")
    assert "&lt;script&gt;" in plan.job().parts[0]
    assert "<script>" not in plan.job().parts[0]


def test_a_missing_part_and_an_unknown_name_are_told(workshop: Workshop, own: Change) -> None:
    root = own("label.css", "")
    (root / "mine" / "label.html").unlink()
    folders = template_folders(resources.label_templates(), root)
    with pytest.raises(FileError, match=r"label\.html"):
        load_template("mine", folders, smallest_size(workshop.measure))
    with pytest.raises(InputError, match=f"templates are {', '.join(sorted({*TEMPLATES, 'mine'}))}"):
        load_template("yours", folders, smallest_size(workshop.measure))


def test_an_own_template_needs_no_more_than_a_layout(workshop: Workshop, own: Change) -> None:
    root = own("layout.yaml", "blocks: [{show: [name, id], size: [5, 9], colour: '#7A3B1E'}]")
    for file in ("label.css", "label.html"):
        (root / "mine" / file).unlink()
    with pdfplumber.open(BytesIO(draw(workshop, root))) as document:
        colours = {char["non_stroking_color"] for char in document.pages[0].chars}
    assert [tuple(round(part * 255) for part in colour) for colour in colours] == [(0x7A, 0x3B, 0x1E)]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("blocks: [{show: [name, id], size: [5, 9], colour: red}]", "should be six digits"),
        ("blocks: [{show: [name, id], size: [5, 9], colour: '#bbbbbb'}]", "too pale to be read"),
        ("blocks: [{show: [name, id], size: [5, 9], bar: {thick: 2, gap: 1}}]", "which is only 2 mm wide"),
        ("rule: {below: 1}\nblocks: [{show: [name, id], size: [5, 9]}]", "which is only 0 mm high"),
        ("divider: {wide: 1}\nblocks: [{show: [name, id], size: [5, 9]}]", "unknown key 'wide'"),
        ("centred: perhaps\nblocks: [{show: [name, id], size: [5, 9]}]", "should be yes or no"),
        ("qr: {module: []}\nblocks: [{show: [name, id], size: [5, 9]}]", "a list that holds something"),
        (
            "blocks: [{show: name, size: [5, 9], zone: head}, {show: id, size: [5, 9], zone: side}]",
            "all blocks stand in the body",
        ),
    ],
)
def test_a_drawing_that_cannot_be_made_is_refused(workshop: Workshop, own: Change, text: str, words: str) -> None:
    root = own("layout.yaml", text)
    for file in ("label.css", "label.html"):
        (root / "mine" / file).unlink()
    with pytest.raises(InputError, match=words):
        draw(workshop, root)


@pytest.mark.parametrize("word", ["yes", "true", "on", "True"])
def test_a_truth_may_be_written_as_yaml_does(workshop: Workshop, own: Change, word: str) -> None:
    root = own("layout.yaml", f"centred: {word}\nblocks: [{{show: [name, id], size: [5, 9]}}]")
    folders = template_folders(resources.label_templates(), root)
    assert load_template("mine", folders, smallest_size(workshop.measure)).layout.centred
