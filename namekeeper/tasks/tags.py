"""A keeper's tags, from wherever they come: a file, a list of words or one after another, each with its answer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, NamedTuple

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Failure
from namekeeper.files.places import at_home
from namekeeper.outside import Outside
from namekeeper.reading.tag import LONGEST_TAG
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tasks.lookup import Looked, look_up
from namekeeper.tasks.online import ServiceWishes, TagNamesOnline
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, InputError, Place
from namekeeper.words.terms import AnswerKind

if TYPE_CHECKING:
    from namekeeper.records.specimen import Settings

LONGEST = LONGEST_TAG  # characters
MOST_BYTES = 64 * 1024 * 1024


class TagAnswers(NamedTuple):
    """What tags may mean; ``too_long`` are the numbers, from 1, of those left out, ``failures`` one a service."""

    looked: tuple[Looked, ...]
    too_long: tuple[int, ...] = ()
    failures: tuple[Failure, ...] = ()

    @property
    def exit_code(self) -> int:
        """0 all found, 2 a tag was left out, 3 a name stayed unasked since a service failed, else 1 (contract 0)."""
        answers = [looked.lookup.answer for looked in self.looked]
        if self.too_long:
            return 2
        if (self.failures or any(looked.failure for looked in self.looked)) and AnswerKind.UNASKED in answers:
            return 3
        return 0 if all(answer is AnswerKind.ONE for answer in answers) else 1


class TagDesk(NamedTuple):
    """Lists at hand, services within reach, and the day on which the tags were written (None: not known)."""

    lists: Sequence[NameList]
    online: TagNamesOnline
    on: PartialDate | None = None

    @classmethod
    @contextmanager
    def open(
        cls,
        outside: Outside,
        on: PartialDate | None = None,
        *,
        offline: bool = False,
        settings: Settings | None = None,
    ) -> Iterator[TagDesk]:
        """With every list of this machine; services are opened at the first question for them. A context.

        ``settings`` of a collection choose the services, if one is at hand.
        """
        with open_lists(outside.places, outside.notice) as lists:
            yield cls(lists, TagNamesOnline(outside, ServiceWishes(offline=offline), settings), on)

    def read(self, tags: Iterable[str]) -> Iterator[Looked]:
        """One answer a tag, as it is ready; none may be longer than :data:`LONGEST`."""
        return look_up(tags, self.lists, self.on, self.online.common, self.online.scientific, guarded=True)

    def read_all(self, tags: Sequence[str]) -> TagAnswers:
        """The answers to many tags, in their order."""
        too_long = tuple(number for number, tag in enumerate(tags, 1) if len(tag) > LONGEST)
        return self.answers(self.read(tag for tag in tags if len(tag) <= LONGEST), too_long)

    def answers(self, looked: Iterable[Looked], too_long: tuple[int, ...] = ()) -> TagAnswers:
        """Answers with the services that could not be asked for them."""
        found = tuple(looked)
        return TagAnswers(found, too_long, tuple(self.online.failures.values()))


def tags_in_file(file: str, outside: Outside) -> list[str]:
    """Tags of a file the keeper named; see :func:`tags_in`.

    :raises FileError: if it cannot be read.
    :raises InputError: as :func:`tags_in`.
    """
    path = outside.folder / at_home(file)
    try:
        with path.open("rb") as stream:
            content = stream.read(MOST_BYTES + 1)
    except OSError as error:
        why = error.strerror or "it cannot be read"
        what = f"no tags from here: {why}"
        raise FileError(what, remedy="check the path, or give the tags themselves", place=Place(file)) from error
    return tags_in(content, file)


def tags_in(content: bytes | str, name: str) -> list[str]:
    """Tags of a text, one a line, blank lines skipped, order kept; ``name`` is the text's own, for messages.

    :raises InputError: if it is no text, holds no tag, or more than :data:`MOST_BYTES`.
    """
    text = _decoded(content, name) if isinstance(content, bytes) else content
    tags = [line.strip("\r\ufeff") for line in text.split("\n") if line.strip(" \t\r\ufeff")]
    if not tags:
        raise InputError("no tag in it", remedy="write one tag a line", place=Place(name))
    return tags


def _decoded(content: bytes, name: str) -> str:
    if len(content) > MOST_BYTES:
        raise InputError("more than 64 MB", remedy="split the file", place=Place(name))
    try:
        if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
            return content.decode("utf-16")
        return "\n".join(_decoded_line(line) for line in content.removeprefix(b"\xef\xbb\xbf").split(b"\n"))
    except UnicodeDecodeError:
        raise InputError("not a text file", remedy="save it as UTF-8 text, one tag a line", place=Place(name)) from None


def _decoded_line(line: bytes) -> str:
    """Line by line: one tag in the encoding of older systems must not spoil those in UTF-8."""
    try:
        return line.decode()
    except UnicodeDecodeError:
        return line.decode("cp1252")
