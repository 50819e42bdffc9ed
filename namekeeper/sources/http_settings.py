"""All numbers of the network rim in one typed place."""

from __future__ import annotations

from dataclasses import dataclass

from namekeeper import __version__


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
        """Name, version and the keeper's contact, as services ask for; constant during a run."""
        contact = "".join(letter for letter in self.contact if " " <= letter <= "~" and letter not in "()").strip()
        return f"namekeeper/{__version__} ({contact or 'no contact set'})"
