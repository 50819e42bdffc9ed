"""A decision that comes late: what it was made for is compared under the lock, and what differs is told."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import replace
from functools import partial
from pathlib import Path
from subprocess import PIPE

import pytest
import yaml

from namekeeper.records.differences import Difference, DifferenceKind
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.online import ServiceWishes
from namekeeper.tasks.settle_collection import Settled, SettleDesk
from namekeeper.tasks.settle_orders import Orders
from tests.conftest import Outcome, Typed, run_here, world

Command = Callable[..., Outcome]

VAGANS = """\
tag: B. vagans 0.1
acquired: 2010
names:
- name: Brachypelma vagans  # as sold
  authorship: (Ausserer, 1875)
  since: 2010-05
  recorded: 2010-05-04
"""
OFFLINE = ServiceWishes(offline=True)


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    for identifier in ("A1", "A2"):
        (folder / "specimens" / f"{identifier}.yaml").write_text(VAGANS)
    return folder


@pytest.fixture
def look(animals: Path, home: Path) -> Iterator[Callable[[], SettleDesk]]:
    """Checks the collection now; what is decided on it is written later."""
    with ExitStack() as open_desks:
        desk = CollectionDesk.at(animals, world(animals.parent, home))
        yield lambda: open_desks.enter_context(SettleDesk.open(desk, OFFLINE))


@pytest.fixture
def desk(look: Callable[[], SettleDesk]) -> SettleDesk:
    return look()


def file(animals: Path, identifier: str = "A1") -> Path:
    return animals / "specimens" / f"{identifier}.yaml"


def outdated(settled: Settled) -> Difference:
    (found,) = settled.outdated
    assert found.specimen == "A1"
    assert settled.exit_code == 2
    return found.difference


TAKE = Orders(take={"A1": "Tliltocatl vagans"})
KEEP = Orders(keep=("A1",))
UNDO = Orders(undo=("A1",))


@pytest.mark.parametrize(
    ("old", "new", "difference"),
    [
        ("Brachypelma vagans", "Brachypelma albopilosum", Difference(DifferenceKind.NAME, "Brachypelma albopilosum")),
        ("names:", "left: {date: 2021-06, how: sold}\nnames:", Difference(DifferenceKind.LEFT, "sold")),
        ("acquired: 2010", "acquired: 2011", Difference(DifferenceKind.FACTS, "acquired")),
        ("since: 2010-05\n", "since: 2010-06\n", Difference(DifferenceKind.FACTS, "names")),
        ("# as sold", "# as it was sold", Difference(DifferenceKind.TEXT)),
        ("names:", "names: here", Difference(DifferenceKind.UNREADABLE)),
    ],
)
@pytest.mark.parametrize("orders", [TAKE, KEEP, Orders(take_safe=True), Orders(correct={"A1": "Brachypelma boehmei"})])
def test_a_file_that_was_changed_meanwhile_stays_and_the_others_go_on(
    desk: SettleDesk, animals: Path, old: str, new: str, difference: Difference, orders: Orders
) -> None:
    edited = VAGANS.replace(old, new)
    file(animals).write_text(edited)
    settled = desk.settle(replace(orders, later=() if orders.take_safe else ("A2",)), write=True)
    assert outdated(settled) == difference
    assert file(animals).read_text() == edited
    assert file(animals, "A2").read_text() != VAGANS
    assert [one.written for one in settled.changes] == [False, True]


def test_a_file_that_is_gone_is_not_made_anew(desk: SettleDesk, animals: Path) -> None:
    file(animals).unlink()
    assert outdated(desk.settle(TAKE, write=True)).kind is DifferenceKind.GONE
    assert not file(animals).exists()


def test_sources_that_say_something_else_by_now_are_heard(desk: SettleDesk, animals: Path, command: Command) -> None:
    table = "name,authorship,status,accepted_name\n"
    table += 'Brachypelma vagans,"(Ausserer, 1875)",synonym,Brachypelma emilia\n'
    table += 'Brachypelma emilia,"(White, 1856)",accepted,\n'
    (animals.parent / "other.csv").write_text(table)
    added = command("lists", "add", "other.csv", "--as", "other", "--edition", "2026-11")
    assert added.code == 0, added.err
    assert outdated(desk.settle(TAKE, write=True)).kind is DifferenceKind.VERDICT
    assert file(animals).read_text() == VAGANS


def test_settings_count_as_they_are_by_now(desk: SettleDesk, animals: Path) -> None:
    (animals / "collection.yaml").write_text("title: renamed\n")
    assert desk.settle(TAKE, write=True).outdated == ()


@pytest.mark.parametrize(
    ("first", "late"),
    [(KEEP, KEEP), (KEEP, TAKE), (TAKE, TAKE), (TAKE, KEEP), (Orders(later=("A1",)), KEEP)],
)
def test_of_two_decisions_on_one_sight_the_second_is_refused(
    desk: SettleDesk, look: Callable[[], SettleDesk], animals: Path, first: Orders, late: Orders
) -> None:
    other = look()
    assert desk.settle(first, write=True).outdated == ()
    once = file(animals).read_text()
    kind = DifferenceKind.NAME if first is TAKE else DifferenceKind.DECIDED
    assert outdated(other.settle(late, write=True)).kind is kind
    assert file(animals).read_text() == once


def test_a_keep_is_undone_once(desk: SettleDesk, look: Callable[[], SettleDesk], animals: Path) -> None:
    desk.settle(KEEP, write=True)
    first, second = look(), look()
    assert first.settle(UNDO, write=True).outdated == ()
    once = file(animals).read_text()
    assert outdated(second.settle(UNDO, write=True)) == Difference(DifferenceKind.DECIDED, "undone")
    assert file(animals).read_text() == once


@pytest.mark.parametrize("orders", [TAKE, KEEP, Orders(later=("A1",))])
def test_the_same_order_twice_writes_once(animals: Path, look: Callable[[], SettleDesk], orders: Orders) -> None:
    assert look().settle(orders, write=True).changes[0].written
    once = file(animals).read_text()
    (again,) = (settled := look().settle(orders, write=True)).changes
    assert (again.insertion, again.written, settled.refused, settled.outdated) == (None, False, (), ())
    assert file(animals).read_text() == once


def test_a_pass_at_the_terminal_tells_what_came_too_late(tmp_path: Path, home: Path, animals: Path) -> None:
    class Slow(Typed):
        """A keeper in front of whose eyes the file is edited."""

        def read(self, size: int | None = -1) -> str:
            file(animals).write_text(VAGANS.replace("as sold", "as it was sold"))
            return super().read(size)

    environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1"}
    done = run_here(["settle", "animals", "--offline", "--write"], tmp_path, environ, Slow("tq"), Typed())
    assert "A1: not written: its file was edited meanwhile (check again and decide anew)" in done.err
    assert "(moved)" not in done.out, "it is not told as done"
    assert "Tliltocatl" not in file(animals).read_text()


def test_facts_and_counts_are_compared_too(command: Command, animals: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = CollectionDesk.apply

    def late(desk: CollectionDesk, *words: object, **more: object) -> object:
        file(animals).write_text(VAGANS + "# edited\n")
        return real(desk, *words, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(CollectionDesk, "apply", late)
    for words in (("count", "animals", "A1", "0.2"), ("left", "animals", "A1", "--how", "sold"),
                  ("set", "animals", "A1", "place=shelf 2"), ("join", "animals", "A2", "A1")):  # fmt: skip
        file(animals).write_text(VAGANS)
        done = command("collection", *words, "--write")
        assert (done.code, "A1: not written: its file was edited meanwhile" in done.err) == (2, True), words
        assert file(animals).read_text() == VAGANS + "# edited\n"
        assert file(animals, "A2").read_text() == VAGANS


_SETTLE = [sys.executable, "-m", "namekeeper", "settle", "animals", "--offline", "--write"]


def test_what_processes_decide_at_once_is_written_as_each_says(animals: Path, home: Path) -> None:
    # All read the same file; whichever comes later is told so, or finds on a fresh look what there is to decide now.
    orders = (["--take", "A1=Tliltocatl vagans"], ["--keep", "A1"], ["--take-safe"])
    environ = {"NAMEKEEPER_HOME": str(home), "PATH": "", "PYTHONPATH": ":".join(sys.path)}
    begin = partial(subprocess.Popen, cwd=animals.parent, env=environ, stdout=PIPE, stderr=PIPE, text=True)
    running = [begin([*_SETTLE, *order, "--json"]) for order in orders]
    told = [process.communicate() for process in running]
    assert not any("Traceback" in said for _, said in told)
    changes = [one for out, _ in told if out for one in json.loads(out)["changes"]]
    written = [one["standing"] for one in changes if one["specimen"] == "A1" and one["written"]]
    text = file(animals).read_text()
    assert text.startswith(VAGANS)
    now = yaml.safe_load(text)
    taken = [entry["name"] for entry in now["names"][1:]]
    assert taken == ["Tliltocatl vagans"] * written.count("moved"), told
    assert len(now.get("decisions", [])) == written.count("kept"), told
    assert written.count("moved") <= 1, told
    assert written.count("kept") <= 1, told
    assert written, told
