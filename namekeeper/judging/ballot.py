"""Who counts on a name: which source leads, and which votes lag, repeat another or were taken back.

Contract section 4, dissent: it is about the target only; copies of one upstream have one vote, that of the newest
edition; a differing source whose edition is not dated after the act lags, unless it rejects the new name itself.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from namekeeper.evidence.statements import Answer, Edition, NameStatus
from namekeeper.judging.change import name_key
from namekeeper.judging.votes import View, Vote, heard, votes_on
from namekeeper.judging.windows import latest_act, surely_before
from namekeeper.words.dates import PartialDate

# A specialist catalogue reads the papers itself. The keeper's own lists come next: most are exports of such a
# catalogue. The starter list names a paper for every act but is small. The collecting services copy others with a
# delay; of these ChecklistBank names the copied edition, GBIF its backbone, iNaturalist neither. ITIS is seldom
# updated for these groups, and in Wikidata anyone may write.
GENERAL = ("spidercatalog", "*", "starter", "checklistbank", "gbif", "inaturalist", "itis", "wikidata")

# Snails: the starter list holds few of them, and the collecting list takes them from their own dated database.
BY_GROUP: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Mollusca", ("*", "checklistbank", "starter", "gbif", "inaturalist", "itis", "wikidata")),
)

_ANY = "*"  # stands for every list the keeper added; a service that no order names comes last


@dataclass(frozen=True, slots=True)
class Trust:
    """An order of source keys, most trusted first; the keeper's order goes before the order of the group.

    ``general`` and the orders in ``by_group`` may hold ``*`` for every list that is not named.
    """

    keeper: tuple[str, ...] = ()
    general: tuple[str, ...] = GENERAL
    by_group: tuple[tuple[str, tuple[str, ...]], ...] = BY_GROUP

    @classmethod
    def of(cls, order: Sequence[str]) -> Trust:
        """The keeper's order (``trust_order`` of ``collection.yaml``), then the defaults."""
        return cls(keeper=tuple(order))

    def rank(self, edition: Edition, group: Collection[str]) -> tuple[int, int, int, str]:
        """A sort key, smallest first: keeper's order, complete for the group, default order, key."""
        order = next((order for taxon, order in self.by_group if taxon in group), self.general)
        chosen = self.keeper.index(edition.source) if edition.source in self.keeper else len(self.keeper)
        specialist = 0 if set(edition.complete_for) & set(group) else 1
        return (chosen, specialist, _position(edition, order), edition.source)


def _position(edition: Edition, order: Sequence[str]) -> int:
    if edition.source in order:
        return order.index(edition.source)
    return order.index(_ANY) if _ANY in order and not edition.by_service else len(order)


class Superseded(NamedTuple):
    """A vote that does not count, and the newer edition of the same upstream that no longer has the name."""

    vote: Vote
    silent: Edition


@dataclass(frozen=True, slots=True)
class Ballot:
    """All votes: ``counting`` (most trusted first, one an upstream), ``lagging``, and those with no usable answer."""

    counting: tuple[Vote, ...]
    lagging: tuple[Vote, ...]
    broken: tuple[Vote, ...]
    copies: tuple[Vote, ...]  # older copies of a counting or lagging upstream
    outdated: tuple[Superseded, ...] = ()  # votes of editions that a newer one of their upstream no longer repeats
    silent: tuple[Edition, ...] = ()  # newer editions of others, complete for the group, that do not have the name

    @property
    def leader(self) -> Vote | None:
        return self.counting[0] if self.counting else None

    @property
    def doubting(self) -> tuple[Vote, ...]:
        """Less trusted sources that give no name in force where the leader gives one.

        Dissent is about the target name, and they name no other: services mark unreviewed names so. They are told, and
        nothing they doubt is safe.
        """
        if not self.counting or self.counting[0].view not in (View.TARGET, View.SEVERAL):
            return ()
        return tuple(vote for vote in self.counting if vote.view in (View.DOUBTFUL, View.UNAVAILABLE))

    @property
    def agreed(self) -> bool:
        """Whether no counting vote dissents from the leader."""
        return all(vote.agrees(self.counting[0]) for vote in self.counting if vote not in self.doubting)


