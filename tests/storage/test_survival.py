"""Writes survive anything: kills at every step, full disks, lost permissions, power cuts, two writers, wrong clocks.

The long proof: ``python -m pytest tests/storage/test_survival.py -m long --no-cov`` (10,000 forks, 200 processes).
"""

from __future__ import annotations

import errno
import fcntl
import os
import signal
import socket
import stat
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from random import Random

import pytest

from namekeeper.files.file_layer import NEW, DiskFiles, FileLayer, replace_whole
from namekeeper.files.places import Places
from namekeeper.outside import Outside, Remark, RemarkKind
from namekeeper.records.differences import Difference, DifferenceKind, Outdated
from namekeeper.records.specimen import Decision, NameEntry, Specimen
from namekeeper.storage.changes import apply_changes, recover_collection
from namekeeper.storage.collection_folder import load_collection
from namekeeper.storage.journal import JOURNAL, content_digest
from namekeeper.storage.lock import Holder, lock_path, writing
from namekeeper.storage.wanted import (
    AddPaper,
    FileChange,
    Insertion,
    MadeFor,
    NewSpecimen,
    SetKey,
    WriterParts,
    Written,
)
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NOWHERE, FileError
from tests.storage.fault_layers import PowerCut, PowerLost, Steps, kill_this_process

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
TODAY = NOW.date()
IDS = ("INV-0001", "INV-0002", "INV-0003")
OLD = b"""\
# mine
tag: 'Mex red rump'
sex: 0.0.3
names:
- name: Brachypelma vagans
  since: 2014
  recorded: 2014-05-04
"""


def clock() -> datetime:
    return NOW


def entry(name: str = "Tliltocatl vagans") -> NameEntry:
    return NameEntry(
        name, "(Ausserer, 1875)", PartialDate.of(TODAY), PartialDate.of(TODAY), "moved", decided_by="keeper"
    )


def made_for(identifier: str, content: bytes = OLD) -> MadeFor:
    """As if decided on a file of that content."""
    return MadeFor(
        Specimen(identifier, NOWHERE, names=(entry("Brachypelma vagans"),), revision=content_digest(content))
    )


def changes() -> list[FileChange]:
    made: list[FileChange] = [Insertion(identifier, "names", entry(), made_for(identifier)) for identifier in IDS]
    printed = Decision("printed", None, "Tliltocatl vagans", decided_by="A. Keeper")
    back = Decision("unprinted", None, "Tliltocatl vagans", undoes="1")
    return [
        *made,
        SetKey("INV-0002", "sex", "0.1.2", made_for("INV-0002")),
        AddPaper("INV-0002", (("kind", "permit"), ("number", "12")), made_for("INV-0002")),
        Insertion("INV-0003", "decisions", printed, made_for("INV-0003")),
        Insertion("INV-0003", "decisions", back, made_for("INV-0003")),
    ]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    for identifier in IDS:
        (folder / "specimens" / f"{identifier}.yaml").write_bytes(OLD)
    return folder


@pytest.fixture
def places(tmp_path: Path) -> Places:
    return Places(tmp_path / "cache", tmp_path / "state", tmp_path / "data")


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in (folder / "specimens").iterdir() if path.suffix == ".yaml"}


def expected(folder: Path, places: Places) -> dict[str, bytes]:
    """What the files hold when the change is made without any mishap; puts the old ones back."""
    apply_changes(folder, changes(), places, clock)
    made = contents(folder)
    reset(folder)
    return made


def reset(folder: Path) -> None:
    for identifier in IDS:
        (folder / "specimens" / f"{identifier}.yaml").write_bytes(OLD)
    (folder / ".namekeeper-digests").unlink(missing_ok=True)


def leftovers(folder: Path) -> list[str]:
    return [
        p.name
        for p in (*folder.iterdir(), *(folder / "specimens").iterdir())
        if p.name.endswith(NEW) or p.name == JOURNAL
    ]


def assert_whole(folder: Path, made: dict[str, bytes]) -> None:
    """Each file is the old one or the new one."""
    for name, content in contents(folder).items():
        assert content in (OLD, made[name]), name


def assert_all_or_nothing(folder: Path, places: Places, made: dict[str, bytes]) -> bool:
    """After recovery all files are old or all are new, nothing is left over, and the history is whole; True if new."""
    recover_collection(folder, places, clock)
    now = contents(folder)
    assert now in (dict.fromkeys(made, OLD), made)
    assert leftovers(folder) == []
    collection = load_collection(folder, TODAY)
    assert collection.problems == ()
    assert [specimen.names[0].name for specimen in collection.specimens] == ["Brachypelma vagans"] * 3
    return now == made


