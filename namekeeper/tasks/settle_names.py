"""The name that shall stand on a label: one that a verdict offers, or as typed, and what is known of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple, Protocol

from namekeeper.evidence.interfaces import ScientificNames, SimilarNames
from namekeeper.evidence.statements import Act, Failure, NameStatus, Statement
from namekeeper.evidence.verdicts import Said, Silence, Verdict
from namekeeper.judging.change import name_key
from namekeeper.reading.reading import HYBRID, ClueLink, Reading
from namekeeper.reading.tag import read_tag
from namekeeper.records.specimen import NameEntry
from namekeeper.tasks.check import Finding
from namekeeper.words.authorship import short_citation
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_typed_name
from namekeeper.words.spelling import EndingKey, PlainKey, plain_key
from namekeeper.words.terms import EntryStanding, Standing

# The type of the name stays the same: the line keeps nothing of the old name (contract section 4).
_SAME_TYPE = frozenset({Standing.MOVED, Standing.RESPELLED})
_MOST_NEAR = 5
_NO_NAME = (NameStatus.DOUBTFUL, NameStatus.UNAVAILABLE)
# The identification goes on unchanged, so what was uncertain stays so.
_SAME_IDENTIFICATION = _SAME_TYPE | {Standing.MERGED, Standing.RENAMED, Standing.CURRENT}


class SettlingList(ScientificNames, SimilarNames, Protocol):
    """What a name that is taken as typed needs of a list."""


class Unlisted(NamedTuple):
    """A name that is taken as typed, since no list here has it: it may be real, or misspelt."""

    name: str
    near: tuple[str, ...]  # names of the lists that are spelt similarly


@dataclass(frozen=True, slots=True)
class Wanted:
    """The name that shall stand on the label."""

    name: str
    authorship: str
    standing: str
    qualifier: str = ""
    trade_form: str = ""
    unlisted: Unlisted | None = None
    left_out: str = ""  # the doubt of tag or label that the keeper does not share


class Instead(NamedTuple):
    """A name that may be meant by a typed one; ``listed`` is the name of a list that led to it."""

    name: str
    authorship: str
    listed: str


@dataclass(frozen=True, slots=True)
class Typed:
    """A name as the keeper typed it: whether a list here has it, and what else may be meant, nearest first.

    Of a listed name that is a former one ``instead`` holds the name in force, of an unlisted one those spelt similarly.
    """

    wanted: Wanted
    listed: bool
    instead: tuple[Instead, ...] = ()


@dataclass(frozen=True, slots=True)
class NameTaker:
    """Finds the name that an order means, with what the lists here have of it."""

    lists: Sequence[SettlingList]

    def wanted(self, finding: Finding, text: str, *, certain: bool = False) -> Wanted:
        """The name to take: one that the verdict offers, else as typed, which must be readable as a name.

        An offered name has the doubt of the tag or label, unless it is ``certain`` that the animal is that.
        """
        typed = parse_typed_name(text)
        wanted = self._offered(finding, typed, text) or self.typed(typed)
        return replace(wanted, qualifier="", left_out=wanted.qualifier) if certain else wanted

    def look_at(self, finding: Finding, text: str) -> Typed:
        """What is known of a name before it is taken.

        :raises InputError: if the text cannot be a name.
        """
        typed = parse_typed_name(text)
        offered = self._offered(finding, typed, text)
        if offered is not None:
            return Typed(offered, listed=True)
        wanted, name = self.typed(typed), typed.canonical
        if self._listed(name) is None:
            return Typed(wanted, listed=False, instead=self._near(name))
        now = [target for source in self.lists for told in source.named(name) for target in told.targets]
        others = () if any(plain_key(one.name) == plain_key(name) for one in now) else now
        return Typed(wanted, listed=True, instead=_each_once(Instead(*one[:2], name) for one in others))

    def _near(self, name: str) -> tuple[Instead, ...]:
        found = (hit.statement for source in self.lists for hit in source.similar(name, _MOST_NEAR))
        meant = ((told.subject.name, target) for told in found for target in told.targets or (told.subject,))
        return _each_once(Instead(target.name, target.authorship, listed) for listed, target in meant)[:_MOST_NEAR]

    def _offered(self, finding: Finding, typed: ScientificName, text: str) -> Wanted | None:
        verdict = finding.verdict
        offers = [(choice.name, choice.authorship) for choice in verdict.choices]
        if verdict.proposed:
            offers.insert(0, (verdict.proposed.name, verdict.proposed.authorship))
        keys = (plain_key(typed.canonical), plain_key(text))
        offer = next(((name, authorship) for name, authorship in offers if plain_key(name) in keys), None)
        if offer is None or typed.qualifier or typed.trade_form:
            return None
        nothing_happened = verdict.standing in (Standing.UNNAMED, Standing.CURRENT)
        standing = EntryStanding.CHOSEN if nothing_happened else verdict.standing
        return Wanted(*offer, standing, *doubt_of(finding, offer[0]))

    def typed(self, typed: ScientificName) -> Wanted:
        """A name as the keeper wrote it, with the authorship that the lists here have for it."""
        known = self._listed(typed.canonical)
        name, authorship = known or (typed.canonical, "")
        authorship = str(typed.authorship) if typed.authorship else authorship
        unlisted = None if known else self._unlisted(name)
        return Wanted(name, authorship, EntryStanding.CHOSEN, typed.qualifier, typed.trade_form, unlisted)

    def _listed(self, name: str) -> tuple[str, str] | None:
        for source in self.lists:
            for statement in source.named(name):
                if plain_key(statement.subject.name) == plain_key(name):
                    return statement.subject.name, statement.subject.authorship
            genus = source.genus(name)
            if genus is not None:
                return genus.genus, ""
        return None

    def _unlisted(self, name: str) -> Unlisted:
        near = [found.statement.subject.name for source in self.lists for found in source.similar(name, 1)]
        return Unlisted(name, tuple(dict.fromkeys(near)))


def _each_once(names: Iterable[Instead]) -> tuple[Instead, ...]:
    found: dict[PlainKey, Instead] = {}
    for one in names:
        found.setdefault(plain_key(one.name), one)
    return tuple(found.values())


def form_after(old: NameEntry | None, new: str, standing: str) -> str:
    """What the line goes on being called: nothing new where the type stays, else the old name's epithet or form."""
    if old is None:
        return ""
    if standing in _SAME_TYPE:
        return old.form
    old_words, new_words = old.name.split(), new.split()
    if old.trade_form:
        kept = f'"{old.trade_form}"'
    elif len(old_words) > 1 and old_words[1:] != new_words[1:] and all(map(str.isalpha, old_words[1:])):
        kept = "ex " + " ".join(old_words[1:])
    else:
        kept = f"ex {old.name}"
    return f"{old.form}, {kept}" if old.form and kept not in old.form else old.form or kept


