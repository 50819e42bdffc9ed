"""What ``collection verify`` says where nothing is wrong; the animals are invented."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome

ANIMAL = "tag: a\nacquired: 2026-11-20\nnames:\n- {name: Brachypelma vagans, recorded: 2026-11-20}\n"


@pytest.mark.parametrize("many", [1, 3, 4, 9])
def test_what_only_the_keeper_can_tell_is_asked_once_of_many(
    many: int, tmp_path: Path, command: Callable[..., Outcome]
) -> None:
    (tmp_path / "animals" / "specimens").mkdir(parents=True)
    for number in range(1, many + 1):
        (tmp_path / "animals" / "specimens" / f"A{number}.yaml").write_text(ANIMAL)
    shown = command("collection", "verify", str(tmp_path / "animals"))
    words = " ".join(shown.out.split())
    assert shown.code == 0
    assert "no problems." in words
    assert words.count("did the animal come that day?") == (many if many < 4 else 0)
    assert (f"{many} animals came on the day of the first entry" in words) == (many >= 4)
    assert all(f"A{number}" in words for number in range(1, many + 1))
