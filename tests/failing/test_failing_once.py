"""Every file operation of every writing command fails once: nothing is lost or half-written, and it is said in words.

The whole proof, every operation of every command in turn with four errors: ``python -m tests long tests/failing``.
"""

from __future__ import annotations

import errno
import io
import os
import re
import shutil
from pathlib import Path
from random import Random

import pytest

from namekeeper.tasks.lists import list_states
from tests.conftest import NOWHERE, Outcome, run_here, world
from tests.failing.jobs import JOBS, SmallWorld, whole
from tests.failing.operations import Operations, watched

#: What file systems answer: no right, no room, a bad medium, a signal at the wrong moment.
ERRORS = (errno.EACCES, errno.ENOSPC, errno.EIO, errno.EINTR)
#: Commands that take long, and write their files as the others do.
_SPARED = frozenset({"pocket", "demo"})
SHORT = 4  # operations a command


@pytest.fixture(scope="module")
def template(tmp_path_factory: pytest.TempPathFactory) -> SmallWorld:
    compiled = tmp_path_factory.mktemp("compiled")
    list_states(world(compiled, compiled))
    made = SmallWorld.made(tmp_path_factory.mktemp("world") / "template", compiled)
    assert run(made, ("lists", "add", "names.csv", "--as", "kept", "--edition", "1")).code == 0
    return made


def run(place: SmallWorld, words: tuple[str, ...], operations: Operations | None = None) -> Outcome:
    environ = {"NAMEKEEPER_HOME": str(place.home), **NOWHERE}
    with watched(operations or Operations(str(place.root))):
        return run_here(words, place.root, environ, io.StringIO(""))


def fails_once(template: SmallWorld, job: str, tmp_path: Path, chosen: Random | None) -> None:
    """Let each operation fail, or a few that are chosen."""
    words = JOBS[job]
    well = template.copy(tmp_path / "well")
    before, counted = well.kept(), Operations(str(well.root))
    code = run(well, words, counted).code
    after = well.kept()
    assert code < 2
    assert before != after or job in ("accept", "lists add", "lists use", "lists remove")
    numbers = list(range(1, len(counted.done) + 1))
    assert len(numbers) > 5, "nothing is watched"
    for number in chosen.sample(numbers, SHORT) if chosen else numbers:
        place = template.copy(tmp_path / "failing")
        operations = Operations(str(place.root), number, ERRORS[number % len(ERRORS)])
        done = run(place, words, operations)
        what = f"{job}: {operations.done[number - 1]} {os.strerror(operations.code)}: {done}"
        judge(place, done, before, after, what)
        if done.code == code and not done.err:
            assert_same(place.kept(), after, what)
        shutil.rmtree(place.root)


def judge(place: SmallWorld, done: Outcome, before: dict[str, bytes], after: dict[str, bytes], what: str) -> None:
    """Nothing is lost or half-written, now and once the next command has completed it; what is said is words."""
    for name in place.kept():
        assert whole(place.root / name, before, after, name), f"{name} is half-written by {what}"
    missing = before.keys() - place.kept().keys() - (before.keys() - after.keys())
    assert not missing, f"{missing} lost by {what}"
    assert done.code in (0, 1, 2), what
    if done.code == 2:
        told = (done.out + done.err).splitlines()
        assert any(re.search(r"\S+: .+ \(.+\)$", line) or "there is no" in line for line in told), what
    claimed = [line for line in done.err.splitlines() if line.startswith("namekeeper: ") and "nothing was wri" in line]
    assert not claimed or place.kept() == before, f"a false word: {what}"
    if place.kept() != before or place.left_over():
        verified = run(place, ("collection", "verify", "animals"))
        assert verified.code == 0, f"{what}\n{verified}"
        assert place.left_over() == [], what
    specimens = {name: text for name, text in place.kept().items() if "specimens/" in name}
    allowed = [{name: text for name, text in kept.items() if "specimens/" in name} for kept in (before, after)]
    left_out = re.search("cannot be (changed|read)", done.err)  # one animal, and the others go on
    assert specimens in allowed or left_out, f"some of the animals and not others: {what}"


def assert_same(kept: dict[str, bytes], after: dict[str, bytes], what: str) -> None:
    """What was said to be done is done; archives hold the time of their making."""
    chance = (".zip", ".pdf")
    now, wanted = ({name: text for name, text in one.items() if not name.endswith(chance)} for one in (kept, after))
    assert now == wanted, f"said to be done, and is not: {what}"


@pytest.mark.parametrize("job", [job for job in JOBS if job not in _SPARED])
def test_a_few_operations_fail_once(template: SmallWorld, job: str, tmp_path: Path) -> None:
    fails_once(template, job, tmp_path, Random(job))


@pytest.mark.long
@pytest.mark.parametrize("job", [job for job in JOBS if job not in _SPARED])
def test_every_operation_fails_once(template: SmallWorld, job: str, tmp_path: Path) -> None:
    fails_once(template, job, tmp_path, None)
