"""When a kept answer is good enough: a decision with its reasons, without network, disk or clock."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta


@dataclass(frozen=True, slots=True)
class Freshness:
    """The keeper's wish: ``offline`` never asks, ``refresh`` always does, ``max_age`` replaces the service's limit."""

    offline: bool = False
    refresh: bool = False
    max_age: timedelta | None = None


@dataclass(frozen=True, slots=True)
class KeptUse:
    """``use`` the kept answer without asking; ``stale`` marks it wherever it is used; ``reasons`` for asking."""

    use: bool
    stale: bool
    reasons: tuple[str, ...]


def decide_reading(age: timedelta | None, expiry: timedelta, wish: Freshness) -> KeptUse:
    """Judge a kept answer of that age (None: there is none) against the service's expiry and the keeper's wish."""
    limit = expiry if wish.max_age is None else wish.max_age
    for_asking = {
        "nothing kept": age is None,
        "a fresh answer is wished": wish.refresh,
        "kept too long": age is not None and age > limit,
        "kept in the future": age is not None and age < timedelta(0),  # the clock was set back: its age is unknown
    }
    reasons = tuple(reason for reason, holds in for_asking.items() if holds)
    if age is None:
        return KeptUse(False, False, reasons)
    out_of_date = bool(reasons) and reasons != ("a fresh answer is wished",)
    if wish.offline:
        return KeptUse(True, out_of_date, reasons)
    return KeptUse(not reasons, bool(reasons), reasons)
