"""Published acts on labels before and after them, judged with the starter list (sources in data/acts.csv)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.starter import open_starter
from namekeeper.words.terms import Standing
from tests.judging import acts, code_rules, measure, trade_forms
from tests.judging.tally import rows


@pytest.fixture(scope="module")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Iterator[IndexList]:
    found = open_starter(resources.data("starter"), tmp_path_factory.mktemp("starter"), print)
    yield found
    found.close()


def test_acts_come_out_as_published_or_are_argued(starter: IndexList) -> None:
    counted = acts.count(starter)
    assert counted.unsafe == []
    assert counted.wrong == []
    assert len(counted.right) > 500
    assert len(counted.not_known) <= 10


def test_stored_genders_are_those_of_the_code(starter: IndexList) -> None:
    tally = code_rules.genus_gender(starter)
    assert tally.wrong == []
    assert tally.right >= 10


def test_trade_forms_are_offered_never_taken(starter: IndexList) -> None:
    kept, offered = trade_forms.count(starter)
    assert kept.wrong == []
    assert offered.wrong == []
    assert offered.right > 25


def test_a_taken_safe_proposal_is_current(starter: IndexList) -> None:
    taken = set()
    for act in rows("acts.csv"):
        if " sp" in act["old_name"]:
            continue
        verdict = acts.on_label(act["old_name"], "2010", starter)
        if verdict.safe and verdict.proposed is not None:
            taken.add(verdict.proposed.name)
    assert len(taken) > 60
    again = {name: acts.on_label(name, "2026-11-25", starter).standing for name in sorted(taken)}
    assert {name: standing for name, standing in again.items() if standing is not Standing.CURRENT} == {}


def test_the_figures_are_printed_by_one_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert measure.main([]) == 0
    printed = capsys.readouterr().out
    for title in ("gender agreement", "citation", "homonymy", "priority", "hand-written scenarios", "acts on labels"):
        assert title in printed
    assert Path(acts.__file__).with_name("data").is_dir()
