"""Name lists: what is on this machine, as of when and under which licence; a new one; the services, asked on a wish."""

from __future__ import annotations

from dataclasses import replace

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from namekeeper.evidence.statements import ListWishes
from namekeeper.faces.page.keeping import Notice, keeping
from namekeeper.faces.page.work import LongJob
from namekeeper.faces.telling.check import trouble
from namekeeper.faces.telling.parts import counted
from namekeeper.faces.telling.services import LEAVES_THE_HOUSE, reached, services_trouble
from namekeeper.faces.telling.sources import ages
from namekeeper.outside import Outside
from namekeeper.records.specimen import Settings
from namekeeper.tasks.check import Report, check_folder
from namekeeper.tasks.contact import somebody_to_reach
from namekeeper.tasks.lists import Added, add_list, list_states, use_edition
from namekeeper.tasks.online import ServiceWishes
from namekeeper.tasks.services import ServiceState, service_states
from namekeeper.tasks.settings import read_settings, write_services, write_settings
from namekeeper.words.errors import InputError, NamekeeperError

place = Blueprint("lists", __name__)
_ADD, _ASK, _PROBE = "list", "services", "probe"


@place.get("/lists")
def all_lists() -> str:
    """Every list and every service; and what came of a job that has ended."""
    keep = keeping()
    for key in (_ADD, _ASK, _PROBE):
        job = keep.works.take(key)
        if job is not None:
            keep.say(_ended(job))
    return _shown(None)


def _shown(fault: NamekeeperError | None, part: str = "list") -> str:
    """The page; what went wrong is told in the ``part`` that it is about."""
    keep = keeping()
    faults = {part: fault}
    settings, services = None, tuple[ServiceState, ...]()
    try:
        settings = read_settings(keep.watch.desk) if keep.watch else None
    except NamekeeperError as error:
        faults.setdefault("settings", error)
    try:
        services = service_states(keep.outside, live=False, settings=_settings())
    except NamekeeperError as error:
        faults.setdefault("services", error)
    states = list_states(keep.outside)
    return render_template(
        "lists.html",
        states=states,
        ages=tuple(ages((one.edition for one in states if one.edition), keep.outside.today)),
        services=services,
        leaves=LEAVES_THE_HOUSE,
        reachable=somebody_to_reach(keep.outside, settings.contact if settings else ""),
        faults=faults,
        settings=settings,
        typed=request.form,
        last=keep.last_view(),
    )


def _settings() -> Settings | None:
    """Of the collection that is open, as they stand now."""
    watch = keeping().watch
    return watch.desk.settings() if watch else None


@place.post("/lists/add")
def add() -> AnyResponse | str:
    """Add a file that was sent as a list; it goes on beside the page."""
    keep, form, sent = keeping(), request.form, request.files.get("file")
    try:
        if sent is None or not sent.filename:
            raise InputError("no file was chosen", remedy="choose a checklist: an archive, CSV or TSV")
        key = form.get("key", "").strip()
        if not key:
            raise InputError("the list has no short name yet", remedy="write one, such as: spiders")
        upload = keep.keep_upload(sent.save)
    except NamekeeperError as fault:
        return _shown(fault)
    complete = tuple(part.strip() for part in form.get("complete", "").split(",") if part.strip())
    edition, licence = (form.get(name, "").strip() or None for name in ("edition", "licence"))
    wishes = ListWishes(edition=edition, licence=licence, complete_for=complete)

    def added(outside: Outside) -> Added:
        try:
            return add_list(keep.find_upload(upload), key, wishes, outside)
        finally:
            keep.drop_upload(upload)

    keep.works.start(_ADD, f"Adding the list {key}", added)
    return redirect(url_for("lists.all_lists"), 303)


@place.post("/lists/settings")
def settings() -> AnyResponse | str:
    """Write the settings of the collection, as they were seen."""
    keep, form = keeping(), request.form
    title, language = form.get("title", ""), form.get("language", "")
    offset = (form.get("right", "0"), form.get("down", "0"))
    try:
        written = write_settings(keep.in_view().desk, title, language, offset, form.get("revision", ""))
    except NamekeeperError as fault:
        return _shown(fault, "settings")
    keep.say(Notice("The settings are saved." if written else "The settings are as they were.", good=written))
    return redirect(url_for("lists.all_lists"), 303)


@place.post("/lists/services")
def switch() -> AnyResponse | str:
    """Write which services are asked for this collection, and the keeper's address for their questions."""
    keep, form = keeping(), request.form
    try:
        desk = keep.in_view().desk
        written = write_services(desk, form.getlist("on"), form.get("contact", ""), form.get("revision", ""))
    except NamekeeperError as fault:
        return _shown(fault, "services")
    said = "Which services are asked is saved." if written else "The services are as they were."
    keep.say(Notice(said, good=written))
    return redirect(url_for("lists.all_lists", _anchor="services"), 303)


@place.post("/lists/probe")
def probe() -> AnyResponse:
    """Ask each service that is on one question, to see whether it answers."""
    settings = _settings()

    def asked(outside: Outside) -> tuple[ServiceState, ...]:
        return service_states(outside, live=True, settings=settings)

    keeping().works.start(_PROBE, "Asking each service one question", asked)
    return redirect(url_for("lists.all_lists", _anchor="services"), 303)


@place.post("/lists/use")
def use() -> AnyResponse:
    """Take another edition of a list into use."""
    key, edition = use_edition(request.form.get("edition", ""), keeping().outside)
    keeping().say(Notice(f"{key} {edition} is in use now. Names are compared with it from the next look on."))
    return redirect(url_for("lists.all_lists"), 303)


@place.post("/lists/ask")
def ask() -> AnyResponse:
    """Ask the name services about every label of the collection; answers are kept as they come."""
    keep = keeping()
    watch = keep.in_view()

    def asked(outside: Outside) -> Report:
        try:
            return check_folder(replace(watch.desk, outside=outside), ServiceWishes())
        finally:
            watch.forget()

    keep.works.start(_ASK, "Asking the name services", asked)
    return redirect(url_for("lists.all_lists"), 303)


def _ended(job: LongJob) -> Notice:
    """What came of a job."""
    if job.fault is not None:
        return Notice(f"{job.title}: {job.fault}", good=False)
    match job.result:
        case Added():
            count = counted(job.result.names, "name is", "names are")
            names = f"{job.result.key} {job.result.edition}: {count} here now."
            skipped = job.result.skips.count
            left = f" {counted(skipped, 'row was', 'rows were')} left out." if skipped else ""
            return Notice(names + left, troubles=job.said)
        case Report():
            unasked = trouble(replace(job.result, problems=()))
            told = "The services answered." if not unasked else "Not every service answered."
            return Notice(told, troubles=(*unasked, *job.said), good=not unasked)
        case tuple() as states:
            asked = [state for state in states if isinstance(state, ServiceState)]
            good = not any(state.failure for state in asked)
            return Notice(reached(asked), troubles=services_trouble(asked), good=good)
        case _:
            return Notice(f"{job.title}: {job.stopped or 'it ended without a result'}", good=False)
