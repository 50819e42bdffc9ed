"""One home for all tests of this folder: the starter list is compiled once."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("home")
