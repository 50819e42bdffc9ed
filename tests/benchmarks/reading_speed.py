"""How reading time grows with the length of a tag, and how many tags are read a second."""

from __future__ import annotations

import time

from namekeeper.reading.tag import LONGEST_TAG, read_tag
from tests.reading.corpus import entries

PIECES = ("a", "0.1 ", "P. ", "(", "1/", "Brachypelma ", "B. smithi/", "ex ", "sp. ", "£1 ", "Smith & ", "L4 ")


def main() -> None:
    """Prints ratios; a linear reader stays near 4."""
    for piece in PIECES:
        short = seconds(piece * (LONGEST_TAG // 4 // len(piece)))
        long = seconds(piece * (LONGEST_TAG // len(piece)))
        growth = f"{long / short:4.1f} times a quarter of it"
        print(f"{piece!r:16} {long * 1000:7.1f} ms for {LONGEST_TAG} characters, {growth}")
    tags = [entry.tag for entry in entries()]
    print(f"{len(tags) / sum(map(seconds, tags)):.0f} tags of the corpus a second, without a list")


def seconds(text: str) -> float:
    """Best processor time of three readings."""
    best = float("inf")
    for _ in range(3):
        start = time.process_time()
        read_tag(text)
        best = min(best, time.process_time() - start)
    return max(best, 1e-6)


if __name__ == "__main__":
    main()
