"""The report of a check as a page of HTML that stands alone, and how such pages are made."""

from __future__ import annotations

import base64
from typing import NamedTuple

from namekeeper import resources
from namekeeper.faces.telling.sources import ages
from namekeeper.faces.telling.standings import LAGGING, MEANING, STALE_ANSWER, beside, counts, state
from namekeeper.faces.telling.verdicts import grounds, lines, why
from namekeeper.tasks.check import Finding, Report


class Saying(NamedTuple):
    """One line of evidence on a page."""

    text: str
    link: str | None


def check_page(report: Report, *, offline: bool) -> str:
    """The report of a check."""
    return rendered(
        "check.html.j2",
        title=report.title,
        report=report,
        offline=offline,
        summary=counts(report.summary),
        decide=report.to_decide,
        safe=report.safe,
        quiet=report.quiet,
        problems=report.problems,
        editions=report.editions,
        ages=tuple(ages(report.editions, report.checked_on)),
        meaning=MEANING,
        state=state,
        beside=beside,
        sayings=_sayings,
        why=why,
        grounds=grounds,
    )


def _sayings(finding: Finding) -> list[Saying]:
    sayings = []
    for said in lines(finding.verdict):
        marks = [mark for mark, on in ((LAGGING, said.lagging), (STALE_ANSWER, said.stale)) if on]
        text = f"{said.source} {said.edition or ''}: {said.says}" + (f" ({', '.join(marks)})" if marks else "")
        sayings.append(Saying(text, said.link))
    return sayings


def rendered(template: str, *, folder: str = "report", **values: object) -> str:
    """The page of a template in that folder of ``data``; whatever is put in is escaped."""
    import jinja2

    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    text = (resources.data(folder) / template).read_text(encoding="utf-8")
    return environment.from_string(text).render(**{"look": _look(), **values} if folder == "report" else values)


def _look() -> str:
    """The style of the pages with its typeface in it, so that a page stands alone."""
    style = (resources.data("report") / "look.css").read_text(encoding="utf-8")
    face = base64.b64encode(resources.screen_face().read_bytes()).decode()
    source = f'src:url(data:font/woff;base64,{face}) format("woff")'
    return f"@font-face{{font-family:Label;font-style:italic;font-weight:500;{source}}}\n{style}"