def steps_of(folder: Path, places: Places) -> int:
    layer = Steps(lambda step: None)
    apply_changes(folder, changes(), places, clock, rim=WriterParts(layer))
    reset(folder)
    return layer.count


def changed(folder: Path, places: Places, layer: FileLayer) -> Written:
    return apply_changes(folder, changes(), places, clock, rim=WriterParts(layer))


def killed_at(step: int, work: Callable[[FileLayer], object]) -> bool:
    """Fork, let the child do its work and die at that step; True if it died there."""

    def at(count: int) -> None:
        if count == step:
            kill_this_process()

    child = os.fork()
    if child == 0:
        try:
            work(Steps(at))
        finally:
            os._exit(0)
    status = os.waitpid(child, 0)[1]
    return os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGKILL


def kill_once(step: int, folder: Path, places: Places, made: dict[str, bytes]) -> tuple[bool, bool]:
    """Kill a change at a step, and the recovery after it at every one of its steps too now and then."""
    died = killed_at(step, lambda layer: changed(folder, places, layer))
    assert_whole(folder, made)
    again = 1
    while step % 7 == 0 and killed_at(
        again, lambda layer: recover_collection(folder, places, clock, WriterParts(layer))
    ):
        assert_whole(folder, made)
        again += 1
    return died, assert_all_or_nothing(folder, places, made)


def test_a_kill_at_any_step_loses_nothing(folder: Path, places: Places) -> None:
    made, steps = expected(folder, places), steps_of(folder, places)
    outcomes = set()
    for step in range(1, steps + 1):
        died, new = kill_once(step, folder, places, made)
        assert died, step
        outcomes.add(new)
        reset(folder)
    assert outcomes == {True, False}, "some kills come before the change counts as made and some after"


@pytest.mark.long
def test_ten_thousand_kills_lose_nothing(folder: Path, places: Places) -> None:
    made, steps = expected(folder, places), steps_of(folder, places)
    kills = 0
    for number in range(10_000):
        kills += kill_once(number % steps + 1, folder, places, made)[0]
        reset(folder)
    assert kills == 10_000


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EIO])
@pytest.mark.parametrize("lasting", [True, False])
def test_an_error_at_any_step_loses_nothing(folder: Path, places: Places, code: int, lasting: bool) -> None:
    made, steps = expected(folder, places), steps_of(folder, places)
    for step in range(1, steps + 1):

        def fail(count: int, step: int = step) -> None:
            if count == step or (lasting and count > step):
                raise OSError(code, os.strerror(code))

        with suppress(FileError):
            changed(folder, places, Steps(fail))
        assert_whole(folder, made)
        assert_all_or_nothing(folder, places, made)
        reset(folder)


def test_a_full_disk_leaves_no_drafts(folder: Path, places: Places) -> None:
    def full(count: int) -> None:
        if count == 2:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with pytest.raises(FileError, match="nothing was written: No space left") as error:
        apply_changes(folder, changes(), places, clock, rim=WriterParts(Steps(full)))
    assert error.value.remedy
    assert leftovers(folder) == []
    assert set(contents(folder).values()) == {OLD}


def run_with_power_cut(folder: Path, places: Places, step: int, random: Random) -> tuple[PowerCut, bool]:
    disk = PowerCut()
    for identifier in IDS:
        disk.put(folder / "specimens" / f"{identifier}.yaml", OLD)
    disk.countdown = step
    try:
        apply_changes(folder, changes(), places, clock, rim=WriterParts(disk))
        finished = True
    except PowerLost:
        finished = False
    disk.cut(random)
    return disk, finished


@pytest.mark.parametrize("seed", range(6))
def test_a_power_cut_that_drops_unsynced_writes_loses_nothing(folder: Path, places: Places, seed: int) -> None:
    made, random, step = expected(folder, places), Random(seed), 0
    finished = False
    while not finished:
        step += 1
        disk, finished = run_with_power_cut(folder, places, step, random)
        while True:  # the power may fail during recovery as well
            disk.countdown = random.randrange(1, 12)
            try:
                recover_collection(folder, places, clock, WriterParts(disk))
                break
            except PowerLost:
                disk.cut(random)
        after = {name: disk.read(folder / "specimens" / name) for name in made}
        assert after in (dict.fromkeys(made, OLD), made), step
        assert not [name for name in disk.names(folder / "specimens") if name.endswith(NEW)]
        assert JOURNAL not in disk.names(folder)
    assert after == made, "a change that was reported as written is there after the cut"
    assert step > 10


