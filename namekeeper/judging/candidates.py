"""From the clues of a tag to candidates and an answer: all clues together, and never a silent pick."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from namekeeper.evidence.candidates import HOW_ORDER, Candidate, Lookup, Note, NoteCode, merge
from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import CommonName, Reply
from namekeeper.judging.answers import AnswerRule, TagFacts, answer_of
from namekeeper.judging.candidates_common import groups_in, hits_of_common
from namekeeper.judging.candidates_names import hits_of_misspelt_subspecies, hits_of_name
from namekeeper.judging.candidates_short import hits_of_clipped
from namekeeper.judging.candidates_unheard import unheard_beside
from namekeeper.judging.hits import Hits
from namekeeper.reading.reading import HYBRID, Clue, ClueLink, CommonClue, Reading
from namekeeper.words.dates import PartialDate
from namekeeper.words.spelling import PlainKey, plain_key
from namekeeper.words.terms import AnswerKind, How

Replies = Mapping[str, Sequence[Reply]]


def find_candidates(
    reading: Reading,
    lists: Sequence[NameList],
    on: PartialDate | None = None,
    online: Sequence[CommonName] = (),
    replies: Replies = MappingProxyType({}),
) -> Lookup:
    """What the tag may mean by ``lists``; ``on`` is when it was written, None leaves every old meaning open.

    ``online`` holds common names that services gave for the tag's common clues; they add candidates and never make
    an answer firmer than the lists do. ``replies`` holds what services said of written names that no list has.
    """
    return answer_to(reading, lists, on, online, replies)[1]


def answer_to(
    reading: Reading,
    lists: Sequence[NameList],
    on: PartialDate | None = None,
    online: Sequence[CommonName] = (),
    replies: Replies = MappingProxyType({}),
) -> tuple[AnswerRule, Lookup]:
    """As :func:`find_candidates`, with the rule that decided."""
    tag = _TagHits.of(reading, lists, on, replies)
    common = [*tag.common, *([Hits(tuple(map(_of_service, online)))] if online else [])]
    every = [*(hits for _, hits in tag.scientific), *common]
    forms = _forms(reading, every, lists)
    chosen = _chosen(tag.scientific, common)
    by_lists = _keys(c for hits in (every[:-1] if online else every) for c in hits.firm)
    facts = TagFacts(
        reading,
        tuple(every),
        frozenset(chosen),
        by_name=bool(chosen & _keys(c for _, hits in tag.scientific for c in hits.firm_species)),
        other_form=bool(_keys(forms.candidates) - chosen),
        other_genus=bool(tag.genera) and not tag.genera & {_genus(key) for key in chosen},
        by_service=bool(online) and not chosen & by_lists,
        unheard=unheard_beside(reading, list(zip(tag.heard, tag.common, strict=True)), chosen, lists),
        unlisted=_unlisted(reading, tag),
        complete=_is_complete(reading, lists),
    )
    rule = answer_of(facts)
    if facts.other_genus and rule.answer is AnswerKind.SEVERAL:
        chosen = chosen | tag.genera  # the genus and the other words contradict each other: the keeper must choose
    said = (*rule.says(facts), *tag.left_out)
    shown = _shown(rule.answer, _counted([*every, forms]), chosen)
    return rule, Lookup(rule.answer, _ordered(candidate.noted(said) for candidate in shown))


class _TagHits(NamedTuple):
    """The clues of a tag with what each brought; ``genera``: those a genus word alone leaves."""

    scientific: list[tuple[Clue, Hits]]
    heard: list[CommonClue]
    common: list[Hits]
    genera: frozenset[PlainKey]
    left_out: tuple[Note, ...]

    @classmethod
    def of(cls, reading: Reading, lists: Sequence[NameList], on: PartialDate | None, replies: Replies) -> _TagHits:
        hybrid = reading.qualifier == HYBRID
        scientific = [
            (
                clue,
                _crossed(_hits_of_clue(clue, reading, lists, on, replies), hybrid or clue.link is ClueLink.CROSSED),
            )
            for clue in reading.clues
            if clue.link is not ClueLink.FORMER
        ]
        genera = _bare_genera(reading, lists)
        heard, found = _hits_of_commons(reading, lists, genera, named=bool(scientific))
        left_out = _other_animals(scientific, heard, found, reading)
        kept = [number for number in range(len(heard)) if number not in left_out]
        common = [_crossed(found[number], hybrid) for number in kept]
        return cls(scientific, [heard[number] for number in kept], common, genera, tuple(left_out.values()))


def _hits_of_commons(
    reading: Reading, lists: Sequence[NameList], genera: frozenset[PlainKey], *, named: bool
) -> tuple[list[CommonClue], list[Hits]]:
    """The common names of a tag that tell something, each with what it brought."""
    telling = [clue for clue in reading.commons if not clue.generic]
    # A word for the whole group adds nothing beside a name.
    heard = telling or ([] if named else list(reading.commons))
    groups = _groups_said(reading, lists)
    return heard, [_within(hits_of_common(clue, lists, groups), genera) for clue in heard]


def _groups_said(reading: Reading, lists: Sequence[NameList]) -> tuple[str, ...]:
    """Animal groups that the tag names outside of the common names that some list has."""
    own: set[str] = set()
    for clue in reading.commons if reading.groups else ():
        groups = groups_in(clue.text)
        if groups and not clue.generic and any(origin.common(clue.text) for origin in lists):
            own.update(groups)
    return tuple(group for group in reading.groups if group not in own)


def _other_animals(
    scientific: Sequence[tuple[Clue, Hits]], heard: Sequence[CommonClue], common: Sequence[Hits], reading: Reading
) -> dict[int, Note]:
    """Common names that mean an animal of another family than a firm scientific name, by number, with what is said.

    "blondi burgundy" is a colour and no snail; an alternative, or a word for another group, is left to the keeper.
    """
    named = [c for _, hits in scientific for c in hits.firm_species]
    families = {candidate.family for candidate in named}
    if not named or None in families:
        return {}
    kept = {word.start for word in reading.alternatives}
    found = {}
    for number, (clue, hits) in enumerate(zip(heard, common, strict=True)):
        meant = {candidate.family for candidate in hits.firm_species}
        if meant and None not in meant and not meant & families and clue.start not in kept and not groups_in(clue.text):
            names = " or ".join(candidate.name for candidate in hits.firm_species)
            found[number] = Note(NoteCode.LEFT_OUT, (clue.text, names))
    return found


def _unlisted(reading: Reading, tag: _TagHits) -> tuple[str, ...]:
    """Names and alternatives on the tag that bring nothing firm."""
    names = [clue.text for clue, hits in tag.scientific if not (hits.firm_species if clue.name.epithet else hits.firm)]
    known = {clue.start for clue, hits in zip(tag.heard, tag.common, strict=True) if hits.firm}
    return tuple(dict.fromkeys((*names, *(word.text for word in reading.alternatives if word.start not in known))))


def _is_complete(reading: Reading, lists: Sequence[NameList]) -> bool:
    """Whether some list has every name of the group of the tag."""
    return bool(
        {taxon for origin in lists for taxon in origin.edition.complete_for} & {"Animalia", "Biota", reading.group}
    )


def _hits_of_clue(
    clue: Clue, reading: Reading, lists: Sequence[NameList], on: PartialDate | None, replies: Replies
) -> Hits:
    """The clue as a name; where no list has it, as a common name that only looks like one, or as a name cut short."""
    hits = hits_of_name(clue.name, lists, on, replies.get(clue.text, ()))
    if clue.name.qualifier:
        return hits
    if hits.firm:
        behind = _word_behind(clue, reading)
        near = hits_of_misspelt_subspecies(clue.name, behind, lists) if behind else hits
        return near if near.candidates else hits
    other = hits_of_common(CommonClue(clue.name.verbatim, clue.start, clue.end), lists)
    # a trade abbreviation such as "L. para"; part of a common name would only share the epithet
    if other.firm and not other.partial:
        return other
    clipped = hits_of_clipped(clue.name, lists)
    return clipped if clipped.candidates else hits


def _word_behind(clue: Clue, reading: Reading) -> str:
    """A word that was not heard right behind the name of a species, in small letters as a subspecies has it."""
    if not clue.name.epithet or clue.name.infraspecific or clue.name.abbreviated:
        return ""
    behind = [word for word in reading.unheard if word.start == clue.end + 1]
    return behind[0].text if behind and behind[0].text.islower() and behind[0].text.isascii() else ""


def _bare_genera(reading: Reading, lists: Sequence[NameList]) -> frozenset[PlainKey]:
    """Folded genera that a genus word alone on the tag leaves: its own, and those its species went to."""
    names = [clue.name for clue in reading.clues if clue.link is not ClueLink.FORMER]
    if any(name.epithet for name in names):
        return frozenset()
    records = [record for name in names for origin in lists if (record := origin.genus(name.genus)) is not None]
    return frozenset(plain_key(genus) for record in records for genus in (record.genus, *record.moved_to))


def _within(hits: Hits, genera: frozenset[PlainKey]) -> Hits:
    """What the words mean in these genera, if they mean anything there."""
    fitting = tuple(c for c in hits.candidates if not c.is_species or _genus(c.key) in genera)
    return hits._replace(candidates=fitting) if any(c.is_species for c in fitting) else hits


def _genus(key: PlainKey) -> PlainKey:
    return PlainKey(key.split(" ")[0])


def _crossed(hits: Hits, crossed: bool) -> Hits:
    if not crossed:
        return hits
    parent = Note(NoteCode.CROSS_PARENT)
    return hits._replace(candidates=tuple(c.noted([parent]) for c in hits.candidates), ambiguous=True)


def _of_service(common: CommonName) -> Candidate:
    return Candidate.of(common.taxon, How.COMMON, common.text, common.edition.source)


def _forms(reading: Reading, every: Sequence[Hits], lists: Sequence[NameList]) -> Hits:
    """Species that a trade form of the tag was described as since: shown, never taken (contract section 2)."""
    if not reading.trade_form:
        return Hits(())
    written = {clue.name.genus for clue in reading.clues if not clue.name.abbreviated}
    genera = written | {c.name.split(" ")[0] for hits in every for c in hits.firm}
    found = []
    for origin in lists:
        for form in origin.forms(None, reading.trade_form):
            taxon, source = form.described_as, origin.edition.source
            if taxon and (not genera or {form.genus, taxon.name.split(" ")[0]} & genera):
                note = Note(NoteCode.TRADE_FORM, about=form)
                found.append(Candidate.of(taxon, How.COMMON, form.form, source, [note]))
    return Hits(tuple(merge(found)))


def _counted(every: Sequence[Hits]) -> dict[PlainKey, Candidate]:
    """All candidates by taxon with the number of clues that agree on them."""
    found: dict[PlainKey, Candidate] = {}
    for hits in every:
        for candidate in merge(list(hits.candidates)):
            known = found.get(candidate.key)
            merged = candidate if known is None else known.merged(candidate)._replace(clues=known.clues + 1)
            found[candidate.key] = merged
    return found


def _chosen(scientific: Sequence[tuple[Clue, Hits]], common: Sequence[Hits]) -> set[PlainKey]:
    """Keys of the species that all firm clues together leave."""
    named, ambiguous = _by_names(scientific)
    equal = [_keys(hits.firm_species) for hits in common if not hits.partial and hits.firm_species]
    partial = [_keys(hits.candidates) for hits in common if hits.partial]
    if not named:
        return _meet(equal)
    if not ambiguous:
        for keys in (*equal, *partial):
            named = named & keys or named
    for keys in equal:
        if not named & keys:
            named = named | keys  # the clues contradict each other: the keeper must choose
    return named


def _by_names(scientific: Sequence[tuple[Clue, Hits]]) -> tuple[set[PlainKey], bool]:
    """Species of all scientific clues, and whether no other clue may narrow them.

    Alternatives are added up, clues that say the same thing narrow each other.
    """
    groups: list[set[PlainKey]] = []
    for clue, hits in scientific:
        keys = _keys(hits.firm_species)
        if clue.link in (ClueLink.OR, ClueLink.CROSSED) and groups:
            groups[-1] |= keys
        else:
            groups.append(keys)
    either = any(clue.link is ClueLink.OR for clue, _ in scientific)
    return _meet([keys for keys in groups if keys]), either or any(hits.ambiguous for _, hits in scientific)


def _meet(sets: Sequence[set[PlainKey]]) -> set[PlainKey]:
    if not sets:
        return set()
    return set.intersection(*sets) or set.union(*sets)


def _keys(candidates: Iterable[Candidate]) -> set[PlainKey]:
    return {candidate.key for candidate in candidates}


_MOST_GUESSES = 8


def _shown(answer: AnswerKind, counted: dict[PlainKey, Candidate], chosen: set[PlainKey]) -> list[Candidate]:
    """What belongs to the answer: of several firm clues those that are left; guesses only where nothing is firm."""
    if answer in (AnswerKind.ONE, AnswerKind.SEVERAL) and chosen:
        higher = [c for c in counted.values() if not c.is_species and c.how is How.COMMON]
        forms = [c for c in counted.values() if c.key not in chosen and _of_trade_form(c)]
        return [c for key, c in counted.items() if key in chosen] + (
            higher + forms if answer is AnswerKind.SEVERAL else []
        )
    if answer is AnswerKind.GENUS:
        return [c for c in counted.values() if c.firm]
    if answer is AnswerKind.GUESS and len(chosen) == 1:
        return [c for key, c in counted.items() if key in chosen]
    if answer is AnswerKind.GUESS and any(c.is_species and not c.firm for c in counted.values()):
        return [c for c in counted.values() if not c.firm]
    return list(counted.values())


def _of_trade_form(candidate: Candidate) -> bool:
    return any(note.code is NoteCode.TRADE_FORM for note in candidate.notes)


def _ordered(candidates: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """Firm before similar, then agreement of clues, the written name, how it was found, score and alphabet."""
    ranked = sorted(
        candidates, key=lambda c: (not c.firm, -c.clues, c.rival, HOW_ORDER.index(c.how), -c.score, plain_key(c.name))
    )
    firm = [c for c in ranked if c.firm]
    return tuple(firm + [c for c in ranked if not c.firm][:_MOST_GUESSES])
