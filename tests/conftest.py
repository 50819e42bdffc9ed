"""What every test may use: a world with its own folders, clock and streams."""

from __future__ import annotations

import io
import os
import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

import pytest
from hypothesis import settings

from namekeeper.faces.cli.main import run
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside, Remark
from namekeeper.sources.services.registry import SERVICES
from namekeeper.tasks.lists import list_states
from tests.open_files import guarded

if TYPE_CHECKING:  # most runs of a few tests need no browser
    from playwright.sync_api import Browser

# Port 9 (RFC 863, discard) is closed on a machine of today: no test asks a real service by mistake.
NOWHERE = {service.profile.address_variable: "http://127.0.0.1:9" for service in SERVICES}
# How long an example takes says how busy the machine is, not whether the code is right.
# On the shared builder examples are the same every time, so that a change is judged by what it changed; at a
# developer's desk they differ from run to run, which is where new ones are found.
settings.register_profile("untimed", deadline=None, derandomize="CI" in os.environ, database=None)
settings.load_profile("untimed")
NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


def pytest_configure(config: pytest.Config) -> None:
    """What holds in the processes that tests start, too: a text is read and written in a named encoding (PEP 597; one
    without is another on Windows), and no open file is replaced or removed (``guard/sitecustomize.py``).
    """
    if config.getoption("numprocesses", None) and not hasattr(config, "workerinput"):
        return  # the processes that it starts run the tests, and say so to theirs
    guard = str(Path(__file__).with_name("guard"))
    os.environ |= {
        "PYTHONWARNDEFAULTENCODING": "1",
        "PYTHONWARNINGS": "ignore::EncodingWarning",  # of the libraries; ours are errors by the guard
        "PYTHONPATH": os.pathsep.join(filter(None, [guard, os.environ.get("PYTHONPATH")])),
    }


@dataclass(frozen=True)
class Outcome:
    """What a command printed and its exit code."""

    code: int
    out: str
    err: str


class Typed(io.StringIO):
    """A stream that says it is a terminal; as input what is typed there, as output what is shown."""

    def isatty(self) -> bool:
        return True


def world(folder: Path, home: Path, notice: Callable[[str | Remark], None] = lambda _said: None) -> Outside:
    """The outside of a task: paths count from ``folder``, our own files lie in ``home``, no service is near."""
    return Outside.of(folder, {"NAMEKEEPER_HOME": str(home), **NOWHERE}, lambda: NOW, notice)


def run_here(
    words: Sequence[str],
    folder: Path,
    environ: Mapping[str, str],
    stdin: TextIO,
    out: io.StringIO | None = None,
    err: io.StringIO | None = None,
    *,
    clock: Callable[[], datetime] = lambda: NOW,
) -> Outcome:
    """Run one command in this process; ``out`` and ``err`` may be streams that say they are terminals."""
    out, err = out or io.StringIO(), err or io.StringIO()
    terminal = Terminal.of(out, err, stdin, environ)
    console = terminal.console
    code = run(words, terminal, lambda: Outside.of(folder, environ, clock, console.notice, console.progress))
    return Outcome(code, out.getvalue(), err.getvalue())


@pytest.fixture(autouse=True)
def _as_elsewhere(request: pytest.FixtureRequest) -> Iterator[None]:
    """Nothing replaces or removes a file that is open: other systems refuse to. Tests of just that are marked."""
    spared = request.node.get_closest_marker("holds_open") is not None
    with nullcontext() if spared else guarded():
        yield


@pytest.fixture(scope="session")
def compiled(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A home with the starter list compiled: it is the same for every test, and takes longer than most of them."""
    made = tmp_path_factory.mktemp("compiled")
    list_states(world(made, made))
    (index,) = made.rglob("starter-*.sqlite")
    before = index.read_bytes()
    yield made
    assert index.read_bytes() == before, "a test wrote into the index of all tests"


@pytest.fixture
def home(tmp_path: Path, compiled: Path) -> Path:
    """A state and cache folder of the test's own, with the starter list compiled (a link: nobody writes into it)."""
    return shutil.copytree(compiled, tmp_path / "namekeeper-home", copy_function=os.link)


@pytest.fixture
def outside(tmp_path: Path, home: Path) -> Outside:
    """The outside of a task in the test's own folder."""
    return world(tmp_path, home)


@pytest.fixture
def command(tmp_path: Path, home: Path) -> Callable[..., Outcome]:
    """Runs one command in this process: ``command("lookup", "--json", "GBB", stdin="...", environ={...})``."""

    def call(*arguments: str, stdin: str = "", environ: dict[str, str] | None = None) -> Outcome:
        own = {"NAMEKEEPER_HOME": str(home), **NOWHERE, **(environ or {})}
        return run_here(arguments, tmp_path, own, io.StringIO(stdin))

    return call


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium as the system has it; one for all tests of a process."""
    from tests.chromium import chromium

    with chromium() as running:
        yield running
