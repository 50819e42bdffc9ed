"""Counting: how many published cases come out as their source says, and which do not."""

from __future__ import annotations

import csv
from dataclasses import dataclass, field
from pathlib import Path

DATA = Path(__file__).parent / "data"


@dataclass
class Tally:
    """Cases of one kind: ``right``, ``argued`` (another answer, with the reason on file), ``wrong``."""

    title: str
    right: int = 0
    argued: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)

    def count(self, case: str, got: object, expected: object, argument: str = "") -> None:
        if got == expected:
            self.right += 1
        elif argument:
            self.argued.append(f"{case}: {got}, not {expected}: {argument}")
        else:
            self.wrong.append(f"{case}: {got}, not {expected}")

    @property
    def total(self) -> int:
        return self.right + len(self.argued) + len(self.wrong)

    def __str__(self) -> str:
        told = f"{self.right} of {self.total} as the source says"
        return f"{self.title}: {told}, {len(self.argued)} argued, {len(self.wrong)} wrong"


def rows(name: str) -> list[dict[str, str]]:
    """The rows of a data file of these tests."""
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))
