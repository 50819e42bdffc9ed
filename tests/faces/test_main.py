"""The command line as a whole: unknown verbs, help, exit codes."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper import __version__
from tests.conftest import Outcome

Command = Callable[..., Outcome]


def test_without_a_command_the_overview_is_shown(command: Command) -> None:
    outcome = command()
    assert outcome.code == 2
    assert "namekeeper demo" in outcome.out
    assert command("--help").code == 0


def test_the_version(command: Command) -> None:
    assert command("--version").out == f"namekeeper {__version__}\n"


def test_an_unknown_command_gets_a_suggestion(command: Command) -> None:
    outcome = command("chek")
    assert outcome.code == 2
    assert outcome.out == ""
    assert outcome.err == "namekeeper: there is no command 'chek'; did you mean 'check'? (see namekeeper --help)\n"


def test_the_module_runs_as_a_program() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "namekeeper", "--version"], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout) == (0, f"namekeeper {__version__}\n")


def test_a_reader_that_goes_away_is_no_error() -> None:
    line = f"{sys.executable} -m namekeeper --help | true"
    done = subprocess.run(["bash", "-o", "pipefail", "-c", line], capture_output=True, text=True, check=False)
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("closed", ["<&-", ">&-", "2>&-", "<&- >&- 2>&-"])
def test_a_stream_that_is_closed_is_no_error(closed: str) -> None:
    line = f"{sys.executable} -m namekeeper --help {closed}"
    done = subprocess.run(["bash", "-c", line], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
def test_an_output_that_is_full_is_one_clear_line() -> None:
    line = f"{sys.executable} -m namekeeper --help >/dev/full"
    done = subprocess.run(["bash", "-c", line], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr == "namekeeper: the output cannot be written: No space left on device\n"


_CLOSED = """
import errno, io, os, sys
from namekeeper.faces.cli.main import main

class Closed(io.RawIOBase):
    def writable(self):
        return True

    def fileno(self):
        return 1

    def write(self, data):
        if os.readlink("/proc/self/fd/1") == os.devnull:
            return len(data)
        raise OSError(errno.EINVAL, "Invalid argument")

sys.stdout = io.TextIOWrapper(io.BufferedWriter(Closed()), "cp1252")
sys.argv = ["namekeeper", "--help"]
raise SystemExit(main())
"""


@pytest.mark.skipif(not Path("/proc/self/fd").exists(), reason="needs /proc")
def test_a_pipe_that_was_closed_as_windows_says_it_is_nobodys_fault() -> None:
    """There a write into a pipe whose reader has gone fails with EINVAL (bpo-35754; stated from memory)."""
    done = subprocess.run([sys.executable, "-c", _CLOSED], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


def test_an_option_given_twice_is_refused(command: Command, tmp_path: Path) -> None:
    """The first of two values would be lost without a word."""
    folder = tmp_path / "animals"
    assert command("collection", "new", str(folder)).code == 0
    outcome = command("collection", "add", str(folder), "--tag", "GBB 0.1", "--tag=OBT 1.0")
    assert (outcome.code, outcome.out) == (2, "")
    assert outcome.err.endswith("argument --tag: can be given only once\n")
    assert list((folder / "specimens").iterdir()) == []
    more = command("collection", "add", str(folder), "--tag", "GBB 0.1", "--from", "INV-0007", "--from", "INV-0008")
    assert more.code == 0
