"""The state of one running page: the collection in view, jobs, and what was said last."""

from __future__ import annotations

import hashlib
import re
import secrets
import threading
from collections import OrderedDict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from flask import current_app, has_request_context, request, session

from namekeeper.faces.page.sheet_process import SheetMaker
from namekeeper.faces.page.sheets import PrintedSheets
from namekeeper.faces.page.work import Act, LongJob, Works
from namekeeper.outside import Outside
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.shelf import remember_collection
from namekeeper.tasks.watch import CollectionView, CollectionWatch, Seen
from namekeeper.words.errors import InputError

#: What is kept for a page that may never be fetched, the newest of each kind.
_MOST_NOTICES, _MOST_RUNS, _MOST_UPLOADS = 50, 5, 10


class Notice(NamedTuple):
    """What was just done: told once, on the next page, with what takes it back."""

    text: str
    undo: tuple[Seen, ...] = ()
    troubles: tuple[str, ...] = ()
    good: bool = True
    prints: bool = False  # whether it is prints that are taken back


class NothingOpenError(Exception):
    """No collection is open: the page offers some."""


class StillWorkingError(Exception):
    """What is needed goes on, or was stopped; ``job`` tells how far it is."""

    def __init__(self, job: LongJob) -> None:
        super().__init__(job.title)
        self.job = job


@dataclass(slots=True)
class Keeping:
    """What the server knows between two requests; nothing of it outlives the server.

    ``patience`` is how long, in seconds, a page waits for what it shows before it tells how far that is.
    """

    outside: Outside
    works: Works
    watch: CollectionWatch | None = None
    patience: float = 0.8
    sheets: SheetMaker = field(default_factory=SheetMaker)
    _uploads: TemporaryDirectory[str] | None = None
    _runs: OrderedDict[str, PrintedSheets] = field(default_factory=OrderedDict)
    _notices: OrderedDict[str, Notice] = field(default_factory=OrderedDict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    @classmethod
    def of(cls, outside: Outside) -> Keeping:
        return cls(outside, Works(outside))

    def open(self, folder: Path) -> None:
        """Take this collection into view.

        :raises FileError: if there is no such folder.
        """
        desk = CollectionDesk.at(folder, self.outside)
        desk.open()
        self.watch = CollectionWatch(desk)
        remember_collection(desk.folder, self.outside)

    def close(self) -> None:
        self.watch = None

    @property
    def key(self) -> str:
        """Tells the collection that is open from others; empty if none is."""
        return hashlib.sha256(str(self.watch.desk.folder).encode()).hexdigest()[:12] if self.watch else ""

    @property
    def folder_name(self) -> str:
        """Of the collection that is open; empty if none is."""
        return self.watch.desk.folder.name if self.watch else ""

    def last_view(self) -> CollectionView | None:
        """The collection as it was last looked at, for what every page says of it."""
        return self.watch.last if self.watch else None

    def end(self, seconds: float) -> None:
        """Stop all that goes on, waiting this long for each job."""
        self.works.stop_all(seconds)
        self.sheets.close()
        if self._uploads is not None:
            self._uploads.cleanup()

    def in_view(self) -> CollectionWatch:
        """The collection that is open.

        :raises NothingOpenError: if none is.
        """
        if self.watch is None:
            raise NothingOpenError
        return self.watch

    def view(self) -> CollectionView:
        """The collection as it is now.

        :raises NothingOpenError: if none is open.
        :raises StillWorkingError: if that takes a while.
        :raises NamekeeperError: if it cannot be read.
        """
        watch = self.in_view()
        if not watch.is_fresh():
            ended = self.works.find("names")
            if ended is not None and not ended.running and not ended.stopped:
                self.works.take("names")  # what it looked at has changed since
            self.once_done("names", "Comparing names", watch.view)
        return watch.view()

    def once_done(self, key: str, title: str, act: Act) -> object:
        """What came of a long task, which goes on when the page is left; ``key`` tells it from any other.

        :raises StillWorkingError: as :meth:`came_of`.
        :raises NamekeeperError: if it failed.
        """
        return self.came_of(self.works.find(key) or self.works.start(key, title, act))

    def came_of(self, job: LongJob) -> object:
        """What came of a job.

        :raises StillWorkingError: if it takes a while and a page can tell how far it is, or if it was stopped.
        :raises NamekeeperError: if it failed.
        """
        # Only a page can tell how far it is; a change that was sent, or a picture, waits.
        if not job.wait(self.patience if _shows_a_page() else None):
            raise StillWorkingError(job)
        self.works.take(job.key)
        if job.stopped:
            raise StillWorkingError(job)
        if job.fault is not None:
            raise job.fault
        return job.result

    def keep_run(self, key: str, made: PrintedSheets) -> None:
        """Keep a run of labels until the keeper says what came of it; only the newest few are kept."""
        with self._lock:
            self._runs[key] = made
            while len(self._runs) > _MOST_RUNS:
                self._runs.popitem(last=False)

    def find_run(self, key: str) -> PrintedSheets | None:
        return self._runs.get(key)

    def drop_run(self, key: str) -> None:
        self._runs.pop(key, None)

    def keep_upload(self, save: Callable[[Path], None]) -> str:
        """Let a file that was sent be saved under a name of ours; returns what it is found by. Old ones go."""
        if self._uploads is None:
            self._uploads = TemporaryDirectory(prefix="namekeeper-")
        key, folder = secrets.token_hex(8), Path(self._uploads.name)
        for old in sorted(folder.iterdir(), key=lambda path: path.stat().st_mtime_ns)[: -_MOST_UPLOADS + 1]:
            old.unlink(missing_ok=True)
        save(folder / key)
        return key

    def find_upload(self, key: str) -> Path:
        """The file of that key.

        :raises InputError: if there is none.
        """
        found = Path(self._uploads.name) / key if self._uploads and re.fullmatch("[0-9a-f]{16}", key) else None
        if found is None or not found.is_file():
            raise InputError("that file is not here any more", remedy="send it again")
        return found

    def drop_upload(self, key: str) -> None:
        self.find_upload(key).unlink()

    def say(self, notice: Notice) -> None:
        """Tell this on the next page that the keeper sees."""
        key = secrets.token_urlsafe(8)
        with self._lock:
            self._notices[key] = notice
            while len(self._notices) > _MOST_NOTICES:
                self._notices.popitem(last=False)
        session["said"] = [*session.get("said", [])[-3:], key]

    def said(self) -> tuple[Notice, ...]:
        """What has to be told now."""
        keys: Iterable[str] = session.pop("said", [])
        with self._lock:
            return tuple(notice for key in keys if (notice := self._notices.pop(key, None)))


def keeping() -> Keeping:
    """That of the app which answers the present request."""
    found: Keeping = current_app.extensions["namekeeper"]
    return found


def _shows_a_page() -> bool:
    return (
        has_request_context()
        and request.method == "GET"
        and request.headers.get("Sec-Fetch-Dest", "document") == "document"
    )
