"""The soak itself: steps of two commands and the page at once, each followed by a look at everything that must hold."""

from __future__ import annotations

import json
import shutil
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

import requests

from namekeeper import resources
from namekeeper.files.file_layer import NEW
from namekeeper.storage.journal import JOURNAL
from tests.services.local_server import LocalServer
from tests.soak.acts import ACTS, AIMED, BUSY, FATES, WRITING, Begun, How, add, begin, reading
from tests.soak.asking import Asker
from tests.soak.commands import Ended, Fate
from tests.soak.decks import Deck
from tests.soak.doomed import Doom
from tests.soak.model import Model
from tests.soak.page import Page
from tests.soak.report import LONG, Report
from tests.soak.services import CHANGING, MOODS, Moody, addresses
from tests.soak.visits import BY_HAND, VIEWS, VISITS, edit_by_hand, facts_at_once, look_at_everything, mend, visit

#: Animals at most; beyond, the keeper deletes some by hand, so that memory can be compared.
MOST_ANIMALS = 45
_CODES = {0, 1, 2, 3}
#: Seconds for which one writer stands still: shorter than others wait, and longer; for one who waits for all of it.
_SHORT_HOLD, _LONG_HOLD, _WAITING = 4.0, 14.0, 60.0
_KINDS = (*("any",) * 12, *("one waits",) * 3, "one gives up")
#: Requests of the same kinds after which memory is compared, and MB by which it may differ.
_WARM, _FEW, _MANY, _MOST_MORE = 400, 100, 600, 4


