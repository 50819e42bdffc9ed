"""What is remembered of the words of tags has a bound, however long the file of tags is."""

from __future__ import annotations

from pathlib import Path

import pytest

from namekeeper.evidence.statements import CommonName
from namekeeper.tasks import online
from namekeeper.tasks.lookup import ListNames
from namekeeper.tasks.online import ServiceWishes, TagNamesOnline
from tests.conftest import world


def test_words_in_lists(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("namekeeper.tasks.lookup._HELD", 8)
    names = ListNames(())
    assert not any(names.is_genus(f"Genus{number}") for number in range(100))
    assert names._once.cache_info().currsize == 8


def test_words_asked_of_services(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(online, "_HELD", 8)
    monkeypatch.setattr(online, "_nobody", lambda *_: False)
    asked: list[str] = []

    def told(_self: TagNamesOnline, words: str) -> tuple[CommonName, ...]:
        asked.append(words)
        return ()

    monkeypatch.setattr(TagNamesOnline, "_ask_common", told)
    names = TagNamesOnline(world(tmp_path, tmp_path / "home"), ServiceWishes())
    for number in (*range(100), 99, 98):
        assert names.common(f"words {number}") == ()
    assert len(asked) == 100
    assert len(names._commons) == 8