def interrupt(folder: Path, places: Places) -> None:
    """Kill a change at the first step after it counts as made."""
    for step in range(1, 60):
        if killed_at(step, lambda layer: changed(folder, places, layer)) and (folder / JOURNAL).exists():
            return
    pytest.fail("no step lies behind the journal")


def test_an_edit_between_the_kill_and_the_recovery_stays(folder: Path, places: Places) -> None:
    made = expected(folder, places)
    interrupt(folder, places)
    edited = folder / "specimens" / "INV-0002.yaml"
    edited.write_bytes(OLD + b"# edited by hand\n")
    messages = recover_collection(folder, places, clock)
    assert any("INV-0002.yaml was edited meanwhile and stays as it is" in message for message in messages)
    assert edited.read_bytes() == OLD + b"# edited by hand\n"
    assert contents(folder)["INV-0001.yaml"] == made["INV-0001.yaml"]
    assert load_collection(folder, TODAY).problems == ()


def test_the_next_command_completes_the_change_and_says_so(folder: Path, places: Places) -> None:
    made = expected(folder, places)
    interrupt(folder, places)
    assert "a change was interrupted" in load_collection(folder, TODAY).problems[0].what
    said: list[str | Remark] = []
    collection = CollectionDesk(folder, Outside(folder, places, {}, clock, said.append)).open()
    assert any(str(text).startswith("completed an interrupted change of ") for text in said), said
    assert collection.problems == ()
    assert contents(folder) == made


def test_the_next_command_tells_that_nothing_was_written(folder: Path, places: Places) -> None:
    assert killed_at(3, lambda layer: changed(folder, places, layer))
    said: list[str | Remark] = []
    CollectionDesk(folder, Outside(folder, places, {}, clock, said.append)).open()
    assert said[-1] == "rolled back an interrupted change: nothing of it was written"
    assert set(contents(folder).values()) == {OLD}
    assert leftovers(folder) == []


def test_staged_content_that_went_lost_is_told(folder: Path, places: Places) -> None:
    interrupt(folder, places)
    for staged in (folder / "specimens").glob(f".INV-0003*{NEW}"):
        staged.write_bytes(b"torn")
    messages = recover_collection(folder, places, clock)
    assert messages[-1] == "specimens/INV-0003.yaml could not be changed and stays as it is; decide again"
    assert contents(folder)["INV-0003.yaml"] == OLD


def test_an_edit_after_the_renaming_is_no_lost_change(folder: Path, places: Places) -> None:
    interrupt(folder, places)
    done = folder / "specimens" / "INV-0001.yaml"
    (folder / "specimens" / f".{done.name}{NEW}").replace(done)
    done.write_bytes(done.read_bytes() + b"# edited by hand\n")
    messages = recover_collection(folder, places, clock)
    assert not any("INV-0001" in message for message in messages)
    assert done.read_bytes().endswith(b"# edited by hand\n")


def test_a_new_animal_takes_no_id_that_differs_in_case_only(folder: Path, places: Places) -> None:
    written = apply_changes(folder, [NewSpecimen("inv-0001", "tag: x\n")], places, clock)
    assert [problem.what for problem in written.refused] == ["there is a specimen of that id already"]
    assert sorted(contents(folder)) == [f"{identifier}.yaml" for identifier in sorted(IDS)]


@pytest.mark.parametrize("text", ["{", "5", "[" * 4000])
def test_a_damaged_journal_or_lock_is_told_or_nobodys(folder: Path, places: Places, text: str) -> None:
    lock = lock_path(places, folder)
    lock.parent.mkdir(parents=True)
    lock.write_text(text)
    assert recover_collection(folder, places, clock) == ()
    (folder / JOURNAL).write_text(text)
    with pytest.raises(FileError, match="journal of an interrupted change cannot be read"):
        recover_collection(folder, places, clock)


def test_a_file_written_whole_or_not_at_all(tmp_path: Path) -> None:
    target = tmp_path / "report.html"
    target.write_bytes(b"old")

    def full(count: int) -> None:
        if count == 2:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with pytest.raises(FileError, match="cannot be written: No space left"):
        replace_whole(Steps(full), target, b"new content")
    assert target.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["report.html"]
    replace_whole(DiskFiles(), target, b"new content")
    assert target.read_bytes() == b"new content"


