"""By which row of contract section 1 a row of an index is the name that was asked for, and the order of such rows."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from namekeeper.evidence.statements import Match, NameStatus
from namekeeper.sources.lists.chains import NameRow
from namekeeper.words.spelling import Likeness, epithet_ending_key, match_of, plain_keys


def by_word(key: Callable[[str], str], rest: str) -> str:
    """``key`` of every word of a folded name behind its genus."""
    return " ".join(map(key, rest.split(" ")))


def endings_of(rest: str) -> str:
    """The words behind the genus folded by row 2."""
    return by_word(epithet_ending_key, rest)


def grade(asked: str, row: NameRow, match: Match) -> Match:
    """``match``, or the same name where only a mark was read in another way (Art. 32.5.2)."""
    if asked.isascii() and row.name.isascii():
        return match
    return Match.SAME if match_of(asked, row.name) is Likeness.SAME else match


def graded_epithets(epithet: str, rows: Sequence[NameRow]) -> list[tuple[Match, NameRow]]:
    """Rows found by the ending of one epithet, each with its row of the contract."""
    keys = plain_keys(epithet)
    return ordered([(Match.SAME if row.rest in keys else Match.ENDING, row) for row in rows])


def ordered(graded: list[tuple[Match, NameRow]]) -> list[tuple[Match, NameRow]]:
    """The same spelling first, names in force first among these, then by the alphabet."""
    return sorted(
        graded, key=lambda pair: (pair[0] is not Match.SAME, pair[1].status != NameStatus.ACCEPTED, pair[1].name)
    )
