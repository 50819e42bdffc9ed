"""Whatever is sent to the page: it stays, lets nobody in, and its memory has a bound.

``python -m tests.page.flood`` sends 10,000 requests; of a few hundred, every kind of refusal is met here.
"""

from __future__ import annotations

import sys
import threading
from pathlib import Path

import pytest

from namekeeper.faces.page.keeping import Keeping
from namekeeper.faces.page.work import Works
from namekeeper.words.errors import InputError
from tests.conftest import world
from tests.page.conftest import Visitor

pytest.importorskip("resource", reason="limits of this kind are of POSIX systems")


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="memory of another process is read as Linux tells it")
def test_requests_of_all_kinds_harm_nothing(tmp_path: Path, home: Path) -> None:
    from tests.page.flood import GROWTH, flooded

    found = flooded(tmp_path, home, 300, 4)
    assert found.wrong == []
    assert (found.alive, found.changed, found.tracebacks) == (True, False, "")
    assert found.memory[-1] - found.memory[4] < GROWTH
    met = set(found.answers)
    assert {"a_page 200", "a_plan 200", "wrong_host 403", "wrong_host 421", "wrong_token 401", "bad_form 400"} <= met
    assert {"bad_path 401", "lying_length 400", "short_body none"} <= met


@pytest.mark.parametrize("host", ["a" * 500, "-x-.", "\u00fcbel", "[::1", "127.0.0.1:port", ""])
def test_a_host_that_is_no_name_is_refused_as_any_other(host: str, stranger: Visitor) -> None:
    assert stranger.get("/animals", {"Host": host.encode().decode("latin-1")}).status_code in (400, 401, 421)


def test_of_jobs_whose_page_is_never_fetched_the_newest_are_kept(tmp_path: Path, home: Path) -> None:
    works = Works(world(tmp_path, home))
    go_on = threading.Event()
    slow = works.start("slow", "Waiting", lambda _outside: go_on.wait(60))
    for number in range(50):
        assert works.start(f"plan-{number}", "Fitting", str).wait(60)
    kept = [number for number in range(50) if works.find(f"plan-{number}")]
    assert kept == list(range(39, 50)), "ten that had ended, and the one begun after them"
    assert works.find("slow") is slow, "what goes on is never dropped"
    go_on.set()
    assert slow.wait(60)


def test_a_job_that_was_dropped_is_done_again(tmp_path: Path, home: Path) -> None:
    keeping = Keeping.of(world(tmp_path, home))
    done: list[str] = []
    keeping.works.start("plan", "Fitting", lambda _outside: done.append("unasked")).wait(60)
    keeping.once_done("plan", "Fitting", lambda _outside: done.append("twice"))
    assert done == ["unasked"], "what had ended is told"
    keeping.works.start("plan", "Fitting", str).wait(60)
    for number in range(20):
        keeping.works.start(f"other-{number}", "Fitting", str).wait(60)
    keeping.once_done("plan", "Fitting", lambda _outside: done.append("anew"))
    assert done == ["unasked", "anew"]


def test_of_files_that_were_sent_the_newest_are_kept(tmp_path: Path, home: Path) -> None:
    keeping = Keeping.of(world(tmp_path, home))
    try:
        keys = [keeping.keep_upload(lambda path: path.touch()) for _ in range(25)]
        for key in keys[-10:]:
            assert keeping.find_upload(key).is_file()
        for key in keys[:-10]:
            with pytest.raises(InputError, match="not here any more"):
                keeping.find_upload(key)
    finally:
        keeping.end(1)
