"""Calls without a job: help, versions, what there is not; and the demo."""

from __future__ import annotations

from tests.recorded.scenario import Put, Scenario, run, runs

_VERBS = ("lookup", "check", "settle", "history", "aka", "labels", "lists", "collection", "tables", "services")
_OTHERS = ("browse", "pocket", "demo")
_ACTS = (
    *(f"lists {action}" for action in ("add", "fetch", "compare", "use", "remove")),
    *(f"collection {act}" for act in ("new", "add", "verify", "left", "count", "join", "import", "export")),
)

SCENARIOS = (
    Scenario(
        "help",
        (
            *runs("", "-h", "--help", "help", "--version", "-V"),
            *(run(f"{verb} --help") for verb in (*_VERBS, *_OTHERS, *_ACTS)),
        ),
    ),
    Scenario(
        "no-such-command",
        (
            *runs("lokup GBB", "chek animals", "xyzzy", "''", "--jsn", "-x", "LOOKUP GBB", "browse animals"),
            *runs("pocket animals -o pocket.html", "pocket", "services --lve", "check", "settle", "history", "tables"),
            *runs("aka", "lists frobnicate", "lists add", "collection", "collection frob animals", "collection add"),
            *runs("lookup --on", "check a -- b -- c", "settle animals --max-age soon", "demo one two"),
            run("", terminal=True),
            run("xyzzy", terminal=True),
        ),
    ),
    Scenario(
        "demo",
        (
            *runs("demo", "demo --json", "check namekeeper-demo --offline --json", "history namekeeper-demo HW-011"),
            *runs("labels namekeeper-demo --status"),
            Put("in-the-way", "a file\n"),
            *runs("demo -o in-the-way/below", "demo -o in-the-way"),
        ),
    ),
)
