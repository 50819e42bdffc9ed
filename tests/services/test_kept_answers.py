"""The cache: only good answers, by their own time, and never a reason to stop."""

from __future__ import annotations

import fcntl
import json
import os
import subprocess
import sys
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from requests_cache.backends.filesystem import FileDict
from requests_cache.serializers import json_serializer

from namekeeper.evidence.statements import Answer, Failure, FailureKind
from namekeeper.files.file_layer import DiskFiles
from namekeeper.sources.kept_answers import AnswerCache, Freshness
from namekeeper.sources.replies import Held
from tests.services.conftest import NOW, Bench
from tests.services.good_replies import good
from tests.services.local_server import Canned, LocalServer

NAME = "Nicrophorus vespillo"


@pytest.fixture
def full(bench: Bench, server: LocalServer) -> Bench:
    """One answer is kept."""
    server.answer = lambda asked: good("inaturalist", asked)
    answer = ask(bench, server)
    assert len(answer.statements) == 1
    assert len(bench.kept()) == 1
    return bench


def ask(bench: Bench, server: LocalServer, wish: Freshness | None = None) -> Answer:
    (reply,) = bench.open("inaturalist", server.base, wish).ask([NAME])
    assert isinstance(reply, Answer), reply
    return reply


def test_a_kept_answer_is_not_asked_again(full: Bench, server: LocalServer) -> None:
    full.time.days_later(13)
    assert ask(full, server).retrieved == NOW
    assert len(server.asked) == 1


@pytest.mark.parametrize(
    ("days", "wish"), [(15, Freshness()), (1, Freshness(refresh=True)), (3, Freshness(max_age=timedelta(days=2)))]
)
def test_when_it_is_asked_again(full: Bench, server: LocalServer, days: float, wish: Freshness) -> None:
    full.time.days_later(days)
    assert ask(full, server, wish).retrieved == full.time.now
    assert len(server.asked) == 2


