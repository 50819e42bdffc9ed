"""Candidates for a common name on a tag: equal, part of a longer one, similar; and words that are none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from namekeeper.evidence.candidates import MAY_BE_REAL, Candidate, Note, NoteCode, merge
from namekeeper.evidence.interfaces import CommonNames
from namekeeper.evidence.statements import CommonName, Match, TaxonName
from namekeeper.judging.candidates_names import firm_candidates, genus_candidates
from namekeeper.judging.candidates_similar import TagNames, similar_genera
from namekeeper.judging.common_words import (
    animals_in,
    askable,
    begins_or_ends,
    core_of,
    equal_names,
    groups_in,
    is_other_animal,
    is_slip,
    looks_like_a_name,
    words_of,
    written_names,
)
from namekeeper.judging.hits import Hits
from namekeeper.judging.nearness import close_enough
from namekeeper.reading.lexicon import Kind, kinds_of
from namekeeper.reading.reading import CommonClue, GroupWord
from namekeeper.reading.vocabulary import ANY_ANIMAL
from namekeeper.words.names import ScientificName
from namekeeper.words.spelling import PlainKey, plain_key
from namekeeper.words.terms import How

_LONGEST_CUT = 6  # letters of a genus cut short; a longer word is misspelt rather than cut
_MOST_PARTIAL = 12  # species that a part of a name may bring; more say nothing
_SIMILAR_SCORE = 0.8
_PART_SCORE = 0.85
_FEWEST_SHARED = 2  # words; one word alone begins or ends very many names


class TagList(TagNames, CommonNames, Protocol):
    """What a common name on a tag needs of a list."""


def hits_of_common(clue: CommonClue, lists: Sequence[TagList], groups: Sequence[GroupWord] = ()) -> Hits:
    """All that the lists have on the words of ``clue``; ``groups`` are words for animal groups on the tag."""
    equal = _equal(clue, lists, groups)
    if equal.candidates:
        return equal._replace(candidates=tuple(_never_alone(list(equal.candidates)))) if clue.generic else equal
    if clue.generic:
        return Hits(tuple(_groups(clue, lists)), is_name=False)
    words = words_of(clue.text)
    abbreviated = _abbreviated(words, lists)
    if abbreviated:
        return Hits(tuple(abbreviated))
    if len(words) == 2 and all(len(word) >= 4 for word in words):
        written = [c for origin in lists for c in _as_scientific(" ".join(words).capitalize(), clue.text, origin)]
        if written:
            return Hits(tuple(merge(written)))
    named = _groups_named(groups, words)
    part = [found for found in _part(words, clue.text, lists) if not is_other_animal(found.higher, named)]
    if part:
        return Hits(tuple(part), partial=True)
    similar = [found for found in _similar(clue.text, words, lists) if not is_other_animal(found.higher, named)]
    general = _general_genus(words, lists)
    if general:
        return Hits((*similar, *general))
    return Hits(tuple(similar), is_name=looks_like_a_name(words))


def _groups(clue: CommonClue, lists: Sequence[TagList]) -> list[Candidate]:
    """The group that a word of the trade means where no list has the word itself: "ptaszniki"."""
    groups = [group for group in groups_in(clue.text) if group != ANY_ANIMAL]
    said = [(one, origin) for origin in lists for group in groups for one in origin.named(group)]
    return merge([Candidate.of(one.subject, How.COMMON, clue.text, origin.edition.source) for one, origin in said])


def firm_hits_of_common(clue: CommonClue, lists: Sequence[TagList]) -> Hits:
    """As :func:`hits_of_common` where that brings something firm; guesses are looked for only if they may stand by."""
    equal = _equal(clue, lists, ())
    if equal.candidates:
        return equal
    words = words_of(clue.text)
    abbreviated = _abbreviated(words, lists)
    if abbreviated or not _general_genus(words, lists):
        return Hits(tuple(abbreviated))
    return hits_of_common(clue, lists)


def _groups_named(groups: Sequence[GroupWord], words: list[str]) -> dict[str, str]:
    """The animal groups of a tag and of a name on it, as taxa, with the word for each."""
    own = {phrase.value: " ".join(words[phrase.first : phrase.last]) for phrase in animals_in(words)}
    return own | {word.taxon: word.text for word in groups}


def _equal(clue: CommonClue, lists: Sequence[TagList], groups: Sequence[GroupWord]) -> Hits:
    """Common names equal but for order, plural, hyphen, and the word for the group, which must fit the animal."""
    words = words_of(askable(clue.text)[-1])
    core = core_of(words)
    named = _groups_named(groups, words)
    equal = written_names if clue.generic else equal_names
    listed = [(common, origin) for origin in lists for common in equal(clue.text, origin)]
    found = [_fitting(common, clue.text, origin, named) for common, origin in listed]
    if found and not clue.generic:
        found += _longer(_as_listed(words, listed), clue.text, found, lists)
    return Hits(tuple(merge(found)), recalled=_recalled([common for common, _origin in listed], core, lists))


def _as_listed(words: list[str], listed: Sequence[tuple[CommonName, TagList]]) -> list[str]:
    """The words as the list parts them: "mantisflor" begins the same longer names as "mantis flor"."""
    parted = [own for common, _ in listed if "".join(own := words_of(common.text)) == "".join(words)]
    return parted[0] if parted else words


def _recalled(listed: Sequence[CommonName], core: list[str], lists: Sequence[TagList]) -> frozenset[PlainKey]:
    """The species for which no source was seen, be it with another word for the animal group or without one."""
    recalled = {plain_key(common.taxon.name) for common in listed if common.recalled}
    if not recalled:
        return frozenset()
    letters = "".join(core)  # "red rump" may be listed as "redrump"
    others = [common for origin in lists for common in origin.common_with(core)] if core else []
    witnesses = [*listed, *(common for common in others if "".join(core_of(words_of(common.text))) == letters)]
    return frozenset(recalled - {plain_key(common.taxon.name) for common in witnesses if not common.recalled})


def _fitting(common: CommonName, text: str, origin: TagList, named: Mapping[str, str]) -> Candidate:
    """The animal of a common name; only a guess where the tag speaks of other animals than the listed name does."""
    taxon = common.taxon
    # an order is told by itself: a "mantis shrimp" is no mantis
    higher = (taxon.name, *taxon.higher) if taxon.rank == "order" else taxon.higher
    other = [group for group in named if is_other_animal(higher, (group,))]
    other = [group for group in other if group not in groups_in(common.text)]
    if not other or common.taxon.name in other:
        return _candidate(common, text, origin)
    notes = [Note(NoteCode.OTHER_ANIMAL, (named[other[0]],)), MAY_BE_REAL]
    return Candidate.of(common.taxon, How.SIMILAR, text, origin.edition.source, notes=notes, score=0.3)


def _longer(words: list[str], text: str, found: Sequence[Candidate], lists: Sequence[TagList]) -> list[Candidate]:
    """Species of the same order whose longer name begins or ends with the name on the tag.

    Words for the group do not count, unless there is but one other: that begins or ends very many names, so then it is
    the whole name, and only where it would be taken for one species.
    """
    species = [candidate for candidate in found if candidate.is_species and candidate.firm]
    core = core_of(words)
    whole = len(core) < _FEWEST_SHARED
    if not species or (whole and len({candidate.key for candidate in found}) > 1):
        return []
    shared, compared = (words, words_of) if whole else (core, lambda listed: core_of(words_of(listed)))
    known = {candidate.key for candidate in found}
    orders = {taxon for candidate in species for taxon in candidate.higher[1:2]}
    return [
        _candidate(common, text, origin, [Note(NoteCode.PART_OF_COMMON, (common.text,))])
        for origin in lists
        for common in origin.common_with(shared)
        if plain_key(common.taxon.name) not in known
        and _holds(compared(common.text), shared, whole=whole, species=" " in common.taxon.name)
        and orders & set(common.taxon.higher)
    ]


def _holds(listed: list[str], words: list[str], *, whole: bool, species: bool) -> bool:
    """Whether a listed name begins or ends with the words; as a name of a whole group only where it is longer."""
    return begins_or_ends(listed, words) and (species or (not whole and len(listed) > len(words)))


def _general_genus(words: list[str], lists: Sequence[TagList]) -> list[Candidate]:
    """``Mantis palo``: a word for the animal group that is a genus in force, too; Tarantula is none any more."""
    if len(words) != _FEWEST_SHARED or Kind.ANIMAL not in kinds_of(words[0]):
        return []
    genus = words[0].capitalize()
    in_force = [origin for origin in lists if (record := origin.genus(genus)) is not None and record.accepted]
    return genus_candidates(genus, in_force, genus)


def _candidate(common: CommonName, matched: str, origin: TagList, notes: Sequence[Note] = ()) -> Candidate:
    return Candidate.of(common.taxon, How.COMMON, matched, origin.edition.source, notes=notes)


def _never_alone(candidates: list[Candidate]) -> list[Candidate]:
    """A generic word names no species: a lone species is only a guess."""
    species = [candidate for candidate in candidates if candidate.is_species]
    if len(candidates) > 1 or not species:
        return candidates
    only = species[0]
    return [
        Candidate.of(
            _taxon(only),
            How.SIMILAR,
            only.matched,
            only.sources[0],
            notes=[Note(NoteCode.TOO_GENERAL), MAY_BE_REAL],
            score=0.3,
        )
    ]


def _taxon(candidate: Candidate) -> TaxonName:
    higher = (candidate.family,) if candidate.family else ()
    return TaxonName(candidate.name, candidate.authorship, candidate.rank, higher=higher, range=candidate.range)


def _abbreviated(words: list[str], lists: Sequence[TagList]) -> list[Candidate]:
    """``Brachy hamorii``: a genus cut short without a full stop."""
    if len(words) != 2 or not 3 <= len(words[0]) <= _LONGEST_CUT or len(words[1]) < 3:
        return []
    name = ScientificName(words[0].capitalize() + ".", epithet=words[1], verbatim=" ".join(words))
    return firm_candidates(name, lists)


def _part(words: list[str], text: str, lists: Sequence[TagList]) -> list[Candidate]:
    """Names that hold all the words, after words are left out that stand in no name at all."""
    written = core_of(words)
    core = [word for word in written if any(origin.common_with([word]) for origin in lists)]
    if any(Kind.NAME_WORD in kinds_of(word) for word in written if word not in core):
        return []  # colours and parts of the body tell animals apart
    if not core or len(core) * 2 < len(written) or (len(core) == 1 and (len(written) > 1 or not _is_telling(core[0]))):
        return []
    found = [
        Candidate.of(
            common.taxon, How.SIMILAR, text, origin.edition.source,
            notes=[Note(NoteCode.PART_OF_COMMON, (common.text,)), MAY_BE_REAL], score=_PART_SCORE,
        )
        for origin in lists
        for common in origin.common_with(core)
    ]  # fmt: skip
    merged = merge(found)
    return [] if len(merged) > _MOST_PARTIAL else merged


def _is_telling(word: str) -> bool:
    return word in _TELLING or (len(word) >= 4 and not kinds_of(word) - {Kind.PLACE})


_TELLING = frozenset({"gooty", "pinktoe", "whiteknee", "redknee", "rosehair", "pinkfoot", "suntiger"})


def _similar(text: str, words: list[str], lists: Sequence[TagList]) -> list[Candidate]:
    found = []
    for origin in lists:
        for common, score in origin.similar_common(text):
            if score >= _SIMILAR_SCORE and len(text) >= 5 and is_slip(words, words_of(common.text)):
                notes = [Note(NoteCode.LIKE_COMMON, (common.text,)), MAY_BE_REAL]
                found.append(
                    Candidate.of(
                        common.taxon, How.SIMILAR, text, origin.edition.source, notes=notes, score=round(0.8 * score, 2)
                    )
                )
    if not found and len(words) == 1 and len(words[0]) >= 5:
        found = _bare_epithet(words[0], text, lists) or similar_genera(words[0].capitalize(), lists)
    return merge(found)


def _as_scientific(name: str, text: str, origin: TagList) -> list[Candidate]:
    return [
        Candidate.of(
            taxon, How.SIMILAR, text, origin.edition.source, notes=[MAY_BE_REAL], score=round(0.8 * near.score, 2)
        )
        for near in origin.similar(name)
        if close_enough(name, near.statement.subject.name, 0)
        for taxon in near.statement.targets or (near.statement.subject,)
    ]


def _bare_epithet(word: str, text: str, lists: Sequence[TagList]) -> list[Candidate]:
    found = []
    for origin in lists:
        for statement in origin.with_epithet(word):
            if statement.match in (Match.SAME, Match.ENDING):
                found += [
                    Candidate.of(
                        taxon,
                        How.SIMILAR,
                        text,
                        origin.edition.source,
                        notes=[Note(NoteCode.ONLY_EPITHET), MAY_BE_REAL],
                        score=0.5,
                    )
                    for taxon in statement.targets
                ]
    return merge(found)
