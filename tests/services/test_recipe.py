"""DEVELOPERS.md, "Add a service", followed to the letter in a copy of the project: the suites then run over it.

Records of what commands print (``tests/recorded``) are written anew for a new service and are left out here.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
RECIPE = Path(__file__).parent / "recipe"
PARTS = ("namekeeper", "tests", "label_templates", "sample_collection", "pyproject.toml", "DEVELOPERS.md", "README.md")


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A copy of the project with one more service."""
    copy = tmp_path / "project"
    for part in PARTS:
        if (ROOT / part).is_dir():
            shutil.copytree(ROOT / part, copy / part, ignore=shutil.ignore_patterns("__pycache__", ".*"))
        else:
            shutil.copy(ROOT / part, copy / part)
    # 1. its module
    shutil.copy(RECIPE / "fireflies.py", copy / "namekeeper/sources/services/fireflies.py")
    # 2. one line in one list, and the import it needs
    registry = copy / "namekeeper/sources/services/registry.py"
    text = registry.read_text(encoding="utf-8")
    after = "from namekeeper.sources.services.gbif import Gbif\n"
    text = text.replace(after, f"from namekeeper.sources.services.fireflies import Fireflies\n{after}")
    text = re.sub(r"(SERVICES: .* = \(\n)", r"\1    Fireflies,\n", text)
    assert text.count("Fireflies") == 2
    registry.write_text(text, encoding="utf-8")
    # 3. its good reply
    shutil.copy(RECIPE / "good_reply.py", copy / "tests/services/good/fireflies.py")
    return copy


def run(project: Path, *arguments: str) -> list[str]:
    """What a run of the tests there printed; asserts that nothing failed."""
    command = [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", *arguments]
    environ = {name: value for name, value in os.environ.items() if not name.startswith(("PYTEST", "COV"))}
    done = subprocess.run(
        command, cwd=project, env=environ | {"PYTHONPATH": str(project)}, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout[-4000:] + done.stderr[-2000:]
    return done.stdout.splitlines()


def test_the_contract_suites_run_over_a_new_service(project: Path) -> None:
    """And what is said of all services at once still holds; everything else of theirs runs with ``-m long``."""
    ours = "not test_recipe and not test_own_keys"
    lines = run(project, "tests/services", "-v", "-k", f"(fireflies or test_services_command) and {ours}")
    passed = {found[1] for line in lines if (found := re.search(r"::(\w+)\[.*fireflies.* PASSED", line))}
    assert passed >= {
        "test_every_fault_is_a_failure_with_its_reason",
        "test_the_good_reply_is_good",
        "test_bad_tls",
        "test_retry_after_is_honoured",
        "test_what_is_no_name_is_a_bad_reply_and_the_next_name_is_answered",
        "test_an_answer_about_another_name_is_no_answer",
        "test_a_mistake_in_an_adapter_is_a_failure_of_its_own",
        "test_one_value_of_a_good_reply_changed_to_anything",
        "test_its_key_is_sent_to_it_alone",
        "test_no_test_can_ask_it_by_mistake",
        "test_it_ranks_below_the_lists_unless_somebody_placed_it",
    }


@pytest.mark.long
@pytest.mark.parametrize("keyed", [True, False])
def test_no_test_of_the_services_breaks(project: Path, keyed: bool) -> None:
    """One without a key is asked by every command, too."""
    if not keyed:
        module = project / "namekeeper/sources/services/fireflies.py"
        text, removed = re.subn(r"\n +own_key=.*|(?<=NameService), OwnKey", "", module.read_text(encoding="utf-8"))
        assert removed == 2
        module.write_text(text, encoding="utf-8")
    run(project, "tests/services", "tests/test_layers.py", "--ignore=tests/services/test_recipe.py")
