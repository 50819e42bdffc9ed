"""Services opened against a server on this machine, with a clock that does not wait."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import nullcontext
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from namekeeper.faces.telling.remarks import remark_line
from namekeeper.files.places import Places
from namekeeper.outside import Outside, Remark
from namekeeper.records.specimen import Settings
from namekeeper.sources.http import Wire
from namekeeper.sources.http_limits import HttpSettings
from namekeeper.sources.kept_answers import Freshness
from namekeeper.sources.services.registry import KEYS, SERVICES, open_services
from tests.services.local_server import Asked, Canned, LocalServer, serving
from tests.services.recorded_wire import RecordedWire, on_record

DATA = Path(__file__).parent / "data"
SECRET = "K3Y-of-the-keeper"
NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


def recorded(name: str) -> Any:
    """A real reply."""
    return json.loads((DATA / "recorded" / f"{name}.json").read_text(encoding="utf-8"))


def constructed(name: str) -> Any:
    """A reply that follows a document."""
    return json.loads((DATA / "constructed" / f"{name}.json").read_text(encoding="utf-8"))


@dataclass
class FakeTime:
    """Sleeping only moves the hands."""

    now: datetime = NOW
    ticks: float = 0.0
    slept: list[float] = field(default_factory=list)

    def clock(self) -> datetime:
        return self.now

    def monotonic(self) -> float:
        return self.ticks

    def sleep(self, seconds: float) -> None:
        self.slept.append(seconds)
        self.ticks += seconds

    def days_later(self, days: float) -> None:
        self.now += timedelta(days=days)


def no_progress(done: int, total: int | None, note: str = "") -> None:
    """Nobody looks on."""


@dataclass(frozen=True)
class Known:
    """What is known of a name beside its spelling."""

    identifier_of: Callable[[str], str | None]
    authorship_of: Callable[[str], str]

    def identifier(self, prefix: str, name: str) -> str | None:
        return self.identifier_of(name)

    def authorship(self, name: str) -> str:
        return self.authorship_of(name)


@dataclass
class Bench:
    """Opens services; collects what is told to the keeper."""

    cache: Path
    time: FakeTime
    notices: list[str] = field(default_factory=list)
    settings: HttpSettings = field(default_factory=lambda: HttpSettings(attempts=2, max_bytes=1_000_000))

    def open(
        self,
        key: str,
        base: str,
        wish: Freshness | None = None,
        *,
        identifier_of: Callable[[str], str | None] = lambda name: "urn:lsid:nmbe.ch:spidersp:001720",
        authorship_of: Callable[[str], str] = lambda name: "",
        by_updates: bool = False,
    ) -> Any:
        """The service of that key at that address."""
        environ: dict[str, str] = {}
        for kind in SERVICES:
            own, asked = kind.profile.own_key, kind.profile.key == key
            environ |= {kind.profile.address_variable: base} if asked else {}
            environ |= {own.variable: SECRET if asked else f"of-{kind.profile.key}"} if own else {}
        wire = Wire(settings=self.settings, monotonic=self.time.monotonic, sleep=self.time.sleep, chance=lambda: 1.0)
        (service,) = open_services(
            self.outside(environ),
            Settings(),
            [key],
            wish or Freshness(),
            known=Known(identifier_of, authorship_of),
            by_updates=by_updates,
            wire=wire,
        )
        return service

    def outside(self, environ: Mapping[str, str]) -> Outside:
        """The world of this bench with that environment."""
        places = Places(self.cache, self.cache / "state", self.cache / "data")

        def notice(said: str | Remark) -> None:
            self.notices.append(remark_line(said))

        return Outside(self.cache, places, environ, self.time.clock, notice, lambda what: nullcontext(no_progress))

    def hurry(self, attempts: int = 1) -> None:
        """Limits that a server which hangs reaches soon."""
        self.settings = replace(self.settings, read_seconds=0.1, attempt_seconds=0.2, attempts=attempts)

    def kept(self) -> list[Path]:
        return sorted(self.cache.rglob("*.json"))

    def all_texts(self) -> str:
        """Everything on disk and everything told."""
        return "\n".join([*self.notices, *(path.read_text(encoding="utf-8") for path in self.cache.rglob("*.json"))])


@pytest.fixture
def fake_time() -> FakeTime:
    return FakeTime()


@pytest.fixture
def bench(tmp_path: Path, fake_time: FakeTime) -> Bench:
    return Bench(tmp_path / "cache", fake_time)


def nothing(asked: Asked) -> Canned:
    return Canned(status=404)


@pytest.fixture
def server() -> Iterator[LocalServer]:
    """Knows no address until a test says what to answer."""
    with serving(nothing) as running:
        yield running


@pytest.fixture
def wire() -> Iterator[RecordedWire]:
    """No reply is on record until a test says so."""
    with on_record(nothing) as running:
        yield running


@pytest.fixture(params=KEYS)
def key(request: pytest.FixtureRequest) -> str:
    return str(request.param)
