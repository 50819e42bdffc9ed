"""Congeners that share a common name: a row says that the trade mixes them, or it is written down that it is not so."""

from __future__ import annotations

import csv
from collections import defaultdict
from itertools import combinations
from pathlib import Path

from tests.starter.tables import Row, name_in_force, parts, rows, species

#: One row a pair and shared name: "row" (another table says it), "no", or "not known" with the reason.
ANSWERS = Path(__file__).with_name("data") / "trade_answers.csv"
Pair = frozenset[str]


def answers() -> list[Row]:
    with ANSWERS.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines, strict=True))


def sharing() -> dict[Pair, list[str]]:
    """Pairs of species of one genus, with the common names that both bear."""
    bearers: defaultdict[tuple[str, str], set[str]] = defaultdict(set)
    for row in rows("common"):
        if row["kind"] != "abbreviation" and " " in row["scientificName"]:
            bearers[row["vernacularName"], row["language"]].add(name_in_force(row["scientificName"]))
    pairs: defaultdict[Pair, list[str]] = defaultdict(list)
    for (name, _language), names in bearers.items():
        for one, other in combinations(sorted(names), 2):
            if one.split()[0] == other.split()[0]:
                pairs[frozenset((one, other))].append(name)
    return pairs


def recorded() -> set[Pair]:
    """Pairs that misuse, divisions or disputes hold together."""
    groups = [[row["name"], *parts(row["meant"])] for row in rows("misuse")]
    groups += [[row["name"], *parts(row["into"])] for row in rows("divisions")]
    groups += [[row["name"], *parts(row["targets"])] for row in rows("disputes")]
    return {frozenset(pair) for group in groups for pair in combinations(map(name_in_force, group), 2)}


def test_congeners_with_a_shared_common_name_have_a_row_or_an_answer() -> None:
    written = {frozenset((row["speciesA"], row["speciesB"])) for row in answers()}
    open_pairs = {pair: names for pair, names in sharing().items() if pair not in written | recorded()}
    assert {" / ".join(sorted(pair)): names for pair, names in open_pairs.items()} == {}


def test_answers_are_about_listed_species_and_say_why() -> None:
    assert {row["answer"] for row in answers()} <= {"row", "no", "not known"}
    assert [row for row in answers() if not row["remark"]] == []
    named = {row[column] for row in answers() for column in ("speciesA", "speciesB")}
    assert named - set(species()) == set()


def test_an_answer_that_points_to_a_row_has_one() -> None:
    told = recorded()
    pointing = [row for row in answers() if row["answer"] == "row"]
    assert pointing
    assert [row for row in pointing if frozenset((row["speciesA"], row["speciesB"])) not in told] == []


def test_at_least_sixty_rows_of_trade_use_and_splits_have_a_source() -> None:
    # The number is the promise of issue 15; "common practice" counts as a source there.
    assert len([row for table in ("misuse", "divisions") for row in rows(table) if row["source"] != "memory"]) >= 60
