"""One animal: its facts, its names over the years, the names of its species, and what is wrong in its file."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from namekeeper.evidence.verdicts import Verdict
from namekeeper.faces.page.keeping import Notice, keeping
from namekeeper.faces.telling import rows as told
from namekeeper.faces.telling.collection import turn
from namekeeper.faces.telling.outdated import outdated_line
from namekeeper.faces.telling.verdicts import grounds, lines, why
from namekeeper.records.specimen import Specimen
from namekeeper.tasks.aka import KnownName, find_names
from namekeeper.tasks.check import Finding
from namekeeper.tasks.desk import find
from namekeeper.tasks.facts import FACTS, set_facts
from namekeeper.tasks.history import histories
from namekeeper.tasks.watch import CollectionView
from namekeeper.words.errors import InputError, NamekeeperError, Problem

place = Blueprint("animal", __name__)
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
        label=view.labels.get(specimen.id),
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
