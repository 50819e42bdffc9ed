"""Where the system does not tell what stands at a path, nobody says that nothing does."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from namekeeper.files.reading import UnfitFileError, read_file
from tests.conftest import Outcome

Command = Callable[..., Outcome]
COMMANDS = {
    "check": ("check", "locked/c", "--offline"),
    "add": ("collection", "add", "locked/c", "--tag", "GBB"),
    "settle": ("settle", "locked/c", "--take-safe"),
    "export": ("collection", "export", "locked/c", "-o", "e.json", "--as", "json"),
    "tables": ("tables", "locked/c", "t.csv"),
    "import": ("collection", "import", "c", "locked/t.csv"),
    "list": ("lists", "add", "locked/t.csv", "--as", "x"),
    "compare": ("lists", "compare", "locked/t.csv", "starter"),
    "new": ("collection", "new", "locked/c"),
    "output": ("labels", "c", "-o", "locked/l.pdf"),
    "page": ("browse", "locked/c", "--no-open"),
}


@pytest.mark.parametrize("name", COMMANDS)
def test_a_folder_that_may_not_be_looked_into_is_told(
    name: str, tmp_path: Path, command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As where the right to enter a folder (x) is missing, POSIX; the tests may run as who needs no right."""
    for folder in ("c", "locked/c"):
        (tmp_path / folder / "specimens").mkdir(parents=True)
        (tmp_path / folder / "specimens" / "A.yaml").write_text("tag: GBB\n", encoding="utf-8")
    for table in ("t.csv", "locked/t.csv"):
        (tmp_path / table).write_text("name\nTliltocatl vagans\n", encoding="utf-8")
    within = str(tmp_path / "locked") + os.sep
    for call in ("stat", "lstat", "open", "listdir", "scandir", "mkdir"):
        monkeypatch.setattr(os, call, refusing(getattr(os, call), within))
    done = command(*COMMANDS[name])
    assert done.code == 2, done.err
    assert os.strerror(errno.EACCES) in done.err
    assert not any(words in done.err for words in ("no such", "Traceback"))


def test_an_unfit_file_is_never_taken_for_a_closed_pipe_behind_our_output(tmp_path: Path) -> None:
    """Windows says EINVAL of such a pipe, and then nothing more is told: an error of a file must carry its name."""
    (tmp_path / "large").write_bytes(b"x" * 10)
    with pytest.raises(UnfitFileError) as unfit:
        read_file(tmp_path / "large", 5)
    assert (unfit.value.filename, unfit.value.strerror) == (str(tmp_path / "large"), "it is larger than 0 kB")
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(UnfitFileError) as unfit:
        read_file(tmp_path / "pipe")
    assert unfit.value.filename == str(tmp_path / "pipe")


@pytest.mark.parametrize(
    "words", [("lookup", "--from", "~nobody-of-that-name/x"), ("--complete", "check", "~nobody/", "")]
)
def test_the_home_of_a_user_whom_nobody_knows(
    words: tuple[str, ...], command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sign then stands for itself, in the folder where one is."""
    monkeypatch.chdir(tmp_path)
    done = command(*words)
    assert done.code in (0, 2)
    assert "Traceback" not in done.err
    assert command("lookup", "GBB", environ={"NAMEKEEPER_HOME": "~nobody-of-that-name/x"}).code == 0


def test_a_stick_that_fails_under_a_list_is_named(tmp_path: Path, command: Command) -> None:
    """EIO of read(2); it was once told as an output that cannot be written."""
    failing = Path("/proc/self/mem")  # its first bytes are mapped nowhere: proc_pid_mem(5)
    if not failing.exists():
        pytest.skip("a file that cannot be read as Linux has it")
    done = command("lists", "add", str(failing), "--as", "x")
    assert (done.code, done.out) == (2, "")
    assert done.err.startswith(f"namekeeper: {failing}: ")
    assert os.strerror(errno.EIO) in done.err


@pytest.mark.parametrize("make", [os.mkfifo, os.mkdir])
def test_a_pipe_or_folder_is_no_list(make: Callable[[Path], None], tmp_path: Path, command: Command) -> None:
    make(tmp_path / "names")
    done = command("lists", "add", "names", "--as", "x")
    assert (done.code, done.out) == (2, "")
    assert "this is no file (give a file, not a folder, pipe or device)" in done.err


def refusing(real: Callable[..., Any], within: str) -> Callable[..., Any]:
    def call(path: Any, *arguments: Any, **named: Any) -> Any:
        if isinstance(path, str | os.PathLike) and os.fspath(path).startswith(within):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), os.fspath(path))
        return real(path, *arguments, **named)

    return call
