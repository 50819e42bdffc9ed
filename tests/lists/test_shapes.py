"""Lists in the shapes of published ones: every row that another reader counts is in the list, or told."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.evidence.statements import NameStatus
from namekeeper.words.errors import InputError
from tests.conftest import Outcome
from tests.lists.making import Read, packed
from tests.lists.shapes import SHAPES, VAGANS, Shape, meta

ReadList = Callable[..., Read]
Command = Callable[..., Outcome]
BY_NAME = {shape.name: shape for shape in SHAPES}
_NAME_COLUMNS = ("scientificname", "lb_nom", "genus", "gattung", "name", "specificepithet")


def put(shape: Shape, folder: Path) -> Path:
    if shape.packed:
        return packed(folder / "list.zip", shape.files)
    path = folder / shape.core
    path.write_bytes(shape.files[shape.core].encode())
    return path


def counted(shape: Shape) -> tuple[int, int]:
    """All rows of the core, and those that hold a name or part of one, by the csv module alone."""
    text = shape.files[shape.core].replace("\r", "\n")
    while text.startswith("#"):
        text = text.partition("\n")[2]
    separator = max("\t;,", key=text.partition("\n")[0].count)
    lines = list(csv.reader(io.StringIO(text), delimiter=separator))
    if "Species" in lines[0]:  # no header is left
        return len(lines), len(lines)
    places = [i for i, title in enumerate(lines[0]) if title.casefold() in _NAME_COLUMNS]
    return len(lines) - 1, sum(any(line[i] for i in places if i < len(line)) for line in lines[1:])


@pytest.mark.parametrize("name", BY_NAME)
def test_every_name_is_in_the_list_or_told(name: str, tmp_path: Path, read: ReadList) -> None:
    shape = BY_NAME[name]
    rows, named = counted(shape)
    found = read(put(shape, tmp_path))
    assert named == shape.rows
    of_rows = [skip for skip in found.skips.listed if skip.line]
    assert found.index.size + len(of_rows) == rows
    for expected, said in ((shape.left, found.skips.listed), (shape.told, found.skips.faults)):
        assert {part: sum(part in one.why for one in said) for part in expected} == expected
        assert len(said) == sum(expected.values()), said


@pytest.mark.parametrize("name", [one.name for one in SHAPES if "Brachypelma" in "".join(one.files.values())])
def test_the_old_name_leads_to_the_name_in_force(name: str, tmp_path: Path, read: ReadList) -> None:
    found = read(put(BY_NAME[name], tmp_path))
    assert set(found.end("Brachypelma vagans")) == {"Tliltocatl vagans"}
    assert found.end("Tliltocatl vagans") == ["Tliltocatl vagans"]


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
@pytest.mark.parametrize(
    "name",
    [
        "row type of before the standard",
        "names in parts, row by row",
        "five lines of header",
        "words of status in four languages",
        "an unknown word and nothing to go by",
    ],
)
def test_counts_of_a_reference_reader(name: str, tmp_path: Path, read: ReadList) -> None:
    """python-dwca-reader (PyPI), written at the Belgian Biodiversity Platform, counts the rows of the core."""
    from dwca.read import DwCAReader

    path = put(BY_NAME[name], tmp_path)
    with DwCAReader(str(path)) as reader:
        rows = len(list(reader))
    found = read(path)
    assert found.index.size + found.skips.count == rows


def test_parts_make_the_names(tmp_path: Path, read: ReadList) -> None:
    found = read(put(BY_NAME["names in parts, row by row"], tmp_path))
    for name in ("Agelena labyrinthica", "Araneus diadematus", "Hogna radiata", "Pardosa"):
        assert found.end(name) == [name]


def test_what_words_of_status_mean(tmp_path: Path, read: ReadList) -> None:
    found = read(put(BY_NAME["words of status in four languages"], tmp_path))
    held = [found.index.named(f"Aus species{chr(100 + n)}")[0].status for n in range(10)]
    assert held == [
        NameStatus.SYNONYM, NameStatus.SYNONYM, NameStatus.OBJECTIVE_SYNONYM, NameStatus.AMBIGUOUS,
        *[NameStatus.SYNONYM] * 6,
    ]  # fmt: skip
    assert found.end("Aus speciesd") == ["Tliltocatl vagans"]


def test_common_names_of_an_assumed_column_are_read(tmp_path: Path, read: ReadList) -> None:
    found = read(put(BY_NAME["a coreid without an index"], tmp_path))
    assert [one.taxon.name for one in found.index.common("Mexican red rump")] == ["Tliltocatl vagans"]


def test_authorship_and_subspecies_from_columns_of_their_own(tmp_path: Path, read: ReadList) -> None:
    found = read(put(BY_NAME["the species of a catalogue"], tmp_path))
    (one,) = found.index.named("Tliltocatl vagans")
    assert one.subject.authorship == "(Ausserer, 1875)"
    assert found.end("Avicularia avicularia variegata") == ["Avicularia avicularia variegata"]


def test_ranks_of_a_register_are_ours(tmp_path: Path, read: ReadList) -> None:
    found = read(put(BY_NAME["a national register"], tmp_path))
    assert found.index.named("Tliltocatl vagans")[0].subject.rank == "species"


@pytest.mark.parametrize(
    ("header", "cells", "field"),
    [
        ("Currently accepted as", ("", VAGANS), "accepted_name"),
        ("Aktueller wiss. Name", ("", VAGANS), "accepted_name"),
        ("accepted_ref", ("", "2"), "accepted_id"),
    ],
)
def test_a_column_of_accepted_names_that_is_not_understood_is_asked_for(
    header: str, cells: tuple[str, str], field: str, tmp_path: Path, command: Command
) -> None:
    lines = [f"id;name;{header}", f"2;Tliltocatl vagans;{cells[0]}", f"3;Brachypelma vagans;{cells[1]}"]
    (tmp_path / "t.csv").write_text("\n".join(lines), encoding="utf-8")
    refused = command("lists", "add", "t.csv", "--as", "mine")
    assert refused.code == 2
    assert f"the column '{header}' seems to hold accepted names" in refused.err
    assert f"--column {field}='{header}'" in refused.err
    done = command("lists", "add", "t.csv", "--as", "mine", "--column", f"{field}={header}")
    assert done.code == 0, done.err


def test_a_column_that_only_sounds_like_it_is_left_alone(tmp_path: Path, read: ReadList) -> None:
    (tmp_path / "t.csv").write_text("name;validated on\nAus bus;2020\nAus cus;2021\n", encoding="utf-8")
    assert read(tmp_path / "t.csv").skips.count == 0


def test_the_two_halves_of_a_broken_row_are_left_out(tmp_path: Path, read: ReadList) -> None:
    """A line end within a cell that is not quoted: the first half has lost its status and must not be in force."""
    fields = "taxonID scientificName family taxonRemarks taxonomicStatus acceptedNameUsageID"
    rows = [
        "id\tname\tfamily\tremarks\tstatus\taccepted", f"2\t{VAGANS}\tTheraphosidae\t\tvalid\t",
        "3\tBrachypelma vagans\tTheraphosidae\tan old", "name of it\tsynonym\t2", "4\tAus bus\tAusidae\t\tvalid\t",
    ]  # fmt: skip
    found = read(packed(tmp_path / "a.zip", {"meta.xml": meta(fields), "taxon.txt": "\n".join(rows) + "\n"}))
    assert [(skip.line, skip.why) for skip in found.skips.listed] == [
        (3, "a row broken over two lines"), (4, "a row broken over two lines"),
    ]  # fmt: skip
    assert found.end("Brachypelma vagans") == []


def test_much_left_out_is_exit_1_with_a_summary_by_reason(tmp_path: Path, command: Command) -> None:
    bad = "".join(f"Aus sp. {n};\n" for n in range(30))
    (tmp_path / "t.csv").write_text("name;rank\n" + "Aus bus;\n" * 40 + bad, encoding="utf-8")
    done = command("lists", "add", "t.csv", "--as", "mine")
    assert done.code == 1
    assert "  30 x … is open nomenclature or a hybrid, not a name of a taxon" in done.out
    assert "Much was left out" in done.out
    document = json.loads(command("lists", "add", "t.csv", "--as", "mine", "--edition", "2", "--json").out)
    assert document["skipped_reasons"] == [
        {"why": "… is open nomenclature or a hybrid, not a name of a taxon", "count": 30}
    ]


def test_several_tables_in_a_zip_are_no_list(tmp_path: Path, read: ReadList) -> None:
    path = packed(tmp_path / "a.zip", {"one.csv": "name\nAus bus\n", "two.csv": "name\nAus cus\n"})
    with pytest.raises(InputError, match="neither a Darwin Core archive"):
        read(path)
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("notes/readme.txt", "x")
    (tmp_path / "b").mkdir()
    one = packed(tmp_path / "b" / "a.zip", {"one.csv": "name\nAus bus\n", "README.txt": "x", "licence.txt": "y"})
    assert read(one).end("Aus bus") == ["Aus bus"]
