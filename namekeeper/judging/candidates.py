"""From the clues of a tag to candidates and an answer: all clues together, and never a silent pick."""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set
from itertools import pairwise
from types import MappingProxyType

from namekeeper.evidence.candidates import HOW_ORDER, Candidate, Lookup, Note, NoteCode, merge
from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import CommonName
from namekeeper.judging.answers import AnswerRule, TagFacts, answer_of
from namekeeper.judging.candidates_beside import other_animals, unheard_beside, unlisted_beside
from namekeeper.judging.candidates_clues import Replies, TagHits, genus_key
from namekeeper.judging.hits import Hits
from namekeeper.reading.doubts import between_alternatives
from namekeeper.reading.reading import Clue, ClueLink, Reading
from namekeeper.words.dates import PartialDate
from namekeeper.words.spelling import PlainKey, plain_key
from namekeeper.words.terms import AnswerKind, How


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
    tag = TagHits.of(reading, lists, on, replies)
    common = [*tag.common, *([Hits(tuple(map(_of_service, online)))] if online else [])]
    every = [*(hits for _, hits in tag.scientific), *common]
    forms = _forms(reading, every, lists)
    chosen = _chosen(tag.scientific, common, either=bool(reading.alternatives))
    by_lists = _keys(c for hits in (every[:-1] if online else every) for c in hits.firm)
    genera = {genus_key(key) for key in chosen}
    either = _genera_beside_or(reading, tag) - genera
    another = _another_beside_or(reading, tag, chosen)
    facts = TagFacts(
        reading,
        tuple(every),
        frozenset(chosen),
        by_name=bool(chosen & _keys(c for _, hits in tag.scientific for c in hits.firm_species)),
        other_form=bool(_keys(forms.candidates) - chosen),
        other_genus=another or bool(either) or (bool(tag.genera) and not tag.genera & genera),
        by_service=bool(online) and not chosen & by_lists,
        unheard=unheard_beside(reading, tag, chosen, lists),
        unlisted=unlisted_beside(reading, tag),
        other_animals=other_animals(reading, tag, every, chosen),
        complete=_is_complete(reading, lists),
    )
    rule = answer_of(facts)
    if facts.other_genus and rule.answer is AnswerKind.SEVERAL:
        chosen = (
            chosen | tag.genera | either
        )  # the genus and the other words contradict each other: the keeper must choose
    said = (*rule.says(facts), *tag.left_out)
    shown = _shown(rule.answer, _counted([*every, forms]), chosen)
    return rule, Lookup(rule.answer, _ordered(candidate.noted(said) for candidate in shown))


def _genera_beside_or(reading: Reading, tag: TagHits) -> frozenset[PlainKey]:
    """Genera that the tag gives beside a species and an "or": "Brachypelma hamorii / Grammostola", either way round."""
    firm = {clue: hits.firm for clue, hits in tag.scientific if not clue.name.epithet}
    pairs = pairwise(clue for clue, _ in tag.scientific)
    before = {one for one, other in pairs if _is_or(reading.tag[one.end : other.start])}
    beside = [clue for clue in firm if clue.link is ClueLink.OR or clue in before]
    return frozenset(genus_key(candidate.key) for clue in beside for candidate in firm[clue])


def _another_beside_or(reading: Reading, tag: TagHits, chosen: Set[PlainKey]) -> bool:
    """Whether a common name beside an "or" is of another genus or group: "Lasius niger / Argiope", but not "/ ant"."""
    higher = {taxon for _, hits in tag.scientific for c in hits.firm if c.key in chosen for taxon in c.higher}
    own = higher | {genus_key(key) for key in chosen}
    named = [clue.start for clue, _ in tag.scientific]
    kept = {word.start for word in reading.alternatives} | {
        clue.start for clue in tag.heard for start in named if _is_or(reading.tag[clue.end : start])
    }
    either = [hits.firm for clue, hits in zip(tag.heard, tag.common, strict=True) if clue.start in kept]
    return any(firm and not any(c.is_species or {c.name, c.key} & own for c in firm) for firm in either)


def _is_or(between: str) -> bool:
    return between_alternatives().fullmatch(between) is not None


def _is_complete(reading: Reading, lists: Sequence[NameList]) -> bool:
    """Whether some list has every name of the group of the tag."""
    return bool(
        {taxon for origin in lists for taxon in origin.edition.complete_for} & {"Animalia", "Biota", reading.group}
    )


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
                found.append(Candidate.of(taxon, How.COMMON, form.form, source, notes=[note]))
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


def _chosen(scientific: Sequence[tuple[Clue, Hits]], common: Sequence[Hits], *, either: bool) -> set[PlainKey]:
    """Keys of the species that all firm clues together leave; ``either``: common names do not narrow each other."""
    named, ambiguous = _by_names(scientific)
    equal = [_keys(hits.firm_species) for hits in common if not hits.partial and hits.firm_species]
    partial = [_keys(hits.candidates) for hits in common if hits.partial]
    if not named:
        return set().union(*equal) if either else _meet(equal)
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
        higher = [c for key, c in counted.items() if key not in chosen and not c.is_species and c.how is How.COMMON]
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
