"""Change many files as one: after a kill at any instant the change is completed or rolled back, never half.

Order of steps; the medium has each before the next begins:
1. every new content in a file beside its target (``.<name>.namekeeper-new``);
2. the journal, under its final name. From here on the change counts as made;
3. each new file takes the name of its target;
4. the journal is removed.
A kill before 2 leaves files to remove (rolled back), one after 2 a journal to follow (completed).
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from namekeeper.files.file_layer import NEW, FileLayer
from namekeeper.files.lenient_json import json_of, mapping_in
from namekeeper.files.reading import UnfitFileError
from namekeeper.words.errors import FileError, Place

JOURNAL = ".namekeeper-journal"
DIGESTS = ".namekeeper-digests"
SPECIMENS = "specimens"
_TARGET = re.compile(r"specimens/[A-Za-z0-9._-]{1,40}\.yaml|collection\.yaml|\.namekeeper-digests")


@dataclass(frozen=True, slots=True)
class JournalStep:
    """One file of a change: its target below the collection, digests of the content before (None: no file), after."""

    target: str
    before: str | None
    after: str

    @property
    def staged(self) -> str:
        folder, _, name = self.target.rpartition("/")
        return f"{folder}/.{name}{NEW}" if folder else f".{name}{NEW}"


@dataclass(frozen=True, slots=True)
class Content:
    """What a target held when the change was worked out (None: nothing), and what it shall hold."""

    before: bytes | None
    after: bytes


def content_digest(content: bytes) -> str:
    """SHA-256 in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


def nothing_told(_done: int, _total: int) -> None:
    """Progress that nobody watches."""


def commit(
    files: FileLayer,
    root: Path,
    contents: Mapping[str, Content],
    step: Callable[[int, int], None] = nothing_told,
) -> bool:
    """Write all contents, keyed by target (``specimens/X.yaml`` ...), or none; ``step`` is told files done and all.

    :returns: whether the file system promises that the change lasts (:meth:`FileLayer.sync_folder`).
    :raises FileError: with nothing changed if a file cannot be prepared; if the medium fails later, what is missing is
        done by the next :func:`recover`, and the message says so.
    """
    steps = [
        JournalStep(
            target, None if content.before is None else content_digest(content.before), content_digest(content.after)
        )
        for target, content in contents.items()
    ]
    try:
        _stage(files, root, steps, contents, step)
    except KeyboardInterrupt:  # between two files: the change does not yet count as made
        _unstage(files, root, steps)
        raise
    except OSError as error:
        _unstage(files, root, steps)
        what = f"nothing was written: {error.strerror or error}"
        remedy = "free some space or make the folder writable, then try again"
        raise FileError(what, remedy=remedy, place=Place(str(error.filename or root))) from None
    try:
        return _finish(files, root, steps)
    except OSError as error:
        what = f"the change is prepared but not all files could be replaced: {error.strerror or error}"
        remedy = "make the folder writable; the next command completes the change"
        raise FileError(what, remedy=remedy, place=Place(str(error.filename or root))) from None


def pending(files: FileLayer, root: Path) -> bool:
    """Whether an earlier change was cut off after it counted as made."""
    return JOURNAL in files.names(root)


def recover(files: FileLayer, root: Path) -> tuple[str, ...]:
    """Complete or roll back what an earlier process left half done; says what was done.

    :raises FileError: if the journal cannot be read or followed now.
    """
    try:
        if not pending(files, root):
            return _sweep(files, root)
        states = {step: _state(files, root, step) for step in _read_journal(files, root)}
        undecided = [step for step, state in states.items() if state in ("edited", "lost")]
        ready = [step for step, state in states.items() if state == "ready"]
        if undecided:  # the digests would speak of entries that are not there
            ready = [step for step in ready if step.target != DIGESTS]
        _drop(files, root, [step for step in states if step not in ready])
        _finish(files, root, ready)
    except OSError as error:
        what = f"an interrupted change cannot be completed: {error.strerror or error}"
        raise FileError(what, remedy="make the folder writable", place=Place(str(root))) from None
    return _told(states, undecided)


