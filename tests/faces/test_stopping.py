"""Long work tells a face how far it is and ends between two steps, with nothing half-written."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import islice, product
from pathlib import Path
from string import ascii_lowercase

import pytest

from namekeeper.evidence.statements import ListWishes
from namekeeper.faces.telling.remarks import stopped_line
from namekeeper.outside import Outside, Progress, StoppedError, Work
from namekeeper.tasks.check import check_folder
from namekeeper.tasks.collection import new_collection
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.labels import LabelDesk, PrintTo
from namekeeper.tasks.lists import add_list
from namekeeper.tasks.online import ServiceWishes
from namekeeper.tasks.transfer import ImportWishes, plan_import, write_import
from tests.conftest import NOW, NOWHERE
from tests.services.local_server import Canned, LocalServer, serving, silence

Job = Callable[[Outside], object]
PACKAGE = Path(__file__).parents[2]
TAGS = ("GBB 0.1", "Mex red knee", "Brachypelma vagans", "Haplopelma lividum")


class Face:
    """A face with a status line and a stop button, which is pressed at step number ``at`` of all its work."""

    def __init__(self, outside: Outside, at: int = 10**9) -> None:
        self.at = at
        self.told: list[tuple[Work, int, int | None]] = []
        self.outside = outside._replace(shown=self.shown, stop_requested=lambda: len(self.told) >= self.at)

    @contextmanager
    def shown(self, work: Work) -> Iterator[Progress]:
        def show(done: int, total: int | None, note: str = "") -> None:
            self.told.append((work, done, total))

        yield show


@pytest.fixture
def animals(tmp_path: Path, outside: Outside) -> Path:
    folder = tmp_path / "animals"
    new_collection(folder)
    for number, tag in enumerate(TAGS):
        (folder / "specimens" / f"A{number}.yaml").write_text(f"tag: {tag}\n")
    (tmp_path / "rows.csv").write_text("tag,place\n" + "".join(f"{tag},shelf\n" for tag in TAGS))
    epithets = ("".join(letters) + "us" for letters in islice(product(ascii_lowercase, repeat=3), 2500))
    (tmp_path / "list.csv").write_text("name,authorship\n" + "".join(f"Aus {one},\n" for one in epithets))
    check_folder(CollectionDesk.at(folder, outside), ServiceWishes(offline=True))  # compiles the starter list
    return folder


def checked(outside: Outside) -> object:
    return check_folder(CollectionDesk.at(Path("animals"), outside), ServiceWishes(offline=True))


def printed(outside: Outside) -> object:
    desk = LabelDesk.open(CollectionDesk.at(Path("animals"), outside))
    plan = desk.plan(desk.workshop(), Choices())
    return desk.print(plan, PrintTo(Path("labels.pdf"), record=True))


def added(outside: Outside) -> object:
    return add_list(Path("list.csv"), "mine", ListWishes(), outside)


def imported(outside: Outside) -> object:
    desk = CollectionDesk.at(Path("animals"), outside)
    return write_import(desk, plan_import(desk, Path("rows.csv"), ImportWishes()))


JOBS: dict[str, tuple[Job, set[Work]]] = {
    "check": (checked, {Work.CHECKING}),
    "labels": (printed, {Work.GATHERING, Work.FITTING, Work.DRAWING, Work.WRITING}),
    "lists add": (added, {Work.ADDING}),
    "import": (imported, {Work.READING, Work.WRITING}),
}


def kept_files(root: Path) -> dict[str, bytes]:
    """All files but locks and what can be had again."""
    paths = (path for path in root.rglob("*") if path.is_file() and not {"locks", "cache"} & set(path.parts))
    return {str(path.relative_to(root)): path.read_bytes() for path in paths}


def stopped(job: Job, face: Face) -> StoppedError | None:
    """How far the job came if it was stopped."""
    try:
        job(face.outside)
    except StoppedError as stop:
        return stop
    return None


@pytest.mark.parametrize("job", JOBS)
def test_a_job_stops_at_any_step_and_leaves_nothing_half_written(
    job: str, animals: Path, outside: Outside, tmp_path: Path
) -> None:
    work, expected = JOBS[job]
    before = kept_files(tmp_path)
    at = 0
    while True:
        face = Face(outside, at)
        stop = stopped(work, face)
        if stop is None:
            break
        assert len(face.told) == at, "it ends at the step at which it was asked to"
        assert stop.work in expected
        assert (stop.work, stop.done, stop.total) == face.told[-1] if at else stop.done == 0
        after = kept_files(tmp_path)
        if stop.work is Work.WRITING:
            after.pop("labels.pdf", None)  # the PDF is whole; that it was printed is not remembered
        assert after == before
        (tmp_path / "labels.pdf").unlink(missing_ok=True)
        at += 1
    assert {work for work, _, _ in face.told} <= expected
    assert at >= len(TAGS) or job == "lists add"
    assert kept_files(tmp_path) != before or job == "check"


def test_a_stop_amid_linking_ends_the_statement_of_the_database(
    animals: Path, outside: Outside, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("namekeeper.sources.lists.index_writer._LOOK_UP_AFTER", 50)
    whole = Face(outside)
    before = kept_files(tmp_path)
    added(whole.outside)
    linking = len(whole.told) - 20
    assert linking > 100, "the database asked often"
    for path in (tmp_path / "namekeeper-home" / "data").rglob("*.*"):
        path.unlink()
    face = Face(outside, linking)
    with pytest.raises(StoppedError) as stop:
        added(face.outside)
    assert (stop.value.work, stop.value.done) == (Work.ADDING, 2500)
    assert {name: text for name, text in kept_files(tmp_path).items() if "current" not in name} == before


@pytest.fixture
def silent(animals: Path, home: Path) -> Iterator[tuple[LocalServer, dict[str, str]]]:
    """A service that takes every question and never answers, and the environment that leads to it."""
    (animals / "specimens" / "A9.yaml").write_text("names: [{name: Aus bus, since: 2020, recorded: 2020}]\n")
    with serving(lambda asked: Canned(status=0, manner=silence)) as server:
        yield server, {"NAMEKEEPER_HOME": str(home), **NOWHERE, "NAMEKEEPER_URL_GBIF": server.base}


def test_waiting_for_a_service_ends_within_two_seconds(
    silent: tuple[LocalServer, dict[str, str]], tmp_path: Path
) -> None:
    server, environ = silent
    pressed: list[float] = []

    def stop_requested() -> bool:
        if server.asked and not pressed:
            pressed.append(time.monotonic())
        return bool(pressed)

    outside = Outside.of(tmp_path, environ, lambda: NOW, lambda _text: None, stop_requested=stop_requested)
    with pytest.raises(StoppedError) as stop:
        check_folder(CollectionDesk.at(Path("animals"), outside), ServiceWishes(("gbif",)))
    assert stop.value.work is Work.ASKING
    assert time.monotonic() - pressed[0] < 2


#: The command as at a terminal: shells let what they start in the background ignore the signal.
HEARING = """
import runpy, signal
signal.signal(signal.SIGINT, signal.default_int_handler)
runpy.run_module("namekeeper", run_name="__main__", alter_sys=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no signal like Ctrl-C can be sent to one process there")
def test_ctrl_c_says_what_was_done_and_ends_with_a_code_of_its_own(
    silent: tuple[LocalServer, dict[str, str]], tmp_path: Path
) -> None:
    server, environ = silent
    words = [sys.executable, "-c", HEARING, "check", "animals", "--services", "gbif", "--json"]
    with subprocess.Popen(
        words, cwd=tmp_path, env={**os.environ, **environ, "PYTHONPATH": str(PACKAGE)},
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    ) as process:  # fmt: skip
        while not server.asked and process.poll() is None:
            time.sleep(0.02)
        pressed = time.monotonic()
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=20)
        assert time.monotonic() - pressed < 2
    assert process.returncode == 130, "as a shell reckons it: 128 and the number of the signal"
    assert out == "", "no answer looks whole"
    assert err.splitlines()[-1] == (
        "namekeeper: stopped while asking: every answer that came is kept, and the next run goes on from there"
    )


def test_what_is_left_is_said_of_every_kind_of_work() -> None:
    lines = {stopped_line(StoppedError(work, 3, 9)) for work in Work}
    assert len(lines) == len(Work)
    assert all(" after 3 of 9: " in line for line in lines)
    assert stopped_line(KeyboardInterrupt()) == "stopped; what was finished is kept"
