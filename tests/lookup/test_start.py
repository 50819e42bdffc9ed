"""A look-up starts fast: what it loads is a fixed price of every single tag (``tests/benchmarks/lists_process.py``)."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

_COMMAND = """
import sys
from namekeeper.faces.cli.main import main
main()
print(*sorted(sys.modules))
"""
#: Modules that are spared, and by what. ``dataclasses`` brings ``inspect`` and with it the parser of Python.
_SPARED = {
    "dataclasses": "values on the way of a look-up are named tuples",
    "inspect": "as above",
    "shutil": "the width of the terminal is asked of the system",
    "yaml": "no collection is opened",
    "requests": "no service is asked",
    "difflib": "only a misspelt command needs it",
}


def test_a_look_up_loads_nothing_that_it_does_not_need(tmp_path: Path) -> None:
    environ = {**os.environ, "NAMEKEEPER_HOME": str(tmp_path)}
    words = ("lookup", "--offline", "Poecilotheria metallica")
    bare = [sys.executable, "-S", "-c", _COMMAND, *words]  # without what a site's packages load by themselves
    path = os.pathsep.join([str(Path.cwd()), *filter(None, sys.path)])
    subprocess.run(bare, env={**environ, "PYTHONPATH": path}, check=True, capture_output=True)  # makes the index
    done = subprocess.run(bare, env={**environ, "PYTHONPATH": path}, check=True, capture_output=True, text=True)
    *told, loaded = done.stdout.splitlines()
    assert any("Poecilotheria metallica" in line for line in told)
    assert sorted(_SPARED.keys() & set(loaded.split())) == []