def hold_ballot(answers: Sequence[Answer], name: str, authorship: str, trust: Trust, group: Collection[str]) -> Ballot:
    """The votes on ``name`` in the answers; those on other names only tell whether a source rejects a new name."""
    votes = votes_on(answers, name, authorship)
    broken = tuple(vote for vote in votes if vote.view is View.BROKEN)
    usable = sorted((vote for vote in votes if vote.view is not View.BROKEN), key=_stable)
    newest: dict[str, Vote] = {}
    for vote in usable:
        held = newest.get(vote.edition.upstream)
        if held is None or _newer(vote, held, trust, group):
            newest[vote.edition.upstream] = vote
    silent = _silent(answers, name)
    outdated = tuple(
        Superseded(vote, later[-1])
        for vote in newest.values()
        if (later := [edition for edition in silent if _replaces(edition, vote.edition, group)])
    )
    gone = [found.vote for found in outdated]
    held_still = [vote for vote in newest.values() if vote not in gone]
    ranked = sorted(held_still, key=lambda vote: trust.rank(vote.edition, group))
    lagging = tuple(vote for vote in ranked if any(_lags(vote, other, answers) for other in ranked))
    counting = tuple(vote for vote in ranked if vote not in lagging)
    copies = tuple(vote for vote in usable if vote not in newest.values())
    against = tuple(
        edition
        for edition in silent
        if counting and covers(edition.complete_for, group) and _is_later(edition, counting[0].edition)
    )
    return Ballot(counting, lagging, broken, copies, outdated, against)


def covers(complete_for: Collection[str], group: Collection[str]) -> bool:
    """Whether a source that is complete for these taxa is complete for the group a name belongs to."""
    return bool(set(complete_for) & {*group, "Animalia", "Biota"})


def _silent(answers: Sequence[Answer], name: str) -> list[Edition]:
    """Editions that were asked the name and say nothing of it, oldest first."""
    speaking = {answer.edition for answer in answers if answer.asked == name and heard(answer)}
    silent = {answer.edition for answer in answers if answer.asked == name} - speaking
    return sorted(silent, key=lambda edition: (edition.dated.latest if edition.dated else date.min, edition.source))


def _replaces(newer: Edition, older: Edition, group: Collection[str]) -> bool:
    """Whether a silent edition speaks for its upstream by its silence: complete for the group, or the same list."""
    same_claim = newer.source == older.source or set(newer.complete_for) == set(older.complete_for)
    same_list = same_claim and not newer.by_service and not older.by_service
    return (
        newer.upstream == older.upstream
        and _is_later(newer, older)
        and (same_list or covers(newer.complete_for, group))
    )


def _is_later(newer: Edition, older: Edition) -> bool:
    return newer.dated is not None and older.dated is not None and surely_before(older.dated, newer.dated)


def _stable(vote: Vote) -> tuple[str, str, str]:
    return (vote.edition.upstream, vote.edition.source, vote.edition.edition or "")


def _newer(vote: Vote, held: Vote, trust: Trust, group: Collection[str]) -> bool:
    mine, theirs = (v.edition.dated.latest if v.edition.dated else date.min for v in (vote, held))
    if mine != theirs:
        return mine > theirs
    return trust.rank(vote.edition, group) < trust.rank(held.edition, group)


def _lags(vote: Vote, other: Vote, answers: Sequence[Answer]) -> bool:
    """Whether ``vote`` differs from ``other`` only because it is not dated after the act that ``other`` follows.

    No two votes lag behind each other: who lags ends before the other one begins.
    """
    if vote.agrees(other) or rejects(vote, other, answers):
        return False
    bound = _act_followed(other, vote, answers)
    if bound is None:
        return False
    known = [found for found in (vote.edition.dated, _newest_act(vote)) if found is not None]
    return all(surely_before(found, bound) for found in known)


def _newest_act(vote: Vote) -> PartialDate | None:
    return latest_act(tuple(act for said in vote.statements for act in said.acts))


def _act_followed(other: Vote, vote: Vote, answers: Sequence[Answer]) -> PartialDate | None:
    """The date of the act that ``other`` follows and ``vote`` does not; None if no bound can be given.

    A change without a dated act lies no later than the edition that reports it. A name that simply stays accepted
    needs no act: an older list that sinks it does not lag behind what did not happen, unless it was revived since.
    """
    act = _newest_act(other)
    if act is not None:
        return act
    if other.first.status is NameStatus.ACCEPTED:
        revived = [
            division.since
            for answer in answers
            if answer.edition == other.edition
            for division in answer.divisions
            if division.since and other.keys <= {name_key(taxon.name) for taxon in division.into}
        ]
        return max(revived, default=None)
    return other.edition.dated if vote.first.status is NameStatus.ACCEPTED else None


def rejects(vote: Vote, other: Vote, answers: Sequence[Answer]) -> bool:
    """Whether the source of ``vote`` knows the name in force of ``other`` by name and sends it elsewhere.

    What it says of the name on the label itself is its vote, no rejection: it may be older than the act.
    """
    label = {name_key(vote.first.asked), name_key(vote.first.subject.name)}
    wanted = other.keys - label
    for answer in answers:
        if answer.edition.upstream != vote.edition.upstream:
            continue
        for said in answer.statements:
            ends = {name_key(target.name) for target in said.targets}
            left = {name_key(said.subject.name), *(name_key(act.old) for act in said.acts)}
            if said.match.speaks and ends and left & wanted and not ends & wanted:
                return True
    return False
