"""One animal: its facts, its names over the years, the names of its species, and what is wrong in its file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from typing import NamedTuple

from flask import Blueprint, Response, make_response, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from namekeeper.evidence.verdicts import Verdict
from namekeeper.faces.page.keeping import Notice, keeping
from namekeeper.faces.page.sheets import SheetWish
from namekeeper.faces.telling import parts
from namekeeper.faces.telling import rows as told
from namekeeper.faces.telling.collection import heritage, turn
from namekeeper.faces.telling.outdated import outdated_line
from namekeeper.faces.telling.verdicts import grounds, lines, why
from namekeeper.records.specimen import Sex, Specimen
from namekeeper.tasks.aka import KnownName, find_names
from namekeeper.tasks.arrivals import Arrival, add_specimens
from namekeeper.tasks.check import Finding
from namekeeper.tasks.collection import Changed, count, leave
from namekeeper.tasks.desk import find
from namekeeper.tasks.facts import FACTS, set_facts
from namekeeper.tasks.history import histories
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.watch import CollectionView
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError, NamekeeperError, Problem

place = Blueprint("animal", __name__)
_MOST_YOUNG = 500
#: Facts that the page has a field for, in its order; papers are added one by one.
FIELDS = tuple(fact for fact in FACTS if fact != "papers")


class Stretch(NamedTuple):
    """A name on the line of years, in thousandths of the line's length."""

    name: str
    since: str
    start: int
    length: int
    live: bool


@place.get("/animal/<identifier>")
def one(identifier: str) -> str:
    """The page of an animal."""
    return _page(keeping().view(), identifier)


@place.post("/animal/<identifier>/facts")
def facts(identifier: str) -> AnyResponse | str:
    """Set the facts that are others than those shown."""
    keep, view = keeping(), keeping().view()
    specimen = find(view.collection, identifier)
    before, typed = facts_of(specimen), {field: request.form.get(field, "").strip() for field in FIELDS}
    asked = [(field, part) for field in FIELDS if typed[field] != before[field] for part in _parts(field, typed[field])]
    if not asked:
        return redirect(url_for("animal.one", identifier=specimen.id), 303)
    try:
        done = set_facts(keep.in_view().desk, specimen.id, asked, write=True, revision=request.form.get("revision", ""))
    except NamekeeperError as fault:
        return _page(view, identifier, typed, fault)
    troubles = (*map(str, done.changed.refused), *map(outdated_line, done.changed.outdated))
    if troubles:
        return _page(keep.view(), identifier, typed, InputError("; ".join(troubles)))
    text = f"{specimen.id}: {', '.join(dict.fromkeys(field for field, _ in asked))} written."
    text += f" {turn(done.turn).capitalize()}." if done.turn else ""
    keep.say(Notice(text, troubles=done.changed.messages))
    return redirect(url_for("animal.one", identifier=specimen.id), 303)


@place.post("/animal/<identifier>/left")
def left(identifier: str) -> AnyResponse | str:
    """The animal died, was sold or given away."""
    form = request.form

    def act(specimen: Specimen) -> Changed:
        day, desk = _day(form.get("on", "")), keeping().in_view().desk
        return leave(desk, specimen.id, form.get("how", ""), day, write=True, revision=form.get("revision", ""))

    return _changed(identifier, act, "left. Its file and its history stay")


@place.post("/animal/<identifier>/count")
def counted(identifier: str) -> AnyResponse | str:
    """A group has another count now."""
    form = request.form

    def act(specimen: Specimen) -> Changed:
        try:
            sex = Sex.parse(form.get("sex", ""))
        except ValueError as fault:
            raise InputError(str(fault), remedy="write such as 1.2.5: males, females, unsexed") from None
        return count(keeping().in_view().desk, specimen.id, sex, write=True, revision=form.get("revision", ""))

    return _changed(identifier, act, "counted")


@place.post("/animal/<identifier>/offspring")
def offspring(identifier: str) -> AnyResponse | str:
    """Young of this animal: each an animal with a label of its own."""
    view, number = keeping().view(), request.form.get("count", "")
    specimen = find(view.collection, identifier)
    try:
        if not (number.isascii() and number.isdigit() and 1 <= int(number[:4]) <= _MOST_YOUNG):
            what = f"'{number}' is no number of young"
            raise InputError(what, remedy=f"write a number from 1 to {_MOST_YOUNG}")
        arrived = add_specimens(keeping().in_view().desk, Arrival(count=int(number), origin=(specimen.id,)))
    except NamekeeperError as fault:
        return _page(view, identifier, fault=fault)
    ids = arrived.changed.specimens
    told_of = " ".join(f"{line}." for line in heritage(arrived))
    young = parts.counted(len(ids), "young animal is", "young animals are")
    keeping().say(Notice(f"{young} here now. {told_of}", troubles=arrived.changed.messages))
    return redirect(url_for("animals.all_animals", q=ids[0] if len(ids) == 1 else None, order="id"), 303)


