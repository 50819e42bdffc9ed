"""The soak itself: steps of two commands and the page at once, each followed by a look at everything that must hold."""

from __future__ import annotations

import json
import shutil
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

import requests

from namekeeper import resources
from namekeeper.files.file_layer import NEW
from namekeeper.storage.journal import JOURNAL
from tests.soak.commands import Ended, Fate, Running
from tests.soak.model import Model
from tests.soak.page import Page
from tests.soak.services import MOODS, Moody

#: Animals at most; beyond, the keeper deletes some by hand, so that memory can be compared.
MOST_ANIMALS = 45
_NAMES = ("Brachypelma vagans", "Grammostola rosea", "Avicularia versicolor", "Haplopelma lividum")
_CODES = {0, 1, 2, 3}


@dataclass
class Report:
    """What happened, and what should not have."""

    seed: int
    began: float = field(default_factory=time.monotonic)
    steps: int = 0
    counts: Counter[str] = field(default_factory=Counter)
    memory: list[tuple[float, int, int]] = field(default_factory=list)  # seconds, MB of the server, of its drawer
    found: list[str] = field(default_factory=list)

    @property
    def age(self) -> float:
        return time.monotonic() - self.began

    def lines(self) -> Iterator[str]:
        yield f"seed {self.seed}: {self.steps} steps in {self.age:.0f} s, {len(self.found)} findings"
        for name, number in sorted(self.counts.items()):
            yield f"  {number:6} {name}"
        marks = [*range(0, int(self.age) + 1, 300), int(self.age)]
        for mark in dict.fromkeys(marks):
            if near := min(self.memory, key=lambda one: abs(one[0] - mark), default=None):
                yield f"  memory at {near[0]:.0f} s: server {near[1]} MB, drawing {near[2]} MB"
        yield from self.found

    def grown(self) -> float:
        """By which part the memory of the server grew between the second fifth and the last, by their medians."""
        whole = self.age
        early = sorted(mb for age, mb, _ in self.memory if 0.2 * whole <= age < 0.4 * whole)
        late = sorted(mb for age, mb, _ in self.memory if age >= 0.8 * whole)
        return late[len(late) // 2] / early[len(early) // 2] - 1 if early and late else 0.0


@dataclass
class Soak:
    """One collection, its users, and what they were told."""

    root: Path
    environ: dict[str, str]
    random: Random
    moody: Moody
    report: Report
    folder: Path = field(init=False)
    model: Model = field(init=False)
    page: Page = field(init=False)
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
        self.page = Page(self.folder, self.environ, self.root / "server.log")

    def run(self, seconds: float) -> None:
        """Step after step for so long; what must hold at the end is looked at, too."""
        self.report.began = time.monotonic()
        while self.report.age < seconds and len(self.report.found) < 20:
            self.report.steps += 1
            with self._told():
                self._step()
        with self._told():
            self._end()

    def fresh(self) -> str:
        """A word that stands nowhere yet."""
        self.number += 1
        return f"w{self.number}x"

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
        self.moody.mood = self.random.choice(MOODS) if self.random.random() < 0.5 else "well"
        acts = self.random.choices((self._set, self._later, self._add, self._young, self._other), (5, 4, 2, 1, 5), k=2)
        fates = self.random.choices(tuple(Fate), (8, 3, 3, 2, 3), k=2)
        begun = [act(fate) for act, fate in zip(acts, fates, strict=True)]
        try:
            if self.random.random() < 0.7:
                self._visit()
        finally:
            ended = [running.wait() for running, _ in begun]
        for done, (running, judged) in zip(ended, begun, strict=True):
            self._look_at(done, running.fate)
            judged(done)
        self._after()

    def _look_at(self, ended: Ended, fate: Fate) -> None:
        self.report.counts[f"command: {ended.words[0]} {fate if ended.met else Fate.ALONE}"] += 1
        self.report.counts["exit code " + str(ended.code)] += 1
        assert "Traceback" not in ended.out + ended.err, ended.whole
        assert ended.code in _CODES or (ended.met and ended.code in (-9, 130)), ended.whole
        self.report.counts["locks of the dead passed over"] += ended.err.count("took over the lock")
        self.report.counts["changes completed for the dead"] += ended.err.count("completed an interrupted change")
        self.report.counts["changes rolled back for the dead"] += ended.err.count("rolled back an interrupted change")
        busy = "another process is writing" in ended.err
        self.report.counts["told that another process is writing"] += busy

    def _begin(self, fate: Fate, *words: str) -> Running:
        doomed, room = self.random.uniform(0.02, 0.8), self.random.choice((0, 100, 400, 1000, 4000))
        return Running.start(words, self.folder, self.environ, fate, doomed, room)

    def _set(self, fate: Fate) -> tuple[Running, Callable[[Ended], None]]:
        identifier, name, value = self._someone(), self.random.choice(("place", "caution")), self.fresh()
        self.model.asked(identifier, name, value)
        words = ("collection", "set", "animals", identifier, f"{name}={value}", "--write")

        def judged(ended: Ended) -> None:
            if ended.code == 0:
                self.model.written(identifier, name, value)
            elif "nothing was written" in ended.err or "not written" in ended.err:
                self.model.refused(identifier, name, value)

        return self._begin(fate, *words), judged

    def _later(self, fate: Fate) -> tuple[Running, Callable[[Ended], None]]:
        identifier, text = self._someone(), self.fresh()
        self.model.unsure_texts.add((identifier, text))
        order = self.random.choice(("--later", "--keep"))
        words = ("settle", "animals", order, identifier, "--note", text, "--write", "--offline", "--json")

        def judged(ended: Ended) -> None:
            with suppress(ValueError):
                if any(change["written"] for change in json.loads(ended.out)["changes"]):
                    self.model.texts[identifier].add(text)
                    self.model.acknowledged += 1

        return self._begin(fate, *words), judged

    def _add(self, fate: Fate) -> tuple[Running, Callable[[Ended], None]]:
        tag = f"soak {self.random.choice(_NAMES)} {self.fresh()}"
        return self._counted(fate, tag, 1, ("collection", "add", "animals", "--tag", tag))

    def _young(self, fate: Fate) -> tuple[Running, Callable[[Ended], None]]:
        tag = f"soak {self.fresh()}"
        return self._counted(fate, tag, 3, ("collection", "add", "animals", "--tag", tag, "--count", "3"))

    def _counted(
        self, fate: Fate, tag: str, count: int, words: tuple[str, ...]
    ) -> tuple[Running, Callable[[Ended], None]]:
        self.model.tags[tag] = {0, count}

        def judged(ended: Ended) -> None:
            if ended.code == 0:
                self.model.tags[tag] = {count}
                self.model.acknowledged += count
            elif "nothing was written" in ended.err and ended.code == 2:
                self.model.tags[tag] = {0}

        return self._begin(fate, *words), judged

    def _other(self, fate: Fate) -> tuple[Running, Callable[[Ended], None]]:
        """What changes no fact: reading, asking, labels, exports, lists."""
        self.number += 1
        long = (("pocket", "animals", "-o", "out.html", "--replace"),) if self.random.random() < 0.1 else ()
        words = self.random.choice(
            (
                *long,
                ("check", "animals"),
                ("check", "animals", "--json"),
                ("lookup", "--json", "Mex red rump B. vagans 0.1"),
                ("history", "animals"),
                ("collection", "stock", "animals"),
                ("collection", "export", "animals", "-o", "out.json", "--replace", "--json"),
                ("collection", "export", "animals", "-o", "out.zip", "--as", "dwca", "--replace"),
                ("labels", "animals", "-o", "out.pdf", "--replace", "--printed"),
                ("lists", "add", "names.csv", "--as", f"l{self.number % 3}", "--edition", str(self.number)),
                ("lists", "remove", f"l{self.number % 3}", "--yes"),
                ("settle", "animals", "--take-safe", "--write", "--offline"),
                ("services",),
            )
        )

        def judged(ended: Ended) -> None:
            if "--json" in words and ended.code in (0, 1):
                json.loads(ended.out)
            if words[0] == "labels" and ended.code in (0, 1):
                assert (self.root / "out.pdf").read_bytes().rstrip().endswith(b"%%EOF"), ended.whole

        return self._begin(fate, *words), judged

    def _someone(self) -> str:
        return self.random.choice([one for one in self.model.ids() if one.startswith("HW")])

    def _visit(self) -> None:
        from tests.soak.visits import visit

        visit(self)

    def _after(self) -> None:
        """With nobody at work: what was acknowledged is there; now and then all of it, and the keeper's own hand."""
        self._recovered()
        self.model.check()
        self.report.memory.append((self.report.age, *self.page.memory()))
        log = (self.root / "server.log").read_text(encoding="utf-8", errors="replace")
        assert "Traceback" not in log, self._cleared(log)
        if self.report.steps % 3 == 0:
            from tests.soak.visits import edit_by_hand

            edit_by_hand(self)
        if self.report.steps % 8 == 0:
            self._verified()

    def _cleared(self, log: str) -> str:
        (self.root / "server.log").write_text("", encoding="utf-8")
        return log[-4000:]

    def _recovered(self) -> None:
        """Whatever was left half done is completed or rolled back by the next command that opens the collection."""
        if self._left_over():
            ended = self._begin(Fate.ALONE, "history", "animals").wait()
            self._look_at(ended, Fate.ALONE)
            assert not self._left_over(), f"{self._left_over()} {ended.whole}"

    def _left_over(self) -> list[str]:
        return [path.name for path in self.folder.rglob(".*") if path.name.endswith(NEW) or path.name == JOURNAL]

    def _verified(self) -> None:
        ended = self._begin(Fate.ALONE, "collection", "verify", "animals", "--json").wait()
        self._look_at(ended, Fate.ALONE)
        problems = json.loads(ended.out)["problems"]
        strange = [one for one in problems if Path(one["file"] or "").stem not in self.model.broken]
        assert not strange, f"verify finds {strange}"
        assert len({Path(one["file"]).stem for one in problems}) == len(self.model.broken), ended.whole
        self.report.counts["whole collection verified"] += 1

    def _end(self) -> None:
        from tests.soak.visits import mend

        mend(self)
        self._recovered()
        self.model.check()
        self._verified()
        ended = self._begin(Fate.ALONE, "lists", "add", "names.csv", "--as", "last", "--edition", "1").wait()
        assert ended.code == 0, ended.whole
        parts = [str(path) for path in (self.root / "home").rglob("*.part")]
        recent = [one for one in parts if "/services/" not in one]
        assert not recent, f"parts are left: {recent}"
        code = self.page.end()
        log = (self.root / "server.log").read_text(encoding="utf-8", errors="replace")
        assert code == 0, log[-2000:]
        assert "Traceback" not in log, log[-4000:]
        self.report.counts["texts acknowledged as written"] = self.model.acknowledged
