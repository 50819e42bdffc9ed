"""Asking a whole collection: each name once, one dead service beside the others, stopping and going on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack
from functools import partial
from typing import Any

import pytest

from namekeeper.evidence.statements import Answer, Failure, Reply
from namekeeper.sources.kept_answers import Freshness
from namekeeper.tasks.ask_services import ask_common_names, ask_services
from tests.services.conftest import Bench, recorded
from tests.services.good import gbif
from tests.services.good_replies import accepted
from tests.services.local_server import Asked, Canned, LocalServer, serving
from tests.services.local_services import is_about_a_name

LETTERS = "abcdefghijkl"
NAMES = [f"Exemplum {one * 2}{other * 3}" for one in LETTERS for other in LETTERS[:10]]
SPECIMENS = [NAMES[number % 120] for number in range(1000)]
SERVICES = ("checklistbank", "inaturalist", "gbif")


@pytest.fixture
def servers() -> Iterator[dict[str, LocalServer]]:
    """One server a service, all of them well."""
    with ExitStack() as stack:
        yield {key: stack.enter_context(serving(partial(accepted, key))) for key in SERVICES}


def opened(bench: Bench, servers: dict[str, LocalServer], wish: Freshness | None = None) -> list[Any]:
    return [bench.open(key, server.base, wish) for key, server in servers.items()]


def test_a_thousand_specimens_cost_a_question_a_name_and_a_second_run_none(
    bench: Bench, servers: dict[str, LocalServer]
) -> None:
    replies = ask_services(opened(bench, servers), SPECIMENS)
    assert list(replies) == NAMES
    assert all(len(own) == 3 for own in replies.values())
    assert all(isinstance(reply, Answer) and len(reply.statements) == 1 for own in replies.values() for reply in own)
    about_names = {key: sum(map(is_about_a_name, server.asked)) for key, server in servers.items()}
    others = {key: len(server.asked) - about_names[key] for key, server in servers.items()}
    assert about_names == {"checklistbank": 120, "inaturalist": 120, "gbif": 3}  # gbif: batches of one POST
    assert others == {"checklistbank": 1, "inaturalist": 0, "gbif": 1}  # which edition it is, once a week

    for server in servers.values():
        server.asked.clear()
    assert ask_services(opened(bench, servers), SPECIMENS) == replies
    assert {key: len(server.asked) for key, server in servers.items()} == dict.fromkeys(SERVICES, 0)


def test_a_new_name_costs_one_question(bench: Bench, servers: dict[str, LocalServer]) -> None:
    ask_services(opened(bench, servers), NAMES)
    for server in servers.values():
        server.asked.clear()
    ask_services(opened(bench, servers), [*NAMES, "Exemplum novum"])
    assert {key: len(server.asked) for key, server in servers.items()} == dict.fromkeys(SERVICES, 1)


def test_a_dead_service_spoils_nothing_but_itself(bench: Bench, servers: dict[str, LocalServer]) -> None:
    servers["inaturalist"].answer = lambda asked: Canned(status=503)
    replies = ask_services(opened(bench, servers), NAMES)
    for clb, inat, col in replies.values():
        assert isinstance(clb, Answer)
        assert isinstance(inat, Failure)
        assert isinstance(col, Answer)
    assert len(servers["inaturalist"].asked) == 4


def test_each_name_is_asked_once_however_often_it_comes(bench: Bench, servers: dict[str, LocalServer]) -> None:
    replies = ask_services(opened(bench, servers), ["Exemplum unum", "", "Exemplum unum"])
    assert list(replies) == ["Exemplum unum"]
    assert sum(map(is_about_a_name, servers["inaturalist"].asked)) == 1


def test_no_names_no_questions(bench: Bench, servers: dict[str, LocalServer]) -> None:
    assert ask_services(opened(bench, servers), []) == {}
    assert all(server.asked == [] for server in servers.values())


def test_stopping_keeps_what_was_answered_and_the_next_run_goes_on(
    bench: Bench, servers: dict[str, LocalServer]
) -> None:
    def stop_at(done: int, total: int | None, note: str = "") -> None:
        if done == 30:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        ask_services(opened(bench, servers)[:2], NAMES, progress=stop_at)
    before = {key: sum(map(is_about_a_name, servers[key].asked)) for key in SERVICES[:2]}
    assert before == {"checklistbank": 15, "inaturalist": 15}
    ask_services(opened(bench, servers)[:2], NAMES)
    after = {key: sum(map(is_about_a_name, servers[key].asked)) for key in SERVICES[:2]}
    assert after == {"checklistbank": 120, "inaturalist": 120}


def test_progress_tells_counts_state_and_time_left(bench: Bench, servers: dict[str, LocalServer]) -> None:
    servers["inaturalist"].answer = lambda asked: Canned(status=403)
    told: list[tuple[int, int | None, str]] = []
    ticks = iter(range(1000))

    def listen(done: int, total: int | None, note: str = "") -> None:
        told.append((done, total, note))

    ask_services(opened(bench, servers)[:2], NAMES[:4], listen, lambda: float(next(ticks)))
    assert told[0] == (0, 8, "checklistbank 0/4, inaturalist 0/4")
    assert told[1] == (1, 8, "checklistbank 1/4, inaturalist 0/4; about 7 s left")
    trouble = "(left alone: it refuses this question (HTTP 403))"
    assert told[2] == (2, 8, f"checklistbank 1/4, inaturalist 1/4 {trouble}; about 6 s left")
    assert told[-1] == (8, 8, f"checklistbank 4/4, inaturalist 4/4 {trouble}")


def test_the_services_take_turns(bench: Bench, servers: dict[str, LocalServer]) -> None:
    """So the pause that one wishes between questions is used for the other."""
    order: list[str] = []

    def note(key: str) -> Callable[[Asked], Canned]:
        def answer(asked: Asked) -> Canned:
            if is_about_a_name(asked):
                order.append(key)
            return accepted(key, asked)

        return answer

    for key in SERVICES[:2]:
        servers[key].answer = note(key)
    ask_services(opened(bench, servers)[:2], NAMES[:3])
    assert order == ["checklistbank", "inaturalist"] * 3


def test_a_wish_reaches_every_service(bench: Bench, servers: dict[str, LocalServer]) -> None:
    ask_services(opened(bench, servers, Freshness(offline=True)), NAMES[:3])
    assert all(server.asked == [] for server in servers.values())
    ask_services(opened(bench, servers), NAMES[:3])
    ask_services(opened(bench, servers, Freshness(refresh=True)), NAMES[:3])
    assert sum(map(is_about_a_name, servers["inaturalist"].asked)) == 6


def test_real_services_are_asked_slowly(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    """At most 60 questions a minute to iNaturalist; no network needed to count the pauses."""
    from namekeeper.sources.http import Http
    from namekeeper.sources.replies import WebReply

    monkeypatch.setattr(Http, "_attempt", lambda self, *question: WebReply({"results": []}))
    service = bench.open("inaturalist", "https://api.inaturalist.org/v1")
    ask_services([service], NAMES[:5])
    assert bench.time.slept == [pytest.approx(1.1)] * 4


def test_common_names_of_all_services_with_their_sources(bench: Bench) -> None:
    page = recorded("inat-taxa-preferred-place")
    with serving(lambda asked: Canned.json(page)) as well, serving(lambda asked: Canned(status=500)) as ill:
        services = [bench.open("inaturalist", well.base), bench.open("wikidata", ill.base)]
        answers = ask_common_names(services, "Colt's-foot Bell")
    assert [(name.taxon.name, name.edition.source) for name in answers.names] == [
        ("Epiblema sticticana", "inaturalist")
    ]
    assert [failure.edition.source for failure in answers.failures] == ["wikidata"]


def kinds(replies: Sequence[Reply]) -> list[str]:
    return [type(reply).__name__ for reply in replies]


def test_a_batch_with_one_odd_item_spoils_only_that_name(bench: Bench, server: LocalServer) -> None:
    def answer(asked: Asked) -> Canned:
        if asked.path.endswith("/metadata"):
            return Canned.json(gbif.METADATA)
        if isinstance(asked.body, list):
            return Canned.json([gbif.match("Exemplum bonum"), "odd"])
        return Canned.json("odd")

    server.answer = answer
    replies = list(bench.open("gbif", server.base).ask(["Exemplum bonum", "Exemplum malum"]))
    assert kinds(replies) == ["Answer", "Failure"]
    assert len(bench.kept()) == 2  # the edition and the good one
