"""To decide: one label after another, as it was seen; and what was written, with what takes it back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from namekeeper.faces.page.animal import names_of
from namekeeper.faces.page.keeping import Notice, keeping
from namekeeper.faces.page.safety import back
from namekeeper.faces.telling import check as told_check
from namekeeper.faces.telling import rows as told
from namekeeper.faces.telling.verdicts import grounds, lines, why
from namekeeper.tasks.check import Finding
from namekeeper.tasks.settle_collection import Settled
from namekeeper.tasks.settle_names import written_doubt
from namekeeper.tasks.settle_orders import Orders
from namekeeper.tasks.watch import CollectionView, Seen
from namekeeper.words.errors import InputError, NamekeeperError

place = Blueprint("decide", __name__)


@place.get("/decide")
def first() -> AnyResponse | str:
    """The first label that waits; a page that says so where none does."""
    waiting = keeping().view().waiting
    if waiting:
        return redirect(url_for("decide.one", identifier=waiting[0].specimen.id), 303)
    return render_template("decided.html")


@place.get("/decide/<identifier>")
def one(identifier: str) -> str:
    """What there is to know for one decision."""
    view = keeping().view()
    return _page(view, view.finding(identifier))


@place.post("/decide/<identifier>")
def take(identifier: str) -> AnyResponse | str:
    """Carry out what was decided of one label."""
    keep = keeping()
    view, form = keep.view(), request.form
    finding = view.finding(identifier)
    revision, _, digest = form.get("seen", "").partition(" ")
    seen = Seen(finding.specimen.id, revision, digest)
    try:
        orders = _orders(finding.specimen.id)
        settled = keep.in_view().decide(seen, orders)
    except NamekeeperError as fault:
        return _page(view, finding, fault)
    _tell(settled)
    return redirect(back(_next(finding.specimen.id)), 303)


@place.post("/decide-safe")
def take_safe() -> AnyResponse:
    """Take all proposals that need no judgement, as they were seen."""
    keep = keeping()
    settled = keep.in_view().take_safe(request.form.get("state", ""), Orders(note=request.form.get("note", "").strip()))
    _tell(settled)
    return redirect(back(url_for("animals.all_animals")), 303)


@place.post("/undo")
def undo() -> AnyResponse:
    """Take back what was done last of the animals named."""
    seen = [Seen(*text.split(" ")[:2]) for text in request.form.getlist("seen") if " " in text]
    if not seen:
        raise InputError("there is nothing to undo here", remedy="its own page has its names over time")
    settled = keeping().in_view().undo(seen, prints=request.form.get("what") == "print")
    _tell(settled)
    return redirect(back(url_for("decide.first")), 303)


def _orders(identifier: str) -> Orders:
    """What the form says; a name chosen or typed is taken."""
    form = request.form
    act, note, typed = form.get("act", "take"), form.get("note", "").strip(), form.get("other", "").strip()
    orders = Orders(note=note, certain="certain" in form)
    if act == "keep":
        return replace(orders, keep=(identifier,))
    if act == "later":
        return replace(orders, later=(identifier,))
    # "enter": pressed in a field, where no button was chosen; it never takes a name that is not written there.
    name = typed if act in ("other", "enter") else form.get("name", "").strip()
    if not name:
        raise InputError("no name was chosen", remedy="choose one, write one, or keep the name")
    return replace(orders, take={identifier: name})


def _tell(settled: Settled) -> None:
    """Say what was written, what was left and why; what was written can be undone from there."""
    keep = keeping()
    written = [one for one in settled.changes if one.written]
    view = keep.view() if written else None
    undo = (
        tuple(_as_it_is(view, one.specimen) for one in written if one.standing not in ("undone", "unprinted"))
        if view
        else ()
    )
    troubles = (
        *map(str, settled.refused), *told_check.outdated(settled), *told_check.already(settled.changes),
        *settled.messages, *told_check.unlisted(written),
        *told_check.doubts(written, "it can be taken without, if you know that it is this"),
    )  # fmt: skip
    text = told.written(settled.changes)
    keep.say(Notice(text or "Nothing was written.", undo, troubles, good=bool(text)))


def _as_it_is(view: CollectionView, identifier: str) -> Seen:
    found = next(one for one in view.collection.specimens if one.id == identifier)
    return Seen(identifier, found.revision)


def _next(identifier: str) -> str:
    """The label that waits behind this one, as the queue was; the queue itself behind the last."""
    waiting = [one.specimen.id for one in keeping().view().waiting if one.specimen.id != identifier]
    wanted = request.form.get("next", "")
    if wanted in waiting:
        return url_for("decide.one", identifier=wanted)
    return url_for("decide.first")


def _page(view: CollectionView, finding: Finding, fault: NamekeeperError | None = None) -> str:
    queue: Sequence[str] = [one.specimen.id for one in view.waiting]
    place = queue.index(finding.specimen.id) if finding.specimen.id in queue else None
    after = queue[place + 1 : place + 2] if place is not None else queue[:1]
    before = queue[place - 1 : place] if place else []
    return render_template(
        "decide.html",
        one=finding,
        animal=finding.specimen,
        queue=queue,
        number=None if place is None else place + 1,
        after=next(iter(after), ""),
        before=next(iter(before), ""),
        told=told,
        names=names_of(finding.verdict, finding.label),
        why=why(finding.verdict),
        sayings=lines(finding.verdict),
        grounds=grounds,
        fault=fault,
        doubted=written_doubt(finding),
        typed=request.form,
        open_sources=True,
    )
