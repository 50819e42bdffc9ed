"""Prints how well tags are read and names found: ``python -m tests.reading.measure [--quick]``.

What is measured against: the tag corpus (``data/tags.txt``, by hand); the Code's examples and real name strings
(``tests/words/data``); the starter list; real names of the NCBI Taxonomy (``tests/candidates/real_names.py``); classes
of error (``tests/candidates/misspellings.py``). Each of these files names its sources.
"""

from __future__ import annotations

import csv
import sys
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path

from namekeeper.evidence.interfaces import NameList
from namekeeper.tasks.lookup import look_up
from namekeeper.words.errors import InputError
from namekeeper.words.parsing import parse_name
from namekeeper.words.spelling import match_of
from tests.candidates.common_names import by_name, measure_common
from tests.candidates.real_names import listed, parted
from tests.candidates.spelling_measure import Tally, answers, measure, total
from tests.candidates.starter import opened_starter, starter_commons, starter_names
from tests.candidates.test_common_names import SHARED
from tests.reading.corpus import FIELDS, entries, wrong_answer, wrong_fields
from tests.words import test_code_rows, test_name_strings

SEED = 20261125


def main(arguments: Sequence[str]) -> None:
    """Everything, or with ``--quick`` with fewer misspellings and a smaller list of real names."""
    per_class, size = (20, 5_000) if "--quick" in arguments else (100, 50_000)
    with tempfile.TemporaryDirectory() as folder, opened_starter(Path(folder)) as lists:
        print_corpus(lists)
        print_code_rows()
        print_name_strings()
        print_common(lists)
        print(f"\nMisspelt names of the starter list ({len(starter_names())} species)")
        print_misspellings(starter_names(), lists, per_class)
        print_unlisted("1,000 real names not in the starter list", outside(lists), lists)
        names, unlisted = parted(1000)
        with_list = listed(sorted(names)[:size], Path(folder) / "real.sqlite")
        print(f"\nMisspelt names of a list of {size} real names")
        print_misspellings(sorted(names)[:size], (with_list,), per_class)
        print_unlisted("1,000 real names not in that list", unlisted, (with_list,))
        with_list.close()


def print_corpus(lists: Sequence[NameList]) -> None:
    corpus = entries()
    looked = list(look_up((entry.tag for entry in corpus), lists))
    fields = [fault for entry, result in zip(corpus, looked, strict=True) for fault in wrong_fields(entry, result)]
    faults = [fault for entry, result in zip(corpus, looked, strict=True) if (fault := wrong_answer(entry, result))]
    given = sum(len(entry.reading) for entry in corpus)
    ones = sum(1 for e, r in zip(corpus, looked, strict=True) if wrong_answer(e, r) and r.lookup.answer == "one")
    other = sum(entry.language != "en" for entry in corpus)
    print(f"Tag corpus: {len(corpus)} tags, {other} not English")
    whole = len(FIELDS) * len(corpus)
    print(f"  fields right: {share(given - len(fields), given)} of those given; {whole} with the empty ones")
    print(f"  answers right: {share(len(corpus) - len(faults), len(corpus))}; wrong 'one': {ones}")
    print_all(fields + faults)


def print_code_rows() -> None:
    checked = {row["id"] for row in test_code_rows.ROWS if row["check"] != "argued"}
    argued = [row for row in test_code_rows.ROWS if row["check"] == "argued"]
    wrong = [row["id"] for row in test_code_rows.ROWS if not code_row_is_right(row)]
    print(f"\nCode examples of reading and spelling: {len(checked)} rows checked, {len(wrong)} wrong {wrong}")
    print_all([f"argued: {row['id']} {row['input']}: {row['argument']}" for row in argued])


def code_row_is_right(row: dict[str, str]) -> bool:
    if row["check"] == "same":
        one, other = row["input"].split(" | ")
        return match_of(one, other).value == row["expected"]
    try:
        name = parse_name(row["input"])
    except InputError:
        return row["check"] in ("none", "argued")
    parts = [part.partition("=") for part in row["expected"].split("; ") if part]
    return row["check"] != "none" and all(test_code_rows.field_of(name, key) == value for key, _, value in parts)


def print_name_strings() -> None:
    rows = [row for row in test_name_strings.ROWS if row["code_hint"] == "zoological"]
    wrong = [row["id"] for row in rows if test_name_strings.differences(row)]
    every = [row["id"] for row in test_name_strings.ROWS if test_name_strings.differences(row)]
    hand = [row for row in test_name_strings.ROWS if row["basis"] == "hand"]
    wrong_hand = sum(row["id"] in every for row in hand)
    print(f"\nReal name strings, all fields right: zoological {share(len(rows) - len(wrong), len(rows))}")
    print(f"  hard ones (by hand) {share(len(hand) - wrong_hand, len(hand))}, all "
          f"{share(len(test_name_strings.ROWS) - len(every), len(test_name_strings.ROWS))}")  # fmt: skip
    print_all([f"{key}: {test_name_strings.ARGUED.get(key, 'not argued')}" for key in every])


def print_common(lists: Sequence[NameList]) -> None:
    tables = {"Common names of the starter list": by_name(starter_commons())}
    if SHARED.exists():
        rows = csv.DictReader(SHARED.read_text(encoding="utf-8").splitlines())
        tables["Table of common names"] = by_name((row["common_name"], row["scientific_name"]) for row in rows)
    for title, table in tables.items():
        figures = measure_common(table, lists)
        print(f"\n{title}: all species shown for {share(figures.complete, figures.asked)}")
        print(f"  of {figures.ambiguous} with several species answered 'several': {figures.several}")
        print_all(figures.missed)


def print_misspellings(names: Sequence[str], lists: Sequence[NameList], per_class: int) -> None:
    for errors in (1, 2):
        tallies = measure(names, lists, errors, per_class, SEED)
        heads = f"{'first right':>12} {'precision':>9} {'shown':>7} {'one':>5} {'wrong one':>10}"
        print(f"  {('1 error', '2 errors')[errors - 1]:24} {heads}")
        for kind, tally in (*tallies.items(), ("all classes", total(tallies))):
            first, shown = per_cent(tally.right_first, tally.asked), per_cent(tally.right_shown, tally.asked)
            print(
                f"    {kind:26} {first:>8} {precision(tally):>9} {shown:>7} {tally.one:>5} {len(tally.wrong_one):>10}"
            )


def precision(tally: Tally) -> str:
    return per_cent(tally.right_first, tally.answered)


def print_unlisted(title: str, names: Sequence[str], lists: Sequence[NameList]) -> None:
    found, silent = answers(names, lists)
    print(f"  {title}: {found['with a species']} get a species, {found['one']} get 'one', {len(silent)} guesses "
          f"without the note; answers {dict(sorted(found.items()))}")  # fmt: skip


def outside(lists: Sequence[NameList]) -> list[str]:
    named: Callable[[str], bool] = lambda name: any(origin.named(name) for origin in lists)  # noqa: E731
    return [name for name in parted(3000)[1] if not named(name)][:1000]


def share(right: int, whole: int) -> str:
    return f"{right} of {whole} ({per_cent(right, whole)})"


def per_cent(right: int, whole: int) -> str:
    return f"{100 * right / whole:.1f} %" if whole else "-"


def print_all(lines: Sequence[str]) -> None:
    for line in lines:
        print(f"    {line}")


if __name__ == "__main__":
    main(sys.argv[1:])
