"""The command that opens the page: what it prints, and the entry that starts it without typing."""

from __future__ import annotations

import shlex
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from namekeeper.tasks.desktop_entry import entry_text
from tests.conftest import Outcome
from tests.page import screen_face


def test_other_commands_do_not_load_the_libraries_of_the_page() -> None:
    code = "import sys; from namekeeper.faces.cli.main import main; sys.argv[1:] = ['--version']; main(); "
    code += "print([one for one in ('flask', 'waitress', 'jinja2') if one in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_a_folder_that_is_none_and_a_port_that_is_none_are_told(command: object) -> None:
    assert call(command, "browse", "nowhere").err.startswith("namekeeper: ")
    assert call(command, "browse", "--port", "70000").code == 2
    with socket.create_server(("127.0.0.1", 0)) as taken:
        outcome = call(command, "browse", "--no-open", "--port", str(taken.getsockname()[1]))
    assert outcome.code == 2
    assert "the page cannot be opened on port" in outcome.err


def call(command: object, *words: str) -> Outcome:
    assert callable(command)
    outcome = command(*words)
    assert isinstance(outcome, Outcome)
    return outcome


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="desktop entries are of Linux desktops")
def test_an_entry_of_the_desktop_starts_the_page(command: object, tmp_path: Path) -> None:
    assert callable(command)
    outcome = command("browse", "animals", "--desktop", environ={"XDG_DATA_HOME": str(tmp_path / "data")})
    assert outcome.code == 0
    text = (tmp_path / "data" / "applications" / "namekeeper.desktop").read_text()
    keys = dict(line.split("=", 1) for line in text.splitlines()[1:])
    # Desktop Entry Specification 1.5, "Recognized desktop entry keys": these are required of an application.
    assert text.splitlines()[0] == "[Desktop Entry]"
    assert (keys["Type"], keys["Name"]) == ("Application", "Namekeeper")
    assert shlex.split(keys["Exec"]) == [sys.executable, "-m", "namekeeper", "browse", str(tmp_path / "animals")]


def test_odd_folders_are_quoted_as_the_standard_wants() -> None:
    # Desktop Entry Specification 1.5, "The Exec key": in quotes, with " ` $ \\ behind a backslash, which the string
    # type then writes twice; % is doubled.
    assert 'Exec="/a b" "50%%" "\\\\$x" "\\\\"y\\\\"" "\\\\\\\\"\n' in entry_text(["/a b", "50%", "$x", '"y"', "\\"])


def test_the_face_of_the_screen_is_that_of_the_labels() -> None:
    assert screen_face.FACE.read_bytes() == screen_face.made()
