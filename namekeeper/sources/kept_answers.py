"""Answers of one service kept on this machine, and when a kept one is good enough: one small JSON file a question.

No database and no locks, so nothing here can wait for another process: a file is written beside its place and moved
there in one step. No pickle: a file from elsewhere can at worst be wrong data, which is thrown away. A cache that
cannot be read or written is left out with one notice; it is never a reason to stop.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

from namekeeper.files.file_layer import write_own
from namekeeper.files.lenient_json import json_of, mapping_in

_MAX_BYTES = 10_000_000
_VERSION = 1
_ABANDONED_SECONDS = 3600


@dataclass(frozen=True, slots=True)
class Held:
    """A kept answer and when it came from the service (aware, UTC)."""

    document: object
    retrieved: datetime


@dataclass(slots=True)
class AnswerCache:
    """``folder`` is made by the first answer that is kept."""

    folder: Path
    notice: Callable[[str], None]
    _writing: bool | None = field(default=None, init=False)  # None until tried
    _told: set[str] = field(default_factory=set, init=False)

    def get(self, question: str) -> Held | None:
        """The kept answer; a file that cannot be understood is dropped with a notice and counts as none."""
        path = self._path(question)
        try:
            if not path.is_file():
                return None
            held = _read(path, question)
        except OSError as error:
            self._tell(f"kept answers in {self.folder} cannot be read ({error.strerror or 'error'}): asking again")
            return None
        if held is None:
            self.drop(question)
        return held

    def put(self, question: str, document: object, retrieved: datetime) -> None:
        """Keep an answer, or say once why none can be kept in this run."""
        if self._writing is False:
            return
        path = self._path(question)
        whole = {"version": _VERSION, "question": question, "retrieved": retrieved.isoformat(), "document": document}
        try:
            if self._writing is None:
                self.folder.mkdir(parents=True, exist_ok=True)
                self._sweep()
            write_own(path, json.dumps(whole).encode(), lasting=False)
            self._writing = True
        except OSError as error:
            self._writing = False
            self._tell(f"answers cannot be kept in {self.folder} ({error.strerror or 'error'}): going on without")

    def drop(self, question: str) -> None:
        """Forget a kept answer that proved to be no answer."""
        self._tell(f"a kept answer in {self.folder} was damaged: it is asked again")
        try:
            self._path(question).unlink(missing_ok=True)
        except OSError:
            self._writing = False

    def size(self) -> int:
        """Bytes on disk."""
        return sum(status.st_size for status in self._files())

    def last_answer(self) -> float | None:
        """When the newest answer was kept, in seconds since 1970; None if there is none."""
        return max((status.st_mtime for status in self._files()), default=None)

    def _files(self) -> Iterator[os.stat_result]:
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
                part.unlink(missing_ok=True)


def _read(path: Path, question: str) -> Held | None:
    if path.stat().st_size > _MAX_BYTES:
        return None
    try:
        whole = mapping_in(json_of(path.read_bytes()))
        retrieved = datetime.fromisoformat(whole["retrieved"])
        good = whole["version"] == _VERSION and whole["question"] == question and retrieved.tzinfo is not None
        return Held(whole["document"], retrieved) if good else None
    except (ValueError, KeyError, TypeError):
        return None


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


def decide_reading(age: timedelta | None, expiry: timedelta, wish: Freshness) -> KeptUse:
    """Judge a kept answer of that age (None: there is none) against the service's expiry and the keeper's wish."""
    limit = expiry if wish.max_age is None else wish.max_age
    for_asking = {
        "nothing kept": age is None,
        "a fresh answer is wished": wish.refresh,
        "kept too long": age is not None and age > limit,
        "kept in the future": age is not None and age < timedelta(0),  # the clock was set back: its age is unknown
    }
    reasons = tuple(reason for reason, holds in for_asking.items() if holds)
    if age is None:
        return KeptUse(False, False, reasons)
    out_of_date = bool(reasons) and reasons != ("a fresh answer is wished",)
    if wish.offline:
        return KeptUse(True, out_of_date, reasons)
    return KeptUse(not reasons, bool(reasons), reasons)
