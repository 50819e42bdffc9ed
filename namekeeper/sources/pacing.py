"""At most one question at a time to a host, and never faster than it asks for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(slots=True)
class Pacer:
    """Holds back until ``spacing`` seconds have gone by since the last question to this host."""

    spacing: float
    monotonic: Callable[[], float]
    sleep: Callable[[float], None]
    last: float | None = None

    def wait(self) -> None:
        """Sleep as long as needed and note that a question goes out now."""
        now = self.monotonic()
        if self.last is not None and now < self.last + self.spacing:
            self.sleep(self.last + self.spacing - now)
            now = self.monotonic()
        self.last = now