def test_a_journal_that_leads_elsewhere_is_refused(folder: Path, places: Places) -> None:
    text = '{"version": 1, "files": [{"target": "../x", "before": null, "after": "0"}]}'
    (folder / JOURNAL).write_text(text)
    with pytest.raises(FileError, match="journal of an interrupted change cannot be read") as error:
        recover_collection(folder, places, clock)
    assert "delete this file" in error.value.remedy


def test_two_processes_settling_at_once_lose_no_entry(folder: Path, places: Places) -> None:
    """Each of two processes adds twenty names to the same three animals, without looking at what the other does."""
    children = []
    for who in ("a", "b"):
        child = os.fork()
        if child == 0:
            code = 1
            try:
                for number in range(20):
                    wanted = [Insertion(i, "names", entry(f"Genus {who}{'x' * number}species")) for i in IDS]
                    apply_changes(folder, wanted, places, clock)
                code = 0
            finally:
                os._exit(code)
        children.append(child)
    assert [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children] == [0, 0]
    collection = load_collection(folder, TODAY)
    assert collection.problems == ()
    for specimen in collection.specimens:
        assert len({found.name for found in specimen.names}) == 41


def test_the_second_of_two_equal_decisions_is_refused(folder: Path, places: Places) -> None:
    wanted = [Insertion("INV-0001", "names", entry(), made_for("INV-0001"))]
    assert apply_changes(folder, wanted, places, clock).specimens == ("INV-0001",)
    second = apply_changes(folder, wanted, places, clock)
    assert second.specimens == ()
    now = Difference(DifferenceKind.NAME, "Tliltocatl vagans")
    assert (second.refused, second.outdated) == ((), (Outdated("INV-0001", now),))


def test_a_clock_that_goes_backwards_is_refused_and_nothing_is_written(folder: Path, places: Places) -> None:
    apply_changes(folder, changes(), places, clock)
    before = contents(folder)
    past = NOW.replace(year=2019)
    late = NameEntry("Genus species", since=PartialDate.parse("2019"), recorded=PartialDate.parse("2019-01-01"))
    written = apply_changes(folder, [Insertion("INV-0001", "names", late)], places, lambda: past)
    assert written.specimens == ()
    assert "lies in the future" in written.refused[0].what
    assert contents(folder) == before


def test_a_symlinked_folder_is_the_same_collection(folder: Path, places: Places) -> None:
    link = folder.parent / "link"
    link.symlink_to(folder, target_is_directory=True)
    assert lock_path(places, link) == lock_path(places, folder)
    apply_changes(link, changes(), places, clock)
    assert len(load_collection(folder, TODAY).specimens[0].names) == 2
    assert link.is_symlink()


def test_a_linked_file_is_not_replaced(folder: Path, places: Places) -> None:
    real = folder.parent / "elsewhere.yaml"
    real.write_bytes(OLD)
    linked = folder / "specimens" / "INV-0001.yaml"
    linked.unlink()
    linked.symlink_to(real)
    written = apply_changes(folder, changes(), places, clock)
    assert [problem.what for problem in written.refused] == ["the file is a link to elsewhere"]
    assert set(written.specimens) == {"INV-0002", "INV-0003"}
    assert real.read_bytes() == OLD


def test_a_read_only_file_is_refused_and_the_others_go_on(folder: Path, places: Places) -> None:
    class OneReadOnly(Steps):
        def may_write(self, path: Path) -> bool:
            return path.name != "INV-0002.yaml"

    written = apply_changes(folder, changes(), places, clock, rim=WriterParts(OneReadOnly(lambda step: None)))
    assert set(written.specimens) == {"INV-0001", "INV-0003"}
    assert str(written.refused[0]).startswith("specimens/INV-0002.yaml: cannot be changed: the file is read-only")


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n"])
@pytest.mark.parametrize("last", [True, False])
def test_every_byte_of_a_file_stays(folder: Path, places: Places, mark: bytes, end: bytes, last: bool) -> None:
    text = "# Zeile ♀\ntag: 'x'   # verbatim\nnames:\n-   name: Brachypelma vagans\n    since:  2014".encode()
    before = mark + text.replace(b"\n", end) + (end if last else b"")
    path = folder / "specimens" / "INV-0001.yaml"
    path.write_bytes(before)
    assert (
        apply_changes(
            folder, [Insertion("INV-0001", "names", entry(), made_for("INV-0001", before))], places, clock
        ).refused
        == ()
    )
    after = path.read_bytes()
    assert after.startswith(before)
    assert after.endswith(end) is last
    assert after.count(end) == after.count(b"\n")


