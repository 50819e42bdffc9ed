"""The decision table: rules in order, the first that applies decides (contract section 4).

DEVELOPERS.md shows the table; a test compares it with ``TABLE`` row by row.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from namekeeper.evidence.verdicts import ReasonCode
from namekeeper.judging import conclusions as then
from namekeeper.judging.ballot import covers
from namekeeper.judging.conclusions import Outcome
from namekeeper.judging.facts import LabelFacts, change_of
from namekeeper.judging.votes import View
from namekeeper.judging.windows import Usage
from namekeeper.words.terms import Standing


@dataclass(frozen=True, slots=True)
class Rule:
    """A row of the table: ``when`` and ``proposes`` say in words what ``applies`` and ``conclude`` do."""

    id: str
    when: str
    proposes: str
    standing: Standing
    applies: Callable[[LabelFacts], bool]
    conclude: Callable[[LabelFacts], Outcome]


def decide(facts: LabelFacts) -> tuple[Rule, Outcome]:
    """The first rule that applies, and its outcome; the last rule always applies."""
    rule = next(rule for rule in TABLE if rule.applies(facts))
    return rule, rule.conclude(facts)


# What the rules look for


def _nothing_speaks(facts: LabelFacts) -> bool:
    return facts.ballot.leader is None and not facts.ballot.broken


def _unknown(facts: LabelFacts) -> bool:
    failed = any(covers(failure.edition.complete_for, facts.group) for failure in facts.failed)
    return _nothing_speaks(facts) and bool(facts.complete_answers) and not failed


def _view(view: View) -> Callable[[LabelFacts], bool]:
    return lambda facts: facts.ballot.counting[0].view is view


def _changed(standing: Standing) -> Callable[[LabelFacts], bool]:
    return lambda facts: change_of(facts).kind is standing


def _always(_: LabelFacts) -> bool:
    return True


_S = Standing
TABLE: tuple[Rule, ...] = (
    Rule(
        "D01",
        "open nomenclature or genus only, and the whole genus moved",
        "the name under the new genus",
        _S.OPEN,
        lambda f: f.in_open and bool(f.new_genus),
        then.open_moved,
    ),
    Rule(
        "D02",
        "open nomenclature or genus only",
        "nothing; forms since described and genera as choices",
        _S.OPEN,
        lambda f: f.in_open,
        then.in_open,
    ),
    Rule(
        "D03",
        "a recorded misuse was not cleared up when the label was written, or that is not known",
        "nothing; the species meant and the name's proper sense as choices",
        _S.MISAPPLIED,
        lambda f: f.usage is Usage.MISAPPLIED or any(v.view is View.MISAPPLIED for v in f.ballot.counting),
        then.misapplied,
    ),
    Rule(
        "D04",
        "divided since the label was written, or that is not known",
        "nothing; all species it may be as choices",
        _S.DIVIDED,
        lambda f: bool(f.divisions),
        then.divided,
    ),
    Rule(
        "D05",
        "a recorded dispute between published sources",
        "nothing; both sides as choices",
        _S.DISPUTED,
        lambda f: bool(f.disputes),
        then.dispute,
    ),
    Rule(
        "D06",
        "no source lists the name, one that is complete for its group was asked and none such failed",
        "nothing; similar names as choices",
        _S.UNKNOWN,
        _unknown,
        then.not_listed,
    ),
    Rule(
        "D07",
        "no source lists the name, the whole genus moved, and there is no such name in the new one",
        "a computed combination",
        _S.MOVED,
        lambda f: _nothing_speaks(f) and bool(f.new_genus) and not f.taken_by,
        then.computed,
    ),
    Rule(
        "D08",
        "no source gives a usable answer",
        "nothing; who failed and why",
        _S.UNASKED,
        lambda f: f.ballot.leader is None,
        then.unasked,
    ),
    Rule(
        "D09",
        "the leading source gives one spelling several meanings (homonyms, accepted and sunk at once)",
        "nothing; every reading as a choice",
        _S.DISPUTED,
        _view(View.CONTRADICTION),
        then.contradiction,
    ),
    Rule(
        "D10",
        "sources that count differ on the target",
        "nothing; every side as a choice",
        _S.DISPUTED,
        lambda f: not f.ballot.agreed,
        then.differ,
    ),
    Rule(
        "D11",
        "the sources hold the name doubtful",
        "nothing",
        _S.DOUBTFUL,
        _view(View.DOUBTFUL),
        then.positions(_S.DOUBTFUL, ReasonCode.DOUBTFUL),
    ),
    Rule(
        "D12",
        "the name is not available (manuscript or nude name)",
        "nothing",
        _S.OPEN,
        _view(View.UNAVAILABLE),
        then.positions(_S.OPEN, ReasonCode.UNAVAILABLE),
    ),
    Rule(
        "D13",
        "the sources themselves give several names in force",
        "nothing; all of them as choices",
        _S.DIVIDED,
        _view(View.SEVERAL),
        then.positions(_S.DIVIDED, ReasonCode.SEVERAL),
    ),
    Rule("D14", "in force as written", "nothing", _S.CURRENT, _changed(_S.CURRENT), then.to_target(_S.CURRENT)),
    Rule(
        "D15",
        "in force in other letters, same genus",
        "the source's spelling",
        _S.RESPELLED,
        _changed(_S.RESPELLED),
        then.to_target(_S.RESPELLED),
    ),
    Rule(
        "D16",
        "replaced by a name with another epithet for being a homonym",
        "the replacement name",
        _S.RENAMED,
        _changed(_S.RENAMED),
        then.to_target(_S.RENAMED),
    ),
    Rule(
        "D17",
        "same epithet stem, author and year under another genus or rank",
        "the end of the chain",
        _S.MOVED,
        _changed(_S.MOVED),
        then.to_target(_S.MOVED),
    ),
    Rule(
        "D18",
        "any other name in force: a junior synonym",
        "the end of the chain",
        _S.MERGED,
        _always,
        then.to_target(_S.MERGED),
    ),
)