def doubt_of(finding: Finding, name: str) -> tuple[str, str]:
    """Qualifier and trade form that go along with an offered name: those of the label, or else of the tag.

    Darwin Core, identificationQualifier: a phrase or sign for the determiner's doubt ("cf.", "aff. agrifolia").
    """
    old = finding.entry
    if old is None:
        return _doubt_of_tag(read_tag(finding.specimen.tag), name)
    if finding.verdict.standing not in _SAME_IDENTIFICATION:
        return "", ""
    return old.qualifier, old.trade_form


def written_doubt(finding: Finding) -> str:
    """The doubt of the identification (cf., ?) that stands on the label or, where it has no name, on the tag."""
    sign = finding.entry.qualifier if finding.entry else read_tag(finding.specimen.tag).qualifier
    return "" if sign.startswith("sp") else sign


def _doubt_of_tag(reading: Reading, name: str) -> tuple[str, str]:
    """ "cf." for a species of such a tag; for a genus what the tag says instead of the species, as "aff. minatrix"."""
    sign = reading.qualifier
    if " " in name:  # that the species is open was said before there was one
        return ("" if sign.startswith("sp") else sign), ""
    clue = next((clue.name for clue in reading.clues if clue.link is not ClueLink.FORMER), None)
    if sign in ("", "?", HYBRID) or clue is None:
        return ("?" if sign and sign != HYBRID else sign), reading.trade_form
    return f"{sign} {clue.epithet}".strip() if clue.qualifier else "?", reading.trade_form


def speaking_for(verdict: Verdict, name: str) -> Said | None:
    """The first source that gives the name taken as one in force; one that lags, doubts or denies it gives none."""
    return next((said for said in verdict.statements if not said.lagging and _gives(said.told, name_key(name))), None)


def _gives(told: Statement | Silence | Failure, key: EndingKey) -> bool:
    if not isinstance(told, Statement) or told.fault is not None or told.status in _NO_NAME:
        return False
    return any(name_key(target.name) == key for target in told.targets)


def according_to(verdict: Verdict) -> str:
    """Who published the acts that led to the proposal, from the verdict's own reasons."""
    acts = (reason.about for reason in verdict.reasons if isinstance(reason.about, Act))
    cited = (short_citation(act.citation) or act.year for act in acts)
    return "; ".join(dict.fromkeys(filter(None, cited)))
