"""Files without end (pipes, devices, sparse files, bombs of aliases): each is a problem, and the rest goes on.

All in one process with limits of the system's: 1.5 GB of addresses and 60 s of processor time for about a hundred
commands and views (they take 12 s). A file that is waited for would hang, and does not.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from namekeeper.tasks.lists import list_states
from tests.conftest import world
from tests.limited import MB, run_limited
from tests.storage.endless import CASES, COMMANDS, DRAWN, DRAWN_FOR, SPECIMENS, TEMPLATES, VIEWS, collection

pytest.importorskip("resource", reason="limits of this kind are of POSIX systems")

Told = Mapping[str, Mapping[str, list[Any]]]


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Told:
    """What every command said of every case."""
    root = tmp_path_factory.mktemp("endless")
    list_states(world(root, root / "home"))  # the starter list is compiled once, outside of the limits
    done = run_limited("tests.storage.endless", str(root), str(root / "home"), memory=1500 * MB, seconds=60)
    shutil.rmtree(root, ignore_errors=True)
    assert done.returncode == 0, done.stderr[-2000:]
    found: Told = json.loads(done.stdout)
    return found


@pytest.mark.parametrize("case", CASES)
def test_a_file_beside_the_specimens_is_a_problem_and_the_rest_goes_on(case: str, told: Told) -> None:
    file, _, words = CASES[case]
    code, document, _ = told[case]["verify"]
    first = document["problems"][0]
    assert (code, first["file"]) == (2, file)
    assert words in first["what"]
    assert first["remedy"]
    for name in COMMANDS:
        code, _, err = told[case][name]
        assert code == 2, name
        assert "Traceback" not in err
        assert f"{file}" in err
    assert [row["specimen"] for row in told[case]["check"][1]["results"]] == ["A1", "A2"]
    assert [row["specimen"] for row in told[case]["labels"][1]["labels"]] == ["A1", "A2"]
    assert [row["specimen"] for row in told[case]["history"][1]["specimens"]] == ["A1", "A2"]
    assert {view: told[case][view][0] for view in VIEWS} == dict.fromkeys(VIEWS, 200)
    assert all(words in told[case]["/animals"][1] for words in ("A1", "A2"))


def test_specimens_without_end_are_problems_and_the_others_go_on(told: Told) -> None:
    found = told["specimens"]
    problems = found["verify"][1]["problems"]
    for identifier, (_, words) in SPECIMENS.items():
        own = [one for one in problems if one["file"] == f"specimens/{identifier}.yaml"]
        assert own, identifier
        assert words in own[0]["what"], identifier
        assert all(one["remedy"] for one in own)
        assert len(own) <= 51, "nobody reads the problems of eighty thousand lines"
        assert all(len(one["what"]) < 400 for one in own)
    assert {name: found[name][0] for name in COMMANDS} == dict.fromkeys(COMMANDS, 2)
    assert [row["specimen"] for row in found["check"][1]["results"]] == ["A1", "A2"]
    assert [row["specimen"] for row in found["labels"][1]["labels"]] == ["A1", "A2"]
    assert {view: found[view][0] for view in VIEWS} == dict.fromkeys(VIEWS, 200)
    assert all(words in found["/animals"][1] for words in ("A1", "A2"))


@pytest.mark.parametrize("case", sorted(DRAWN_FOR))
def test_the_labels_of_the_others_are_shown(case: str, told: Told) -> None:
    assert [told[case][view][0] for view in DRAWN] == [200, 200]
    assert all(identifier in told[case]["/labels"][1] for identifier in ("A1", "A2"))
    assert "PNG" in told[case]["/labels/sheet.png"][1][:8]


@pytest.mark.long
def test_the_pocket_file_holds_the_others(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NAMEKEEPER_HOME", str(tmp_path / "home"))
    folder, out = collection(tmp_path), tmp_path / "pocket.html"
    for identifier, (make, _) in SPECIMENS.items():
        make(folder / "specimens" / f"{identifier}.yaml")
    done = run_limited("namekeeper", "pocket", str(folder), "-o", str(out), memory=1500 * MB, seconds=120)
    assert (done.returncode, "Traceback" in done.stderr) == (2, False)
    assert all(f"specimens/{identifier}.yaml" in done.stderr for identifier in SPECIMENS)
    assert out.read_bytes().rstrip().endswith(b"</html>")


def test_a_template_without_end_is_named_and_the_others_are_there(told: Told) -> None:
    found = told["templates"]
    for name, (_, words) in TEMPLATES.items():
        code, _, err = found[name]
        assert code == 2
        assert words in err
        assert f"{name}/layout.yaml" in err
    assert found["labels"][0] == 0
    assert "enclosure" in found["list"][1]
    assert all(f"{name}/layout.yaml" in found["list"][2] for name in TEMPLATES)


def test_what_is_ours_is_never_waited_for(told: Told) -> None:
    found = told["ours"]
    codes = {name: found[name][0] for name in found}
    assert not [name for name in found if "Traceback" in found[name][2]]
    assert codes == {"verify": 0, "check": 1, "labels": 0, "settle": 1, "history": 0, "export": 0} | {
        "lists": 0,
        "services": 0,
        "write": 2,
        "online": 1,
    }
    assert "a pipe or device" in found["write"][2]
    for index in ("pointer/current", "index/1.sqlite"):
        assert f"{index}: the index cannot be read: it is no file" in found["check"][2]
