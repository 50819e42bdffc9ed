"""A check and what comes of it: as JSON and as a report."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from types import MappingProxyType

from namekeeper.evidence.verdicts import Choice
from namekeeper.faces.telling.documents import code, edition_rows, failure_rows, problem_rows
from namekeeper.faces.telling.outdated import outdated_line, outdated_rows
from namekeeper.faces.telling.parts import BLANK, Folded, Grid, Heading, Part, TextLine, counted
from namekeeper.faces.telling.sources import ages, unreached
from namekeeper.faces.telling.standings import STATES, TO_DO, beside, done, state, tally
from namekeeper.faces.telling.verdicts import SourceLine, grounds, lines, why
from namekeeper.tasks.check import Finding, Report
from namekeeper.tasks.settle import Planned
from namekeeper.tasks.settle_collection import Settled
from namekeeper.tasks.since_last import News
from namekeeper.words.terms import Standing

_MOST_CHOICES = 4
_WITHOUT_OFFER = MappingProxyType(
    {
        Standing.UNASKED: "nothing alike found",
        Standing.UNKNOWN: "nothing alike found",
        Standing.UNNAMED: "no species found",
    }
)


def check_document(report: Report) -> dict[str, object]:
    """The JSON of ``check`` (contract section 5); the results are made as they are written."""
    return {
        "checked_on": report.checked_on.isoformat(),
        "results": (_finding(finding, report) for finding in report.findings),
        "summary": report.summary,
        "editions": edition_rows(report.editions),
        "failures": failure_rows(report.failures),
        "problems": problem_rows(report.problems),
        "gone": None,
    }


def news_document(news: News, whole: Report) -> dict[str, object]:
    """The same of what is new since the last check, with the animals that are gone; all problems of the whole check."""
    problems = (*filter(None, [news.problem]), *whole.problems)
    told = {"failures": failure_rows(whole.failures), "problems": problem_rows(problems), "gone": list(news.gone)}
    return check_document(news.report) | told


def _finding(finding: Finding, report: Report) -> dict[str, object]:
    verdict = finding.verdict
    proposed = verdict.proposed
    return {
        "specimen": finding.specimen.id,
        "label": finding.label,
        "since": finding.since.text if finding.since else None,
        "standing": str(verdict.standing),
        "proposed": {"name": proposed.name, "authorship": proposed.authorship} if proposed else None,
        "safe": verdict.safe,
        "choices": [_choice(choice) for choice in verdict.choices],
        "statements": [_statement(line, report) for line in lines(verdict)],
        "why": list(why(verdict)),
        "reasons": list(dict.fromkeys(code(reason.code) for reason in verdict.reasons)),
        "to_look_at": finding.to_look_at,
        "decided": _decided(finding),
    }


def _choice(choice: Choice) -> dict[str, object]:
    return {
        "name": choice.name,
        "authorship": choice.authorship,
        "why": grounds(choice),
        "grounds": list(dict.fromkeys(code(ground.code) for ground in choice.grounds)),
        "range": list(choice.range),
    }


def _decided(finding: Finding) -> str | None:
    """What the keeper decided of this very finding."""
    if finding.kept:
        return "kept"
    return "postponed" if finding.postponed else None


def _statement(said: SourceLine, report: Report) -> dict[str, object]:
    return {
        "source": said.source,
        "edition": said.edition,
        "asked": (said.asked.date() if said.asked else report.checked_on).isoformat(),
        "stale": said.stale,
        "lagging": said.lagging,
        "says": said.says,
        "holds": said.holds,
        "targets": list(said.targets),
        "link": said.link,
        "licence": said.licence,
    }


def check_parts(report: Report) -> Iterator[Part]:
    """The tables of a check, what needs no judgement first."""
    if report.safe:
        yield Heading("Changes that need no judgement")
        safe = [(f.specimen.id, f.label, f.verdict.proposed.name if f.verdict.proposed else "") for f in report.safe]
        yield Grid(("label", "name on it", "name in force"), safe)
    if report.to_decide:
        yield Heading("For you to decide")
        rows = [(f.specimen.id, f.label, state(f.verdict, f.label), _offer(f)) for f in report.to_decide]
        yield Grid(("label", "name on it", "what is known", "what it may be"), rows, folds_first=2)
        present = {finding.verdict.standing for finding in report.to_decide}
        yield BLANK
        yield Grid(("what is known", "what you can do"), [(STATES[s], TO_DO[s]) for s in STATES if s in present])
    counts = tally(report.summary)
    yield BLANK
    yield Folded(f"{counted(len(report.findings), 'label')} on {report.checked_on}{': ' if counts else ''}{counts}.")
    for line in ages(report.editions, report.checked_on):
        yield Folded(line)


def next_step(report: Report, folder: str) -> str:
    """The command that goes on from a check where something waits; ``folder`` as the keeper typed it."""
    return f"Next: namekeeper settle {folder}{' --take-safe' if report.safe else ''} --write"


def news_parts(news: News) -> Iterator[Part]:
    """What is new since the last check."""
    yield from check_parts(news.report)
    for identifier in news.gone:
        yield TextLine(f"{identifier} is no longer in the collection")


def trouble(report: Report) -> tuple[str, ...]:
    """What went wrong on the way: files that could not be read, sources that could not be asked."""
    unasked = (f"{unreached(failure)} (try again later; --offline asks nobody)" for failure in report.failures)
    return (*map(str, report.problems), *unasked)


def _offer(finding: Finding) -> str:
    verdict = finding.verdict
    names = [choice.name for choice in verdict.choices]
    if not names and verdict.proposed:
        names = [verdict.proposed.name]
    shown = ", ".join(names[:_MOST_CHOICES])
    more = f" and {len(names) - _MOST_CHOICES} more" if len(names) > _MOST_CHOICES else ""
    said = "; ".join(beside(finding))
    return (shown + more or _WITHOUT_OFFER.get(verdict.standing, "no name in force")) + (f" ({said})" if said else "")


def settled_document(settled: Settled) -> dict[str, object]:
    """The JSON of ``settle`` (contract section 5); ``summary`` counts the labels that are left."""
    return {
        "changes": [_change(change) for change in settled.changes],
        "summary": settled.left.summary,
        "refused": problem_rows(settled.refused),
        "outdated": outdated_rows(settled.outdated),
        "failures": failure_rows(settled.report.failures),
        "problems": problem_rows(settled.report.problems),
    }


def _change(change: Planned) -> dict[str, object]:
    """One change; the new name has the ``doubt`` of the tag or label, or the keeper left it out."""
    return {
        "specimen": change.specimen,
        "old": change.old,
        "new": change.label or change.new,
        "standing": str(change.standing),
        "written": change.written,
        "already": change.insertion is None,
        "doubt": change.doubt or None,
        "doubt_left_out": change.left_out or None,
        "unlisted": change.unlisted is not None,
        "similar": list(change.unlisted.near) if change.unlisted else [],
    }


def settled_parts(settled: Settled, folder: str, *, write: bool, safe_asked: bool) -> Iterator[Part]:
    """The changes, or where none were ordered what is left to decide; ``folder`` as the keeper typed it."""
    if settled.changes:
        rows = [(c.specimen, c.old or "", c.label, happened(c), "yes" if c.written else "no") for c in settled.changes]
        yield Grid(("label", "name on it", "new name", "what happened", "written"), rows, folds_first=3)
        if not write:
            yield TextLine("Nothing is written without --write.")
        return
    left = settled.left
    yield from check_parts(left)
    if safe_asked:
        yield TextLine("There is no change that needs no judgement.")
    elif left.safe:
        yield TextLine(f"Take what needs no judgement: namekeeper settle {folder} --take-safe --write")
    if left.to_decide:
        yield TextLine(f"Decide the rest, one key each, at a terminal: namekeeper settle {folder} --write")


def happened(change: Planned) -> str:
    """What a change does; an animal whose tag is kept has no name that could be."""
    told = done(change.standing, change.old or "", change.new or "")
    return "stays without a name" if change.standing == "kept" and not change.named else told


def doubts(changes: Iterable[Planned], otherwise: str) -> Iterator[str]:
    """What became of the doubt on a tag or a label; ``otherwise``: how to take the name without it, if that is told."""
    for one in changes:
        if one.doubt and otherwise:
            yield f"{one.specimen}: the tag is not sure ({one.doubt}), so the name has that too; {otherwise}"
        if one.left_out:
            yield f"{one.specimen}: {one.new} without the doubt that stood there ({one.left_out})"


def unlisted(changes: Iterable[Planned]) -> Iterator[str]:
    """Names that were taken though no list here has them."""
    for one in changes:
        if one.unlisted is not None:
            near = f" (spelt similarly there: {' or '.join(one.unlisted.near)})" if one.unlisted.near else ""
            yield f"{one.specimen}: no list here has {one.unlisted.name}{near}; it is taken as you wrote it"


def outdated(settled: Settled) -> Iterator[str]:
    """What was not written, since it was decided on something else than what is there now."""
    return map(outdated_line, settled.outdated)


def already(changes: Sequence[Planned]) -> Iterator[str]:
    """Orders that were carried out before."""
    return (
        f"{one.specimen}: that is so already ({happened(one)}); there is nothing to write"
        for one in changes
        if not one.insertion
    )
