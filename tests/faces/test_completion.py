"""The tab key: words that may come next, and the scripts in real shells, where these are installed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.faces.cli.completion import INSTALL
from namekeeper.faces.cli.main import VERBS
from tests.conftest import Outcome, Typed, run_here

Command = Callable[..., Outcome]
Complete = Callable[..., list[str]]


@pytest.fixture
def complete(command: Command, tmp_path: Path) -> Complete:
    (tmp_path / "animals" / "specimens").mkdir(parents=True)
    for identifier in ("A1", "A10", "A2", "B1"):
        (tmp_path / "animals" / "specimens" / f"{identifier}.yaml").write_text("tag: GBB\n")

    def words(*typed: str) -> list[str]:
        outcome = command("--complete", *typed)
        assert (outcome.code, outcome.err) == (0, "")
        return outcome.out.splitlines()

    return words


def test_commands_come_first(complete: Complete) -> None:
    assert complete("") == [verb.word for verb in VERBS.values()]
    assert complete("c") == ["check", "collection", "completion"]
    assert complete("--v") == ["--version"]
    assert complete() == complete("")


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (["check", "animals", "--off"], ["--offline"]),
        (["check", "animals", "--offline", "--off"], []),
        (["check", "animals", "--only", ""], ["A1", "A2", "A10", "B1"]),
        (["check", "animals", "--only", "A1", "--only", "B"], ["B1"]),
        (["check", "animals", "--only", "A1", "--on"], ["--only"]),
        (["settle", "animals", "--take", "A1"], ["A1=", "A10="]),
        (["settle", "animals", "--undo-p"], ["--undo-print"]),
        (["history", "animals", "A2", "B"], ["B1"]),
        (["collection", "s"], ["set", "stock"]),
        (["collection", "set", "animals", "B"], ["B1"]),
        (["collection", "join", "animals", "A1", "A10", "B"], ["B1"]),
        (["collection", "set", "animals", "B1", ""], []),
        (["labels", "animals", "--sheet", "letter-cut"], ["letter-cut-2x4-95x64", "letter-cut-3x8-63.5x31"]),
        (["labels", "--template", "v"], ["vial"]),
        (["labels", "animals", "--order", ""], ["id", "name", "place"]),
        (["check", "animals", "--services", "gb"], ["gbif"]),
        (["lists", "compare", "star"], ["starter", "starter@2026.3"]),
        (["completion", "z"], ["zsh"]),
        (["check", ""], []),
        (["check", "animals", "-o", ""], []),
        (["check", "nowhere", "--only", ""], []),
        (["no-such", ""], []),
        (["collection", "no-such", ""], []),
        (["check", '"animals"', "--only", "B"], ["B1"]),
        (["check", '"open', "--only", ""], []),
        (["aka", "--"], ["--help", "--online", "--json"]),
    ],
)
def test_what_may_come_next(complete: Complete, typed: list[str], words: list[str]) -> None:
    assert complete(*typed) == words


@pytest.mark.parametrize("shell", INSTALL)
def test_a_terminal_is_told_how_to_install_it(shell: str, tmp_path: Path, command: Command) -> None:
    shown = run_here(["completion", shell], tmp_path, {"NAMEKEEPER_HOME": str(tmp_path)}, Typed(), Typed())
    assert shown.err.endswith(f"{INSTALL[shell]}\n")
    piped = command("completion", shell)
    assert (piped.out, piped.err) == (shown.out, ""), "a script that is sourced says nothing"


#: Press the tab key after "namekeeper check animals --only B", in each shell's own way, and print what comes of it.
PRESSED = {
    "bash": (
        'source <(namekeeper completion bash); COMP_WORDS=(namekeeper check animals --only B); COMP_CWORD=4; '
        '_namekeeper_words; printf "%s\\n" "${COMPREPLY[@]}"'
    ),
    "zsh": (
        'compdef() { :; }; compadd() { shift $(($# - 1)); print -l -- ${(P)1}; }; source <(namekeeper completion zsh); '
        'words=(namekeeper check animals --only B); CURRENT=5; _namekeeper_words'
    ),
    "fish": 'namekeeper completion fish | source; complete -C "namekeeper check animals --only B"',
}  # fmt: skip


@pytest.mark.parametrize("shell", PRESSED)
def test_the_tab_key_in_a_shell(shell: str, complete: Complete, tmp_path: Path) -> None:
    assert complete("check", "animals", "--only", "B") == ["B1"]
    program = shutil.which(shell)
    if program is None:
        pytest.skip(f"{shell} is not installed")
    caller = tmp_path / "bin" / "namekeeper"
    caller.parent.mkdir()
    caller.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m namekeeper "$@"\n')
    caller.chmod(0o755)
    path = os.pathsep.join((str(caller.parent), os.environ["PATH"]))
    places = os.pathsep.join(filter(None, (str(Path(__file__).parents[2]), os.environ.get("PYTHONPATH", ""))))
    environ = {**os.environ, "PATH": path, "PYTHONPATH": places, "NAMEKEEPER_HOME": str(tmp_path / "home")}
    command = [program, *(["-f"] if shell == "zsh" else []), "-c", PRESSED[shell]]
    done = subprocess.run(
        command, cwd=tmp_path, env={**environ, "HOME": str(tmp_path)}, capture_output=True, text=True, check=False
    )
    assert (done.stdout.split(), done.returncode) == (["B1"], 0), done.stderr
