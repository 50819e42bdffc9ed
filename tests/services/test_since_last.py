"""A check compared with the last one: quiet when nothing changed, and never a reason to stop."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from namekeeper.evidence.statements import Edition, TaxonName
from namekeeper.evidence.verdicts import Choice, Ground, GroundCode, Said, Silence, Verdict
from namekeeper.outside import Outside
from namekeeper.records.specimen import Specimen
from namekeeper.tasks.check import Finding, Report
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.since_last import News, news_since_last
from namekeeper.words.errors import NOWHERE
from namekeeper.words.terms import Standing
from tests.conftest import NOW


def row(
    specimen: str, standing: str = "current", proposed: str | None = None, label: str = "L", *, stale: bool = False
) -> Finding:
    said = Said(Silence(Edition("starter", "Starter", "starter"), label), stale=stale)
    target = TaxonName(proposed) if proposed else None
    verdict = Verdict(Standing(standing), "rule", target, False, (), (said,), (), (), "d")
    return Finding(Specimen(specimen, NOWHERE), None, label, None, verdict)


@pytest.fixture
def desk(tmp_path: Path, outside: Outside) -> CollectionDesk:
    return CollectionDesk(tmp_path / "my-animals", outside)


def compare(desk: CollectionDesk, *rows: Finding, partial: bool = False, edition: str = "1") -> News:
    report = Report(NOW.date(), rows, editions=(Edition("starter", "Starter", edition),))
    return news_since_last(report, desk, partial=partial)


def told(news: News) -> list[str]:
    return [finding.specimen.id for finding in news.report.findings]


def test_the_first_check_tells_everything(desk: CollectionDesk) -> None:
    since = compare(desk, row("A"), row("B", "moved", "N n"))
    assert (since.first, told(since), since.quiet) == (True, ["A", "B"], False)


def test_another_ground_for_the_same_choices_is_no_news(desk: CollectionDesk) -> None:
    def offered(code: GroundCode) -> Finding:
        found = row("A", "divided")
        return replace(found, verdict=replace(found.verdict, choices=(Choice("N n", "", (Ground(code),)),)))

    compare(desk, offered(GroundCode.COMPUTED))
    (memory,) = (desk.outside.places.state / "checks").iterdir()
    earlier = json.loads(memory.read_text(encoding="utf-8"))
    earlier["results"]["A"]["choices"][0]["why"] = "as earlier versions kept it"
    memory.write_text(json.dumps(earlier), encoding="utf-8")
    assert compare(desk, offered(GroundCode.GENUS_REST)).quiet


def test_nothing_new_is_quiet(desk: CollectionDesk) -> None:
    compare(desk, row("A"), row("B", "moved", "N n"), edition="1")
    since = compare(desk, row("B", "moved", "N n", stale=True), row("A"), edition="2")
    assert (since.first, since.quiet) == (False, True)


@pytest.mark.parametrize(
    "after", [row("A", "merged", "N n"), row("A", "moved", "O o"), row("A", "moved", "N n", "new")]
)
def test_what_changed_is_told(desk: CollectionDesk, after: Finding) -> None:
    compare(desk, row("A", "moved", "N n"), row("B"))
    assert told(compare(desk, after, row("B"))) == ["A"]


def test_new_and_gone_specimens(desk: CollectionDesk) -> None:
    compare(desk, row("A"), row("B"))
    since = compare(desk, row("B"), row("C"))
    assert (told(since), since.gone) == (["C"], ("A",))
    assert compare(desk, row("B"), row("C")).quiet


def test_an_outage_is_no_news_and_is_forgotten(desk: CollectionDesk) -> None:
    compare(desk, row("A", "moved", "N n"))
    assert compare(desk, row("A", "unasked")).quiet
    assert compare(desk, row("A", "moved", "N n")).quiet
    assert told(compare(desk, row("A", "merged", "N n"))) == ["A"]


def test_a_part_of_the_collection_loses_nothing(desk: CollectionDesk) -> None:
    compare(desk, row("A"), row("B"))
    assert compare(desk, row("A"), partial=True).quiet
    assert compare(desk, row("A"), row("B")).quiet


def test_two_collections_are_kept_apart(desk: CollectionDesk, tmp_path: Path) -> None:
    compare(desk, row("A"))
    assert compare(replace(desk, folder=tmp_path / "other"), row("A")).first


@pytest.mark.parametrize("damage", [b"", b"{", b"[]", b'{"version": 1, "results": [1]}', b'{"version": 9}', b"\xff"])
def test_a_damaged_memory_is_told_and_written_anew(desk: CollectionDesk, damage: bytes) -> None:
    compare(desk, row("A"))
    (memory,) = desk.outside.places.state.rglob("*.json")
    memory.write_bytes(damage)
    since = compare(desk, row("A"))
    assert since.first
    assert since.problem is not None
    assert since.problem.remedy == "everything counts as new this time"
    assert compare(desk, row("A")).quiet


def test_a_memory_that_cannot_be_written_is_told(desk: CollectionDesk) -> None:
    state = desk.outside.places.state
    state.parent.mkdir(exist_ok=True)
    state.write_text("a file in the way", encoding="utf-8")
    since = compare(desk, row("A"))
    assert told(since) == ["A"]
    assert since.problem is not None
    assert not since.quiet
