"""Labels: which animals, the sheet exactly as it will print, the PDF, and whether it came out well."""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from flask import Blueprint, Response, abort, make_response, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from namekeeper.faces.page.keeping import Notice, keeping
from namekeeper.faces.page.sheets import PrintedSheets, Sheets, SheetWish
from namekeeper.faces.telling.outdated import outdated_line
from namekeeper.faces.telling.rows import sheet_words
from namekeeper.tasks.label_bench import Workshop, open_workshop
from namekeeper.tasks.label_choices import Choices, sheet_of
from namekeeper.tasks.label_memory import used_in_drawer
from namekeeper.tasks.label_run import remember_run
from namekeeper.tasks.watch import CollectionView, Seen
from namekeeper.words.errors import InputError, NamekeeperError
from namekeeper.words.terms import LabelOrder

place = Blueprint("labels", __name__)
_MOST_COPIES = 20


class LabelForm(NamedTuple):
    """What the form of the labels says, as it stands in the address."""

    which: str
    only: tuple[str, ...]
    sheet: str
    template: str
    order: str
    copies: str
    used: tuple[int, ...]
    page: int


@place.get("/labels")
def bench() -> str:
    """The form, and the sheet that it leads to."""
    view = keeping().view()
    workshop = open_workshop(view.collection)
    form = _form(view, workshop)
    sheets, fault = None, None
    try:
        sheets = _planned(_wish(view, form)) if _meant(view, form) else None
    except NamekeeperError as error:
        fault = error
    return _shown(view, workshop, form, sheets, fault)


@place.get("/labels/sheet.png")
def picture() -> Response:
    """A page of the sheets as a picture."""
    view = keeping().view()
    form = _form(view, open_workshop(view.collection))
    keep = keeping()
    answer = make_response(keep.sheets.picture(_wish(view, form), form.page, keep.outside))
    answer.mimetype = "image/png"
    return answer


@place.get("/labels/places.css")
def places() -> Response:
    """Where the places of a sheet lie on its picture; no page may bring a style of its own."""
    view = keeping().view()
    workshop = open_workshop(view.collection)
    sheet = workshop.sheets.get(request.args.get("sheet", ""), workshop.sheet(workshop.settings.sheet))
    width, height = (float(side) for side in sheet.paper)
    rules = [f".paper{{aspect-ratio:{width:.2f}/{height:.2f}}}"]
    for number in range(sheet.places):
        x, y = (float(side) for side in sheet.corner(number))
        left, top, wide, high = 100 * x / width, 100 * y / height, 100 * float(sheet.width) / width, float(sheet.height)
        rules.append(
            f".p{number + 1}{{left:{left:.3f}%;top:{top:.3f}%;width:{wide:.3f}%;height:{100 * high / height:.3f}%}}"
        )
    answer = make_response("\n".join(rules))
    answer.mimetype = "text/css"
    return answer


@place.post("/labels")
def make() -> AnyResponse:
    """Draw the PDF; nothing is remembered of it before the keeper says that it came out."""
    keep, view = keeping(), keeping().view()
    form = _form(view, open_workshop(view.collection))
    if not _meant(view, form):
        raise InputError("no animal was chosen", remedy="choose whose labels are to be printed")
    wish, run = _wish(view, form), secrets.token_urlsafe(9)
    job = keep.works.start(_print_of(run), "Drawing the labels", lambda outside: keep.sheets.print(wish, outside))
    if job.wait(keep.patience):
        _drawn(run)
    return redirect(url_for("labels.print_run", key=run), 303)


@place.get("/labels/print/<key>")
def print_run(key: str) -> str:
    """The PDF to open, and the question whether it came out."""
    return render_template("print.html", key=key, made=keeping().find_run(key) or _drawn(key))


@place.get("/labels/print/<key>/labels.pdf")
def pdf(key: str) -> Response:
    """The PDF."""
    answer = make_response(_run(key).pdf)
    answer.mimetype = "application/pdf"
    answer.headers["Content-Disposition"] = f'attachment; filename="labels-{keeping().outside.today}.pdf"'
    return answer


@place.post("/labels/print/<key>")
def came_out(key: str) -> AnyResponse:
    """Remember the run, or that nothing is remembered."""
    keep, made = keeping(), _run(key)
    if request.form.get("came") != "yes":
        keep.drop_run(key)
        keep.say(Notice("Nothing is remembered of that sheet; its labels still wait to be printed.", good=False))
        return redirect(url_for("labels.bench"), 303)
    written = remember_run(made.run, keep.in_view().desk)
    keep.drop_run(key)
    now = {one.id: one.revision for one in keep.view().collection.specimens}
    undo = tuple(Seen(one, now[one]) for one in written.specimens if one in now)
    troubles = (*map(str, written.refused), *map(outdated_line, written.outdated), *written.messages)
    count = len(written.specimens)
    text = (
        f"{count} label{'s' if count != 1 else ''} remembered as printed." if count else "Printed; nothing to remember."
    )
    keep.say(Notice(text, undo, troubles, prints=True))
    return redirect(url_for("labels.bench"), 303)


