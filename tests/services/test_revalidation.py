"""An answer past its time is asked again by its marks (RFC 9110, 13.1), and "not changed" makes it as good as new.

The bodies are recorded (``data/README.md``). No public recording of a reply 304 of one of our services was found: that
follows RFC 9110, 15.4.5, with the weak ETag that Express gives every JSON reply unless told not to (expressjs.com, API
4.x, setting "etag"); iNaturalist's server is such an application and does not turn it off
(inaturalist/iNaturalistAPI@0033c1c ``lib/inaturalist_api.js``).
"""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
import responses

from namekeeper.evidence.statements import Answer
from namekeeper.sources.kept_answers import Freshness
from namekeeper.sources.replies import NO_MARKS, Marks
from tests.services.conftest import Bench, recorded

INATURALIST = "https://api.inaturalist.org/v1"
TAXA = f"{INATURALIST}/taxa"
NAME = "Nicrophorus vespillo"
ETAG = 'W/"25b-/nLm8psXCXbZ7NDQBOa8LWdn5lY"'  # as an Express server wrote it
DATE = "Tue, 15 Nov 1994 12:45:26 GMT"  # the example of RFC 9110, 8.8.2


@pytest.fixture
def wire() -> Iterator[responses.RequestsMock]:
    with responses.RequestsMock() as mock:
        yield mock


def ask(bench: Bench, wish: Freshness | None = None) -> Answer:
    (reply,) = bench.open("inaturalist", INATURALIST, wish).ask([NAME])
    assert isinstance(reply, Answer), reply
    return reply


def conditions(wire: responses.RequestsMock) -> list[tuple[str | None, str | None]]:
    """The conditions of each question that went out."""
    sent = [call.request.headers for call in wire.calls]
    return [(headers.get("If-None-Match"), headers.get("If-Modified-Since")) for headers in sent]


def kept_with(bench: Bench, wire: responses.RequestsMock, headers: dict[str, str]) -> Answer:
    """An answer came with these headers three weeks ago."""
    wire.get(TAXA, json=recorded("inat-taxa-search"), headers=headers)
    answer = ask(bench)
    bench.time.days_later(21)
    return answer


@pytest.mark.parametrize(
    ("headers", "sent"),
    [
        ({"ETag": ETAG}, (ETAG, None)),
        ({"Last-Modified": DATE}, (None, DATE)),
        ({"ETag": ETAG, "Last-Modified": DATE}, (ETAG, DATE)),
    ],
)
def test_not_changed_confirms_the_kept_answer(
    bench: Bench, wire: responses.RequestsMock, headers: dict[str, str], sent: tuple[str | None, str | None]
) -> None:
    first = kept_with(bench, wire, headers)
    wire.get(TAXA, status=304)
    again = ask(bench)
    assert conditions(wire) == [(None, None), sent]
    assert [statement.subject for statement in again.statements] == [one.subject for one in first.statements]
    assert first.statements
    assert (again.retrieved, again.stale) == (bench.time.now, False)
    bench.time.days_later(13)  # counted from the day it was confirmed
    assert not ask(bench).stale
    assert len(wire.calls) == 2
    bench.time.days_later(2)
    ask(bench)
    assert conditions(wire)[2:] == [sent]  # the marks are kept with it


def test_a_changed_answer_replaces_the_kept_one(bench: Bench, wire: responses.RequestsMock) -> None:
    kept_with(bench, wire, {"ETag": ETAG})
    wire.get(TAXA, json=recorded("inat-empty-page"), headers={"ETag": '"other"'})
    again = ask(bench)
    assert (again.statements, again.retrieved) == ((), bench.time.now)
    (path,) = bench.kept()
    assert json.loads(path.read_text(encoding="utf-8"))["headers"]["ETag"] == '"other"'


def test_who_wishes_a_fresh_answer_gets_it_whole(bench: Bench, wire: responses.RequestsMock) -> None:
    kept_with(bench, wire, {"ETag": ETAG})
    ask(bench, Freshness(refresh=True))
    assert conditions(wire) == [(None, None)] * 2


@pytest.mark.parametrize("body", ["<html>Sign in</html>", '{"results": "text"}', ""])
def test_garbage_does_not_replace_it(bench: Bench, wire: responses.RequestsMock, body: str) -> None:
    first = kept_with(bench, wire, {"ETag": ETAG})
    (path,) = bench.kept()
    before = path.read_bytes()
    wire.get(TAXA, body=body)
    again = ask(bench)
    assert (again.stale, again.retrieved) == (True, first.retrieved)
    assert path.read_bytes() == before


def test_not_changed_to_a_question_without_marks_is_no_answer(bench: Bench, wire: responses.RequestsMock) -> None:
    first = kept_with(bench, wire, {})
    wire.get(TAXA, status=304)
    again = ask(bench)
    assert conditions(wire) == [(None, None)] * 2
    assert (again.stale, again.retrieved) == (True, first.retrieved)


def test_a_damaged_answer_is_asked_for_whole(bench: Bench, wire: responses.RequestsMock) -> None:
    kept_with(bench, wire, {"ETag": ETAG})
    (path,) = bench.kept()
    path.write_text(path.read_text(encoding="utf-8").replace('"results"', '"result"'), encoding="utf-8")
    assert ask(bench).statements
    assert conditions(wire) == [(None, None)] * 2


@pytest.mark.parametrize(
    "headers",
    [
        {"ETag": "no quotes", "Last-Modified": "yesterday"},
        {"ETag": '"a"\r\nX-Evil: 1', "Last-Modified": f"{DATE}\r\nX-Evil: 1"},
        {"ETag": '"\u2603"', "Last-Modified": "Tue, 15 Nov 1994 12:45:26 \u2603"},
        {"ETag": '"' + "x" * 500 + '"', "Last-Modified": " " * 50},
        {"ETag": None, "Last-Modified": 7},
        {},
    ],
)
def test_marks_that_could_break_a_question_are_none(headers: dict[str, object]) -> None:
    assert Marks.among(headers) == NO_MARKS
    assert NO_MARKS.conditions() == NO_MARKS.headers() == {}
