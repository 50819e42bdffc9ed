"""Rows to look up again from scratch: ``python -m tests.starter.error_sample [SEED]`` prints them with their sources.

Sixty rows each of species, former and common names by a fixed seed; misuses, divisions, disputes and cautions are
looked up whole. Above 2 % wrong names the class of the error is looked for, mended, and another seed is drawn.
"""

from __future__ import annotations

import random
import sys

from tests.starter.tables import Row, rows

DRAWN = ("species", "former", "common")
WHOLE = ("misuse", "divisions", "disputes", "cautions")
SIZE = 60


def sample(seed: int) -> dict[str, list[Row]]:
    """Rows by table: drawn from the first three in this order by one generator, all of the others."""
    chance = random.Random(seed)
    drawn = {table: chance.sample(list(rows(table)), SIZE) for table in DRAWN}
    return drawn | {table: list(rows(table)) for table in WHOLE}


if __name__ == "__main__":
    for table, found in sample(int(sys.argv[1]) if len(sys.argv) > 1 else 15).items():
        print(f"{table}: {len(found)}")
        for row in found:
            print("  " + " | ".join(value for value in row.values() if value))
