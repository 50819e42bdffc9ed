"""The starter list for all tests of this folder."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from namekeeper.evidence.interfaces import NameList
from tests.candidates.starter import opened_starter


@pytest.fixture(scope="session")
def lists(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[NameList, ...]]:
    with opened_starter(tmp_path_factory.mktemp("starter")) as starter:
        yield starter
