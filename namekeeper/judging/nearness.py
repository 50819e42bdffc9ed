"""How alike two spellings are, judged as names really go wrong; genus and epithet apart.

Limits: Zermoglio, Guralnick & Wieczorek 2016 (PLoS ONE 11(1): e0146894), re-counted on their open data: 58 % of real
misspellings are one edit away, 84 % two, 94 % three. Within one genus two edits meet another epithet in 1.7 % of all
epithets, three in 9.5 % (World Spider Catalog synonym table, 2020); a genus word meets another within two in 12 %.
"""

from __future__ import annotations

from namekeeper.evidence.interfaces import Near
from namekeeper.words.spelling import letter_key, plain_key


def close_enough(asked: str, near: Near) -> bool:
    """Whether a listed name is worth showing as a guess for ``asked``."""
    genus, _, rest = plain_key(asked).partition(" ")
    own_genus, _, own_rest = plain_key(near.statement.subject.name).partition(" ")
    if not rest:
        return False
    if genus.endswith("."):
        start = genus.rstrip(".")
        return own_genus.startswith(start) and _edits(rest, own_rest) <= _short_limit(rest)
    genus_edits, rest_edits = _edits(genus, own_genus), _edits(rest, own_rest)
    if letter_key(f"x {rest}") == letter_key(f"x {own_rest}"):
        rest_edits = min(rest_edits, 1)
    if genus_edits + rest_edits == 0:
        return False
    if genus_edits == 0:
        return rest_edits <= _limit(rest)
    return genus_edits <= _genus_limit(genus) and rest_edits <= min(_limit(rest), 2) and genus_edits + rest_edits <= 3


def nearness(asked: str, listed: str) -> float:
    """1 for equal names, less for every edit; an edit of a known class (Art. 58, endings) counts half."""
    from rapidfuzz.distance import OSA

    one, other = plain_key(asked), plain_key(listed)
    if one.partition(" ")[0].endswith("."):
        one, other = one.partition(" ")[2], other.partition(" ")[2]
    plain = float(OSA.normalized_similarity(one, other))
    folded = float(OSA.normalized_similarity(letter_key(f"x {one}"), letter_key(f"x {other}")))
    return (plain + max(plain, folded)) / 2


def _edits(one: str, other: str) -> int:
    from rapidfuzz.distance import OSA

    return int(OSA.distance(one, other))


def _limit(epithet: str) -> int:
    """Edits in an epithet of a known genus."""
    return 1 if len(epithet) < 5 else 2 if len(epithet) < 11 else 3


def _short_limit(epithet: str) -> int:
    """Edits in an epithet behind an abbreviated genus, where any genus may be meant."""
    return 0 if len(epithet) < 5 else 1 if len(epithet) < 9 else 2


def _genus_limit(genus: str) -> int:
    return 1 if len(genus) < 7 else 2
