"""Prints the figures of judging: ``python -m tests.judging.measure [--all]`` (``--all`` lists every case)."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from namekeeper import resources
from namekeeper.sources.lists.starter import open_starter
from tests.judging import acts, code_rules, scenarios, trade_forms


def main(arguments: list[str]) -> int:
    """Print one line a kind of case; 1 if anything came out wrong."""
    tallies = [
        code_rules.gender(),
        code_rules.word_class(),
        code_rules.citation(),
        code_rules.homonymy(),
        code_rules.priority(),
        scenarios.count(),
    ]
    with tempfile.TemporaryDirectory() as folder:
        starter = open_starter(resources.data("starter"), Path(folder), lambda words: print(words, file=sys.stderr))
        counted = acts.count(starter)
        tallies += (code_rules.genus_gender(starter), *trade_forms.count(starter))
        starter.close()
    for tally in tallies:
        print(tally)
    print(counted)
    for case in [case for tally in tallies for case in (*tally.argued, *tally.wrong)] + counted.wrong + counted.unsafe:
        print(f"  {case}")
    if "--all" in arguments:
        for case in (*counted.right, *counted.choices, *counted.not_known, *counted.argued):
            print(f"  {case}")
    return 1 if counted.wrong or counted.unsafe or any(tally.wrong for tally in tallies) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
