"""The app: its places, what every page shows, and errors as pages."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from flask import (
    Flask,
    Response,
    abort,
    current_app,
    make_response,
    redirect,
    render_template,
    request,
    session,
    url_for,
)
from flask_wtf.csrf import CSRFError, generate_csrf
from markupsafe import Markup, escape
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response as AnyResponse

from namekeeper.faces.page import animal, animals, decide, first, labels, lists, lookup
from namekeeper.faces.page.animal import names_of
from namekeeper.faces.page.keeping import Keeping, NothingOpenError, StillWorkingError, keeping
from namekeeper.faces.page.safety import Guard, back, here
from namekeeper.faces.telling import standings
from namekeeper.faces.telling.cautions import NO_ADVICE, caution_lines
from namekeeper.faces.telling.rows import FACT_WORDS, day_in_words
from namekeeper.tasks.overview import Show, counts
from namekeeper.words.errors import NamekeeperError, file_error

#: A form without files; a table or a list comes as a file (``server.MOST_BYTES``).
_LONGEST_FORM = 4 * 1024 * 1024
_PLACES = (animals, animal, decide, first, labels, lists, lookup)
_REFUSALS = {
    400: ("This page is too old", "The server was started anew since. Go back, load the page again and repeat it."),
    401: (
        "Open Namekeeper by its own link",
        "Only the browser that was opened by the start link may see this. Start Namekeeper again for a new link.",
    ),
    403: ("This came from another site", "Nothing was shown or changed. Open Namekeeper by its own link."),
    404: ("There is no such page", "The address is not one of Namekeeper's."),
    409: (
        "Another collection is open",
        "It was opened in another window since. Nothing was changed; go back to the collection you mean.",
    ),
    413: ("This is too large", "Nothing was kept of it. A file may have at most 64 MiB; split it."),
    421: ("This is not Namekeeper's address", "Open it by the link that it printed, with the number behind the colon."),
}


def create_app(keep: Keeping, guard: Guard, end: Callable[[], None]) -> Flask:
    """The app of one server; ``end`` closes the server."""
    app = Flask("namekeeper.faces.page")
    app.extensions["namekeeper"] = keep
    app.config.update(MAX_FORM_MEMORY_SIZE=_LONGEST_FORM, SEND_FILE_MAX_AGE_DEFAULT=3600)
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    guard.protect(app)
    app.before_request(_same_collection)
    for place in _PLACES:
        app.register_blueprint(place.place)
    app.add_url_rule("/", "home", _home)
    app.add_url_rule("/stop/<key>", "stop", _stop, methods=["POST"])
    app.add_url_rule("/works", "works", _works)
    app.add_url_rule("/close", "close", _close_by(end), methods=["POST"])
    app.context_processor(_on_every_page)
    app.jinja_env.filters.update(names=names_in, day=day_in_words, web=web_link)
    app.jinja_env.globals.update(
        names_of=names_of,
        labels_of=FACT_WORDS,
        meaning=standings.MEANING,
        state=standings.state,
        beside=standings.beside,
        done=standings.done,
        lagging=standings.LAGGING,
        stale_answer=standings.STALE_ANSWER,
        caution_lines=caution_lines,
        no_advice=NO_ADVICE,
    )
    app.register_error_handler(HTTPException, _refused)
    app.register_error_handler(NamekeeperError, _went_wrong)
    app.register_error_handler(NothingOpenError, lambda _fault: redirect(url_for("first.begin"), 303))
    app.register_error_handler(StillWorkingError, _comparing)
    app.register_error_handler(OSError, lambda fault: _went_wrong(file_error(fault)))
    app.register_error_handler(Exception, _broken)
    return app


def _home() -> AnyResponse:
    return redirect(url_for("animals.all_animals" if keeping().watch else "first.begin"), 303)


def _same_collection() -> None:
    """A form is for the collection that it was shown for, whatever was opened in another window since."""
    meant = request.form.get("collection") if request.method == "POST" else None
    if meant is not None and meant != keeping().key:
        abort(409)


def _on_every_page() -> dict[str, object]:
    """Nothing for who was not let in."""
    if not session.get("here"):
        return {}
    keep = keeping()
    view = keep.last_view()
    return {
        "collection": view.report.title if view else keep.folder_name,
        "tally": counts(view) if view else {},
        "due": len(view.due) if view else 0,
        "Show": Show,
        "works": keep.works.running(),
        "said": keep.said,
        "tokens": _tokens,
        "here": here(),
    }


def _tokens() -> Markup:
    """The hidden fields of every form that changes something."""
    field = Markup('<input type="hidden" name="{}" value="{}">')
    return field.format("csrf_token", generate_csrf()) + field.format("collection", keeping().key)


def names_in(text: str, names: Iterable[str]) -> Markup:
    """``text`` with these scientific names set as the labels set them."""
    wanted = sorted({name for name in names if name}, key=len, reverse=True)
    if not wanted:
        return escape(text)
    parts = re.split("(" + "|".join(map(re.escape, wanted)) + ")", text)
    return Markup("").join(
        Markup("<i>{}</i>").format(part) if number % 2 else escape(part) for number, part in enumerate(parts)
    )


def web_link(address: str | None) -> str:
    """An address that a source gave, if a browser may open it; no other scheme than those of the web."""
    return address if address and re.match(r"https?://", address) else ""


def _works() -> Response:
    """What goes on, for the status line."""
    return make_response(render_template("works.html", works=keeping().works.running()))


def _stop(key: str) -> AnyResponse:
    job = keeping().works.find(key)
    if job is not None:
        job.stop()
    return redirect(back(), 303)


def _close_by(end: Callable[[], None]) -> Callable[[], Response]:
    def close() -> Response:
        text = "Everything that was decided is written. You can close this window; start Namekeeper again at any time."
        answer = make_response(render_template("bare.html", title="Namekeeper is closed", text=text))
        answer.call_on_close(end)  # once the page is out
        return answer

    return close


def _comparing(still: StillWorkingError) -> Response:
    return make_response(render_template("comparing.html", job=still.job))


def _refused(fault: HTTPException) -> Response:
    code = fault.code or 500
    title, text = _REFUSALS.get(code, ("This cannot be done", fault.description or ""))
    if isinstance(fault, CSRFError):
        title, text = _REFUSALS[400]
    answer = make_response(render_template("bare.html", title=title, text=text), code)
    if code == 405:
        answer.headers["Allow"] = fault.get_response().headers.get("Allow", "GET")
    return answer


def _went_wrong(fault: NamekeeperError) -> Response:
    return make_response(render_template("fault.html", fault=fault), 400)


def _broken(fault: Exception) -> Response:
    if current_app.testing:
        raise fault
    current_app.logger.exception("a page failed")
    text = "Nothing was half-written: a change is made whole or not at all. What went wrong stands in the terminal."
    return make_response(render_template("bare.html", title="Something went wrong here", text=text), 500)
