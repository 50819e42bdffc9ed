"""What the JSON documents of all commands share, so that one thing is spelt one way in each of them.

A document always has the same keys. What is not known, not given or not asked for is null. Days are ISO 8601, files as
the keeper named them. What happened, and why, is a word of a closed set; the sentence that a keeper reads stands beside
it. What version 0.1 printed stays as it was: texts are empty and not null in ``authorship``, ``leftover``, ``warning``,
``sheet`` of a table, the ``id`` of a change and name entries, and ``line`` is 0 of a row whose line is not known.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from namekeeper.evidence.statements import Edition, Failure
from namekeeper.faces.telling.sources import failed
from namekeeper.words.errors import Problem

Rows = list[dict[str, object]]


def code(word: StrEnum) -> str:
    """A word of a closed set, without blanks."""
    return word.value.replace(" ", "-")


def problem_rows(problems: Iterable[Problem]) -> Rows:
    """What is wrong, and what to do."""
    return [
        {
            "specimen": one.place.specimen or None,
            "file": one.place.file or None,
            "line": one.place.line,
            "what": one.what,
            "remedy": one.remedy,
        }
        for one in problems
    ]


def failure_rows(failures: Iterable[Failure]) -> Rows:
    """Sources that were meant to be asked and could not be."""
    return [
        {"source": one.edition.source, "edition": one.edition.edition, "reason": code(one.kind), "why": failed(one)}
        for one in failures
    ]


def edition_rows(editions: Iterable[Edition]) -> Rows:
    """The sources that were asked, and how old they are."""
    return [
        {"source": one.source, "edition": one.edition, "dated": str(one.dated) if one.dated else None}
        for one in editions
    ]
