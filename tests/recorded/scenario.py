"""Scenarios as data: files to begin with, and command lines and a keeper's own edits in order."""

from __future__ import annotations

import shlex
from collections.abc import Mapping
from dataclasses import dataclass, field

Content = str | bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One command line; ``service`` names an answer of the fake services, ``days`` how long after the first day."""

    words: tuple[str, ...]
    stdin: str = ""
    terminal: bool = False
    environ: Mapping[str, str] = field(default_factory=dict)
    service: str = ""
    days: int = 0


@dataclass(frozen=True, slots=True)
class Put:
    """The keeper writes a file, folders above it included."""

    path: str
    content: Content


@dataclass(frozen=True, slots=True)
class Remove:
    """The keeper removes a file or folder."""

    path: str


Step = Run | Put | Remove


@dataclass(frozen=True, slots=True)
class Scenario:
    """Steps in a folder and home of their own; ``sample`` names the copy of the sample collection, if there is one."""

    name: str
    steps: tuple[Step, ...]
    files: Mapping[str, Content] = field(default_factory=dict)
    sample: str = ""


def run(
    line: str,
    *,
    stdin: str = "",
    terminal: bool = False,
    environ: Mapping[str, str] | None = None,
    service: str = "",
    days: int = 0,
) -> Run:
    """A command line as it would be typed behind ``namekeeper``."""
    words = tuple(shlex.split(line))
    return Run(words=words, stdin=stdin, terminal=terminal, environ=environ or {}, service=service, days=days)


def runs(*lines: str) -> tuple[Run, ...]:
    """Plain command lines."""
    return tuple(map(run, lines))


def collection(folder: str, specimens: Mapping[str, Content], settings: str = "") -> dict[str, Content]:
    """The files of a collection, by path."""
    files: dict[str, Content] = {f"{folder}/specimens/{key}.yaml": text for key, text in specimens.items()}
    return files | ({f"{folder}/collection.yaml": settings} if settings else {})
