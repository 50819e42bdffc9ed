"""The text of a specimen's file or of ``collection.yaml`` as values, with every problem found on the way."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches
from types import MappingProxyType
from typing import Any

from namekeeper.records.as_json import TEXTS
from namekeeper.records.checks import problems_of
from namekeeper.records.sexes import read_sex
from namekeeper.records.specimen import Decision, Left, NameEntry, Paper, Settings, Sex, Specimen
from namekeeper.storage.file_keys import (
    DECISION_KEYS,
    ENTRY_KEYS,
    LEFT_KEYS,
    PAPER_KEYS,
    SETTINGS_KEYS,
    SPECIMEN_KEYS,
)
from namekeeper.storage.yaml_text import (
    MappingNode,
    Node,
    ScalarNode,
    SequenceNode,
    TextFault,
    compose,
    line_of_node,
    plain,
)
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Place, Problem

#: Problems told of one file, and characters of what is wrong.
_MOST, _LONGEST = 50, 300
#: Characters of a value: what is longer is no tag or name, and every command would work on it for minutes.
_SHORT, _ROOM, _NOTE = 1_000, 10_000, 100_000
_SHORT_KEYS = frozenset({"name", "authorship", "qualifier", "trade_form", "form", "sex"})
_ENTRY_DATES = frozenset({"since", "recorded"})


@dataclass(slots=True)
class SpecimenReader:
    """Reads many files of one collection; equal dates and sexes are parsed once."""

    today: date
    _dates: dict[str, PartialDate] = field(default_factory=dict)
    _sexes: dict[str, Sex] = field(default_factory=dict)

    def read(
        self, text: str, identifier: str, file: str, revision: str = ""
    ) -> tuple[Specimen | None, tuple[Problem, ...]]:
        """The specimen, or None with its problems; ``text`` has no byte-order mark, ``revision`` is of its bytes."""
        reading = _FileReading(Place(file, 1, identifier), self._dates, self._sexes)
        with suppress(_EnoughError):
            return reading.specimen(text, self.today, revision)
        return None, tuple(reading.problems)


class _EnoughError(Exception):
    """So much is wrong that the rest of the file need not be looked at."""


class _FileReading:
    """One file being read: its place, the problems so far, the lines of its keys."""

    def __init__(self, place: Place, dates: dict[str, PartialDate], sexes: dict[str, Sex]) -> None:
        self.place = place
        self.dates = dates
        self.sexes = sexes
        self.problems: list[Problem] = []

    def complain(self, node: Node | int, what: str, remedy: str) -> None:
        """Note a problem.

        :raises _EnoughError: if more is wrong than a keeper would read.
        """
        line = node if isinstance(node, int) else line_of_node(node)
        shown = what if len(what) <= _LONGEST else f"{what[: _LONGEST // 2]} ... {what[-_LONGEST // 2 :]}"
        self.problems.append(Problem(shown, remedy, Place(self.place.file, line, self.place.specimen)))
        if len(self.problems) > _MOST:
            more = "more is wrong from here on, and not told"
            self.problems[-1] = Problem(more, "correct what is told, then look again", self.problems[-1].place)
            raise _EnoughError

    def specimen(self, text: str, today: date, revision: str) -> tuple[Specimen | None, tuple[Problem, ...]]:
        root = self.root(text)
        if root is None:
            return None, tuple(self.problems)
        lines: dict[str, int] = {}
        fields: dict[str, Any] = {}
        for key, node in root.value:
            name = key.value if type(key) is ScalarNode else ""
            if name not in SPECIMEN_KEYS or name in lines:
                self.key(key, lines, SPECIMEN_KEYS)
                continue
            lines[name] = key.start_mark.line + 1
            if name in TEXTS:
                short = type(node) is ScalarNode and len(node.value) <= _SHORT
                fields[TEXTS[name]] = node.value if short else self.text(name, node)
            else:
                target, read = _SPECIAL[name]
                fields[target] = read(self, name, node)
        if not self.problems:
            specimen = Specimen(self.place.specimen or "", self.place, **fields, revision=revision)
            for problem in problems_of(specimen, lines, today):
                self.complain(problem.place.line or 1, problem.what, problem.remedy)
            if not self.problems:
                return specimen, ()
        return None, tuple(self.problems)

    def root(self, text: str) -> MappingNode | None:
        try:
            root = compose(text)
        except TextFault as fault:
            self.complain(fault.line, fault.what, fault.remedy)
            return None
        if root is None:
            self.complain(1, "the file is empty", "write at least a line tag: with the seller's text")
        elif not isinstance(root, MappingNode):
            self.complain(root, "the file does not consist of keys and values", "begin with a line like tag: ...")
        else:
            return root
        return None

    def key(self, node: Node, seen: dict[str, int], known: tuple[str, ...]) -> str | None:
        """The key's name, noted in ``seen``; None with a problem if it is unknown or stands twice."""
        name = node.value if type(node) is ScalarNode else ""
        if name in seen:
            self.complain(node, f"{name}: stands twice (first in line {seen[name]})", "keep one of the two")
            return None
        if name not in known:
            near = get_close_matches(str(name), known, 1)
            remedy = f"did you mean {near[0]}:?" if near else "known keys: " + ", ".join(known)
            self.complain(node, f"unknown key '{name}'" if name else "a key that is no plain word", remedy)
            return None
        seen[name] = node.start_mark.line + 1
        return str(name)

    def text(self, name: str, node: Node) -> str:
        if type(node) is not ScalarNode:
            self.complain(node, f"{name}: holds a list where a text belongs", "write one text, in quotes if need be")
            return ""
        room = _SHORT if name in _SHORT_KEYS else _NOTE if name == "note" else _ROOM
        if len(node.value) > room:
            self.complain(node, f"{name}: holds more than {room} characters", "shorten it, or keep the text elsewhere")
            return ""
        return str(node.value)

    def date(self, name: str, node: Node) -> PartialDate | None:
        text = self.text(name, node)
        found = self.dates.get(text)
        if found is None and text:
            try:
                found = self.dates[text] = PartialDate.parse(text)
            except ValueError as error:
                self.complain(node, f"{name}: {error}", "write dates as 2014-05-03, 2014-05 or 2014")
        return found

    def sex(self, name: str, node: Node) -> Sex | None:
        text = self.text(name, node)
        if not text or text in self.sexes:
            return self.sexes.get(text)
        try:
            sex = self.sexes[text] = Sex.parse(text)
            return sex
        except ValueError as error:
            with suppress(ValueError):
                return read_sex(text)  # as keepers write it by hand
            self.complain(node, f"{name}: {error}", "write 1.0.0 for a male, 0.1.0 for a female, 0.0.1 if not known")
            return None

    def texts(self, name: str, node: Node) -> tuple[str, ...]:
        """One text or a list of texts."""
        items = node.value if type(node) is SequenceNode else [node]
        return tuple(text for text in (self.text(name, item) for item in items) if text)

    def left(self, name: str, node: Node) -> Left | None:
        if type(node) is ScalarNode and not node.value:
            return None
        fields = self.record(name, node, LEFT_KEYS, frozenset({"date"}))
        if fields is None:
            return None
        if not fields.get("how"):
            self.complain(node, "left: does not say how", "write left: {date: 2021-06-01, how: sold}")
        return Left(fields.get("date"), fields.get("how", ""))

    def names(self, name: str, node: Node) -> tuple[NameEntry, ...]:
        entries = []
        for item in self.items(name, node):
            before = len(self.problems)
            fields = self.record(name, item, ENTRY_KEYS, _ENTRY_DATES)
            if fields is None or len(self.problems) > before:
                continue
            if not fields.get("name", "").strip():
                self.complain(item, "an entry of names: without name:", "write the name, or delete the entry")
                continue
            entries.append(NameEntry(line=item.start_mark.line + 1, **fields))
        return tuple(entries)

    def decisions(self, name: str, node: Node) -> tuple[Decision, ...]:
        decisions = []
        for item in self.items(name, node):
            fields = self.record(name, item, DECISION_KEYS, frozenset({"recorded"}))
            if fields is not None:
                kind, recorded = fields.pop("kind", ""), fields.pop("recorded", None)
                decisions.append(Decision(kind, recorded, line=line_of_node(item), **fields))
        return tuple(decisions)

    def papers(self, name: str, node: Node) -> tuple[Paper, ...]:
        papers = []
        for item in self.items(name, node):
            fields = self.record(name, item, PAPER_KEYS, frozenset({"date"}))
            if fields is None:
                continue
            if not fields.get("kind"):
                self.complain(item, "an entry of papers: without kind:", "say what kind of paper it is")
                continue
            papers.append(Paper(**fields))
        return tuple(papers)

    def items(self, name: str, node: Node) -> list[Node]:
        if type(node) is SequenceNode:
            return list(node.value)
        if not (type(node) is ScalarNode and node.value == "" and not node.style):
            self.complain(node, f"{name}: is no list", "begin each entry with a dash")
        return []

    def record(self, name: str, node: Node, known: tuple[str, ...], dated: frozenset[str]) -> dict[str, Any] | None:
        if type(node) is not MappingNode:
            self.complain(
                node, f"{name}: an entry that does not consist of keys and values", f"known keys: {known[0]}: ..."
            )
            return None
        fields: dict[str, Any] = {}
        for key, value in node.value:
            word = key.value if type(key) is ScalarNode else ""
            if word not in known or word in fields:
                self.key(key, {word: _first_line(node, word)} if word in fields else {}, known)
            elif word in dated and type(value) is ScalarNode:
                fields[word] = self.dates.get(value.value) or self.date(word, value)
            elif type(value) is not ScalarNode or len(value.value) > _SHORT:
                fields[word] = self.text(word, value)
            else:
                fields[word] = value.value
        return fields


