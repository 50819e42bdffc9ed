"""A check as JSON, as lines for a terminal, and as a page of its own."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from namekeeper.evidence.verdicts import Said
from namekeeper.faces.console import Console
from namekeeper.faces.plain_words import MEANING, TO_DO
from namekeeper.tasks.check import Finding, Report
from namekeeper.words.terms import Standing

_MOST_CHOICES = 4
_WITHOUT_OFFER = MappingProxyType(
    {Standing.UNASKED: "ask a larger list", Standing.UNKNOWN: "not in the lists", Standing.UNNAMED: "no species found"}
)


def as_document(report: Report) -> dict[str, object]:
    """The JSON of ``check`` (contract section 5)."""
    return {
        "checked_on": report.checked_on.isoformat(),
        "results": [_finding(finding, report) for finding in report.findings],
        "summary": report.summary,
    }


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
        "choices": [{"name": c.name, "authorship": c.authorship, "why": c.why} for c in verdict.choices],
        "statements": [_statement(said, report) for said in verdict.statements],
        "why": list(verdict.why),
    }


def _statement(said: Said, report: Report) -> dict[str, object]:
    return {
        "source": said.source,
        "edition": said.edition,
        "asked": (said.asked.date() if said.asked else report.checked_on).isoformat(),
        "stale": said.stale,
        "lagging": said.lagging,
        "says": said.says,
        "link": said.link,
        "licence": said.licence,
    }


def show(report: Report, console: Console) -> None:
    """The tables of a check, what needs no judgement first."""
    if report.safe:
        console.heading("Changes that need no judgement")
        safe = [(f.specimen.id, f.label, f.verdict.proposed.name if f.verdict.proposed else "") for f in report.safe]
        console.table(("label", "name on it", "name in force"), safe)
    if report.to_decide:
        console.heading("For you to decide")
        rows = [(f.specimen.id, f.label, str(f.verdict.standing), _offer(f)) for f in report.to_decide]
        console.table(("label", "name on it", "standing", "what it may be"), rows)
        present = {finding.verdict.standing for finding in report.to_decide}
        console.put()
        explained = [(str(standing), MEANING[standing], TO_DO[standing]) for standing in MEANING if standing in present]
        console.table(("standing", "what happened", "what you can do"), explained)
    tally = ", ".join(f"{count} {word}" for word, count in report.summary.items())
    console.put()
    labels = "1 label" if len(report.findings) == 1 else f"{len(report.findings)} labels"
    console.put_folded(f"{labels} on {report.checked_on}{': ' if tally else ''}{tally}.")
    talk(report, console)


def talk(report: Report, console: Console) -> None:
    """What went wrong on the way: files that could not be read, sources that could not be asked."""
    for problem in report.problems:
        console.say(str(problem))
    for failure in report.failures:
        console.say(f"could not ask {failure.edition.title}: {failure.why}")


def _offer(finding: Finding) -> str:
    verdict = finding.verdict
    names = [choice.name for choice in verdict.choices]
    if not names and verdict.proposed:
        names = [verdict.proposed.name]
    shown = ", ".join(names[:_MOST_CHOICES])
    more = f" and {len(names) - _MOST_CHOICES} more" if len(names) > _MOST_CHOICES else ""
    later = " (later)" if finding.postponed else ""
    return (shown + more or _WITHOUT_OFFER.get(verdict.standing, "no name in force")) + later


@dataclass(frozen=True, slots=True)
class Saying:
    """One line of evidence on the page."""

    text: str
    link: str | None


def as_page(report: Report, title: str, *, offline: bool) -> str:
    """One self-contained HTML page."""
    import jinja2

    from namekeeper import resources

    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    template = environment.from_string((resources.data("report") / "check.html.j2").read_text(encoding="utf-8"))
    return template.render(
        title=title,
        report=report,
        offline=offline,
        summary=report.summary,
        decide=report.to_decide,
        safe=report.safe,
        quiet=report.quiet,
        problems=report.problems,
        editions=report.editions,
        meaning=MEANING,
        sayings=_sayings,
    )


def _sayings(finding: Finding) -> list[Saying]:
    lines = []
    for said in finding.verdict.statements:
        marks = [mark for mark, on in (("behind the act", said.lagging), ("an old answer", said.stale)) if on]
        text = f"{said.source} {said.edition or ''}: {said.says}" + (f" ({', '.join(marks)})" if marks else "")
        lines.append(Saying(text, said.link))
    return lines
