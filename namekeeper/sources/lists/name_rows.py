"""A name as a list prints it, made ready for the index: canonical and authorship parted, status understood."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterable, Iterator

from namekeeper.evidence.statements import NameStatus
from namekeeper.sources.lists.folding import code_status_of, folded, status_of
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.interning import Interned
from namekeeper.sources.lists.skips import Skips
from namekeeper.words.errors import InputError
from namekeeper.words.spelling import epithet_ending_key, epithet_letter_key, plain_keys

_CANONICAL = re.compile("[A-Z][a-z]+(?:-[a-z]+)?(?: [a-z]+(?:-[a-z]+)*){0,2}", re.ASCII)
#: Name, perhaps subgenus, author in ordinary letters, year: read here, for speed; all else by the reader of names.
_WITH_AUTHOR = re.compile(
    r"(?P<genus>[A-Z][a-z]+)(?: \((?P<subgenus>[A-Z][a-z]+)\))?(?P<rest>(?: (?!(?:de|d|da|di|du|del|den|der|des|dos|el|la|le"
    r"|van|von|vom|zu|zur|ten|ter|et|in|ex)\b)[a-z]{2,}){1,2})(?: (?P<author>\(?[A-ZÀ-Þ][^\d()]+, \d{4}\)?))?"
)
_RANKS = {0: "genus", 1: "species", 2: "subspecies"}
_FAMILY_ENDINGS = (("oidea", "superfamily"), ("idae", "family"), ("inae", "subfamily"))
_ANIMAL_CODES = frozenset({"", "iczn", "zoological"})


class NameRows:
    """Turns usages into values for the table ``name``; remembers which kingdoms and codes it met."""

    def __init__(self, database: sqlite3.Connection, sources: Interned, skips: Skips) -> None:
        self._database = database
        self._sources = sources
        self._skips = skips
        self._lineages = Interned(database, "INSERT INTO lineage (id, higher, kingdom) VALUES (?, ?, ?)")
        self.kingdoms: set[str] = set()

    def values(self, rows: Iterable[UsageRow]) -> Iterator[tuple[object, ...]]:
        """One tuple a usage that can be used, in the order of ``schema.NAME_COLUMNS``."""
        for row in rows:
            try:
                name, authorship = _parted(row.name, row.authorship)
                status = _status(row)
            except InputError as error:
                self._skips.add(row.line, error.what)
                continue
            genus, _, rest = folded(name).partition(" ")
            if not name.isascii():
                self._other_readings(name, rest)
            yield (
                genus, rest, name, authorship, row.rank.lower() or _rank_of(name), status,
                row.key or None, *_target(row, status), row.parent_key or None, self._lineage(row, name),
                row.original_genus or None, row.original_key or None, row.range or None,
                self._sources.of(row.citation, row.link), 1 if row.confidence == "memory" else 0,
                row.remarks or None, row.line,
            )  # fmt: skip

    def _lineage(self, row: UsageRow, name: str) -> int | None:
        kingdom = row.kingdom
        if kingdom:
            self._met(kingdom)
        elif row.rank and row.rank.lower() == "kingdom":
            self._met(name)
        elif row.code and row.code.casefold() not in _ANIMAL_CODES:
            self._met(f"the {row.code} code")
        elif row.code:
            self._met("Animalia")
        if not (row.family or row.order or row.class_ or kingdom):
            return None
        higher = ";".join(filter(None, (row.family, row.order, row.class_)))
        return self._lineages.of(higher, kingdom)

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


def _parted(text: str, authorship: str) -> tuple[str, str]:
    """Canonical name and authorship.

    :raises InputError: if the text is no name in force of the Code's form: open nomenclature, a formula, no name.
    """
    if _CANONICAL.fullmatch(text):
        return text, authorship
    name = " ".join(text.split())
    if authorship and name.endswith(authorship):
        name = name[: -len(authorship)].rstrip(" ,")
    found = _WITH_AUTHOR.fullmatch(name)
    if found:
        return found["genus"] + found["rest"], authorship or found["author"] or ""
    return _read(name, authorship)


def _read(text: str, authorship: str) -> tuple[str, str]:
    from namekeeper.words.names import parse_name

    if not text:
        raise InputError("no name in this row")
    if "\ufffd" in text:
        raise InputError(f"name {text!r} has lost letters (its encoding was damaged)")
    name = parse_name(text)
    if name.qualifier or name.trade_form or name.phrase or name.parents or name.hybrid or name.abbreviated:
        raise InputError(f"{text!r} is open nomenclature or a hybrid, not a name of a taxon")
    if not name.canonical:
        raise InputError(f"{text!r} is no scientific name")
    return name.canonical, authorship or str(name.authorship or "")


def _status(row: UsageRow) -> NameStatus:
    status = status_of(row.status)
    if status is None:
        raise InputError(f"status {row.status!r} is not known")
    if not row.status and ((row.accepted_key and row.accepted_key != row.key) or _names_another(row)):
        status = NameStatus.SYNONYM
    if row.name_status and status is NameStatus.ACCEPTED:
        return code_status_of(row.name_status) or status
    return status


def _names_another(row: UsageRow) -> bool:
    return bool(row.accepted_name) and folded(_parted(row.accepted_name, "")[0]) != folded(_parted(row.name, "")[0])


def _target(row: UsageRow, status: NameStatus) -> tuple[str | None, str | None]:
    if row.accepted_key:
        own = row.accepted_key == row.key and status is NameStatus.ACCEPTED
        return (None if own else row.accepted_key), None
    if not row.accepted_name or (status is NameStatus.ACCEPTED and not _names_another(row)):
        return None, None
    return None, folded(_parted(row.accepted_name, "")[0])


def _rank_of(name: str) -> str:
    words = name.count(" ")
    if words == 0:
        return next((rank for ending, rank in _FAMILY_ENDINGS if name.endswith(ending)), "genus")
    return _RANKS[min(words, 2)]
