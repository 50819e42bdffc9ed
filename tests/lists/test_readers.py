"""Every reader of ``READERS`` keeps the contract of readers, with its own example."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.sources.lists.adding import READERS
from namekeeper.sources.lists.list_file import ListReader
from tests.conftest import Outcome
from tests.lists import reader_contract

Command = Callable[..., Outcome]


@pytest.fixture(params=READERS, ids=lambda reader: reader.key)
def reader(request: pytest.FixtureRequest) -> ListReader:
    found: ListReader = request.param
    return found


def test_its_example_is_recognised(reader: ListReader, tmp_path: Path) -> None:
    reader_contract.is_recognised(reader, tmp_path)


def test_it_streams_as_often_as_asked(reader: ListReader, tmp_path: Path) -> None:
    reader_contract.is_streamed_as_often_as_asked(reader, tmp_path)


def test_the_command_takes_it(reader: ListReader, tmp_path: Path, command: Command) -> None:
    reader_contract.is_added_by_the_command(reader, tmp_path, command)


def test_columns(reader: ListReader, tmp_path: Path, command: Command) -> None:
    reader_contract.keeps_columns_to_itself(reader, tmp_path, command)


def test_damage(reader: ListReader, tmp_path: Path) -> None:
    reader_contract.survives_damage(reader, tmp_path)
