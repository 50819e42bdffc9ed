"""The state of one running page: the collection in view, jobs, and what was said last."""

from __future__ import annotations

import hashlib
import secrets
import threading
from collections import OrderedDict
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from flask import current_app, session

from namekeeper.faces.page.work import Job, Works
from namekeeper.outside import Outside
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.watch import CollectionWatch, Seen, View

_MOST_NOTICES = 50


class Notice(NamedTuple):
    """What was just done: told once, on the next page, with what takes it back."""

    text: str
    undo: tuple[Seen, ...] = ()
    troubles: tuple[str, ...] = ()
    good: bool = True


class NothingOpenError(Exception):
    """No collection is open: the page offers some."""


class StillComparingError(Exception):
    """The check goes on; ``job`` tells how far it is."""

    def __init__(self, job: Job) -> None:
        super().__init__(job.title)
        self.job = job


@dataclass(slots=True)
class Keeping:
    """What the server knows between two requests; nothing of it outlives the server.

    ``patience`` is how long, in seconds, a page waits for a check before it shows how far that is.
    """

    outside: Outside
    works: Works
    watch: CollectionWatch | None = None
    patience: float = 0.4
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

    def last_view(self) -> View | None:
        """The collection as it was last looked at, for what every page says of it."""
        return self.watch.last if self.watch else None

    def in_view(self) -> CollectionWatch:
        """The collection that is open.

        :raises NothingOpenError: if none is.
        """
        if self.watch is None:
            raise NothingOpenError
        return self.watch

    def view(self) -> View:
        """The collection as it is now.

        :raises NothingOpenError: if none is open.
        :raises StillComparingError: if that takes a while.
        :raises NamekeeperError: if it cannot be read.
        """
        watch = self.in_view()
        if not watch.is_fresh():
            job = self.works.start("names", "Comparing names", watch.view)
            if not job.wait(self.patience):
                raise StillComparingError(job)
            if job.fault is not None:
                raise job.fault
        return watch.view()

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