def _planned(wish: SheetWish) -> Sheets:
    """What the labels come to; for many that takes a while.

    :raises StillWorkingError: if so.
    :raises NamekeeperError: if there can be no such labels.
    """
    keep = keeping()
    key = hashlib.sha256(repr(wish).encode()).hexdigest()[:16]
    sheets = keep.once_done(f"plan-{key}", "Fitting the labels", lambda outside: keep.sheets.plan(wish, outside))
    assert isinstance(sheets, Sheets)
    return sheets


def _print_of(run: str) -> str:
    return f"print-{run}"


def _drawn(run: str) -> PrintedSheets:
    """The PDF of a run, which is kept from now on.

    :raises StillWorkingError: if it is not drawn yet, or if that was stopped.
    :raises NamekeeperError: if it cannot be drawn.
    """
    keep = keeping()
    job = keep.works.find(_print_of(run))
    if job is None:
        abort(404)
    made = keep.came_of(job)
    assert isinstance(made, PrintedSheets)
    if not made.sheets.placed:
        raise InputError("there is no label that can be printed", remedy="; ".join(made.sheets.refused))
    keep.keep_run(run, made)
    return made


def _run(key: str) -> PrintedSheets:
    found = keeping().find_run(key)
    if found is None:
        abort(404)
    return found


def _form(view: CollectionView, workshop: Workshop) -> LabelForm:
    """What the address or the form says; whatever is missing is as the collection's settings have it."""
    values = request.values
    only = tuple(dict.fromkeys(values.getlist("only")))
    which = values.get("which") or ("choose" if only else "due" if view.due else "all")
    used = tuple(sorted({int(text) for text in values.getlist("used") if text.isascii() and text.isdigit()}))
    page = values.get("page", "1")
    return LabelForm(
        which if which in ("due", "all", "choose") else "all",
        only,
        values.get("sheet") or _usual_sheet(workshop, values.get("template")),
        values.get("template") or workshop.settings.template,
        values.get("order") or str(workshop.settings.order),
        values.get("copies") or str(workshop.settings.copies),
        used,
        int(page) if page.isascii() and page.isdigit() and len(page) < 5 else 1,
    )


def _usual_sheet(workshop: Workshop, template: str | None) -> str:
    """The sheet that a kind of label is made for, else the collection's."""
    try:
        return sheet_of(workshop, Choices(template=template)).key
    except InputError:
        return workshop.settings.sheet  # what is wrong is told where the labels are planned


def _meant(view: CollectionView, form: LabelForm) -> Sequence[str]:
    """The ids of the animals whose labels are meant."""
    everyone = [one.id for one in view.collection.kept()]
    if form.which == "choose":
        return form.only
    return view.due if form.which == "due" else everyone


def _wish(view: CollectionView, form: LabelForm) -> SheetWish:
    """:raises InputError: for an order or a number of copies that there is not."""
    keep = keeping()
    if not (form.copies.isascii() and form.copies.isdigit() and 1 <= int(form.copies[:4]) <= _MOST_COPIES):
        what = f"'{form.copies}' is no number of copies"
        raise InputError(what, remedy=f"write a number from 1 to {_MOST_COPIES}")
    if form.order not in tuple(LabelOrder):
        raise InputError("there is no such order", remedy="choose one of the list")
    choices = Choices(
        sheet=form.sheet,
        template=form.template,
        only=tuple(_meant(view, form)),
        copies=int(form.copies),
        order=LabelOrder(form.order),
        used=",".join(map(str, form.used)) or None,
    )
    watch = keep.in_view()
    return SheetWish(str(watch.desk.folder), tuple(sorted(keep.outside.environ.items())), watch.state, choices)


def _shown(
    view: CollectionView, workshop: Workshop, form: LabelForm, sheets: Sheets | None, fault: NamekeeperError | None
) -> str:
    key = form.sheet if form.sheet in workshop.sheets else workshop.settings.sheet
    sheet = workshop.sheet(key)
    page = min(form.page, sheets.pages) if sheets and sheets.pages else 1
    return render_template(
        "labels.html",
        view=view,
        form=form,
        fault=fault,
        sheets=sheets,
        page=page,
        sheet=sheet,
        kinds=[(one.key, sheet_words(one.paper, one.places, one.measures)) for one in workshop.sheets.values()],
        templates=[(one.key, one.layout.title) for one in workshop.templates()],
        drawer=_in_drawer(key, form),
        on_page=tuple(_on_page(sheets, page)),
        query=_query(form),
        animals=view.collection.kept(),
        step=request.args.get("step", ""),
    )


def _in_drawer(key: str, form: LabelForm) -> tuple[int, ...]:
    """Places, from 1, used on the sheet of this kind that should lie in the keeper's drawer; none if some were told."""
    used = used_in_drawer(keeping().outside.places, key)
    return () if form.used else tuple(sorted(number + 1 for number in used))


def _on_page(sheets: Sheets | None, page: int) -> Iterator[tuple[str, int]]:
    for identifier, on, spot in sheets.placed if sheets else ():
        if on == page:
            yield identifier, spot


def _query(form: LabelForm) -> dict[str, object]:
    """The form as the address has it, but for the page."""
    return {**form._asdict(), "page": None, "only": list(form.only), "used": list(form.used)}
