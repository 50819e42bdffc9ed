"""Kept answers as the desk of a service reads them, against a plain caching session for the same bodies, as a ratio.

``python -m tests.benchmarks.services_kept [ANSWERS] [REPEATS]``. Each has a copy of one recorded reply under every
address; each reading ends with the document. While it is timed nothing can be asked, so what is not kept is an error.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

import responses
from requests_cache import CachedSession

from namekeeper.sources.kept_answers import AnswerCache
from tests.services.conftest import recorded

LIMIT = 0.25
BODY = recorded("inat-taxa-search")


def told(text: str) -> None:
    """A notice would mean that something was not read."""
    raise AssertionError(text)


def sessions(folder: Path, addresses: Sequence[str]) -> dict[str, CachedSession]:
    """Plain sessions that have asked every address: with files like ours, and as it comes."""
    filled = {
        "files": CachedSession(folder / "files", backend="filesystem", serializer="json"),
        "as it comes": CachedSession(folder / "default"),
    }
    with responses.RequestsMock() as wire:
        for address in addresses:
            wire.get(address, json=BODY)
        for session in filled.values():
            for address in addresses:
                session.get(address)
    return filled


def seconds(read: Callable[[str], object], addresses: Sequence[str], repeats: int) -> float:
    """For all of them, the median."""
    spent = []
    for _ in range(repeats):
        start = time.perf_counter()
        for address in addresses:
            assert read(address) == BODY
        spent.append(time.perf_counter() - start)
    return median(spent)


def measure(answers: int, repeats: int) -> tuple[float, dict[str, float]]:
    """Seconds of ours, and of each plain session."""
    addresses = [f"https://api.inaturalist.org/v1/taxa?q=Exemplum+{number}&per_page=30" for number in range(answers)]
    with TemporaryDirectory() as name, responses.RequestsMock():
        folder = Path(name)
        cache = AnswerCache(folder / "ours", told)
        for address in addresses:
            cache.put(address, BODY, datetime.now(UTC))
        plain = sessions(folder, addresses)

        def ours(address: str) -> object:
            held = cache.get(address)
            return None if held is None else held.document

        def theirs(session: CachedSession) -> Callable[[str], object]:
            return lambda address: json.loads(session.get(address).content)

        own = seconds(ours, addresses, repeats)
        others = {key: seconds(theirs(session), addresses, repeats) for key, session in plain.items()}
        for session in plain.values():
            session.cache.close()  # type: ignore[no-untyped-call]
    return own, others


def main(arguments: list[str]) -> None:
    answers, repeats = (int(value) for value in (*arguments, *("400", "3")[len(arguments) :]))
    own, others = measure(answers, repeats)
    for key, spent in others.items():
        print(
            f"{answers} kept answers: {own * 1000:.0f} ms / plain session ({key}) {spent * 1000:.0f} ms "
            f"= {own / spent:.2f} (limit {LIMIT})"
        )


if __name__ == "__main__":
    main(sys.argv[1:])
