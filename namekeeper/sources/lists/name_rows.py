"""A name as a list prints it, made ready for the index: canonical and authorship parted, status understood."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from html import unescape
from itertools import islice

from namekeeper.evidence.statements import NameStatus
from namekeeper.sources.lists import schema
from namekeeper.sources.lists.folding import code_status_of, folded, status_of
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.list_file import Skips
from namekeeper.sources.lists.status_words import RANK_WORDS
from namekeeper.words.errors import InputError
from namekeeper.words.forms import canonical_of, is_plain_line
from namekeeper.words.spelling import epithet_ending_key, epithet_letter_key, plain_keys

#: Canonical already, and ``lower`` is all the folding it needs.
_CANONICAL = re.compile("[A-Z][a-z]+(?: [a-z]+){0,2}")
#: Name, perhaps subgenus, author in ordinary letters, year: read here, for speed; all else by the reader of names.
_WITH_AUTHOR = re.compile(
    r"(?P<genus>[A-Z][a-z]+(?:-[a-z]+)*)(?: \([A-Z][a-z]+\))?"
    r"(?P<rest>(?: (?!(?:d|de|da|di|du|del|den|der|des|dos|el|la|le|van|von|vom|zu|zur|ten|ter|et|in|ex)\b)"
    r"[a-z]{2,}(?:-[a-z]+)*){1,2})"
    r"(?: (?P<author>\(?[A-ZÀ-Þ][^\d()]+, \d{4}\)?))?"
)
_ITALICS = re.compile("</?(?:i|em)>")  # how some catalogues print a name
_FAMILY_ENDINGS = (("oidea", "superfamily"), ("idae", "family"), ("inae", "subfamily"))
#: Ranks that need no second look.
_RANKS = frozenset({"species", "subspecies", "genus", "subgenus", "family", "subfamily", "order", "class", "kingdom"})
_ANIMAL_CODES = frozenset({"iczn", "zoological"})
_BATCH = 1_000
_Values = tuple[str | int, ...]
_Columns = dict[str, Sequence[str | int]]
_ORDER = (*schema.REQUIRED, *schema.DEFAULTS)
_BINOMEN = "[A-Z][a-z]+(?:-[a-z]+)* [a-z]+(?:-[a-z]+)*"
#: Canonical too, as in a batch taken by the column, whatever its second word looks like ("in", "de").
_HYPHENED = re.compile(_BINOMEN)
_BINOMINA = re.compile(f"{_BINOMEN}(?:\n{_BINOMEN})*")
#: Fields of which every cell has to be looked at; a batch in which they are empty can be taken by the column.
_TO_BE_UNDERSTOOD = frozenset({
    "rank", "status", "accepted_name", "family", "order", "class_", "kingdom", "code", "name_status", "citation",
})  # fmt: skip
#: Columns that are written as the list says them, by the field that holds them.
_AS_IT_IS = {
    "authorship": "authorship", "key": "key", "parent_ref": "parent_key", "original_genus": "original_genus",
    "original_ref": "original_key", "range": "range", "note": "remarks", "as_of": "as_of",
    "revised": "revised",
}  # fmt: skip
Progress = Callable[[int, int | None, str], None]


class NameRows:
    """Turns usages into rows of the table ``name``; remembers which kingdoms and codes it met."""

    def __init__(self, database: sqlite3.Connection, sources: schema.Interned, skips: Skips) -> None:
        self._database = database
        self._sources = sources
        self._skips = skips
        self._lineages = schema.Interned(database, "INSERT INTO lineage (id, higher, kingdom) VALUES (?, ?, ?)")
        self.kingdoms: set[str] = set()
        self.columns: set[str] = set()  # that hold something
        self.count = 0

    def insert(self, rows: Iterable[UsageRow], progress: Progress) -> None:
        """Write all usages that can be used, a batch at a time: memory does not grow with the list."""
        rows = iter(rows)
        while batch := list(islice(rows, _BATCH)):
            columns = _bare_columns(batch) or self._columns(batch)
            self.columns.update(_insert(self._database, columns))
            self.count += len(columns["name"])
            progress(self.count, None, "names")

    def _columns(self, batch: list[UsageRow]) -> _Columns:
        values = list(self._values(batch))
        columns = zip(*values, strict=True) if values else [()] * len(_ORDER)
        return dict(zip(_ORDER, columns, strict=True))

    def _values(self, rows: Iterable[UsageRow]) -> Iterator[_Values]:
        """One tuple a usage, in the order of ``schema.REQUIRED`` and ``schema.DEFAULTS``."""
        for row in rows:
            (
                line, key, name, authorship, rank, status, accepted_key, accepted_name, parent_key, original_genus,
                original_key, areas, family, order, class_, kingdom, code, name_status, remarks, citation,
                link, confidence, as_of, revised,
            ) = row  # fmt: skip
            try:
                if _CANONICAL.fullmatch(name):
                    genus, _, rest = name.lower().partition(" ")
                elif _HYPHENED.fullmatch(name):
                    genus, rest = self._folded(name)
                else:
                    name, authorship = parted(name, authorship)
                    genus, rest = self._folded(name)
                if status or accepted_key or accepted_name or name_status:
                    standing = self._standing(row)
                    target_key, target_name = _target(row, standing)
                else:
                    standing, target_key, target_name = NameStatus.ACCEPTED, "", ""
            except InputError as error:
                self._skips.add(line, error.what)
                continue
            if not _is_bare(authorship):
                authorship = self._author(line, authorship)
            above = self._lineage(row, name) if family or order or class_ or kingdom or code or rank == "kingdom" else 0
            if not rank:
                rank = "subspecies" if " " in rest else "species" if rest else _rank_of_one_word(name)
            elif rank not in _RANKS:
                rank = RANK_WORDS.get(rank.lower(), rank.lower())
            yield (
                genus, rest, name, line, authorship, rank, standing,
                key, target_key, target_name, parent_key, above, original_genus, original_key, areas,
                self._sources.of(citation, link) if citation else 0, 1 if confidence == "memory" else 0, remarks,
                as_of, revised,
            )  # fmt: skip

    def _author(self, line: int, authorship: str) -> str:
        """An authorship that is what it looks like; one that is not is left out and told."""
        plain = _plainly(authorship)
        if is_plain_line(plain):
            return plain
        self._skips.tell(line, f"authorship {authorship!a} holds signs that stand in none, and is left out")
        return ""

    def _standing(self, row: UsageRow) -> NameStatus:
        status = status_of(row.status)
        if status is None:
            status = _by_target(row)
            held = "in force" if status is NameStatus.ACCEPTED else "a synonym"
            self._skips.tell(row.line, f"status {row.status!r} is not known: {held} by the accepted name in the row")
        elif not row.status.strip() and ((row.accepted_key and row.accepted_key != row.key) or _names_another(row)):
            status = NameStatus.SYNONYM
        if row.name_status and status is NameStatus.ACCEPTED:
            return code_status_of(row.name_status) or status
        return status

    def _folded(self, name: str) -> tuple[str, str]:
        genus, _, rest = folded(name).partition(" ")
        if not name.isascii():
            self._other_readings(name, rest)
        return genus, rest

    def _lineage(self, row: UsageRow, name: str) -> int:
        if row.kingdom:
            self._met(row.kingdom)
        elif row.rank == "kingdom":
            self._met(name)
        elif row.code:
            self._met("Animalia" if row.code.casefold() in _ANIMAL_CODES else f"the {row.code} code")
        higher = ";".join(filter(None, (row.family, row.order, row.class_)))
        return self._lineages.of(higher, row.kingdom)

    def _met(self, kingdom: str) -> None:
        if len(self.kingdoms) < 100:
            self.kingdoms.add(kingdom.casefold())

    def _other_readings(self, name: str, rest: str) -> None:
        """Art. 32.5.2.1: an umlaut may be written out; the other reading finds the name as well."""
        for key in plain_keys(name)[1:]:
            form = key.partition(" ")[2]
            if form != rest:
                words = form.split(" ")
                ending = " ".join(map(epithet_ending_key, words))
                letters = " ".join(map(epithet_letter_key, words))
                self._database.execute("INSERT INTO epithet VALUES (?, ?, ?, ?)", (form, rest, ending, letters))


def parted(text: str, authorship: str) -> tuple[str, str]:
    """Canonical name and authorship.

    :raises InputError: if the text is no name in force of the Code's form: open nomenclature, a formula, no name.
    """
    if _CANONICAL.fullmatch(text):
        return text, authorship
    name = _plainly(text)
    if authorship and name.endswith(authorship):
        name = name[: -len(authorship)].rstrip(" ,")
    found = _WITH_AUTHOR.fullmatch(name)
    if found and is_plain_line(name):
        return found["genus"] + found["rest"], authorship or found["author"] or ""
    return _read(name, authorship)


def _is_bare(authorship: str) -> bool:
    """Whether nothing in a text, or in many at once, needs a closer look."""
    return authorship.isprintable() and "<" not in authorship and ";" not in authorship


def _plainly(text: str) -> str:
    """One line without the marks of a page that stand around names and authors."""
    bare = unescape(_ITALICS.sub("", text)) if "<" in text or "&" in text else text
    return " ".join(bare.split())


def _read(text: str, authorship: str) -> tuple[str, str]:
    from namekeeper.words.parsing import parse_name

    if not text:
        raise InputError("no name in this row")
    if "\ufffd" in text:
        message = f"name {text!r} has lost letters (its encoding was damaged)"
        raise InputError(message)
    if not is_plain_line(text):
        message = f"{text!a} holds signs that stand in no name"
        raise InputError(message)
    name = parse_name(text)
    if name.qualifier or name.trade_form or name.phrase or name.parents or name.hybrid or name.abbreviated:
        message = f"{text!r} is open nomenclature or a hybrid, not a name of a taxon"
        raise InputError(message)
    if not canonical_of(name.canonical):
        message = f"{text!r} is no scientific name"
        raise InputError(message)
    return name.canonical, authorship or str(name.authorship or "")


def _bare_columns(batch: list[UsageRow]) -> _Columns | None:
    """Columns of a batch of plain binomina that say no more than what is sunk into what; None if it is anything else.

    Most keepers' tables are so, and by the column they are worked several times as fast as by the row.
    """
    nothing = ("",) * len(batch)
    held = {
        field: column
        for field, column in zip(UsageRow._fields, zip(*batch, strict=True), strict=True)
        if column != nothing
    }
    printed = "\n".join(held.get("name", ()))
    if not _TO_BE_UNDERSTOOD.isdisjoint(held) or not _BINOMINA.fullmatch(printed):
        return None
    if "memory" in held.get("confidence", ()) or not _is_bare("".join(held.get("authorship", ()))):
        return None
    # Folding by row 1 of contract section 1 for these letters; a hyphen goes (Art. 32.5.2.3).
    folded_names = [name.partition(" ") for name in printed.lower().replace("-", "").split("\n")]
    if len(folded_names) != len(batch):
        return None
    genera, _, rests = zip(*folded_names, strict=True)
    keys, accepted = held.get("key", nothing), held.get("accepted_key", nothing)
    sunk = (
        [target if target != key else "" for key, target in zip(keys, accepted, strict=True)]
        if accepted is not nothing
        else accepted
    )
    return {
        "genus": genera,
        "rest": rests,
        "name": held["name"],
        "line": held["line"],
        "status": ["synonym" if target else "accepted" for target in sunk] if any(sunk) else (),
        "target_ref": sunk,
        **{column: held[field] for column, field in _AS_IT_IS.items() if field in held},
    }


def _insert(database: sqlite3.Connection, columns: _Columns) -> list[str]:
    """Write a batch, leaving columns that hold only their default; returns the columns written."""
    size = len(columns["name"])
    names = [
        name
        for name, column in columns.items()
        if name not in schema.DEFAULTS or (column and column.count(schema.DEFAULTS[name]) < size)
    ]
    marks = ", ".join("?" * len(names))
    query = f"INSERT INTO name ({', '.join(names)}) VALUES ({marks})"  # noqa: S608 - columns are ours
    database.executemany(query, zip(*(columns[name] for name in names), strict=True))
    return names


def _by_target(row: UsageRow) -> NameStatus:
    """Where the word of status says nothing, what the row points to does.

    :raises InputError: if it points nowhere.
    """
    if row.accepted_key:
        return NameStatus.ACCEPTED if row.accepted_key == row.key else NameStatus.SYNONYM
    if row.accepted_name:
        return NameStatus.SYNONYM if _names_another(row) else NameStatus.ACCEPTED
    message = f"status {row.status!r} is not known"
    raise InputError(message)


def _names_another(row: UsageRow) -> bool:
    return bool(row.accepted_name) and folded(parted(row.accepted_name, "")[0]) != folded(parted(row.name, "")[0])


def _target(row: UsageRow, status: NameStatus) -> tuple[str, str]:
    if row.accepted_key:
        own = row.accepted_key == row.key and status is NameStatus.ACCEPTED
        return ("" if own else row.accepted_key), ""
    if not row.accepted_name or (status is NameStatus.ACCEPTED and not _names_another(row)):
        return "", ""
    return "", folded(parted(row.accepted_name, "")[0])


def _rank_of_one_word(name: str) -> str:
    return next((rank for ending, rank in _FAMILY_ENDINGS if name.endswith(ending)), "genus")
