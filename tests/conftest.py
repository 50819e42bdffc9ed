"""What every test may use: a context with its own folders, clock and streams."""

from __future__ import annotations

import io
import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import settings

from namekeeper.faces.cli.context import Context
from namekeeper.faces.cli.main import run
from namekeeper.sources.services.registry import SERVICES

# Port 9 (RFC 863, discard) is closed on a machine of today: no test asks a real service by mistake.
NOWHERE = {service.profile.address_variable: "http://127.0.0.1:9" for service in SERVICES}
# How long an example takes says how busy the machine is, not whether the code is right.
# On the shared builder examples are the same every time, so that a change is judged by what it changed; at a
# developer's desk they differ from run to run, which is where new ones are found.
settings.register_profile("untimed", deadline=None, derandomize="CI" in os.environ, database=None)
settings.load_profile("untimed")
NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


@dataclass(frozen=True)
class Outcome:
    """What a command printed and its exit code."""

    code: int
    out: str
    err: str


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A state and cache folder of the test's own."""
    return tmp_path / "namekeeper-home"


@pytest.fixture
def command(tmp_path: Path, home: Path) -> Callable[..., Outcome]:
    """Runs one command in this process: ``command("lookup", "--json", "GBB", stdin="...", environ={...})``."""

    def call(*arguments: str, stdin: str = "", environ: dict[str, str] | None = None) -> Outcome:
        out, err = io.StringIO(), io.StringIO()
        context = Context(
            out=out,
            err=err,
            stdin=io.StringIO(stdin),
            clock=lambda: NOW,
            environ={"NAMEKEEPER_HOME": str(home), **NOWHERE, **(environ or {})},
            folder=tmp_path,
        )
        code = run(arguments, context)
        return Outcome(code, out.getvalue(), err.getvalue())

    return call
