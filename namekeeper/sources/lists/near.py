"""Similar spelling in an index: few look-ups that cannot miss two errors, then exact distances on what they bring.

A name is at most two edits away only if one of its words is at most one edit away (or the error sits at the space
between them). Words one edit away share a whole half (``schema.SIMILAR_INDEXES``); for each such word all its partners
are compared. Distances are optimal string alignment: insert, drop, change, swap of neighbours.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Sequence, Set
from itertools import pairwise

from rapidfuzz import process
from rapidfuzz.distance import OSA, JaroWinkler

from namekeeper.evidence.interfaces import MOST_OF_A_GENUS, Closeness, Near
from namekeeper.evidence.statements import CommonName, Match, Statement
from namekeeper.sources.lists.chains import COLUMNS, Chains, NameRow
from namekeeper.sources.lists.commons import Commons
from namekeeper.sources.lists.folding import common_words, folded
from namekeeper.sources.lists.grading import endings_of, graded_epithets
from namekeeper.words.spelling import PlainKey, plain_keys

_EQUAL = f"SELECT {COLUMNS} FROM name n WHERE n.genus = ? AND n.rest = ?"  # noqa: S608 - columns are ours
#: Answered from an index alone.
_OF_GENUS = "SELECT id, genus || ' ' || rest FROM name WHERE genus = ? AND rest <> '' ORDER BY rest LIMIT ?"
_OF_EPITHET = "SELECT n.id, n.genus || ' ' || n.rest FROM epithet e JOIN name n ON n.rest = e.rest WHERE e.ending = ?"
_WORDS = "SELECT group_concat(text, char(10)) FROM word WHERE kind = ?1 AND length(text) = ? AND "
_FIRST_HALF = _WORDS + "substr(text, 1, length(text) / 2) = ?"
_LAST_HALF = _WORDS + "substr(text, length(text) / 2 + 1) = ?"
#: Words of three lengths by a half each, and one whole word.
_HALVES = " UNION ALL ".join(
    [_FIRST_HALF] * 3 + [_LAST_HALF] * 3 + ["SELECT text FROM word WHERE kind = ?1 AND text = ?"]
)
_SAME_START = _WORDS + "substr(text, 1, length(text) / 2) >= ? AND substr(text, 1, length(text) / 2) < ?"
#: Words of five lengths by their last half, and by their first letter.
_TWO_EDITS = " UNION ALL ".join([_LAST_HALF] * 5 + [_SAME_START] * 5)
#: What goes with a word, of a length from ``?`` to ``?``: rests of a genus, genera of a rest, whole names of either.
_RESTS = "SELECT group_concat(rest, char(10)) FROM name WHERE genus = ? AND rest <> '' AND length(rest) BETWEEN ? AND ?"
_GENERA = "SELECT group_concat(genus, char(10)) FROM name WHERE rest = ? AND length(genus) BETWEEN ? AND ?"
_NAMES = "SELECT group_concat(genus || ' ' || rest, char(10)) FROM name WHERE "
_WITHIN_LENGTHS = " AND length(genus) + 1 + length(rest) BETWEEN ? AND ?"
_NAMES_OF_GENUS = _NAMES + "genus = ? AND rest <> ''" + _WITHIN_LENGTHS
_NAMES_OF_EPITHET = _NAMES + "rest = ?" + _WITHIN_LENGTHS
#: Without a hit within two edits, so many are tried for the word beside one that is nearly right.
_WIDE = 4
_SCORE_FLOOR = 0.6
_MOST_BLANKS = 4
#: In shorter words two edits leave nothing of the word.
_SHORTEST_OF_TWO = 4


def similar_names(database: sqlite3.Connection, chains: Chains, name: str, limit: int) -> tuple[Near, ...]:
    """Listed names spelt like ``name``, nearest first; see ``NameList.similar``."""
    genus, _, rest = name.strip().partition(" ")
    if rest and (genus.endswith(".") or len(genus) == 1):
        start, compared = folded(genus.rstrip(".")), folded(rest.strip())
        found = _with_epithet_like(database, compared, start)
    else:
        start, compared = PlainKey(""), folded(name.strip())
        found = _whole(database, compared)
    near: list[Near] = []
    for distance, listed in _ranked(f"{start} {compared}".strip(), found)[:limit]:
        rows = database.execute(_EQUAL, listed).fetchall()
        statements = chains.statements(name, [(Match.SIMILAR, NameRow._make(row)) for row in rows])
        score = round(max(0.0, 1 - distance / len(compared)), 4)
        near += [Near(statement, distance, score) for statement in statements]
    return tuple(near[:limit])


def neighbours(
    database: sqlite3.Connection, chains: Chains, genus: str, epithet: str, close: Closeness
) -> Iterator[Statement]:
    """Statements on listed names that share a whole word; ``close`` chooses before rows are read.

    ``genus`` may be empty, where the list has none of that word.
    """
    of_genus = database.execute(_OF_GENUS, (folded(genus), MOST_OF_A_GENUS)).fetchall() if genus else []
    keys = dict.fromkeys(map(endings_of, plain_keys(epithet)))
    of_epithet = [row for key in keys for row in database.execute(_OF_EPITHET, (key,)).fetchall()]
    kept = close(PlainKey(name) for _, name in (*of_genus, *of_epithet))
    for row in _rows(chains, of_genus, kept):
        yield chains.statement(f"{genus} ", Match.SAME, row)
    yield from chains.statements(
        epithet, graded_epithets(epithet, list(_rows(chains, dict.fromkeys(of_epithet), kept)))
    )


def _rows(chains: Chains, found: Iterable[tuple[int, str]], kept: Set[PlainKey]) -> Iterator[NameRow]:
    return (row for number, name in found if name in kept and (row := chains.row(number)) is not None)


def similar_words(database: sqlite3.Connection, kind: str, text: str, most: int) -> list[tuple[str, int]]:
    """Words of that kind at most ``most`` (1 or 2) edits from ``text``, nearest first."""
    # Words one edit away share a half or the first letter, too, so those two away are among one search for both.
    wider = most > 1 and len(text) >= _SHORTEST_OF_TWO
    found = _two_edits(database, kind, text) if wider else _one_edit(database, kind, text)
    return sorted(found, key=lambda pair: (pair[1], pair[0]))


def similar_commons(
    database: sqlite3.Connection, commons: Commons, text: str, limit: int
) -> tuple[tuple[CommonName, float], ...]:
    """Common names spelt like ``text``, best first, with a score of 0 to 1."""
    asked = common_words(text)
    pairs = [first + second for first, second in pairwise(asked)]
    near = {
        near for word in (*asked, *pairs) for near, _ in similar_words(database, "common", word, 1 + (len(word) > 6))
    }
    scored = []
    for common in commons.with_words(sorted(near)):
        words = common_words(common.text)
        score = max(
            OSA.normalized_similarity("".join(asked), "".join(words)),
            OSA.normalized_similarity(" ".join(sorted(asked)), " ".join(sorted(words))),
        )
        if score >= _SCORE_FLOOR:
            scored.append((common, score))
    scored.sort(key=lambda pair: (-pair[1], pair[0].text, pair[0].taxon.name))
    return tuple(scored[:limit])


def _whole(database: sqlite3.Connection, asked: str) -> dict[str, int]:
    """Names within two edits; only if there is none, names farther off."""
    genus, _, rest = asked.partition(" ")
    found: dict[str, int] = {}
    # A blank may have come into a word: any of them may be the one between the words.
    for place in [number for number, letter in enumerate(asked) if letter == " "][:_MOST_BLANKS]:
        found |= _two_words(database, asked[:place], asked[place + 1 :])
    if min(found.values(), default=3) > 1:
        found |= _around_the_space(database, asked)
    if found:
        # An error at the space may count for less in the whole than in the two words.
        return {name: OSA.distance(asked, name) for name in found}
    return _wide(database, asked, genus, rest) if rest else _with_epithet_like(database, asked)


def _two_words(database: sqlite3.Connection, genus: str, rest: str) -> dict[str, int]:
    """Names within two edits, none at the space: the genus has at most one of them, or both and the rest none."""
    found = {}
    for word, distance in _one_edit(database, "genus", genus):
        for other, further in _listed_near(database, _RESTS, word, rest, 2 - distance).items():
            found[f"{word} {other}"] = distance + further
    for word, distance in _listed_near(database, _GENERA, rest, genus, 2).items():
        found[f"{word} {rest}"] = distance
    return found


def _listed_near(database: sqlite3.Connection, query: str, word: str, asked: str, most: int) -> dict[str, int]:
    """What goes with ``word`` at most ``most`` edits from ``asked``; edits bound how much lengths can differ."""
    (joined,) = database.execute(query, (word, len(asked) - most, len(asked) + most)).fetchone()
    return _within(asked, joined.split("\n"), most) if joined else {}


def _wide(database: sqlite3.Connection, asked: str, genus: str, rest: str) -> dict[str, int]:
    genera = [word for word, _ in similar_words(database, "genus", genus, 2)]
    epithets = [word for word, _ in similar_words(database, "epithet", rest, 2)]
    return _partners(database, asked, genera, epithets, _WIDE)


def _around_the_space(database: sqlite3.Connection, asked: str) -> dict[str, int]:
    """Errors at the space (dropped, moved, replaced, added): one word is whole, at one end of the letters."""
    letters = asked.replace(" ", "")
    starts = [letters[:end] for end in range(2, len(letters))]
    ends = [letters[start:] for start in range(1, len(letters) - 1)]
    return _partners(
        database, asked, _listed(database, "genus", starts), _listed(database, "epithet", [*ends, letters]), 2
    )


def _listed(database: sqlite3.Connection, kind: str, words: Sequence[str]) -> list[str]:
    marks = ", ".join("?" * len(words))
    rows = database.execute(f"SELECT text FROM word WHERE kind = ? AND text IN ({marks})", (kind, *words))  # noqa: S608
    return [word for (word,) in rows.fetchall()]


def _partners(
    database: sqlite3.Connection, asked: str, genera: Sequence[str], epithets: Sequence[str], most: int
) -> dict[str, int]:
    """Names at most ``most`` edits from ``asked`` that have one of these genera or one of these epithets."""
    found: dict[str, int] = {}
    for words, query in ((genera, _NAMES_OF_GENUS), (epithets, _NAMES_OF_EPITHET)):
        for word in words:
            found.update(_listed_near(database, query, word, asked, most))
    return found


def _with_epithet_like(database: sqlite3.Connection, rest: str, start: str = "") -> dict[str, int]:
    """Names of genera that begin with ``start`` and epithets within two edits; the genus is not compared."""
    found = {}
    for epithet, distance in similar_words(database, "epithet", rest, 2):
        rows = database.execute(
            "SELECT DISTINCT genus FROM name WHERE rest = ? AND genus >= ? AND genus < ?",
            (epithet, start, start + "\U0010ffff"),
        )
        found.update({f"{genus} {epithet}": distance for (genus,) in rows.fetchall()})
    return found


def _one_edit(database: sqlite3.Connection, kind: str, text: str) -> list[tuple[str, int]]:
    size = len(text)
    if not size:
        return []
    lengths = (size - 1, size, size + 1)
    first = [value for length in lengths for value in (length, text[: length // 2])]
    last = [value for length in lengths for value in (length, text[size - (length - length // 2) :])]
    joint = size // 2
    swapped = text[: joint - 1] + text[joint] + text[joint - 1] + text[joint + 1 :] if size > 1 else text
    rows = database.execute(_HALVES, (kind, *first, *last, swapped)).fetchall()
    return list(_within(text, [word for (words,) in rows if words for word in words.split("\n")], 1).items())


def _two_edits(database: sqlite3.Connection, kind: str, text: str) -> list[tuple[str, int]]:
    """Words at most two edits away that share a half or the first letter, which is rarely wrong (3 in 128 errors)."""
    size = len(text)
    lengths = range(size - 2, size + 3)
    last = [value for length in lengths for value in (length, text[size - (length - length // 2) :])]
    first = [value for length in lengths for value in (length, text[0], text[0] + "\U0010ffff")]
    rows = database.execute(_TWO_EDITS, (kind, *last, *first)).fetchall()
    return list(_within(text, [word for (words,) in rows if words for word in words.split("\n")], 2).items())


def _within(asked: str, words: Iterable[str], most: int) -> dict[str, int]:
    found = process.extract(asked, words, scorer=OSA.distance, score_cutoff=most, limit=None)  # type: ignore[arg-type]
    return {word: int(distance) for word, distance, _ in found}


def _ranked(asked: str, found: dict[str, int]) -> list[tuple[int, tuple[str, str]]]:
    """Nearest first; among equals those whose words begin alike, for a wrong first letter is the rarest error."""
    genus, _, rest = asked.partition(" ") if " " in asked else ("", "", asked)
    ranked = []
    for name, distance in found.items():
        own_genus, _, own_rest = name.partition(" ")
        likeness = JaroWinkler.similarity(genus, own_genus) + JaroWinkler.similarity(rest, own_rest)
        ranked.append((distance, -likeness, own_genus, own_rest))
    ranked.sort()
    return [(distance, (own_genus, own_rest)) for distance, _likeness, own_genus, own_rest in ranked]
