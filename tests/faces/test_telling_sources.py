"""Lists, a check and its page say how old the starter list is, and how a newer one comes once it is over a year old."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.evidence.statements import Edition
from namekeeper.faces.telling.sources import ages
from namekeeper.words.dates import PartialDate
from tests.conftest import Outcome

Command = Callable[..., Outcome]


def edition(source: str = "starter", dated: str | None = "2025-12-31") -> Edition:
    return Edition(source, "A list", source, "2026.1", PartialDate.parse(dated) if dated else None)


def test_a_young_list_only_says_its_edition() -> None:
    assert list(ages([edition()], date(2026, 12, 31))) == ["Starter list: edition 2026.1 of 2025-12-31."]


def test_a_list_older_than_a_year_says_how_a_newer_one_comes() -> None:
    (line,) = ages([edition()], date(2027, 1, 1))
    assert line.startswith("Starter list: edition 2026.1 of 2025-12-31. It is older than a year: ")
    assert "a newer version of Namekeeper" in line
    assert "namekeeper lists add" in line


@pytest.mark.parametrize("other", [edition("mine"), edition(dated=None)])
def test_other_lists_and_lists_without_a_date_say_nothing(other: Edition) -> None:
    assert list(ages([other], date(2036, 1, 1))) == []


def test_lists_a_check_and_its_page_say_it(command: Command, tmp_path: Path) -> None:
    told = "Starter list: edition 2026.3 of"
    sample = str(resources.sample_collection())
    assert told in command("lists").out
    assert told in command("check", sample, "--offline", "-o", str(tmp_path / "report.html")).out
    assert told in (tmp_path / "report.html").read_text(encoding="utf-8")
