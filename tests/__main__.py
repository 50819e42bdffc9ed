"""Every check of the project by one command: ``python -m tests`` (style, types, tests with branch coverage).

``python -m tests long`` runs the proofs that take minutes, ``python -m tests live [FOLDER]`` asks the real services.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent
SHORT = (
    ("ruff", "check", "."),
    ("ruff", "check", "--preview", "--select", "PLW1514", "."),  # an encoding for every text
    ("ruff", "format", "--check", "."),
    ("mypy",),
    # In the order of the folders: by number of tests, the files that take longest would come last, one on one core.
    (
        *("pytest", "-n", "2", "--dist", "loadfile", "--no-loadscope-reorder"),
        *("--cov", "--cov-report=term:skip-covered", "-q"),
    ),
)
OTHER = {
    "long": (("pytest", "-m", "long", "-q"),),
    "live": (("tests.services.live",),),
}


def main(arguments: list[str]) -> int:
    """Run the checks in order; the first that fails decides the exit code."""
    if arguments and arguments[0] not in OTHER:
        print(f"there is no '{arguments[0]}' here: nothing, or one of {', '.join(OTHER)}", file=sys.stderr)
        return 2
    for command in [(*command, *arguments[1:]) for command in OTHER[arguments[0]]] if arguments else SHORT:
        print("$ python -m", *command, flush=True)
        environ = {**os.environ, "NO_COLOR": "1"}
        if command[0] == "pytest":
            environ["PYTHONWARNDEFAULTENCODING"] = "1"
        code = subprocess.run([sys.executable, "-m", *command], check=False, cwd=ROOT, env=environ).returncode
        if code:
            return code
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
