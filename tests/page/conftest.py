"""A page on a copy of the sample collection, asked by a client that came in by the start link."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from namekeeper import resources
from namekeeper.faces.page.app import create_app
from namekeeper.faces.page.keeping import Keeping
from namekeeper.faces.page.safety import Guard
from namekeeper.faces.page.sheet_process import SheetMaker
from tests.conftest import world

PORT = 8123
HOST = f"127.0.0.1:{PORT}"


@dataclass
class Visitor:
    """A browser without a screen: it keeps cookies, and fills in forms from what the page shows."""

    client: FlaskClient
    keeping: Keeping
    guard: Guard
    ended: list[bool]

    def get(self, path: str, headers: Mapping[str, str] | None = None) -> TestResponse:
        return self.client.get(path, base_url=f"http://{HOST}", headers=headers)

    def come_in(self) -> None:
        assert self.get(urlsplit(self.guard.start_link).path).status_code == 303

    def token(self) -> str:
        found = re.search(r'name="csrf_token" value="([^"]+)"', self.get("/lookup").text)
        assert found is not None
        return unescape(found[1])

    def post(
        self, path: str, fields: Mapping[str, object] | None = None, headers: Mapping[str, str] | None = None
    ) -> TestResponse:
        """A form of ours, with all that it carries."""
        data = {"csrf_token": self.token(), "collection": self.keeping.key, **(fields or {})}
        return self.client.post(path, base_url=f"http://{HOST}", data=data, headers=headers)

    def follow(self, answer: TestResponse) -> str:
        """The page that an act leads to."""
        assert answer.status_code == 303, answer.text
        while answer.status_code == 303:
            answer = self.get(answer.location)
        return answer.text


def visitor_of(keeping: Keeping) -> Visitor:
    ended: list[bool] = []
    guard = Guard(PORT)
    app = create_app(keeping, guard, lambda: ended.append(True))
    app.testing = True
    return Visitor(app.test_client(), keeping, guard, ended)


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    """A copy of the sample collection."""
    folder = tmp_path / "animals"
    shutil.copytree(resources.sample_collection(), folder)
    return folder


@pytest.fixture(scope="session")
def maker() -> Iterator[SheetMaker]:
    """One process that draws, for all tests."""
    made = SheetMaker()
    yield made
    made.close()


@pytest.fixture
def stranger(animals: Path, tmp_path: Path, home: Path, maker: SheetMaker) -> Iterator[Visitor]:
    """Somebody who has not opened the start link."""
    keeping = Keeping.of(world(tmp_path, home))
    keeping.sheets = maker
    keeping.patience = 60.0  # of a busy machine
    keeping.open(animals)
    yield visitor_of(keeping)
    keeping.sheets = SheetMaker()  # the one of all tests goes on
    keeping.end(5)


@pytest.fixture
def visitor(stranger: Visitor) -> Visitor:
    """The keeper, with the sample collection open."""
    stranger.come_in()
    return stranger