def test_each_service_has_its_own_time(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: good("gbif", asked)
    list(bench.open("gbif", server.base).ask([NAME]))
    bench.time.days_later(8)
    list(bench.open("gbif", server.base).ask([NAME]))
    assert len([asked for asked in server.asked if "metadata" not in asked.path]) == 2


def test_offline_uses_what_is_kept_and_says_what_is_stale(full: Bench, server: LocalServer) -> None:
    full.time.days_later(100)
    answer = ask(full, server, Freshness(offline=True))
    assert (answer.stale, answer.retrieved, len(server.asked)) == (True, NOW, 1)


def test_offline_without_a_kept_answer_is_a_failure_of_its_own_kind(bench: Bench, server: LocalServer) -> None:
    (reply,) = bench.open("inaturalist", server.base, Freshness(offline=True)).ask(["Exemplum novum"])
    assert isinstance(reply, Failure)
    assert reply.kind is FailureKind.OFFLINE
    assert server.asked == []


def test_another_address_has_its_own_answers(full: Bench, server: LocalServer) -> None:
    """What a test server said never becomes an answer of the real service."""
    (reply,) = full.open("inaturalist", f"{server.base}/v1", Freshness(offline=True)).ask([NAME])
    assert isinstance(reply, Failure)


@given(damage=st.binary(max_size=300))
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
def test_a_damaged_file_is_told_dropped_and_asked_again(full: Bench, server: LocalServer, damage: bytes) -> None:
    (path,) = full.kept()
    path.write_bytes(damage)
    full.notices.clear()
    assert len(ask(full, server).statements) == 1
    assert len(full.notices) == 1
    assert "damaged" in full.notices[0]
    assert "created_at" in json.loads(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    "change",
    [
        {"version": 1},
        {"url": "another"},
        {"url": None},
        {"created_at": "yesterday"},
        {"created_at": "2026-11-25T12:00:00"},
        {"created_at": 7},
        {"created_at": None},  # the library would put now
        {"_decoded_content": {"results": "text"}},
        {"_decoded_content": None},
    ],
)
def test_a_file_with_other_contents_is_asked_again(full: Bench, server: LocalServer, change: dict[str, object]) -> None:
    (path,) = full.kept()
    path.write_text(json.dumps(json.loads(path.read_text(encoding="utf-8")) | change), encoding="utf-8")
    assert len(ask(full, server).statements) == 1
    assert len(server.asked) == 2


def test_what_version_0_1_kept_is_taken_over(full: Bench, server: LocalServer) -> None:
    """It wrote the same document in the same place, in a shape of its own; offline it is all there is."""
    (path,) = full.kept()
    today = json.loads(path.read_text(encoding="utf-8"))
    old = {
        "version": 1,
        "question": today["url"],
        "retrieved": today["created_at"],
        "document": today["_decoded_content"],
    }
    path.write_text(json.dumps(old), encoding="utf-8")
    full.time.days_later(13)
    answer = ask(full, server, Freshness(offline=True))
    assert (len(answer.statements), answer.retrieved, answer.stale) == (1, NOW, False)
    assert ask(full, server) == answer
    assert (len(server.asked), full.notices) == (1, [])
    full.time.days_later(13)
    assert ask(full, server).retrieved == full.time.now
    assert "version" not in json.loads(path.read_text(encoding="utf-8"))


def test_what_is_kept_is_plain_and_has_nothing_but_the_answer(full: Bench, server: LocalServer) -> None:
    """Headers such as cookies are another's business, and the address is the one without a key."""
    (path,) = full.kept()
    kept = json.loads(path.read_text(encoding="utf-8"))
    assert set(kept) == {"_decoded_content", "created_at", "headers", "request", "status_code", "url"}
    assert kept["headers"] == {"Content-Type": "application/json"}
    assert kept["request"] == {"method": "GET", "url": kept["url"]}
    assert kept["created_at"] == NOW.isoformat()
    assert kept["_decoded_content"] == json.loads(good("inaturalist", server.asked[0]).body)


def test_the_library_itself_reads_what_is_kept(full: Bench) -> None:
    """By its own backend, serializer and values."""
    (path,) = full.kept()
    kept = FileDict(path.parent, serializer=json_serializer)[path.stem]
    assert (kept.status_code, kept.request.url, kept.created_at) == (200, kept.url, NOW)
    assert kept.json() == json.loads(path.read_text(encoding="utf-8"))["_decoded_content"]


LOADED = "print(sorted({'requests', 'requests_cache'} & set(sys.modules)))"
LOOK = f"""
import sys
from pathlib import Path
from namekeeper.sources.kept_answers import AnswerCache
AnswerCache(Path(sys.argv[1]), print).get(sys.argv[2])
{LOADED}
"""
COMMAND = f"""
import sys
from namekeeper.faces.cli.main import main
main()
{LOADED}
"""


def child(code: str, *words: str, **environ: str) -> list[str]:
    """The lines that a process of its own prints."""
    whole = {**os.environ, **environ}
    done = subprocess.run([sys.executable, "-c", code, *words], env=whole, capture_output=True, text=True, check=True)
    return done.stdout.splitlines()


def test_looking_up_a_name_of_the_lists_loads_no_library(tmp_path: Path) -> None:
    *told, loaded = child(COMMAND, "lookup", "--offline", "Poecilotheria metallica", NAMEKEEPER_HOME=str(tmp_path))
    assert any("Poecilotheria metallica" in line for line in told)
    assert loaded == "[]"


def test_a_look_loads_the_library_only_where_an_answer_is_kept(full: Bench) -> None:
    (path,) = full.kept()
    question = json.loads(path.read_text(encoding="utf-8"))["url"]
    assert child(LOOK, str(path.parent), "another question") == ["[]"]
    assert child(LOOK, str(path.parent), question) == ["['requests', 'requests_cache']"]


def test_an_answer_too_deep_to_be_written_is_left_out(bench: Bench) -> None:
    cache = AnswerCache(bench.cache, bench.notices.append)
    deep: list[object] = []
    for _ in range(100_000):
        deep = [deep]
    cache.put("deep", deep, NOW)
    cache.put("flat", {}, NOW)
    assert (cache.get("deep"), cache.get("flat")) == (None, Held({}, NOW))
    assert len(bench.notices) == 1


def test_a_cut_file_after_a_kill(full: Bench, server: LocalServer) -> None:
    (path,) = full.kept()
    whole = path.read_bytes()
    for length in (0, 1, len(whole) // 2, len(whole) - 1):
        path.write_bytes(whole[:length])
        assert len(ask(full, server).statements) == 1


def test_what_a_killed_run_left_is_swept_away(bench: Bench, server: LocalServer) -> None:
    folder = bench.cache / "services" / "inaturalist"
    folder.mkdir(parents=True)
    left = folder / "abc.123.part"
    left.write_text("half", encoding="utf-8")
    os.utime(left, (1_000_000_000, 1_000_000_000))
    server.answer = lambda asked: good("inaturalist", asked)
    ask(bench, server)
    assert not left.exists()
    assert list(folder.glob("*.part")) == []


@pytest.mark.holds_open
def test_a_locked_file_does_not_hold_anything_up(full: Bench, server: LocalServer) -> None:
    (path,) = full.kept()
    with path.open("rb") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        ask(full, server)
        full.time.days_later(30)
        ask(full, server)
    assert full.notices == []


def test_a_folder_that_cannot_be_made_is_left_out_with_one_notice(bench: Bench, server: LocalServer) -> None:
    bench.cache.mkdir()
    (bench.cache / "services").write_text("a file in the way", encoding="utf-8")
    server.answer = lambda asked: good("inaturalist", asked)
    replies = list(bench.open("inaturalist", server.base).ask([NAME, "Nicrophorus vespilloides"]))
    assert all(isinstance(reply, Answer) for reply in replies)
    assert len(bench.notices) == 1
    assert "cannot be kept" in bench.notices[0]


def test_a_full_disk_is_left_out_with_one_notice(
    bench: Bench, server: LocalServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full_disk(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(DiskFiles, "write", full_disk)
    server.answer = lambda asked: good("inaturalist", asked)
    replies = list(bench.open("inaturalist", server.base).ask([NAME, "Nicrophorus vespilloides"]))
    assert all(isinstance(reply, Answer) for reply in replies)
    assert len(bench.notices) == 1
    assert "No space left on device" in bench.notices[0]


def test_a_file_that_cannot_be_read_is_asked_again(
    full: Bench, server: LocalServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    (path,) = full.kept()
    whole = Path.open

    def denied(self: Path, mode: str = "r", *others: Any, **more: Any) -> Any:
        if self == path and "r" in mode:
            raise PermissionError(13, "Permission denied")
        return whole(self, mode, *others, **more)

    monkeypatch.setattr(Path, "open", denied)
    ask(full, server)
    assert len(server.asked) == 2
    assert any("cannot be read" in notice for notice in full.notices)


@pytest.mark.parametrize("kind", ["folder", "fifo", "huge"])
def test_something_else_in_the_place_of_a_file(full: Bench, server: LocalServer, kind: str) -> None:
    (path,) = full.kept()
    path.unlink()
    if kind == "folder":
        path.mkdir()
    elif kind == "fifo":
        os.mkfifo(path)
    else:
        with path.open("wb") as file:
            file.truncate(20_000_000)
    assert len(ask(full, server).statements) == 1


WRITER = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from namekeeper.sources.kept_answers import AnswerCache
cache = AnswerCache(Path(sys.argv[1]), print)
print("ready", flush=True)
for number in range(10**9):
    cache.put(f"question {number % 50}", {"filling": "x" * 50_000, "number": number}, datetime.now(UTC))
"""


@pytest.mark.parametrize("kills", [2, pytest.param(100, marks=pytest.mark.long)])
def test_a_kill_leaves_whole_files_only(tmp_path: Path, kills: int) -> None:
    """Every file that is left can be read, whenever the writer was killed."""
    folder = tmp_path
    for _ in range(kills):
        with subprocess.Popen([sys.executable, "-c", WRITER, str(folder)], stdout=subprocess.PIPE) as writer:
            assert writer.stdout is not None
            assert writer.stdout.readline() == b"ready\n"
            while not any(folder.glob("*.json")):
                pass
            writer.kill()
        notices: list[str] = []
        cache = AnswerCache(folder, notices.append)
        held = [cache.get(f"question {number}") for number in range(50)]
        assert any(held)
        assert notices == []


def test_two_runs_at_once_share_one_folder(tmp_path: Path) -> None:
    notices: list[str] = []
    one, other = (AnswerCache(tmp_path, notices.append) for _ in range(2))
    one.put("q", {"by": "one"}, NOW)
    other.put("q", {"by": "other"}, NOW)
    held = one.get("q")
    assert held is not None
    assert held.document == {"by": "other"}
    assert notices == []


def test_nothing_is_kept_of_a_bad_answer_and_the_next_question_goes_out(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: Canned.json({"results": [{"name": 5.5, "id": None}]})
    (reply,) = bench.open("inaturalist", server.base).ask([NAME])
    assert isinstance(reply, Failure)
    assert bench.kept() == []
    server.answer = lambda asked: good("inaturalist", asked)
    assert len(ask(bench, server).statements) == 1


def test_strange_names_are_asked_and_kept_all_the_same(bench: Bench, server: LocalServer) -> None:
    server.answer = lambda asked: good("inaturalist", asked)
    strange = ["a&b=c?#/../x", "\ud800", "日本 クモ", "x" * 3000, "null\x00byte", "line\r\nHost: evil"]
    first = list(bench.open("inaturalist", server.base).ask(strange))
    assert all(isinstance(reply, Answer) for reply in first)
    again = list(bench.open("inaturalist", server.base).ask(strange))
    assert [reply.asked for reply in again] == strange
    assert len(server.asked) == len(strange)
    assert {asked.path for asked in server.asked} == {"/taxa"}


def test_a_damaged_file_that_cannot_be_removed_is_asked_again(
    full: Bench, server: LocalServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    def denied(self: Path, missing_ok: bool = False) -> None:
        raise PermissionError(13, "Permission denied")

    (path,) = full.kept()
    path.write_bytes(b"{")
    monkeypatch.setattr(Path, "unlink", denied)
    assert len(ask(full, server).statements) == 1


def test_size_and_date_of_a_folder_that_goes_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cache = AnswerCache(tmp_path / "none", print)
    assert (cache.size(), cache.last_answer()) == (0, None)
    cache.put("q", {}, NOW)
    assert cache.size() > 0
    assert cache.last_answer() is not None

    def gone(self: Path, *, follow_symlinks: bool = True) -> os.stat_result:
        raise FileNotFoundError

    monkeypatch.setattr(Path, "stat", gone)
    assert cache.size() == 0
