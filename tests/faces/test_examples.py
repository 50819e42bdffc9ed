"""Help begins with two lines to copy: there are two of each command and act, and each can be typed as it stands."""

from __future__ import annotations

import argparse
import shlex
from pathlib import Path

import pytest

from namekeeper.faces.cli.examples import EXAMPLES
from namekeeper.faces.cli.main import VERBS
from tests.faces.verb_suite import parsers, run_in

BEGINNINGS = [" ".join(begin) for begin, _ in parsers()]


def test_every_command_and_act_has_examples_and_nothing_else_has() -> None:
    assert sorted(EXAMPLES) == sorted(BEGINNINGS)


@pytest.mark.parametrize("begin", BEGINNINGS)
def test_each_line_can_be_typed(begin: str) -> None:
    assert len(set(EXAMPLES[begin])) == 2
    for line in EXAMPLES[begin]:
        verb, *words = shlex.split(line)
        parser = argparse.ArgumentParser(allow_abbrev=False, exit_on_error=False)
        VERBS[verb].module().options(parser)
        assert line.startswith(begin.split(" ", maxsplit=1)[0])
        parser.parse_args(words)


@pytest.mark.parametrize("begin", BEGINNINGS)
def test_help_begins_with_them(begin: str, tmp_path: Path) -> None:
    told = run_in(tmp_path, tmp_path / "home", f"{begin} --help")
    first, second = EXAMPLES[begin]
    assert (told.code, told.err) == (0, "")
    assert told.out.startswith(
        f"For example:\n  namekeeper {first}\n  namekeeper {second}\n\nusage: namekeeper {begin}"
    )
