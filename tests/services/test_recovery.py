"""After a fault: asking again, leaving a service alone, serving what is kept."""

from __future__ import annotations

import threading
from collections.abc import Callable

import pytest

from namekeeper.evidence.statements import Answer, Failure
from tests.services.conftest import Bench
from tests.services.good_replies import good
from tests.services.local_server import Asked, Canned, LocalServer, silence
from tests.services.test_faults import always, outcomes


def flaky(key: str, failures: int, canned: Canned) -> Callable[[Asked], Canned]:
    """Fails the first few questions, then answers well."""
    left = iter(range(failures))
    lock = threading.Lock()

    def answer(asked: Asked) -> Canned:
        with lock:
            return good(key, asked) if next(left, None) is None else canned

    return answer


@pytest.mark.parametrize("status", [429, 502, 503, 504])
def test_a_passing_fault_is_asked_again_with_a_growing_pause(
    bench: Bench, server: LocalServer, key: str, status: int
) -> None:
    server.answer = flaky(key, 1, Canned(status=status))
    assert not any(isinstance(one, Failure) for one in outcomes(bench.open(key, server.base)))
    assert bench.time.slept == [1.0]  # the first pause in full, because chance is 1


def test_a_timeout_is_asked_again(bench: Bench, server: LocalServer) -> None:
    bench.hurry(attempts=50)  # a busy machine may miss the limit more than once
    server.answer = flaky("inaturalist", 1, Canned(status=0, manner=silence))
    assert not any(isinstance(one, Failure) for one in outcomes(bench.open("inaturalist", server.base)))
    assert len(server.asked) >= 3


def test_retry_after_is_honoured(bench: Bench, server: LocalServer, key: str) -> None:
    server.answer = flaky(key, 1, Canned(status=429, headers={"Retry-After": "7"}))
    assert not any(isinstance(one, Failure) for one in outcomes(bench.open(key, server.base)))
    assert bench.time.slept == [7.0]


def test_a_wait_beyond_the_budget_is_not_waited_for(bench: Bench, server: LocalServer, key: str) -> None:
    server.answer = always(Canned(status=429, headers={"Retry-After": "86400"}))
    outcomes(bench.open(key, server.base))
    assert bench.time.slept == []
    assert len(server.asked) == 1  # and a service that refuses is left alone


@pytest.fixture
def dead(server: LocalServer) -> LocalServer:
    server.answer = always(Canned(status=503))
    return server


def test_a_dead_service_is_left_alone_after_a_few_questions(bench: Bench, dead: LocalServer) -> None:
    replies = list(bench.open("inaturalist", dead.base).ask([f"Exemplum {letter * 4}" for letter in "abcdefghij"]))
    assert all(isinstance(reply, Failure) for reply in replies)
    assert len(dead.asked) == 4  # two names, two attempts each
    assert isinstance(replies[-1], Failure)
    assert replies[-1].why.endswith("(HTTP 503); not asked again in this run")


def test_one_odd_name_does_not_close_a_service_but_a_wrong_address_does(bench: Bench, server: LocalServer) -> None:
    names = [f"Exemplum {letter * 4}" for letter in "abcdefghijklmno"]
    server.answer = lambda asked: Canned(status=422) if asked.query["q"] in names[2:6] else good("inaturalist", asked)
    replies = list(bench.open("inaturalist", server.base).ask(names))
    assert [isinstance(reply, Answer) for reply in replies] == [name not in names[2:6] for name in names]
    server.asked.clear()
    server.answer = always(Canned(status=404))
    list(bench.open("inaturalist", f"{server.base}/nowhere").ask(names))
    assert len(server.asked) == 10


def test_a_question_that_would_fail_again_is_put_once_a_run(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: Canned(status=404) if asked.path == "/dataset/3LXR" else good("checklistbank", asked)
    service = bench.open("checklistbank", server.base)
    replies = [next(service.ask([f"Exemplum {letter * 4}"])) for letter in "abcde"]
    assert all(isinstance(reply, Answer) and reply.edition.edition is None for reply in replies)
    assert [asked.path for asked in server.asked].count("/dataset/3LXR") == 1


def test_an_answer_past_its_time_serves_while_the_service_is_down(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: good("inaturalist", asked)
    (fresh,) = bench.open("inaturalist", server.base).ask(["Nicrophorus vespillo"])
    asked_on = bench.time.now
    bench.time.days_later(60)
    server.answer = always(Canned(status=503))
    (old,) = bench.open("inaturalist", server.base).ask(["Nicrophorus vespillo"])
    assert isinstance(fresh, Answer)
    assert isinstance(old, Answer)
    assert (fresh.stale, old.stale) == (False, True)
    assert old.statements[0].stale
    assert old.retrieved == asked_on
    assert [s.subject for s in old.statements] == [s.subject for s in fresh.statements]
