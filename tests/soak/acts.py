"""What a keeper does with commands, each with what follows from what it said."""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from tests.soak.commands import PATIENCE, Ended, Fate, Running
from tests.soak.doomed import Doom

if TYPE_CHECKING:
    from tests.soak.soaking import Soak

_NAMES = ("Brachypelma vagans", "Grammostola rosea", "Avicularia versicolor", "Haplopelma lividum")
#: Said by a writer that came to its patience's end: nothing of it was written.
BUSY = "another process is writing"


class Begun(NamedTuple):
    """A command at work, and what its end means."""

    running: Running
    judged: Callable[[Ended], None]


class How(NamedTuple):
    """What becomes of a command; ``end`` is what happens once its journal is written."""

    fate: Fate
    end: Doom | None = None
    patience: float = PATIENCE


Act = Callable[["Soak", How], Begun]


def begin(soak: Soak, how: How, *words: str) -> Running:
    doomed, room = soak.random.uniform(0.02, 0.8), soak.random.choice((0, 100, 400, 1000, 4000))
    end = how.end
    if how.fate is Fate.KILLED_AT_JOURNAL:
        end = Doom(steps=soak.random.randrange(3))  # the journal stays: two files and itself are then to be moved
    elif how.fate is Fate.STOPPED:
        end = Doom(stopped=True)
    return Running.start(words, soak.folder, soak.environ, how.fate, doomed, room, end, how.patience)


def set_field(soak: Soak, how: How) -> Begun:
    identifier, name, value = soak.someone(), soak.random.choice(("place", "caution")), soak.fresh()
    soak.model.asked(identifier, name, value)
    words = ("collection", "set", "animals", identifier, f"{name}={value}", "--write")

    def judged(ended: Ended) -> None:
        if ended.code == 0:
            soak.model.written(identifier, name, value)
        elif any(told in ended.err for told in ("nothing was written", "not written", BUSY)):
            soak.model.refused(identifier, name, value)

    return Begun(begin(soak, how, *words), judged)


def later(soak: Soak, how: How) -> Begun:
    """Put off, or keep, with a note that must then stand in the file."""
    identifier, text = soak.someone(), soak.fresh()
    soak.model.unsure_texts.add((identifier, text))
    order = soak.random.choice(("--later", "--keep"))
    words = ("settle", "animals", order, identifier, "--note", text, "--write", "--offline", "--json")

    def judged(ended: Ended) -> None:
        with suppress(ValueError):
            if any(change["written"] for change in json.loads(ended.out)["changes"]):
                soak.model.texts[identifier].add(text)
                soak.model.acknowledged += 1

    return Begun(begin(soak, how, *words), judged)


def add(soak: Soak, how: How) -> Begun:
    tag = f"soak {soak.random.choice(_NAMES)} {soak.fresh()}"
    return _counted(soak, how, tag, 1, ("collection", "add", "animals", "--tag", tag))


def young(soak: Soak, how: How) -> Begun:
    tag = f"soak {soak.fresh()}"
    return _counted(soak, how, tag, 3, ("collection", "add", "animals", "--tag", tag, "--count", "3"))


def _counted(soak: Soak, how: How, tag: str, count: int, words: tuple[str, ...]) -> Begun:
    soak.model.tags[tag] = {0, count}

    def judged(ended: Ended) -> None:
        if ended.code == 0:
            soak.model.tags[tag] = {count}
            soak.model.acknowledged += count
        elif ended.code == 2 and any(told in ended.err for told in ("nothing was written", BUSY)):
            soak.model.tags[tag] = {0}

    return Begun(begin(soak, how, *words), judged)


def other(soak: Soak, how: How) -> Begun:
    """What changes no fact: reading, asking, labels, exports, lists."""
    soak.number += 1
    long = (("pocket", "animals", "-o", "out.html", "--replace"),) if soak.random.random() < 0.1 else ()
    words = soak.random.choice(
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
            ("lists", "add", "names.csv", "--as", f"l{soak.number % 3}", "--edition", str(soak.number)),
            ("lists", "remove", f"l{soak.number % 3}", "--yes"),
            ("settle", "animals", "--take-safe", "--write", "--offline"),
            ("services",),
        )
    )

    def judged(ended: Ended) -> None:
        if "--json" in words and ended.code in (0, 1):
            json.loads(ended.out)
        if words[0] == "labels" and ended.code in (0, 1):
            assert (soak.root / "out.pdf").read_bytes().rstrip().endswith(b"%%EOF"), ended.whole

    return Begun(begin(soak, how, *words), judged)


def reading(soak: Soak, how: How) -> Begun:
    """Somebody who only looks."""

    def judged(ended: Ended) -> None:
        assert ended.code == (2 if soak.model.broken else 0), ended.whole

    return Begun(begin(soak, how, "history", "animals"), judged)


#: As often as each stands here.
ACTS: tuple[Act, ...] = (*(set_field,) * 5, *(later,) * 4, *(add,) * 2, young, *(other,) * 5)
WRITING: tuple[Act, ...] = (set_field, later, add, young)
#: Fates that come at a step of writing: only who writes meets them.
AIMED = frozenset({Fate.KILLED_AT_JOURNAL, Fate.STOPPED})
FATES = (
    *(Fate.ALONE,) * 8, *(Fate.KILLED,) * 3, *(Fate.KILLED_WRITING,) * 3, *(Fate.KILLED_AT_JOURNAL,) * 3,
    *(Fate.STOPPED,) * 2, *(Fate.FULL,) * 3,
)  # fmt: skip
