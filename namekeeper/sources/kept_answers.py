"""Answers of one service kept on this machine, and when a kept one is good enough.

``kept_files`` is how they lie on disk, loaded only where there is something to read or to keep. A cache that cannot be
read or written is left out with one notice; it is never a reason to stop.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from namekeeper.files.file_layer import remove_own
from namekeeper.sources.replies import NO_MARKS, Held, Marks

if TYPE_CHECKING:
    from namekeeper.sources.kept_files import AnswerFiles

_MAX_BYTES = 10_000_000
_ABANDONED_SECONDS = 3600


@dataclass(slots=True)
class AnswerCache:
    """``folder`` is made by the first answer that is kept. A question is the address it is put to, without a key."""

    folder: Path
    notice: Callable[[str], None]
    _writing: bool | None = field(default=None, init=False)  # None until tried
    _told: set[str] = field(default_factory=set, init=False)
    _opened: AnswerFiles | None = field(default=None, init=False)

    def get(self, question: str) -> Held | None:
        """The kept answer; a file that cannot be understood is dropped with a notice and counts as none."""
        path = self._path(question)
        try:
            if not path.is_file():
                return None
            small = path.stat().st_size <= _MAX_BYTES
            held = self._files().held(path.stem, question) if small else None
        except FileNotFoundError:  # another run has just dropped it
            return None
        except OSError as error:
            self._tell(f"kept answers in {self.folder} cannot be read ({error.strerror or 'error'}): asking again")
            return None
        if held is None:
            self.drop(question)
        return held

    def put(self, question: str, document: object, retrieved: datetime, marks: Marks = NO_MARKS) -> None:
        """Keep an answer, or say once why none can be kept in this run."""
        if self._writing is False:
            return
        try:
            files = self._files()
            if self._writing is None:
                self._sweep()
            files.keep(self._path(question).stem, question, Held(document, retrieved, marks))
            self._writing = True
        except OSError as error:
            self._writing = False
            self._tell(f"answers cannot be kept in {self.folder} ({error.strerror or 'error'}): going on without")
        except ValueError:
            self._tell(f"an answer has no shape that can be kept in {self.folder}: going on without it")

    def drop(self, question: str) -> None:
        """Forget a kept answer that proved to be no answer."""
        self._tell(f"a kept answer in {self.folder} was damaged: it is asked again")
        try:
            remove_own(self._path(question))
        except OSError:
            self._writing = False

    def size(self) -> int:
        """Bytes on disk."""
        return sum(status.st_size for status in self._states())

    def last_answer(self) -> float | None:
        """When the newest answer was kept, in seconds since 1970; None if there is none."""
        return max((status.st_mtime for status in self._states()), default=None)

    def _files(self) -> AnswerFiles:
        if self._opened is None:
            from namekeeper.sources.kept_files import AnswerFiles

            self._opened = AnswerFiles(self.folder)
        return self._opened

    def _states(self) -> Iterator[os.stat_result]:
        try:
            paths = list(self.folder.glob("*.json"))
        except OSError:
            return
        for path in paths:
            try:
                yield path.stat()
            except OSError:
                continue

    def _path(self, question: str) -> Path:
        # Our own key and not the library's, so that a look for an answer that is not there loads nothing.
        digest = hashlib.sha256(question.encode("utf-8", "surrogatepass")).hexdigest()
        return self.folder / f"{digest[:40]}.json"

    def _tell(self, text: str) -> None:
        if text not in self._told:
            self._told.add(text)
            self.notice(text)

    def _sweep(self) -> None:
        """Remove what a killed run left behind, by the folder's own times."""
        now = self.folder.stat().st_mtime
        for part in self.folder.glob("*.part"):
            if part.stat().st_mtime < now - _ABANDONED_SECONDS:
                remove_own(part)


@dataclass(frozen=True, slots=True)
class Freshness:
    """The keeper's wish: ``offline`` never asks, ``refresh`` always does, ``max_age`` replaces the service's limit."""

    offline: bool = False
    refresh: bool = False
    max_age: timedelta | None = None


@dataclass(frozen=True, slots=True)
class KeptUse:
    """``use`` the kept answer without asking; ``stale`` marks it wherever it is used; ``reasons`` for asking."""

    use: bool
    stale: bool
    reasons: tuple[str, ...]


def decide_reading(age: timedelta, expiry: timedelta, wish: Freshness) -> KeptUse:
    """Judge a kept answer of that age against the service's expiry and the keeper's wish."""
    limit = expiry if wish.max_age is None else wish.max_age
    for_asking = {
        "a fresh answer is wished": wish.refresh,
        "kept too long": age > limit,
        "kept in the future": age < timedelta(0),  # the clock was set back: its age is unknown
    }
    reasons = tuple(reason for reason, holds in for_asking.items() if holds)
    if wish.offline:
        return KeptUse(True, bool(reasons) and reasons != ("a fresh answer is wished",), reasons)
    return KeptUse(not reasons, bool(reasons), reasons)
