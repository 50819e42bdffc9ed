"""Every adapter against servers that answer as the services' own code does (``tests/services/faithful``)."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import Answer, Failure, Match
from namekeeper.tasks.ask_services import ask_services
from tests.services import live, measure
from tests.services.conftest import SECRET, Bench
from tests.services.faithful import ANSWERS, KINDS, faithful, spidercatalog
from tests.services.faithful.catalogue import by_plain, usages
from tests.services.local_server import Asked, Canned, LocalServer, serving
from tests.services.local_services import everywhere, is_about_a_name

Command = Callable[..., Any]
AUTHORS = {one.name: one.authorship for one in usages().values()}


@pytest.fixture(scope="module")
def heard() -> dict[str, measure.Heard]:
    return measure.measure()


def test_every_service_speaks_on_what_it_lists(heard: dict[str, measure.Heard]) -> None:
    """Measured by ``python -m tests.services.measure``; the limit is that of the task."""
    for key in ANSWERS:
        own = heard[key]
        assert own.listed, key
        assert own.share >= 0.95, (key, own)
        assert own.count("fails") == own.count("no end") == 0, (key, own)


def test_a_service_is_silent_on_what_it_does_not_list(heard: dict[str, measure.Heard]) -> None:
    for own in heard.values():
        assert not [name for name in set(own.outcomes) - set(own.listed) if own.outcomes[name] == "speaks"]


@pytest.fixture(params=["written", "unwritten"])
def checklistbank(request: pytest.FixtureRequest, bench: Bench, server: LocalServer) -> Any:
    """The adapter with and without an author to send."""
    server.answer = ANSWERS["checklistbank"]
    authors = AUTHORS if request.param == "written" else {}
    return bench.open("checklistbank", server.base, authorship_of=lambda name: authors.get(name, ""))


def test_a_thousand_animals_with_120_names_cost_a_question_a_name(checklistbank: Any, server: LocalServer) -> None:
    names = [one.name for one in usages().values() if one.rank == "species"][:120]
    replies = ask_services([checklistbank], [names[number % 120] for number in range(1000)])
    assert all(isinstance(reply, Answer) and reply.statements for (reply,) in replies.values())
    assert sum(map(is_about_a_name, server.asked)) == 120


def test_author_and_rank_go_apart(bench: Bench, server: LocalServer) -> None:
    server.answer = ANSWERS["checklistbank"]
    service = bench.open("checklistbank", server.base, authorship_of=lambda name: AUTHORS.get(name, ""))
    list(service.ask(["Brachypelma vagans", "Tliltocatl", "Nullus nomen"]))
    sent = [dict(asked.query) for asked in server.asked if is_about_a_name(asked)]
    assert [(one["scientificName"], one.get("authorship"), one["rank"]) for one in sent] == [
        ("Brachypelma vagans", "(Ausserer, 1875)", "species"),
        ("Tliltocatl", "Author, 1900", "genus"),
        ("Nullus nomen", None, "species"),
    ]


def test_an_author_that_the_service_does_not_have_costs_a_second_question(bench: Bench, server: LocalServer) -> None:
    """``UsageMatcher.filterCandidates`` drops every name of another author; a wrong label is no unknown name."""
    server.answer = ANSWERS["checklistbank"]
    service = bench.open("checklistbank", server.base, authorship_of=lambda name: "Somebody, 1999")
    known, unknown = service.ask(["Brachypelma vagans", "Nullus nomen"])
    assert [[end.name for end in one.targets] for one in known.statements] == [["Tliltocatl vagans"]]
    assert (unknown.statements, unknown.hints) == ((), ())
    asked = [one.query.get("authorship") for one in server.asked if is_about_a_name(one)]
    assert asked == ["Somebody, 1999", None, "Somebody, 1999"]


def test_another_ending_is_the_same_name_and_another_letter_is_not(checklistbank: Any) -> None:
    ending, letter = checklistbank.ask(["Hapalopus formosa", "Hapalopus formosis"])
    assert [(one.match, one.subject.name) for one in ending.statements] == [(Match.ENDING, "Hapalopus formosus")]
    assert letter.statements == ()


def test_a_filled_card(checklistbank: Any) -> None:
    card = checklistbank.about("Brachypelma vagans")
    assert isinstance(card, NameCard)
    assert card.taxon.name == "Tliltocatl vagans"
    assert "Brachypelma vagans" in [one.subject.name for one in card.former]
    assert card.common
    assert card.taxon.range


def test_a_batch_that_comes_in_another_order(bench: Bench, server: LocalServer) -> None:
    server.answer = ANSWERS["gbif"]
    names = ["Poecilotheria regalis", "Brachypelma vagans", "Nullus nomen", "Tliltocatl"]
    answers = list(bench.open("gbif", server.base).ask(names))
    assert [[end.name for one in answer.statements for end in one.targets] for answer in answers] == [
        ["Poecilotheria regalis"],
        ["Tliltocatl vagans"],
        [],
        ["Tliltocatl"],
    ]
    assert [asked.method for asked in server.asked] == ["GET", "POST", "GET"]


def test_a_query_that_runs_out_of_time_closes_itself_only(bench: Bench, server: LocalServer) -> None:
    """500 is how the query service ends a query that took its 60 seconds."""

    def slow(asked: Asked) -> Canned:
        return Canned(status=500) if '"slow' in asked.query["query"] else ANSWERS["wikidata"](asked)

    server.answer = slow
    service = bench.open("wikidata", server.base)
    for number in range(4):
        assert isinstance(service.ask_common(f"slow {number}"), Failure)
    before = len(server.asked)
    assert isinstance(service.ask_common("slow 0"), Failure)
    assert len(server.asked) == before
    (name,) = service.ask_common("Goliath birdeater")
    assert name.taxon.name == "Theraphosa blondi"


@pytest.fixture
def changed() -> Iterator[list[str]]:
    """What the spider catalogue says that it changed."""
    spidercatalog.CHANGED.clear()
    yield spidercatalog.CHANGED
    spidercatalog.CHANGED.clear()


SPIDERS = [one for one in usages().values() if one.is_spider and one.rank == "species" and one.in_force][:6]
LSIDS = {one.name: one.lsid for one in SPIDERS}


def watched(bench: Bench, server: LocalServer) -> list[str]:
    """What is asked of the spider catalogue by a check that wants news only."""
    server.answer = ANSWERS["spidercatalog"]
    service = bench.open("spidercatalog", server.base, identifier_of=LSIDS.get, by_updates=True)
    before = len(server.asked)
    assert all(reply.statements for reply in service.ask(list(LSIDS)))
    return [asked.path.rpartition("/")[2] + asked.query.get("page", "") for asked in server.asked[before:]]


def test_the_update_feed_spares_questions(bench: Bench, server: LocalServer, changed: list[str]) -> None:
    lsids = list(LSIDS.values())
    assert watched(bench, server) == lsids
    bench.time.days_later(30)  # kept answers are past their seven days
    changed += [lsids[1], "urn:lsid:nmbe.ch:spidersp:099999", lsids[4]]
    assert watched(bench, server) == ["updates1", "updates2", lsids[1], lsids[4]]
    assert {asked.query.get("date") for asked in server.asked if "updates" in asked.path} == {"2026-11-24"}
    changed.clear()
    assert watched(bench, server) == ["updates1"]
    bench.time.days_later(70)  # the oldest are past the longest watch and asked anew
    assert watched(bench, server) == ["updates1", *(one for one in lsids if one not in (lsids[1], lsids[4]))]
    assert SECRET not in bench.all_texts()


def test_without_a_usable_feed_names_are_asked_as_ever(bench: Bench, server: LocalServer, changed: list[str]) -> None:
    watched(bench, server)
    bench.time.days_later(30)
    for ill in (Canned(status=404), Canned.json({"updates": "text"}), Canned.json([])):

        def answer(asked: Asked, ill: Canned = ill) -> Canned:
            return ill if "updates" in asked.path else ANSWERS["spidercatalog"](asked)

        server.answer = answer
        service = bench.open("spidercatalog", server.base, identifier_of=LSIDS.get, by_updates=True)
        before = len(server.asked)
        assert all(isinstance(reply, Answer) and reply.statements for reply in service.ask(list(LSIDS)))
        assert len(server.asked) == before + 1 + len(LSIDS)
        bench.time.days_later(30)


def test_a_feed_without_end_is_not_read(bench: Bench, server: LocalServer, changed: list[str]) -> None:
    changed += [f"urn:lsid:nmbe.ch:spidersp:{number:06d}" for number in range(200)]
    server.answer = ANSWERS["spidercatalog"]
    service = bench.open("spidercatalog", server.base)
    assert service.changes_since((bench.time.now - timedelta(days=9)).date()) is None
    assert len(server.asked) == 40


def test_check_since_last_asks_the_feed(
    command: Command, tmp_path: Path, server: LocalServer, changed: list[str]
) -> None:
    server.answer = faithful
    environ = everywhere(server) | {"NAMEKEEPER_SPIDERCATALOG_KEY": SECRET, "NAMEKEEPER_CONTACT": "me@example.org"}
    table = tmp_path / "export.csv"
    rows = (f'{one.lsid},{one.name},"{one.authorship}"\n' for one in SPIDERS)
    table.write_text("id,name,authorship\n" + "".join(rows), encoding="utf-8")
    assert command("lists", "add", str(table), "--as", "export").code == 0
    (tmp_path / "animals/specimens").mkdir(parents=True)
    for number, one in enumerate(SPIDERS):
        text = f"names:\n  - name: {one.name}\n    since: 2020-01-01\n    standing: as-labelled\n"
        (tmp_path / f"animals/specimens/A{number}.yaml").write_text(text, encoding="utf-8")

    def asked(*options: str) -> list[str]:
        before = len(server.asked)
        command("check", "animals", "--services", "spidercatalog", *options, environ=environ)
        return [one.path.rpartition("/")[2] for one in server.asked[before:]]

    assert asked("--since-last") == list(LSIDS.values())
    changed.append(SPIDERS[2].lsid)
    assert asked() == []
    assert asked("--since-last") == ["updates", SPIDERS[2].lsid]
    assert asked("--since-last", "--offline") == []
    del environ["NAMEKEEPER_SPIDERCATALOG_KEY"]
    quiet = command("check", "animals", "--since-last", "--offline", environ=environ)
    assert (quiet.code, quiet.out) == (0, "")


def test_live_says_what_came(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    with serving(faithful) as server:
        environ = everywhere(server) | {"NAMEKEEPER_SPIDERCATALOG_KEY": SECRET}
        assert live.main([str(tmp_path / "replies")], environ, KINDS) == 0
    lines = capsys.readouterr().out.splitlines()
    assert {line.split()[0] for line in lines[:-1]} == {"ok"}
    assert {line.split()[1] for line in lines[:-1]} == set(ANSWERS)
    assert "Brachypelma vagans (Ausserer, 1875) synonym: ['Tliltocatl vagans']" in "".join(lines)
    texts = {path.name: path.read_text(encoding="iso-8859-1") for path in (tmp_path / "replies").iterdir()}
    asked = texts.pop("requests.txt").splitlines()
    assert len(asked) == len(texts) >= len(lines) - 1
    assert [line.split()[:2] for line in asked] == [name[:-5].split("-") for name in sorted(texts)]
    assert all(json.loads(text) is not None for text in texts.values())
    assert SECRET not in repr((asked, texts))


def test_live_without_a_network_is_one_line_each(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    nowhere = dict.fromkeys(everywhere(LocalServer(faithful, 9)), "http://127.0.0.1:9")
    assert live.main([str(tmp_path / "replies")], nowhere, KINDS) == 1
    lines = capsys.readouterr().out.splitlines()
    assert all(line.startswith(("FAIL ", "left spidercatalog")) for line in lines[:-1])
    assert all(line.count("it refuses the connection") == 1 for line in lines[:-1] if line.startswith("FAIL"))
    assert lines[-1] == "No service sent anything."


def test_the_catalogue_of_the_servers_is_that_of_the_starter_list() -> None:
    (moved,) = by_plain()["brachypelma vagans"]
    assert usages()[moved.accepted].name == "Tliltocatl vagans"
    assert sum(not one.in_force for one in usages().values()) > 700
