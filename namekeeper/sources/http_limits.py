"""What one question may cost: its times and sizes, the pace, and whether to ask again; and who asks. No network."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from namekeeper import PROJECT_ADDRESS, __version__
from namekeeper.sources.http_faults import UnansweredError

CONTACT_VARIABLE = "NAMEKEEPER_CONTACT"


def contact_in(environ: Mapping[str, str]) -> str:
    """The keeper's own contact as the environment gives it, "" if it does not."""
    return environ.get(CONTACT_VARIABLE, "").strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class HttpSettings:
    """Limits of one question. Times are in seconds.

    ``attempt_seconds`` bounds one attempt as a whole, name resolution and a dripping body included. No further attempt
    begins after ``budget_seconds``, unless the service itself asks to wait, for at most ``longest_wait``.
    """

    contact: str = ""
    connect_seconds: float = 6.0
    read_seconds: float = 12.0
    attempt_seconds: float = 15.0
    budget_seconds: float = 20.0
    longest_wait: float = 60.0
    attempts: int = 3
    backoff_seconds: float = 1.0
    max_bytes: int = 6_000_000
    max_redirects: int = 3

    @property
    def user_agent(self) -> str:
        """Name, version, the project's address and the keeper's contact, as services ask; constant during a run."""
        return f"namekeeper/{__version__} ({'; '.join(self._reach) or 'no contact set'})"

    @property
    def reachable(self) -> bool:
        """Whether the user agent leads to somebody."""
        return bool(self._reach)

    @property
    def _reach(self) -> list[str]:
        contact = "".join(letter for letter in self.contact if " " <= letter <= "~" and letter not in "();").strip()
        return [one for one in (PROJECT_ADDRESS, contact) if one]


@dataclass(slots=True)
class Pacer:
    """One question at a time: holds back until ``spacing`` seconds have gone by since the last one to this host."""

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


@dataclass(frozen=True, slots=True)
class Retry:
    """Ask again after ``wait`` seconds, or give up; ``reasons`` are those that speak against asking again."""

    again: bool
    wait: float
    reasons: tuple[str, ...]


def decide(fault: UnansweredError, attempt: int, spent: float, settings: HttpSettings, chance: float) -> Retry:
    """What to do after attempt number ``attempt`` (from 1) failed and ``spent`` seconds went by.

    The wait doubles with every attempt and is spread by ``chance`` (0 to 1) between half and all of it, so that many
    keepers do not return at the same moment. A wait that the service itself asks for is never shortened.
    """
    wait = settings.backoff_seconds * 2 ** (attempt - 1) * (0.5 + 0.5 * chance)
    asked_for = fault.retry_after
    if asked_for is not None:
        wait = max(wait, asked_for)
    against = {
        "the same question would fail again": not fault.passing,
        f"asked {attempt} times": attempt >= settings.attempts,
        f"it asks to wait {wait:.0f} s": asked_for is not None and wait > settings.longest_wait,
        f"no answer in {spent:.0f} s": asked_for is None and spent + wait > settings.budget_seconds,
    }
    reasons = tuple(reason for reason, holds in against.items() if holds)
    return Retry(not reasons, 0.0 if reasons else wait, reasons)
