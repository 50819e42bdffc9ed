"""The life of a collection as on Windows, simulated: no ``fcntl``, no ``termios``, ``msvcrt`` with its locks.

What differs there, from memory of its documentation: ``msvcrt.locking`` raises OSError where a byte is locked already;
a file that is open can neither be replaced nor removed; standard streams write the system's code page.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

if sys.platform == "win32":
    pytest.skip("nothing to simulate here", allow_module_level=True)

#: Libraries look at the system when they are loaded, and most would look for parts of it that are not here.
_WORLD = """
import faulthandler, fcntl, json, locale, os, platform, sqlite3, ssl, subprocess, sys, tempfile, types, uuid
import requests, yaml
from tests.open_files import guarded

faulthandler.dump_traceback_later(300, exit=True)
own = types.ModuleType("msvcrt")
own.LK_NBLCK, own.LK_UNLCK = 2, 0
held = fcntl.flock

def locking(descriptor, mode, count):
    assert count == 1
    held(descriptor, fcntl.LOCK_UN if mode == own.LK_UNLCK else fcntl.LOCK_EX | fcntl.LOCK_NB)

own.locking = locking
own.getwch = lambda: keys.pop(0)
own.kbhit = lambda: bool(keys)
keys = []
sys.modules.update({"fcntl": None, "termios": None, "tty": None, "msvcrt": own})
sys.platform = "win32"
locale.getencoding = lambda: "cp1252"
"""
_COMMANDS = (
    _WORLD
    + """
from namekeeper.faces.cli.main import main
codes = []
with guarded():
    for words in json.loads(sys.argv[1]):
        sys.argv = ["namekeeper", *words]
        codes.append(main())
        sys.stdout.flush()
print(json.dumps(codes), file=sys.stderr)
"""
)
_LOCKS = (
    _WORLD
    + """
from datetime import UTC, datetime
from pathlib import Path
from namekeeper.files.places import Places
from namekeeper.storage.lock import BusyError, lock_path, writing
root = Path(sys.argv[1])
places, now = Places(root, root, root), datetime.now(UTC)
with writing(places, root, now) as told:
    assert told == ()
    try:
        with writing(places, root, now, patience=0):
            raise SystemExit("two writers at once")
    except BusyError as busy:
        assert f"process {os.getpid()} on" in str(busy), busy
with writing(places, root, now) as told:
    assert told == (), told
lock = lock_path(places, root)
lock.write_text(lock.read_text(encoding="utf-8") or json.dumps(
    {"host": platform.node(), "pid": 1, "started": "", "since": "2026"}), encoding="utf-8")
with writing(places, root, now) as told:
    assert "took over the lock of process 1" in told[0], told
print("done")
"""
)
_KEYS = (
    _WORLD
    + """
from namekeeper.faces.terminal import _raw_key
for typed, read in json.loads(sys.argv[1]):
    keys[:] = list(typed)
    found = []
    while keys:
        try:
            found.append(_raw_key(sys.stdin))
        except KeyboardInterrupt:
            found.append("stopped")
    assert found == read, (typed, found, read)
print("done")
"""
)
_CONSOLES = (
    _WORLD
    + """
import ctypes, io
from namekeeper.faces.terminal import Terminal

class Kernel:
    def __init__(self, known, able):
        self.known, self.able, self.modes = known, able, []

    def GetConsoleMode(self, handle, mode):
        mode._obj.value = 3
        return self.known

    def SetConsoleMode(self, handle, mode):
        self.modes.append((handle, mode))
        return self.able

class Screen(io.StringIO):
    def isatty(self):
        return True

    def fileno(self):
        return 1

class Lost(Screen):
    def fileno(self):
        raise io.UnsupportedOperation("fileno")

own.get_osfhandle = lambda number: 70 + number
for screen, known, able, environ, marked, modes in (
    (Screen(), 1, 1, {}, True, [(71, 7)]),
    (Screen(), 1, 0, {}, False, [(71, 7)]),
    (Screen(), 0, 1, {}, False, []),
    (Screen(), 1, 1, {"NO_COLOR": "1"}, False, []),
    (Lost(), 1, 1, {}, False, []),
    (io.StringIO(), 1, 1, {}, False, []),
):
    kernel = Kernel(known, able)
    ctypes.windll = types.SimpleNamespace(kernel32=kernel)
    console = Terminal.of(screen, io.StringIO(), io.StringIO(), environ).console
    assert (console.styled, kernel.modes) == (marked, modes), (known, able, environ, console.styled, kernel.modes)
