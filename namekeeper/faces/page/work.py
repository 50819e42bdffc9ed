"""Long tasks beside the page: each in a thread of its own, with its progress, and stopped at its next step."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from namekeeper.faces.telling.remarks import remark_line, stopped_line
from namekeeper.outside import Outside, Progress, Remark, StoppedError, Work
from namekeeper.words.errors import NamekeeperError, file_error

#: Jobs that have ended and are told of when their page comes, which may never be: results are kept of so many.
_MOST_ENDED = 10
#: What a job does with the world it is given; what it returns is its result.
Act = Callable[[Outside], object]


@dataclass(slots=True)
class LongJob:
    """One long task: how far it is, and what came of it."""

    key: str
    title: str
    done: int = 0
    total: int | None = None
    note: str = ""
    said: tuple[str, ...] = ()
    result: object = None
    fault: NamekeeperError | None = None
    stopped: str = ""  # what is told of a job that was stopped
    _stop: threading.Event = field(default_factory=threading.Event)
    _ended: threading.Event = field(default_factory=threading.Event)

    @property
    def running(self) -> bool:
        return not self._ended.is_set()

    @property
    def stopping(self) -> bool:
        return self._stop.is_set() and self.running

    def stop(self) -> None:
        """Ask the job to end at its next step."""
        self._stop.set()

    def wait(self, seconds: float | None) -> bool:
        """Whether the job has ended within this time; None waits for its end."""
        return self._ended.wait(seconds)

    def outside(self, outside: Outside) -> Outside:
        """The world of this job: its progress and what it says come here."""
        return outside._replace(shown=self._shown, notice=self._say, stop_requested=self._stop.is_set)

    def run(self, act: Act, outside: Outside) -> None:
        try:
            self.result = act(self.outside(outside))
        except StoppedError as stop:
            self.stopped = stopped_line(stop)
        except NamekeeperError as fault:
            self.fault = fault
        except OSError as fault:
            self.fault = file_error(fault)
        finally:
            self._ended.set()

    @contextmanager
    def _shown(self, work: Work) -> Iterator[Progress]:
        def step(done: int, total: int | None, note: str = "") -> None:
            self.done, self.total, self.note = done, total, f"{work} {note}".strip()

        step(0, None)
        yield step

    def _say(self, said: str | Remark) -> None:
        self.said = (*self.said, remark_line(said))


@dataclass(slots=True)
class Works:
    """The jobs of this server, one of a kind at a time; the last of each kind stays to be told of, of the newest kinds.

    Whoever asks for one that was dropped begins it again, or is told that it is not known.
    """

    outside: Outside
    _jobs: dict[str, LongJob] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def start(self, key: str, title: str, act: Act) -> LongJob:
        """Begin a job, or find the one of that kind that is running."""
        with self._lock:
            found = self._jobs.get(key)
            if found is not None and found.running:
                return found
            self._jobs.pop(key, None)
            ended = [one.key for one in self._jobs.values() if not one.running]
            for old in ended[:-_MOST_ENDED]:
                del self._jobs[old]
            job = self._jobs[key] = LongJob(key, title)
        threading.Thread(target=job.run, args=(act, self.outside), name=f"job-{key}", daemon=True).start()
        return job

    def find(self, key: str) -> LongJob | None:
        return self._jobs.get(key)

    def running(self) -> tuple[LongJob, ...]:
        return tuple(job for job in tuple(self._jobs.values()) if job.running)

    def take(self, key: str) -> LongJob | None:
        """The last job of that kind if it has ended; it is told of once."""
        with self._lock:
            job = self._jobs.get(key)
            return self._jobs.pop(key) if job is not None and not job.running else None

    def stop_all(self, seconds: float) -> None:
        """Stop everything, waiting this long for each to end."""
        for job in self.running():
            job.stop()
            job.wait(seconds)
