"""What one question costs: many names that hang are not put again, and the pace counts from what went out."""

from __future__ import annotations

import pytest
import requests

from namekeeper.sources.http import Http, WebQuestion, Wire
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.http_limits import HttpSettings
from namekeeper.sources.replies import WebReply
from tests.services.local_server import Asked, Canned, serving, silence

QUICK = HttpSettings(attempt_seconds=0.3, backoff_seconds=0.01, attempts=3)


@pytest.mark.parametrize(("body", "attempts"), [(None, 3), ([{"scientificName": "Brachypelma smithi"}], 1)])
def test_a_hang_of_many_names_at_once_costs_one_attempt(body: object, attempts: int) -> None:
    def answer(_asked: Asked) -> Canned:
        return Canned(status=0, manner=silence)

    with serving(answer) as server:
        http = Http(f"http://127.0.0.1:{server.port}", Wire(settings=QUICK), spacing=0)
        with pytest.raises(UnansweredError, match="in time"):
            http.send(WebQuestion("match"), body)
        server.release.set()
    assert len(server.asked) == attempts


def test_the_pace_counts_from_the_end_of_the_slow_first_loading(monkeypatch: pytest.MonkeyPatch) -> None:
    """Loading the library takes 4 s of this clock: that is no part of the pause before the second question."""
    now = [100.0]
    went_out: list[float] = []

    class Slow(Http):
        def _new_session(self) -> requests.Session:
            now[0] += 4.0
            return super()._new_session()

        def _attempt(self, *_question: object) -> WebReply:
            self._session = self._session or self._new_session()
            went_out.append(now[0])
            return WebReply(None)

    def sleep(seconds: float) -> None:
        now[0] += seconds

    http = Slow("https://example.org", Wire(monotonic=lambda: now[0], sleep=sleep), spacing=5.0)
    http.send(WebQuestion("a"))
    http.send(WebQuestion("b"))
    assert went_out == [104.0, 109.0]
