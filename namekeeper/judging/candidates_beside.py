"""What stands on a tag beside the species that is left and speaks against it: words and names it does not explain."""

from __future__ import annotations

from collections.abc import Sequence, Set

from namekeeper.evidence.interfaces import CommonNames
from namekeeper.judging.candidates_clues import TagHits
from namekeeper.judging.common_words import groups_in, is_other_animal
from namekeeper.judging.hits import Hits
from namekeeper.reading.areas import is_place, lies_within
from namekeeper.reading.reading import CommonClue, Reading
from namekeeper.words.spelling import PlainKey, plain_key


def unheard_beside(
    reading: Reading, tag: TagHits, chosen: Set[PlainKey], lists: Sequence[CommonNames]
) -> tuple[str, ...]:
    """Words beside the common names that explain nothing of the species left: unknown ones, places elsewhere."""
    if len(chosen) != 1:
        return ()
    heard = tuple(zip(tag.heard, tag.common, strict=True))
    explained = [
        (clue.start, clue.end)
        for clue, hits in heard
        if not hits.partial and any(candidate.key in chosen for candidate in hits.firm)
    ]
    ranges = [c.range for _, hits in heard for c in hits.firm if c.key in chosen and c.range]
    beside = [
        word
        for word in reading.unheard
        if not any(start <= word.start < end for start, end in explained)
        and not (ranges and all(lies_within(word.text, areas) for areas in ranges))
        and not _stands_in_its_names(word.text, chosen, lists)
    ]
    places = [place for place in reading.locality.split(", ") if place and is_place(place)]
    elsewhere = [place for place in places if not all(lies_within(place, areas) for areas in ranges)]
    other = [
        clue.text
        for clue in reading.commons
        if clue.generic and not _fits(clue, explained, reading) and not _stands_in_its_names(clue.text, chosen, lists)
    ]
    return tuple(dict.fromkeys((*(word.text for word in beside), *elsewhere, *other)))


def _stands_in_its_names(word: str, chosen: Set[PlainKey], lists: Sequence[CommonNames]) -> bool:
    """Whether some listed common name of the animal has the word: "Gooty sapphire ornamental"."""
    return any(
        plain_key(common.taxon.name) in chosen for origin in lists for common in origin.common_with([plain_key(word)])
    )


def _fits(clue: CommonClue, explained: Sequence[tuple[int, int]], reading: Reading) -> bool:
    """Whether a general word is one for the animal group, which was compared before, or stands among the unheard."""
    inside = any(start <= clue.start < end for start, end in explained)
    return inside or bool(groups_in(clue.text)) or any(word.start == clue.start for word in reading.unheard)


def unlisted_beside(reading: Reading, tag: TagHits) -> tuple[str, ...]:
    """Names and alternatives on the tag that bring nothing firm."""
    names = [clue.text for clue, hits in tag.scientific if not (hits.firm_species if clue.name.epithet else hits.firm)]
    known = {clue.start for clue, hits in zip(tag.heard, tag.common, strict=True) if hits.firm}
    return tuple(dict.fromkeys((*names, *(word.text for word in reading.alternatives if word.start not in known))))


#: Where a word for animals tells of something else than of this one: "Lycosa tarantula", "from Scorpion Bay"
_NO_GROUP = frozenset({"scientific", "locality", "trade_form"})


def other_animals(reading: Reading, tag: TagHits, every: Sequence[Hits], chosen: Set[PlainKey]) -> tuple[str, ...]:
    """Words for groups of animals to which none of the species that are left belongs."""
    if not chosen or not tag.groups:
        return ()
    higher = {
        taxon for hits in every for candidate in hits.firm if candidate.key in chosen for taxon in candidate.higher
    }
    elsewhere = [span for span in reading.spans if span.field in _NO_GROUP]
    return tuple(
        dict.fromkeys(
            word.text
            for word in tag.groups
            if is_other_animal(higher, (word.taxon,))
            and not any(span.start <= word.start < span.end for span in elsewhere)
        )
    )
