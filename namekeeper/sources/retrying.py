"""Whether to ask again and after how long: a decision with its reasons, without network or clock."""

from __future__ import annotations

from dataclasses import dataclass

from namekeeper.sources.faults import UnansweredError
from namekeeper.sources.http_settings import HttpSettings


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
