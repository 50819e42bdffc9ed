"""What was left out of a list, and what is wrong in it, counted in full and listed up to a bound."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

#: Enough to see what is wrong with a file; a file of a million bad lines must not fill memory.
LISTED = 1000


class Skip(NamedTuple):
    """One thing left out: ``line`` from 1 in ``file``, 0 where no line can be named."""

    line: int
    why: str
    file: str = ""


@dataclass(slots=True)
class Skips:
    """Collects what a reader and the writer leave out."""

    count: int = 0
    listed: list[Skip] = field(default_factory=list)
    fault_count: int = 0
    faults: list[Skip] = field(default_factory=list)  # of rows that are kept

    def add(self, line: int, why: str, file: str = "") -> None:
        self.count += 1
        if len(self.listed) < LISTED:
            self.listed.append(Skip(line, why, file))

    def tell(self, line: int, fault: str) -> None:
        """A fault of the list's own in a row that is kept all the same."""
        self.fault_count += 1
        if len(self.faults) < LISTED:
            self.faults.append(Skip(line, fault))
