"""Reads a seller's tag: the rules in their order. Never fails, whatever the text."""

from __future__ import annotations

import re

from namekeeper.reading import amounts, counts, doubts, rest
from namekeeper.reading.common import read_common, read_known_common
from namekeeper.reading.draft import Draft, without_overlap
from namekeeper.reading.lexicon import KnownNames, NoKnownNames
from namekeeper.reading.reading import HYBRID, Clue, ClueLink, Reading
from namekeeper.reading.scientific import NameFinder
from namekeeper.reading.sellers import read_seller

LONGEST_TAG = 10_000  # characters

_UNCERTAIN = ("?", "cf.", "aff.", "nr.", "prox.", "ex gr.", "sp. cf.", "sp. aff.", "sp. nr.", HYBRID)


def read_tag(tag: str, names: KnownNames | None = None) -> Reading:
    """What ``tag`` says, in linear time; ``names`` helps to tell scientific from common names.

    Order matters: what carries a number goes first, then names, then words of the trade, and what is still open is
    a common name or left over. A tag longer than :data:`LONGEST_TAG` is left over whole.
    """
    if len(tag) > LONGEST_TAG:
        return Reading(tag, leftover=tag)
    draft, known = Draft(tag), names or NoKnownNames()
    seller = read_seller(draft, known)  # before all others: a shop may be called after an animal
    return _read(draft, known)._replace(seller=seller)


def _read(draft: Draft, names: KnownNames) -> Reading:
    groups = rest.read_groups(draft)
    price = amounts.read_price(draft)
    size, size_of = amounts.read_size(draft)
    counted = counts.read_notation(draft)
    finder = NameFinder(draft, names, qualifier=HYBRID if rest.read_hybrid(draft) else "")
    commons = read_known_common(draft, names)
    not_sure = doubts.read_not_sure(draft)
    clues = _with_a_main_one(finder.find())
    trade_form = rest.read_trade_form(draft, clues, names)
    instar = amounts.read_instar(draft)
    source_mark = rest.read_source_mark(draft)
    sex, stage = counts.read_sex_and_stage(draft, counted)
    negated = doubts.read_negation(draft)
    locality = rest.read_locality(draft, names, named=bool(clues or commons))
    commons += read_common(draft, names)
    alternatives = doubts.read_alternatives(draft, commons, clues)
    qualifier, uncertain = _doubt(draft, finder, bool(commons), not_sure=not_sure)
    return Reading(
        tag=draft.plain.tag,
        clues=tuple(sorted(clues, key=lambda clue: clue.start)),
        commons=tuple(sorted(commons, key=lambda clue: clue.start)),
        qualifier=qualifier,
        uncertain=uncertain,
        trade_form=trade_form,
        locality=locality,
        sex=sex,
        size_cm=size,
        size_of=size_of,
        stage=stage,
        instar=instar,
        source_mark=source_mark,
        price=price,
        leftover=draft.leftover(),
        spans=without_overlap(draft.spans),
        group_words=groups,
        unheard=doubts.unheard_words(draft, commons, names),
        negated=negated,
        alternatives=alternatives,
    )


def _with_a_main_one(clues: list[Clue]) -> list[Clue]:
    """A former name is the name where the tag gives no other."""
    if all(clue.link is ClueLink.FORMER for clue in clues):
        return [clue._replace(link=ClueLink.ALONE) for clue in clues]
    return clues


def _doubt(draft: Draft, finder: NameFinder, common: bool, *, not_sure: bool) -> tuple[str, bool]:
    """The qualifier of the names, and whether the seller is not sure; a lone ``?`` or "maybe" doubts them too."""
    qualifier, text = finder.qualifier, draft.open_text
    marks = [found.span() for found in [re.search(r"(?<![\d♀♂])\?+", text) if "?" in text else None] if found]
    lone = marks + doubts.read_maybe(draft)[: not marks]
    compared = re.search(r"(?<![^\W_])cf(?![^\W_])\.?", text, re.I) if "cf" in text.lower() else None
    doubted = bool(lone) or not_sure
    if (doubted or compared) and (finder.clues or common):
        for start, end in [*lone, *([compared.span()] if compared else [])]:
            draft.claim("qualifier", start, end)
        qualifier = qualifier or ("cf." if compared else "?")
    alternatives = any(clue.link is ClueLink.OR for clue in finder.clues)
    return qualifier, finder.doubted or bool(doubted and qualifier) or qualifier in _UNCERTAIN or alternatives