@dataclass
class Soak:
    """One collection, its users, and what they were told."""

    root: Path
    server: LocalServer
    environ: dict[str, str]
    random: Random
    moody: Moody
    report: Report
    folder: Path = field(init=False)
    model: Model = field(init=False)
    page: Page = field(init=False)
    most_animals: int = MOST_ANIMALS
    number: int = 0

    def __post_init__(self) -> None:
        self.folder = self.root / "animals"
        (self.folder / "specimens").mkdir(parents=True)
        shutil.copy(resources.sample_collection() / "collection.yaml", self.folder)
        for path in sorted((resources.sample_collection() / "specimens").glob("*.yaml"))[:14]:
            shutil.copy(path, self.folder / "specimens")
        (self.root / "names.csv").write_text("name\nTliltocatl vagans\nGrammostola rosea\n", encoding="utf-8")
        self.model = Model(self.folder)
        self.model.begin()
        self.moods, self.kinds = Deck(MOODS, self.random), Deck(_KINDS, self.random)
        self.acts, self.fates = Deck(ACTS, self.random), Deck(FATES, self.random)
        self.visits, self.by_hand = Deck(VISITS, self.random), Deck(BY_HAND, self.random)
        self.asker = Asker(self.root, self.environ, self.server, self.random)
        self.environ |= addresses(self.server, CHANGING)
        self.page = Page(self.folder, self.environ, self.root / "server.log")

    def run(self, seconds: float) -> None:
        """Step after step for so long; what must hold at the end is looked at, too."""
        # Before memory is compared, libraries are there that are loaded at need, and what the system keeps a thread.
        look_at_everything(self.page, _WARM if seconds >= LONG else len(VIEWS))
        self.report.began = time.monotonic()
        while self.report.age < seconds and len(self.report.found) < 20:
            self.report.steps += 1
            with self._told():
                self._step()
        with self._told():
            self._ask(last=True)
        if seconds >= LONG:
            with self._told():
                self._level()
        with self._told():
            self._end()

    def fresh(self) -> str:
        """A word that stands nowhere yet."""
        self.number += 1
        return f"w{self.number}x"

    def someone(self) -> str:
        return self.random.choice([one for one in self.model.ids() if one.startswith("HW")])

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except (AssertionError, requests.RequestException, OSError, ValueError) as error:
            log = (self.root / "server.log").read_text(encoding="utf-8", errors="replace")
            self.report.found.append(f"step {self.report.steps}: {type(error).__name__}: {error}\n{log[-3000:]}")
            print(self.report.found[-1], file=sys.stderr, flush=True)  # at once: the report is half an hour away
            with suppress(Exception):  # from here on the files are the truth again
                self.model.begin()

    def _step(self) -> None:
        self.moody.mood = self.moods.draw() if self.random.random() < 0.5 else "well"
        self._ask()
        match self.kinds.draw():
            case "one waits":
                self._beside_a_writer(_SHORT_HOLD)
            case "one gives up":
                self._beside_a_writer(_LONG_HOLD)
            case _:
                self._at_once()
        self._after()

    def _at_once(self) -> None:
        """Two commands and the page."""
        begun = []
        for _ in range(2):
            fate, act = self.fates.draw(), self.acts.draw()
            act = self.random.choice(WRITING) if fate in AIMED else act
            begun.append(act(self, How(fate)))
        with self._ended(begun):
            if self.random.random() < 0.8:
                visit(self)

    def _beside_a_writer(self, seconds: float) -> None:
        """One writer stands still with the lock in its hand; another, one who reads, and the page come meanwhile."""
        how = How(Fate.ALONE, Doom(seconds=seconds), _WAITING)
        begun = [add(self, how)]
        with self._ended(begun):
            assert begun[0].running.holds(), "a new animal was added without a journal"
            goes_on = time.monotonic() + seconds
            begun += [act(self, How(Fate.ALONE, patience=_WAITING)) for act in (self.random.choice(WRITING), reading)]
            sent = facts_at_once(self)
            self.report.counts["pages: waited for a writer and wrote"] += sent is not None and sent < goes_on - 0.5

    @contextmanager
    def _ended(self, begun: list[Begun]) -> Iterator[None]:
        """Within, they are at work; afterwards each has ended and is looked at."""
        try:
            yield
        finally:
            ended = [one.running.wait() for one in begun]
        for done, (running, judged) in zip(ended, begun, strict=True):
            self._look_at(done, running.fate)
            judged(done)

    def _ask(self, *, last: bool = False) -> None:
        """Judge the check beside everything else, if it has ended, and begin another."""
        asker = self.asker
        if asker.running is not None and (last or asker.running.over):
            ended, asker.running = asker.running.wait(), None
            self._look_at(ended, Fate.ALONE)
            self.report.counts[asker.judged(ended)] += 1
        if asker.running is None and not last:
            asker.begin()

    def _look_at(self, ended: Ended, fate: Fate) -> None:
        counts, words = self.report.counts, ended.words
        met = fate if ended.met else Fate.ALONE
        counts[f"command: {words[0]}"] += 1
        counts[f"fate of a command: {met}"] += 1
        counts["exit code " + str(ended.code)] += 1
        assert "Traceback" not in ended.out + ended.err, ended.whole
        assert ended.code in _CODES or (ended.met and ended.code in (-9, 130)), ended.whole
        counts["locks of the dead passed over"] += ended.err.count("took over the lock")
        counts["changes completed for the dead"] += ended.err.count("completed an interrupted change")
        counts["changes rolled back for the dead"] += ended.err.count("rolled back an interrupted change")
        writes = "--write" in words or words[:2] == ("collection", "add")
        counts["writers that waited for the other and wrote"] += ended.waited and writes and ended.code in (0, 1)
        counts["writers that gave up waiting and said so"] += writes and ended.code == 2 and BUSY in ended.err
        counts["readers told of a writer at work"] += "what it has not written yet is not in here" in ended.err
        counts["disk full: nothing written, and said so"] += met is Fate.FULL and ended.code == 2

    def _after(self) -> None:
        """With nobody at work: what was acknowledged is there; now and then all of it, and the keeper's own hand."""
        self._recovered()
        self.model.check()
        self.report.memory.append((self.report.age, *self.page.memory()))
        log = (self.root / "server.log").read_text(encoding="utf-8", errors="replace")
        assert "Traceback" not in log, self._cleared(log)
        if self.report.steps % 3 == 0:
            edit_by_hand(self)
        if self.report.steps % 8 == 0:
            self._verified()

    def _cleared(self, log: str) -> str:
        (self.root / "server.log").write_text("", encoding="utf-8")
        return log[-4000:]

    def _recovered(self) -> None:
        """Whatever was left half done is completed or rolled back by the next command that opens the collection."""
        if self._left_over():
            ended = begin(self, How(Fate.ALONE, patience=_WAITING), "history", "animals").wait()
            self._look_at(ended, Fate.ALONE)
            assert not self._left_over(), f"{self._left_over()} {ended.whole}"

    def _left_over(self) -> list[str]:
        return [path.name for path in self.folder.rglob(".*") if path.name.endswith(NEW) or path.name == JOURNAL]

    def _verified(self) -> None:
        words = ("collection", "verify", "animals", "--json")
        ended = begin(self, How(Fate.ALONE, patience=_WAITING), *words).wait()
        self._look_at(ended, Fate.ALONE)
        problems = json.loads(ended.out)["problems"]
        strange = [one for one in problems if Path(one["file"] or "").stem not in self.model.broken]
        assert not strange, f"verify finds {strange}"
        assert len({Path(one["file"]).stem for one in problems}) == len(self.model.broken), ended.whole
        self.report.counts["whole collection verified"] += 1

    def _level(self) -> None:
        """Memory after many more requests of the same kinds is what it was after a few: nothing is kept of each."""
        self.moody.mood = "well"
        taken = []
        for more in (_FEW, _MANY - _FEW):
            look_at_everything(self.page, more)
            taken.append(self.page.memory()[0])
        self.report.levelled = f"{_FEW} more requests {taken[0]} MB, after {_MANY} {taken[1]} MB"
        assert taken[1] - taken[0] <= _MOST_MORE, f"memory of the server after {self.report.levelled}"

    def _end(self) -> None:
        mend(self)
        self._recovered()
        self.model.check()
        self._verified()
        words = ("lists", "add", "names.csv", "--as", "last", "--edition", "1")
        ended = begin(self, How(Fate.ALONE, patience=_WAITING), *words).wait()
        assert ended.code == 0, ended.whole
        parts = [str(path) for path in (self.root / "home").rglob("*.part")]
        recent = [one for one in parts if "/services/" not in one]
        assert not recent, f"parts are left: {recent}"
        code = self.page.end()
        log = (self.root / "server.log").read_text(encoding="utf-8", errors="replace")
        assert code == 0, log[-2000:]
        assert "Traceback" not in log, log[-4000:]
        self.report.counts["texts acknowledged as written"] = self.model.acknowledged