@place.get("/animal/<identifier>/label.png")
def label(identifier: str) -> Response:
    """Its label as it would be printed now."""
    keep = keeping()
    specimen = find(keep.view().collection, identifier)
    watch = keep.in_view()
    environ = tuple(sorted(keep.outside.environ.items()))
    wish = SheetWish(str(watch.desk.folder), environ, watch.state, Choices(only=(specimen.id,), copies=1))
    answer = make_response(keep.sheets.label(wish, keep.outside))
    answer.mimetype = "image/png"
    return answer


def _changed(identifier: str, act: Callable[[Specimen], Changed], done: str) -> AnyResponse | str:
    """Carry out an act on the animal, and say what was done; what cannot be done is told on its page."""
    keep = keeping()
    view = keep.view()
    specimen = find(view.collection, identifier)
    try:
        changed = act(specimen)
    except NamekeeperError as fault:
        return _page(view, identifier, fault=fault)
    troubles = (*map(str, changed.refused), *map(outdated_line, changed.outdated))
    if troubles:
        return _page(keep.view(), identifier, fault=InputError("; ".join(troubles)))
    keep.say(Notice(f"{specimen.id}: {done}. Written.", troubles=changed.messages))
    return redirect(url_for("animal.one", identifier=specimen.id), 303)


def _day(text: str) -> PartialDate | None:
    """:raises InputError: for what is no day."""
    try:
        return PartialDate.parse(text) if text.strip() else None
    except ValueError as fault:
        raise InputError(str(fault), remedy="leave it empty for today") from None


def _page(
    view: CollectionView, identifier: str, typed: dict[str, str] | None = None, fault: NamekeeperError | None = None
) -> str:
    specimen = find(view.collection, identifier)
    finding = next((found for found in view.report.findings if found.specimen.id == specimen.id), None)
    (history,) = histories(view.collection, view.report.checked_on, only=(specimen.id,))
    return render_template(
        "animal.html",
        animal=specimen,
        finding=finding,
        history=history,
        years=tuple(_stretches(history.specimen, view.report.checked_on)),
        facts=typed or facts_of(specimen),
        fields=FIELDS,
        fault=fault,
        known=_known(finding),
        problems=tuple(_problems(view, specimen)),
        told=told,
        names=names_of(finding.verdict, finding.label) if finding else (),
        why=why(finding.verdict) if finding else (),
        sayings=lines(finding.verdict) if finding else (),
        grounds=grounds,
        status=view.labels.get(specimen.id),
        form=request.form,
    )


def names_of(verdict: Verdict, label: str = "") -> tuple[str, ...]:
    """The names that a verdict speaks of, to set them as names."""
    proposed = (verdict.proposed.name,) if verdict.proposed else ()
    return (label, *proposed, *(choice.name for choice in verdict.choices))


def facts_of(specimen: Specimen) -> dict[str, str]:
    """The facts of an animal as text, by the words of the file."""
    return {
        "place": specimen.stands_at,
        "note": specimen.note,
        "sex": specimen.sex.text if specimen.sex else "",
        "stage": specimen.stage,
        "common": specimen.common,
        "caution": specimen.caution,
        "locality": specimen.locality,
        "acquired": specimen.acquired.text if specimen.acquired else "",
        "from": "; ".join(specimen.origin),
        "size": specimen.size,
        "price": specimen.price,
    }


def _parts(field: str, text: str) -> tuple[str, ...]:
    """What is set: of several parents each."""
    return tuple(part.strip() for part in text.split(";") if part.strip()) or ("",) if field == "from" else (text,)


def _problems(view: CollectionView, specimen: Specimen) -> Iterator[Problem]:
    return (one for one in view.collection.problems if one.place.specimen == specimen.id)


def _known(finding: Finding | None) -> KnownName | None:
    """All names of the species, if the name on the label leads to one."""
    if finding is None or not finding.named:
        return None
    try:
        return find_names(finding.label, keeping().outside)
    except InputError:
        return None


def _stretches(specimen: Specimen, today: date) -> Iterator[Stretch]:
    """Each name from its day on the label to that of the next, up to today."""
    first = specimen.acquired.earliest if specimen.acquired else None
    live = [(entry.since.earliest if entry.since else first or today, entry) for entry in specimen.live_entries()]
    live.sort(key=lambda pair: pair[0])
    days = [day.toordinal() for day, _ in live]
    whole = max(today.toordinal() - min(days, default=0), 1)
    for number, (day, entry) in enumerate(live, 1):
        until = days[number] if number < len(days) else today.toordinal()
        start, end = (round(1000 * (at - days[0]) / whole) for at in (day.toordinal(), until))
        yield Stretch(entry.name, told.day_in_words(entry.since), start, max(end - start, 4), number == len(live))
