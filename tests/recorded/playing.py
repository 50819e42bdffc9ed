"""Plays a scenario in this process, in folders of its own, and tells what came of it."""

from __future__ import annotations

import io
import os
import re
import shlex
import shutil
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import timedelta
from pathlib import Path
from unittest import mock

import namekeeper
from namekeeper import resources
from tests.conftest import NOW, NOWHERE, Typed, run_here
from tests.recorded.fake_services import ANSWERS
from tests.recorded.files import changes, tree
from tests.recorded.scenario import Put, Remove, Run, Scenario, Step
from tests.recorded.sections import Section, joined, stream
from tests.services.local_server import Asked, LocalServer, serving
from tests.services.local_services import everywhere

#: Ports; sizes of databases, which depend on SQLite; times of files, which no clock of ours makes.
_FLEETING = (
    (re.compile(r"(?<=127\.0\.0\.1:)\d{2,5}"), "PORT"),
    (re.compile(r'(?<="bytes": )\d+'), '"SIZE"'),
    (re.compile(r'(?<="last_answer": )"[0-9T:+-]+"'), '"THEN"'),
    (re.compile(r"\d{4}-\d\d-\d\d(?= +\d+ kB)"), "YYYY-MM-DD"),
)
#: Of the tool's own files what no one's business is: the compiled starter list, kept verdicts (they hold no more than a
#: fresh check says, and depend on times of files), locks, digests of what was written for the keeper.
_NOT_TOLD = ("cache/lists/", "cache/verdicts/", "state/locks/", "state/outputs.json")
_SOURCE = Path(namekeeper.__file__).parent.parent


def warmed(folder: Path) -> Path:
    """A cache in which the starter list is compiled; scenarios begin with a copy, so that it is done once."""
    Stage(folder / "here", folder / "home").call(Run(words=("lookup", "--offline", "GBB")))
    return folder / "home" / "cache"


def play(scenario: Scenario, folder: Path, warm: Path) -> str:
    """The record of ``scenario``, played below ``folder``."""
    stage = Stage(folder / "here", folder / "home")
    shutil.copytree(warm, stage.home / "cache")
    if scenario.sample:
        shutil.copytree(resources.sample_collection(), stage.here / scenario.sample)
    for path, content in scenario.files.items():
        stage.put(Put(path, content))
    sections: list[Section | str] = [f'The scenario "{scenario.name}", written by: python -m tests.recorded']
    for step in scenario.steps:
        sections += stage.take(step)
    return joined(sections)


class Stage:
    """The folder a keeper stands in, and the home of the tool's own files."""

    def __init__(self, here: Path, home: Path) -> None:
        self.here, self.home = here, home
        here.mkdir(parents=True)

    def take(self, step: Step) -> list[Section | str]:
        """Do a step; its heading and sections."""
        if isinstance(step, Put):
            self.put(step)
            return [f"=== the keeper writes {step.path}"]
        if isinstance(step, Remove):
            path = self.here / step.path
            shutil.rmtree(path) if path.is_dir() else path.unlink()
            return [f"=== the keeper removes {step.path}"]
        before, kept = tree(self.here), self._kept()
        sections = self.call(step)
        sections += changes(before, tree(self.here), self._steady)
        sections += changes(kept, self._kept(), self._steady, "HOME/")
        return [_heading(step), *sections]

    def put(self, step: Put) -> None:
        path = self.here / step.path
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(step.content.encode() if isinstance(step.content, str) else step.content)

    def call(self, step: Run) -> list[Section]:
        """Run the command line; its streams and exit code."""
        out, err = (Typed(), Typed()) if step.terminal else (io.StringIO(), io.StringIO())
        with ExitStack() as stack:
            stack.enter_context(steady_surroundings())
            server = stack.enter_context(serving(ANSWERS[step.service])) if step.service else None
            outcome = run_here(
                step.words,
                self.here,
                self._environ(server) | dict(step.environ),
                Typed(step.stdin) if step.terminal else io.StringIO(step.stdin),
                out,
                err,
                clock=lambda: NOW + timedelta(days=step.days),
            )
        told = [stream(name, self._steady(text)) for name, text in (("stdout", outcome.out), ("stderr", outcome.err))]
        sections = [Section(f"exit {outcome.code}"), *(section for section in told if section.body)]
        if server is not None:
            sections.append(Section("asked, in alphabetical order", "".join(sorted(map(_asked, server.asked)))))
        return sections

    def _environ(self, server: LocalServer | None) -> dict[str, str]:
        return {"NAMEKEEPER_HOME": str(self.home)} | (everywhere(server) if server else NOWHERE)

    def _kept(self) -> dict[str, bytes]:
        """The tool's own files, but for those that are not told."""
        files = tree(self.home) if self.home.is_dir() else {}
        return {path: content for path, content in files.items() if not path.startswith(_NOT_TOLD)}

    def _steady(self, text: str) -> str:
        """``text`` without what differs from machine to machine and from run to run."""
        for path, word in ((self.here, "HERE"), (self.home, "HOME"), (_SOURCE, "SOURCE")):
            for place in sorted({str(path), str(path.resolve())}, key=len, reverse=True):
                text = text.replace(place, word)
        for pattern, word in _FLEETING:
            text = pattern.sub(word, text)
        return text


@contextmanager
def steady_surroundings() -> Iterator[None]:
    """The same width of a terminal and the same time zone everywhere."""
    with mock.patch.dict(os.environ, {"TZ": "UTC"}), mock.patch("os.get_terminal_size", side_effect=OSError):
        for name in ("COLUMNS", "LINES"):
            os.environ.pop(name, None)
        _take_time_zone()
        try:
            yield
        finally:
            os.environ.pop("TZ")
    _take_time_zone()


def _take_time_zone() -> None:
    if hasattr(time, "tzset"):
        time.tzset()


def _heading(step: Run) -> str:
    notes = [
        *([f"stdin {step.stdin!r}"] if step.stdin else []),
        *(["on a terminal"] if step.terminal else []),
        *(f"{key}={value}" for key, value in step.environ.items()),
        *([f"services: {step.service}"] if step.service else []),
        *([f"{step.days} days later"] if step.days else []),
    ]
    line = ascii(shlex.join(step.words))[1:-1] if not shlex.join(step.words).isprintable() else shlex.join(step.words)
    return f"=== namekeeper {line}" + (f"  ({'; '.join(notes)})" if notes else "")


def _asked(asked: Asked) -> str:
    query = "&".join(f"{key}={value}" for key, value in sorted(asked.query.items()))
    body = f" {asked.body}" if asked.body is not None else ""
    return f"{asked.method} {asked.path}{'?' + query if query else ''}{body}\n"
