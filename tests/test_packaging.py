"""The package finds its own data as a checkout, as an editable install and as a wheel in a fresh environment."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.words.errors import FileError

ROOT = Path(__file__).parent.parent


def test_a_checkout_has_its_data() -> None:
    assert (resources.label_templates() / "sheets.yaml").is_file()
    assert (resources.sample_collection() / "collection.yaml").is_file()
    assert (resources.data("starter") / "species.csv").is_file()


def test_a_missing_part_is_said_plainly() -> None:
    with pytest.raises(FileError, match="incomplete: nothing-of-the-kind is missing"):
        resources.data("nothing-of-the-kind")


def test_the_checkout_holds_what_was_agreed_and_nothing_else() -> None:
    git = shutil.which("git")
    if git is None:
        pytest.skip("there is no git on this machine to ask what belongs to the checkout")
    listed = subprocess.run([git, "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout")
    top = {line.split("/")[0] for line in listed.stdout.splitlines()}
    agreed = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "namekeeper",
        "label_templates",
        "tests",
        "sample_collection",
    }
    assert {name for name in top if not name.startswith(".")} == agreed | {"LICENSE"}


@pytest.fixture(scope="session")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The Python of a fresh environment with the built wheel; third-party libraries are lent by this environment."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    subprocess.run(build, check=True, capture_output=True)
    (wheel,) = folder.glob("*.whl")
    venv.create(folder / "env", with_pip=False)
    python = folder / "env" / "bin" / "python"
    site = Path(sysconfig.get_path("purelib", vars={"base": str(folder / "env")}))
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    # A path file's own lines are taken, but not the path files of the folder it names: our editable install stays out.
    (site / "lent.pth").write_text(sysconfig.get_path("purelib") + "\n")
    return python


def run(python: Path, folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    environ = {**os.environ, "NAMEKEEPER_HOME": str(folder / "home"), "PYTHONWARNINGS": "error"}
    environ.pop("PYTHONPATH", None)
    return subprocess.run(
        [str(python), *arguments], cwd=folder, env=environ, capture_output=True, text=True, check=False
    )


@pytest.mark.wheel
def test_the_wheel_runs_the_demo_from_another_folder(fresh: Path, tmp_path: Path) -> None:
    where = run(fresh, tmp_path, "-c", "import namekeeper; print(namekeeper.__file__)")
    assert where.stdout.startswith(str(fresh.parent.parent))
    first = run(fresh, tmp_path, "-m", "namekeeper", "demo", "--json")
    assert first.returncode == 0, first.stderr
    folder = Path(json.loads(first.stdout)["path"])
    assert folder == tmp_path / "namekeeper-demo"
    assert (folder / "labels.pdf").read_bytes().startswith(b"%PDF")
    assert "<html" in (folder / "report.html").read_text(encoding="utf-8")
    again = run(fresh, tmp_path, "-m", "namekeeper", "demo", "--json")
    assert Path(json.loads(again.stdout)["path"]) == tmp_path / "namekeeper-demo-2"
