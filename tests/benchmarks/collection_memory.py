"""Most memory of a whole ``check --offline --json`` of 100,000 specimens, in a process of its own.

Run: ``python -m tests.benchmarks.collection_memory [COUNT]``. The collection is that of
:mod:`tests.benchmarks.keepers_animals`; the first check, so verdicts are kept too. What is left is the collection
itself with its findings; the JSON goes out as it is made.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from namekeeper.files.places import Places
from tests.benchmarks.keepers_animals import fill

LIMIT = 4500  # bytes a specimen beside the program itself
_CHILD = """
import sys
from pathlib import Path
from namekeeper.__main__ import main
code = main()
status = Path("/proc/self/status").read_text(encoding="utf-8")
print(status.partition("VmHWM:")[2].split()[0], file=sys.stderr)
sys.exit(code)
"""


def megabytes(folder: Path, home: Path) -> float:
    """Most that the process ever held (Linux)."""
    words = ("check", str(folder), "--offline", "--json")
    environ = {**os.environ, "NAMEKEEPER_HOME": str(home)}
    command = [sys.executable, "-c", _CHILD, *words]
    done = subprocess.run(command, env=environ, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, check=False)
    assert done.returncode in (0, 1), done.stderr
    return int(done.stderr.split()[-1]) / 1024


def main(count: int) -> int:
    """1 if the limit is passed."""
    with tempfile.TemporaryDirectory() as temporary:
        root = Path(temporary)
        home = root / "home"
        places = Places.from_environ({"NAMEKEEPER_HOME": str(home)})
        few, many = root / "few", root / "many"
        fill(few, 10, places)
        fill(many, count, places)
        bare, whole = megabytes(few, home), megabytes(many, home)
    each = (whole - bare) * 1024 * 1024 / count
    print(f"{count} specimens: {whole:.0f} MB at most, {bare:.0f} MB for 10; {each:.0f} bytes each (limit {LIMIT})")
    return int(each > LIMIT)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000))
