"""Look up a tag: what one or many may mean."""

from __future__ import annotations

import hashlib
import re

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from namekeeper.faces.page.keeping import Notice, keeping
from namekeeper.faces.telling.aka import led
from namekeeper.faces.telling.check import doubts, outdated, unlisted
from namekeeper.faces.telling.lookup import tag_card
from namekeeper.faces.telling.sources import unreached
from namekeeper.outside import Outside
from namekeeper.tasks.aka import find_names
from namekeeper.tasks.newcomers import Newcomer, Welcomed, welcome
from namekeeper.tasks.tags import LONGEST, TagAnswers, TagDesk
from namekeeper.words.errors import InputError, NamekeeperError

place = Blueprint("lookup", __name__)
MOST_TAGS = 200


@place.get("/lookup")
def look() -> str:
    """The tags in the address, one a line, and what each may mean."""
    return _answered(request.args.get("tags", ""), online=request.args.get("ask") == "services")


def _answered(typed: str, *, online: bool = False, fault: NamekeeperError | None = None) -> str:
    tags = [line.strip() for line in typed.splitlines() if line.strip()]
    if len(tags) > MOST_TAGS:
        what = f"these are {len(tags)} tags; at most {MOST_TAGS} are looked up at a time"
        fault, tags = InputError(what, remedy="leave some out"), []
    answers = _asked(tags) if online else _read(tags, keeping().outside)
    if answers.too_long:
        what = f"line {', '.join(map(str, answers.too_long))} is longer than {LONGEST} characters"
        fault = fault or InputError(what, remedy="it was left out")
    return render_template(
        "lookup.html",
        typed=typed,
        online=online,
        cards=tuple(map(tag_card, answers.looked)),
        fault=fault,
        form=request.form,
        ask=request.args,
        unreached=tuple(map(unreached, answers.failures)),
    )


def _read(tags: list[str], outside: Outside) -> TagAnswers:
    with TagDesk.open(outside, offline=True) as desk:
        return desk.read_all(tags)


def _asked(tags: list[str]) -> TagAnswers:
    """The answers with those of services; asking goes on beside the page, which is shown once it is done.

    :raises StillWorkingError: if that takes a while, or the keeper stopped it.
    """
    keep = keeping()
    key = "tags-" + hashlib.sha256("\n".join(tags).encode()).hexdigest()[:12]
    settings = keep.watch.desk.settings() if keep.watch else None

    def asked(outside: Outside) -> TagAnswers:
        with TagDesk.open(outside, settings=settings) as desk:
            return desk.read_all(tags)

    answers = keep.once_done(key, "Asking the name services", asked)
    assert isinstance(answers, TagAnswers)
    return answers


@place.post("/lookup")
def keep() -> AnyResponse | str:
    """Make animals of the tags, with the names chosen."""
    form, desk = request.form, keeping().in_view().desk
    numbers = sorted(int(key[3:]) for key in form if re.fullmatch(r"tag[0-9]{1,3}", key))
    try:
        newcomers = [
            Newcomer(form[f"tag{n}"], form.get(f"name{n}", ""), _count(form.get(f"count{n}", ""))) for n in numbers
        ]
        done = welcome(desk, newcomers)
    except NamekeeperError as fault:
        return _answered(form.get("typed", ""), fault=fault)
    text = f"{len(done.specimens)} animals are here now: {done.specimens[0]} to {done.specimens[-1]}."
    text = text if len(done.specimens) > 1 else f"{done.specimens[0]} is here now."
    keeping().say(Notice(f"{text} Its label can be printed.", troubles=_troubles(done)))
    if form.get("step") == "2":
        return redirect(url_for("labels.bench", step=3), 303)
    return redirect(url_for("animals.all_animals", order="id", q=" ".join(done.specimens[:1])), 303)


def _count(text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 5):
        what = f"'{text}' is no number of animals"
        raise InputError(what, remedy="write a number such as 1, or 0 to leave that tag out")
    return int(text)


def _troubles(done: Welcomed) -> tuple[str, ...]:
    if done.settled is None:
        return ()
    changes = done.settled.changes
    doubted = doubts(changes, "its own page takes it without, if you know that it is this")
    return (
        *map(str, done.settled.refused),
        *outdated(done.settled),
        *done.settled.messages,
        *unlisted(changes),
        *doubted,
    )


@place.get("/name")
def name() -> str:
    """Every name that a species has carried."""
    asked = request.args.get("name", "").strip()
    if not asked:
        raise InputError("no name was given", remedy="open it from a tag or from an animal")
    known = find_names(asked, keeping().outside)
    return render_template("name.html", asked=asked, known=known, led=led(known))
