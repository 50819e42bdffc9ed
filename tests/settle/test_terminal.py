"""The interactive pass on a real terminal: keys act without enter, a line can still be typed."""

from __future__ import annotations

import os
import select
import sys
import time
from pathlib import Path

import pytest

if sys.platform == "win32":
    pytest.skip("pseudo-terminals are of Unix", allow_module_level=True)

import pty

ANIMAL = "tag: B. vagans\nnames:\n  - name: Brachypelma vagans\n    since: 2011\n    recorded: 2011\n"


def talk(folder: Path, home: Path, *said: tuple[str, str]) -> str:
    """Run the pass under a terminal; for each pair wait for the first text and type the second."""
    command = [sys.executable, "-m", "namekeeper", "settle", str(folder), "--offline", "--write"]
    child, terminal = pty.fork()
    if child == 0:
        os.execve(sys.executable, command, {**os.environ, "NAMEKEEPER_HOME": str(home), "NO_COLOR": "1"})
    heard, pending, until = "", list(said), time.monotonic() + 60
    while time.monotonic() < until:
        ready, _, _ = select.select([terminal], [], [], 1)
        if not ready:
            continue
        try:
            chunk = os.read(terminal, 4096).decode("utf-8", "replace")
        except OSError:  # Linux: the other end is closed
            break
        if not chunk:
            break
        heard += chunk
        while pending and pending[0][0] in heard:
            os.write(terminal, pending.pop(0)[1].encode())
    os.close(terminal)
    os.waitpid(child, 0)
    assert not pending, heard
    return heard


def test_keys_and_lines_on_a_terminal(tmp_path: Path) -> None:
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    for identifier in ("A1", "A2", "A3"):
        (folder / "specimens" / f"{identifier}.yaml").write_text(ANIMAL)
    heard = talk(
        folder,
        tmp_path / "home",
        ("1/1  A1, A2, A3", "\x1b[A"),  # an arrow: three letters that are no keys
        ("q stop", "o"),
        ("1/3  A1", "w"),
        ("starter 2026", "t"),
        ("2/3  A2", "n"),
        ("enter alone: back", "Tliltocatl albopilosus\n"),
        ("3/3  A3", "q"),
    )
    assert "Stopped; what was decided is written." in heard
    texts = [(folder / "specimens" / f"A{i}.yaml").read_text() for i in (1, 2, 3)]
    assert "name: Tliltocatl vagans" in texts[0]
    assert "name: Tliltocatl albopilosus" in texts[1]
    assert texts[2] == ANIMAL
