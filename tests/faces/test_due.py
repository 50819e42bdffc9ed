"""Bare ``namekeeper`` in the folder of a collection says in five lines at most what is due there."""

from __future__ import annotations

import io
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper import resources
from tests.conftest import NOWHERE, Outcome, run_here

Command = Callable[..., Outcome]


def bare(folder: Path, home: Path) -> Outcome:
    return run_here([], folder, {"NAMEKEEPER_HOME": str(home), **NOWHERE}, io.StringIO())


def test_the_sample_collection(tmp_path: Path, home: Path, command: Command) -> None:
    folder = tmp_path / "animals"
    shutil.copytree(resources.sample_collection(), folder)
    done = bare(folder, home)
    first, *lines = done.out.splitlines()
    assert (done.code, done.err) == (1, "")
    assert first.endswith(" labels")
    assert [line.partition(": namekeeper ")[2] for line in lines] == [
        "settle . --take-safe --write",
        "settle . --write",
        "labels . --due -o labels.pdf",
    ]
    assert ", 1 for later: " in lines[1]
    command("settle", "animals", "--offline", "--take-safe", "--write")
    after = bare(folder, home).out.splitlines()
    assert "labels to print (8 with an outdated name, 48 never printed): " in after[-1]
    assert len(after) <= 5


def test_nothing_is_due(tmp_path: Path, home: Path) -> None:
    (tmp_path / "rack" / "specimens").mkdir(parents=True)
    assert bare(tmp_path / "rack", home) == Outcome(0, "rack: 0 labels, nothing is due\n", "")


def test_labels_never_printed_are_due_only_where_labels_are_printed(tmp_path: Path, home: Path) -> None:
    """Who writes labels by hand is not asked for ever; the first print says that this keeper prints."""
    folder = tmp_path / "rack" / "specimens"
    folder.mkdir(parents=True)
    name = "names:\n  - name: Chromatopelma cyaneopubescens\n    standing: as-labelled\n"
    for identifier in ("A1", "A2"):
        (folder / f"{identifier}.yaml").write_text(name)
    offered = "2 labels can be printed, none was yet: namekeeper labels . --due -o labels.pdf"
    assert bare(folder.parent, home) == Outcome(0, f"rack: 2 labels, nothing is due\n{offered}\n", "")
    decision = "decisions:\n  - kind: printed\n    recorded: 2026-11-01\n    name: Chromatopelma cyaneopubescens\n"
    (folder / "A1.yaml").write_text(name + decision)
    due = "1 label to print (1 never printed): namekeeper labels . --due -o labels.pdf"
    assert bare(folder.parent, home) == Outcome(1, f"rack: 2 labels\n{due}\n", "")


def test_files_that_cannot_be_read_are_due(tmp_path: Path, home: Path) -> None:
    (tmp_path / "rack" / "specimens").mkdir(parents=True)
    (tmp_path / "rack" / "specimens" / "A1.yaml").write_text("tag: [\n")
    done = bare(tmp_path / "rack", home)
    assert (done.code, done.out.splitlines()[1:]) == (1, ["1 problem in the files: namekeeper collection verify ."])


def test_elsewhere_the_overview_is_shown(tmp_path: Path, home: Path) -> None:
    done = bare(tmp_path, home)
    assert (done.code, done.out.startswith("usage: namekeeper COMMAND")) == (2, True)


def test_a_folder_that_is_gone_is_told(tmp_path: Path) -> None:
    import subprocess
    import sys

    gone = tmp_path / "gone"
    gone.mkdir()
    line = f'rmdir "{gone}"; exec "{sys.executable}" -m namekeeper check animals'
    place = str(Path(__file__).parents[2])
    if not shutil.which("sh"):
        pytest.skip("no shell that could stand in a folder that is gone")
    done = subprocess.run(
        ["sh", "-c", line], cwd=gone, env={"PYTHONPATH": place}, capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (2, "namekeeper: the folder you are in is gone (go to another: cd)\n")