print("done")
"""
)


def child(code: str, *words: str, folder: Path, **environ: str) -> subprocess.CompletedProcess[bytes]:
    """What a process in such a world prints."""
    home = {
        "NAMEKEEPER_HOME": str(folder / "home"),
        "PYTHONPATH": os.pathsep.join(filter(None, [str(Path.cwd()), *sys.path])),
    }
    whole = {**os.environ, **home, **environ}
    return subprocess.run([sys.executable, "-c", code, *words], env=whole, cwd=folder, capture_output=True, check=False)


def test_a_collection_lives(tmp_path: Path) -> None:
    (tmp_path / "stock.csv").write_bytes(
        "Name;Ort\r\nBrachypelma vagans;Año Nuevo\r\nGrammostola rosea;Ñuñoa\r\n".encode("cp1252")
    )
    (tmp_path / "food.csv").write_bytes(b"animal;fed\r\nBrachypelma vagans;2026-01-01\r\n")
    jobs: list[list[str]] = [
        ["collection", "new", "animals"],
        ["collection", "add", "animals", "--tag", "GBB 0.1"],
        ["collection", "import", "animals", "stock.csv", "--column", "locality=Ort", "--write"],
        ["check", "animals", "--offline"],
        ["settle", "animals", "--take-safe", "--write", "--offline"],
        ["history", "animals"],
        ["tables", "animals", "food.csv", "--write"],
        ["labels", "animals", "-o", "labels.pdf", "--printed"],
        ["collection", "export", "animals", "-o", "out.csv"],
        ["lists", "add", "stock.csv", "--as", "mine"],
        ["lists", "remove", "mine", "--yes"],
        ["collection", "verify", "animals"],
    ]
    done = child(_COMMANDS, json.dumps(jobs), folder=tmp_path)
    told = done.stderr.decode("utf-8", "replace")
    assert done.returncode == 0, told
    codes = json.loads(told.splitlines()[-1])
    assert dict(zip((" ".join(job[:2]) for job in jobs), codes, strict=True)) == {
        " ".join(job[:2]): {"check": 1, "settle": 1}.get(job[0], 0) for job in jobs
    }, told
    assert "Tliltocatl vagans" in (tmp_path / "animals" / "specimens" / "INV-0002.yaml").read_text(encoding="utf-8")
    assert "Ñuñoa" in (tmp_path / "out.csv").read_text(encoding="utf-8-sig")
    assert not list((tmp_path / "animals").rglob("*namekeeper-new*"))


def test_one_writer_a_collection(tmp_path: Path) -> None:
    done = child(_LOCKS, str(tmp_path), folder=tmp_path)
    assert done.stdout == b"done\n", done.stderr.decode()


def test_keys_that_stand_for_no_letter_decide_nothing(tmp_path: Path) -> None:
    """An arrow sends a mark and a letter: left is K, page down Q, delete S, F2 a nought and "<" (from memory)."""
    escape = "\x1b"
    scripted = [
        ("k", ["k"]), ("\xe0K", [escape]), ("\xe0Q", [escape]), ("\xe0S", [escape]), ("\x00<", [escape]),
        ("\xe0Kk", [escape, "k"]), ("Ä", ["ä"]), ("\x03", ["stopped"]), ("\x1a", [""]), ("\x04", [""]),
    ]  # fmt: skip
    done = child(_KEYS, json.dumps(scripted), folder=tmp_path)
    assert done.stdout == b"done\n", done.stderr.decode()


def test_marks_only_on_a_console_that_takes_them(tmp_path: Path) -> None:
    """Asked by mode 4, virtual terminal processing (SetConsoleMode; stated from memory); consoles before it refuse."""
    done = child(_CONSOLES, folder=tmp_path)
    assert done.stdout == b"done\n", done.stderr.decode()
