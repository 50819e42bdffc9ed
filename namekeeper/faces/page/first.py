"""The first visit, in three steps: where the animals live, who lives there, their first labels."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from namekeeper.faces.page.keeping import Notice, keeping
from namekeeper.faces.telling.parts import counted
from namekeeper.faces.telling.transfer import COLUMN_WORDS
from namekeeper.tasks.shelf import begin_collection, begin_sample, find_collection, known_collections
from namekeeper.tasks.transfer import IMPORT_FIELDS, ImportPlan, ImportWishes, plan_import, write_import
from namekeeper.words.dates import DayOrder
from namekeeper.words.errors import InputError, NamekeeperError

place = Blueprint("first", __name__)
_PROPOSED = "My animals"
_ROWS_SHOWN = 12
#: What the first animals need; shown whether the table seems to have it or not.
_ALWAYS = ("id", "tag", "name", "acquired", "place")


@place.get("/begin")
def begin() -> str:
    """Step 1: where the animals shall live."""
    return _begin(_PROPOSED)


def _begin(name: str, fault: NamekeeperError | None = None) -> str:
    return render_template("begin.html", name=name, fault=fault, known=known_collections(keeping().outside))


@place.post("/begin")
def make() -> AnyResponse | str:
    """Open a new collection, the sample, or one that is known here."""
    keep, form = keeping(), request.form
    act = form.get("act", "new")
    try:
        if act == "sample":
            folder = begin_sample(keep.outside)
        elif act == "known":
            folder = find_collection(form.get("key", ""), keep.outside)
        else:
            folder = begin_collection(form.get("name", ""), keep.outside)
        keep.open(folder)
    except NamekeeperError as fault:
        return _begin(form.get("name", _PROPOSED), fault)
    if act == "new":
        keep.say(Notice(f"Your collection is the folder {folder}. Nobody else gets it; copy it as any other folder."))
        return redirect(url_for("first.who"), 303)
    return redirect(url_for("animals.all_animals"), 303)


@place.get("/begin/animals")
def who() -> str:
    """Step 2: who lives there, by tags or by a table."""
    keeping().in_view()
    return render_template("who.html", fault=None)


@place.post("/begin/table")
def table() -> AnyResponse | str:
    """Read a table that was sent, and show what would come of it; nothing is written."""
    keep, sent = keeping(), request.files.get("table")
    keep.in_view()
    try:
        if sent is None or not sent.filename:
            raise InputError("no table was chosen", remedy="choose a file: CSV, XLSX or ODS")
        return redirect(url_for("first.columns", key=keep.keep_upload(sent.save)), 303)
    except NamekeeperError as fault:
        return render_template("who.html", fault=fault)


@place.get("/begin/table/<key>")
def columns(key: str) -> str:
    """How the table was read: its columns, its first animals, its rows that are left."""
    try:
        plan = _plan(key)
    except NamekeeperError as fault:
        return render_template("who.html", fault=fault)
    unread = plan.unread.columns
    perhaps = {column.field: column for column in reversed(unread) if column.field}
    first = [field for field in IMPORT_FIELDS if field in plan.headers or field in perhaps or field in _ALWAYS]
    return render_template(
        "columns.html",
        key=key,
        plan=plan,
        fields=first,
        others=[field for field in IMPORT_FIELDS if field not in first],
        called=COLUMN_WORDS,
        perhaps=perhaps,
        letters=next(iter(plan.guessed.items()), None),
        headers=[*dict.fromkeys((*plan.headers.values(), *(column.header for column in unread)))],
        rows=plan.specimens[:_ROWS_SHOWN],
        dates=request.values.get("dates", ""),
        counted=counted,
    )


@place.post("/begin/table/<key>")
def bring_in(key: str) -> AnyResponse | str:
    """Write the animals of the table."""
    keep = keeping()
    try:
        done = write_import(keep.in_view().desk, _plan(key))
    except NamekeeperError as fault:
        return render_template("who.html", fault=fault)
    keep.drop_upload(key)
    count = len(done.plan.specimens)
    left = f" {counted(len(done.plan.left), 'row was', 'rows were')} left." if done.plan.left else ""
    keep.say(
        Notice(
            f"{counted(count, 'animal is', 'animals are')} here now.{left}",
            troubles=(*map(str, done.refused), *done.messages),
        )
    )
    return redirect(url_for("labels.bench", step=3), 303)


def _plan(key: str) -> ImportPlan:
    """What comes of an uploaded table with the columns that the form or the address names.

    :raises InputError: if it is not there any more, or is no table of animals.
    """
    keep = keeping()
    shown = {name: text for name in IMPORT_FIELDS if (text := request.values.get(f"column-{name}")) is not None}
    chosen = {name: text for name, text in shown.items() if text}
    order = next((one for one in DayOrder if one.value == request.values.get("dates")), None)
    # Once the columns were shown, one that the keeper left out is not guessed again.
    wishes = ImportWishes(chosen, order, only_columns=bool(shown))
    return plan_import(keep.in_view().desk, keep.find_upload(key), wishes)
