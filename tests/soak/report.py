"""What happened in a soak, what should not have, and what never did though it should."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from tests.soak.commands import Fate
from tests.soak.services import MOODS

#: Seconds from which on everything must have happened; a shorter soak may miss what comes by chance.
LONG = 240.0
#: MB and part by which the server may have grown from the second fifth of a long soak to the last.
MOST_GROWN, MOST_GROWN_PART = 8, 0.08
#: What must have been met in a long soak, beside every mood of the services and every fate of a command.
REQUIRED = (
    "changes completed for the dead",
    "changes rolled back for the dead",
    "locks of the dead passed over",
    "writers that waited for the other and wrote",
    "writers that gave up waiting and said so",
    "readers told of a writer at work",
    "pages: waited for a writer and wrote",
    "page: facts", "page: facts with a full disk", "page: later", "page: keep_tag", "page: look", "page: killed",
    "page: killed_at_journal", "page: refused in words",
    "by hand: remark", "by hand: place", "by hand: break", "by hand: new", "by hand: same",
    "whole collection verified",
    "disk full: nothing written, and said so",
)  # fmt: skip


@dataclass
class Report:
    """What happened, and what should not have."""

    seed: int
    began: float = field(default_factory=time.monotonic)
    steps: int = 0
    counts: Counter[str] = field(default_factory=Counter)
    memory: list[tuple[float, int, int]] = field(default_factory=list)  # seconds, MB of the server, of its drawer
    levelled: str = ""  # what many more requests of the same kinds took
    found: list[str] = field(default_factory=list)

    @property
    def age(self) -> float:
        return time.monotonic() - self.began

    def lines(self) -> Iterator[str]:
        yield f"seed {self.seed}: {self.steps} steps in {self.age:.0f} s, {len(self.found)} findings"
        for name, number in sorted(self.counts.items()):
            yield f"  {number:6} {name}"
        marks = [*range(0, int(self.age) + 1, 300), int(self.age)]
        for mark in dict.fromkeys(marks):
            if near := min(self.memory, key=lambda one: abs(one[0] - mark), default=None):
                yield f"  memory at {near[0]:.0f} s: server {near[1]} MB, drawing {near[2]} MB"
        early, late = self.memory_early_and_late()
        yield f"  memory of the server: {early} MB in the second fifth, {late} MB in the last (medians)"
        if self.levelled:
            yield f"  memory of the server after {self.levelled}"
        yield from self.found

    def memory_early_and_late(self) -> tuple[int, int]:
        """MB of the server in the second fifth and in the last, by their medians; zeros if there is too little."""
        whole = max((age for age, _, _ in self.memory), default=0.0)
        early = [mb for age, mb, _ in self.memory if 0.2 * whole <= age < 0.4 * whole]
        late = [mb for age, mb, _ in self.memory if age >= 0.8 * whole]
        return (_median(early), _median(late)) if early and late else (0, 0)

    def judge(self, seconds: float) -> None:
        """Whatever never happened in a long soak is a finding, and so is memory that grew."""
        if seconds < LONG:
            return
        self.found += [f"never met: {name}" for name in self.never_met()]
        early, late = self.memory_early_and_late()
        if not early:
            self.found.append("the memory of the server was not measured")
        elif late - early > max(MOST_GROWN, MOST_GROWN_PART * early):
            self.found.append(f"the memory of the server grew from {early} MB to {late} MB")

    def never_met(self) -> tuple[str, ...]:
        """What a long soak must have met, and this one did not."""
        moods = [f"asked of a service that is {mood}: told as it is" for mood in MOODS]
        fates = [f"fate of a command: {fate}" for fate in Fate]
        return tuple(name for name in (*REQUIRED, *moods, *fates) if not self.counts[name])


def _median(values: Sequence[int]) -> int:
    return sorted(values)[len(values) // 2]