def _first_line(node: MappingNode, word: str) -> int:
    return next(line_of_node(key) for key, _ in node.value if key.value == word)


_SPECIAL = MappingProxyType(
    {
        "acquired": ("acquired", _FileReading.date),
        "sex": ("sex", _FileReading.sex),
        "from": ("origin", _FileReading.texts),
        "papers": ("papers", _FileReading.papers),
        "left": ("left", _FileReading.left),
        "names": ("names", _FileReading.names),
        "decisions": ("decisions", _FileReading.decisions),
    }
)


def read_settings(text: str, file: str) -> tuple[Settings, tuple[Problem, ...]]:
    """``collection.yaml``; what is wrong in it is left out and told."""
    reading = _FileReading(Place(file, 1), {}, {})
    if all(not line.strip() or line.lstrip().startswith("#") for line in text.splitlines()):
        return Settings(), ()
    with suppress(_EnoughError):
        root = reading.root(text)
        if root is not None:
            return _settings_in(root, reading), tuple(reading.problems)
    return Settings(), tuple(reading.problems)


def _settings_in(root: MappingNode, reading: _FileReading) -> Settings:
    seen: dict[str, int] = {}
    raw: dict[str, object] = {}
    fields: dict[str, Any] = {}
    for key, node in root.value:
        name = reading.key(key, seen, SETTINGS_KEYS)
        if name in ("title", "locality", "by"):
            fields[name] = reading.text(name, node)
        elif name == "trust_order" or (name == "services" and type(node) is not MappingNode):
            fields[name] = reading.texts(name, node)
        if name is not None:
            raw[name] = plain(node)
    return Settings(**fields, raw=raw)
