"""What a keeper is asked of a check: findings that one answer settles together, and the names that are offered."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass

from namekeeper.evidence.candidates import Candidate
from namekeeper.evidence.verdicts import Choice, GroundCode, ReasonCode
from namekeeper.tasks.check import Finding, Report
from namekeeper.tasks.settle_names import written_doubt
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import AnswerKind, How, Standing


@dataclass(frozen=True, slots=True)
class SettleQuestion:
    """Findings that are asked about at once, at least one.

    ``exact``: each is a tag that holds one name exactly as a list has it in force, and each takes its own. Otherwise
    they are alike: one tag or name, and the same verdict; whatever is answered goes for all of them.
    """

    findings: tuple[Finding, ...]
    exact: bool = False

    @property
    def first(self) -> Finding:
        return self.findings[0]

    @property
    def ids(self) -> tuple[str, ...]:
        return tuple(finding.specimen.id for finding in self.findings)

    @property
    def offers(self) -> tuple[Choice, ...]:
        """The names to choose from, a proposal first; none where every finding has its own."""
        return () if self.exact else offers(self.first)

    @property
    def doubt(self) -> str:
        """What tag or label say of not being sure (cf., ?), which goes along with a name that is taken."""
        return "" if self.exact else written_doubt(self.first)

    @property
    def single(self) -> Choice | None:
        """The one name that one key takes: what the verdict proposes, or the only choice that it leaves."""
        found = self.offers
        return found[0] if found and (self.first.verdict.proposed or len(found) == 1) else None

    def taking(self, name: str = "") -> Mapping[str, str]:
        """Names by id: this one for all, or each its own where they stand exactly in a list."""
        own = {one.specimen.id: one.verdict.choices[0].name for one in self.findings} if self.exact else {}
        return own or dict.fromkeys(self.ids, name)

    def apart(self) -> tuple[SettleQuestion, ...]:
        """The same findings, asked one at a time."""
        return tuple(SettleQuestion((finding,)) for finding in self.findings)


def questions(report: Report) -> tuple[SettleQuestion, ...]:
    """Everything that waits: names exact in a list in one go, then what needs no judgement, what was postponed last."""
    waiting = sorted((*report.safe, *report.to_decide), key=lambda finding: finding.postponed)
    exact = tuple(finding for finding in waiting if is_exact(finding) and not finding.postponed)
    if len(exact) > 1:
        waiting = [finding for finding in waiting if finding not in exact]
        return (SettleQuestion(exact, exact=True), *alike(waiting))
    return alike(waiting)


def alike(findings: Iterable[Finding]) -> tuple[SettleQuestion, ...]:
    """One question for all findings that cannot be told apart by what is known of them, in their first order."""
    groups: dict[Hashable, list[Finding]] = {}
    for finding in findings:
        groups.setdefault(_likeness(finding), []).append(finding)
    return tuple(SettleQuestion(tuple(group)) for group in groups.values())


def _likeness(finding: Finding) -> Hashable:
    """What two findings share of which one answer settles both.

    One target is the same for every label of that name; where there is a choice to make, tag, place and date count too.
    """
    verdict, animal = finding.verdict, finding.specimen
    name = (finding.named, plain_key(finding.label), verdict.standing, verdict.digest, finding.postponed)
    entry = finding.entry
    doubt = (entry.qualifier, entry.trade_form, entry.form) if entry else ()
    if verdict.proposed and not verdict.choices:
        return (*name, doubt)
    return (*name, doubt, plain_key(animal.tag), plain_key(animal.locality), finding.since, animal.origin)


def is_exact(finding: Finding) -> bool:
    """Whether the tag holds one name, spelt as a list has it in force, and nothing makes it doubtful."""
    verdict = finding.verdict
    if verdict.standing is not Standing.UNNAMED or len(verdict.choices) != 1:
        return False
    firm = any(one.code is ReasonCode.TAG_ONLY and one.words == (AnswerKind.ONE.value,) for one in verdict.reasons)
    clues = [ground.about for ground in verdict.choices[0].grounds if ground.code is GroundCode.CLUE]
    return firm and any(isinstance(clue, Candidate) and _written_out(clue) for clue in clues)


def _written_out(clue: Candidate) -> bool:
    same = plain_key(clue.matched) == plain_key(clue.name)
    return clue.how is How.ACCEPTED and clue.is_species and same and not clue.notes


def offers(finding: Finding) -> tuple[Choice, ...]:
    """The names that a verdict offers, what it proposes first."""
    verdict = finding.verdict
    if verdict.proposed is None:
        return verdict.choices
    key = plain_key(verdict.proposed.name)
    same = next((one for one in verdict.choices if plain_key(one.name) == key), None)
    own = same or Choice(verdict.proposed.name, verdict.proposed.authorship, ())
    return (own, *(one for one in verdict.choices if one is not same))