def _stage(
    files: FileLayer,
    root: Path,
    steps: list[JournalStep],
    contents: Mapping[str, Content],
    told: Callable[[int, int], None],
) -> None:
    for number, step in enumerate(steps, 1):
        target = root / step.target
        if not files.may_write(target):
            raise PermissionError(13, "the file is read-only", str(target))
        staged = root / step.staged
        files.make_folder(staged.parent)
        files.write(staged, contents[step.target].after, like=target)
        files.sync(staged)
        told(number, len(steps))
    for folder in sorted({(root / step.staged).parent for step in steps}):
        files.sync_folder(folder)
    record = [{"target": step.target, "before": step.before, "after": step.after} for step in steps]
    text = json.dumps({"version": 1, "files": record}, indent=1)
    draft = root / (JOURNAL + NEW)
    files.write(draft, text.encode("utf-8"))
    files.sync(draft)
    files.replace(draft, root / JOURNAL)
    files.sync_folder(root)


def _unstage(files: FileLayer, root: Path, steps: list[JournalStep]) -> None:
    """After a failure before the change counted as made; leaves all to :func:`recover` if the journal cannot go."""
    with suppress(OSError):
        # The journal first: while it is there the staged files must be.
        files.remove(root / JOURNAL)
        files.remove(root / (JOURNAL + NEW))
        _drop(files, root, steps)


def _drop(files: FileLayer, root: Path, steps: list[JournalStep]) -> None:
    for step in steps:
        files.remove(root / step.staged)


def _finish(files: FileLayer, root: Path, steps: list[JournalStep]) -> bool:
    for step in steps:
        staged = root / step.staged
        if files.read(staged) is not None:
            files.replace(staged, root / step.target)
    lasting = [files.sync_folder(folder) for folder in sorted({(root / step.target).parent for step in steps})]
    files.remove(root / JOURNAL)
    return files.sync_folder(root) and all(lasting)


def _sweep(files: FileLayer, root: Path) -> tuple[str, ...]:
    """Remove what a change left that never counted as made."""
    left = [folder / name for folder in (root, root / SPECIMENS) for name in files.names(folder) if name.endswith(NEW)]
    for path in left:
        files.remove(path)
    return ("rolled back an interrupted change: nothing of it was written",) if left else ()


def _read_journal(files: FileLayer, root: Path) -> list[JournalStep]:
    try:
        record = mapping_in(json_of(files.read(root / JOURNAL) or b""))
        steps = [JournalStep(str(row["target"]), row["before"], str(row["after"])) for row in record["files"]]
    except (ValueError, KeyError, TypeError):
        steps = []
    if not steps or not all(_TARGET.fullmatch(step.target) for step in steps):
        what = "the journal of an interrupted change cannot be read"
        remedy = (
            f"compare each file that ends in {NEW} with the one of the same name without it, keep under that name what"
            f" is right, then delete this file and those ending in {NEW}"
        )
        raise FileError(what, remedy=remedy, place=Place(str(root / JOURNAL)))
    return steps


def _state(files: FileLayer, root: Path, step: JournalStep) -> str:
    """``done``, ``ready`` to be renamed, ``edited`` by the keeper in between, or ``lost`` (the new content is gone)."""
    staged, now = _digest_at(files, root / step.staged), _digest_at(files, root / step.target)
    if now == step.after:
        return "done"
    if staged != step.after:
        return "lost" if now == step.before else "done"
    return "ready" if now == step.before else "edited"


def _digest_at(files: FileLayer, path: Path) -> str | None:
    """Digest of what stands there, None if nothing does; that of a pipe or of a file without end is nobody's."""
    try:
        content = files.read(path)
    except UnfitFileError:
        return ""
    return None if content is None else content_digest(content)


def _told(states: Mapping[JournalStep, str], undecided: list[JournalStep]) -> tuple[str, ...]:
    made = [step for step, state in states.items() if state in ("done", "ready") and step.target != DIGESTS]
    messages = [f"completed an interrupted change of {len(made)} file{'' if len(made) == 1 else 's'}"] if made else []
    for step in undecided:
        if step.target != DIGESTS:
            why = "was edited meanwhile" if states[step] == "edited" else "could not be changed"
            messages.append(f"{step.target} {why} and stays as it is; decide again")
    return tuple(messages)