def test_file_permissions_stay(folder: Path, places: Places) -> None:
    path = folder / "specimens" / "INV-0001.yaml"
    path.chmod(0o640)
    apply_changes(folder, changes(), places, clock)
    assert path.stat().st_mode & 0o777 == 0o640


class TestLock:
    def test_a_busy_lock_tells_who_holds_it(self, folder: Path, places: Places) -> None:
        waits: list[float] = []
        with (
            writing(places, folder, NOW),
            pytest.raises(FileError, match=f"process {os.getpid()} on") as error,
            writing(places, folder, NOW, patience=0.2, sleep=waits.append),
        ):
            pass
        assert error.value.remedy
        assert waits

    def test_a_lock_whose_holder_died_is_taken_over(self, folder: Path, places: Places) -> None:
        child = os.fork()
        if child == 0:
            with writing(places, folder, NOW):
                kill_this_process()
        os.waitpid(child, 0)
        assert lock_path(places, folder).read_bytes()
        with writing(places, folder, NOW) as messages:
            assert messages[0].startswith(f"took over the lock of process {child}")
        assert lock_path(places, folder).read_bytes() == b""

    def test_a_number_used_again_by_another_process_is_no_holder(self) -> None:
        mine = Holder.myself(NOW)
        assert not mine.is_gone()
        if mine.started:  # the system tells when a process started
            assert Holder(mine.host, mine.pid, "0", mine.since).is_gone()

    def test_another_machine_is_never_declared_dead(self, folder: Path, places: Places) -> None:
        path = lock_path(places, folder)
        path.parent.mkdir(parents=True)
        path.write_text('{"host": "other.example", "pid": 1, "started": "5", "since": "2026-01-01"}')
        with (
            pytest.raises(FileError, match=r"process 1 on other\.example") as error,
            writing(places, folder, NOW, patience=0),
        ):
            pass
        assert str(path) in error.value.remedy

    def test_a_process_before_the_last_start_of_the_machine_is_gone(self) -> None:
        """Its number may be another's by now, and its start looks alike where the count begins with the machine."""
        mine = Holder.myself(NOW)
        assert replace(mine, boot="another").is_gone() == bool(mine.boot)
        assert replace(mine, host="renamed since").is_gone() is False
        assert replace(mine, machine="another", boot="another").is_gone() is (not mine.machine)

    def test_a_lock_of_an_earlier_version_is_understood(self, folder: Path, places: Places) -> None:
        path = lock_path(places, folder)
        path.parent.mkdir(parents=True)
        path.write_text(f'{{"host": "{socket.gethostname()}", "pid": {2**22 + 1}, "started": "5", "since": "2026"}}')
        with writing(places, folder, NOW) as messages:
            assert str(path) in messages[0]

    def test_a_file_system_without_locks_is_one_line(
        self, folder: Path, places: Places, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def refused(*_: object) -> None:
            raise OSError(errno.ENOLCK, "No locks available")

        monkeypatch.setattr(fcntl, "flock", refused)
        with pytest.raises(FileError, match="refuses to lock: No locks available") as told:
            apply_changes(folder, changes(), places, clock)
        assert "NAMEKEEPER_HOME" in str(told.value)

    @pytest.mark.parametrize("number", [errno.EINVAL, errno.ENOTSUP, errno.ENOSYS])
    def test_a_share_whose_folders_cannot_be_synced_is_written_to(
        self, folder: Path, places: Places, monkeypatch: pytest.MonkeyPatch, number: int
    ) -> None:
        real = os.fsync

        def refused(descriptor: int) -> None:
            if stat.S_ISDIR(os.fstat(descriptor).st_mode):
                raise OSError(number, "this share cannot do that")
            real(descriptor)

        monkeypatch.setattr(os, "fsync", refused)
        written = apply_changes(folder, changes(), places, clock)
        assert written.refused == ()
        assert [text for text in written.messages if "outlasts a power cut" in text], "the keeper is told, once"
        reset(folder)
        assert apply_changes(folder, changes(), places, clock).messages == ()

    def test_a_writer_at_work_blocks_no_reader(self, folder: Path, places: Places) -> None:
        interrupt(folder, places)  # as one finds the folder while another is in the middle of it
        said: list[str | Remark] = []
        desk = CollectionDesk(folder, Outside(folder, places, {}, clock, said.append))
        with writing(places, folder, NOW):
            opened = desk.open()
        assert len(opened.specimens) == 3
        assert opened.problems == (), "what its writer is about to finish is no problem"
        (remark,) = said
        assert isinstance(remark, Remark)
        assert remark.kind is RemarkKind.BEING_WRITTEN
        assert f"process {os.getpid()} on" in remark.about[0], "and the keeper is told who it is"
        assert len(desk.open().specimens[0].names) == 2, "and afterwards the change is completed"

    def test_a_lock_cut_short_by_a_power_cut_is_nobodys(self, folder: Path, places: Places) -> None:
        path = lock_path(places, folder)
        path.parent.mkdir(parents=True)
        path.write_text('{"host": "oth')
        with writing(places, folder, NOW) as messages:
            assert messages == ()

    def test_a_state_folder_that_cannot_be_made_is_told(self, folder: Path, tmp_path: Path) -> None:
        (tmp_path / "state").write_text("a file in the way")
        places = Places(tmp_path, tmp_path / "state", tmp_path)
        with pytest.raises(FileError, match="lock of the collection cannot be made"):
            apply_changes(folder, changes(), places, clock)


@dataclass
class Killing:
    """Runs commands in processes of their own and kills some after a random time."""

    folder: Path
    environ: dict[str, str]
    random: Random = field(default_factory=lambda: Random(1))
    duration: float = 0.5  # of the command when it is let alone, as last seen
    interrupted: int = 0

    def start(self, *words: str) -> subprocess.Popen[str]:
        command = [sys.executable, "-m", "namekeeper", *words]
        return subprocess.Popen(command, env=self.environ, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)

    def finish(self, *words: str, code: int = 0) -> None:
        said, _ = (process := self.start(*words)).communicate()
        assert process.returncode == code, said

    def kill(self, *words: str) -> None:
        started, process = time.monotonic(), self.start(*words)
        try:
            process.communicate(timeout=self.random.uniform(0.3, 1.05) * self.duration)
            self.duration = time.monotonic() - started
        except subprocess.TimeoutExpired:
            process.kill()
            process.communicate()
            self.interrupted += 1

    def texts(self) -> dict[str, str]:
        return {path.stem: path.read_text() for path in (self.folder / "specimens").glob("*.yaml")}


@pytest.fixture
def killing(tmp_path: Path) -> Killing:
    environ = {**os.environ, "NAMEKEEPER_HOME": str(tmp_path / "home")}
    made = Killing(tmp_path / "animals", environ)
    made.finish("collection", "new", str(made.folder))
    return made


def kill_while_adding(killing: Killing, count: int) -> None:
    """``collection add --count 40``: forty animals are there, or none; having young changes nothing in the parent."""
    folder = str(killing.folder)
    killing.finish("collection", "add", folder, "--tag", "x", "--id", "A")
    for _ in range(count):
        killing.kill("collection", "add", folder, "--from", "A", "--count", "40")
        killing.finish("collection", "verify", folder)
        texts = killing.texts()
        assert len(texts) in (1, 41)
        assert texts["A"] == 'tag: "x"\n'
        for stem in texts.keys() - {"A"}:
            (killing.folder / "specimens" / f"{stem}.yaml").unlink()


def kill_while_settling(killing: Killing, count: int) -> None:
    """``settle --take-safe --write``: each file is the old one or the new one, and after recovery all are alike."""
    folder, files = str(killing.folder), {f"A{i}": OLD.decode() for i in range(20)}
    killing.finish("check", folder, "--offline")  # makes the index of the starter list, which is not tested here
    for _ in range(count):
        for stem, text in files.items():
            (killing.folder / "specimens" / f"{stem}.yaml").write_text(text)
        (killing.folder / ".namekeeper-digests").unlink(missing_ok=True)
        killing.kill("settle", folder, "--offline", "--take-safe", "--write")
        assert all(text == files[stem] or is_settled(text) for stem, text in killing.texts().items())
        killing.finish("collection", "verify", folder)
        assert len(set(killing.texts().values())) == 1


def is_settled(text: str) -> bool:
    return text.startswith(OLD.decode()) and text.endswith("  decided_by: keeper, as a safe proposal\n")


@pytest.mark.parametrize("kill", [kill_while_adding, kill_while_settling])
@pytest.mark.parametrize("count", [3, pytest.param(100, marks=pytest.mark.long)])
def test_killed_processes_leave_all_or_nothing(
    killing: Killing, kill: Callable[[Killing, int], None], count: int
) -> None:
    kill(killing, count)
    assert killing.interrupted > count // 4 or count < 10, "most kills should hit the command at work"
