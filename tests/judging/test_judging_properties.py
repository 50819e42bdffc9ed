"""What must hold for all evidence: order does not matter, dissent never makes safer, a taken proposal is current."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from namekeeper.evidence.statements import Act, ActKind, Answer, Edition, Match, NameStatus, Reply, Statement, TaxonName
from namekeeper.evidence.verdicts import Verdict
from namekeeper.judging.question import Question
from namekeeper.judging.verdict import judge
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import Standing, Verification
from tests.judging.build import TODAY, TRUST, failure, misuse

LABEL = "Aus magnus"
YEARS = st.integers(2000, 2025).map(lambda year: PartialDate.parse(str(year)))
OLD = TaxonName(LABEL, "Smith, 1900")
TARGETS = st.sampled_from(
    [
        OLD,
        TaxonName("Cus magnus", "(Smith, 1900)"),
        TaxonName("Cus magna", "(Smith, 1900)"),
        TaxonName("Dus magnus", "(Smith, 1900)"),
        TaxonName("Aus novus", "Jones, 1950"),
    ]
)
EDITIONS = st.builds(
    Edition,
    source=st.sampled_from(["starter", "gbif", "mine", "other"]),
    title=st.just("a list"),
    upstream=st.sampled_from(["one", "two", "three"]),
    edition=st.none(),
    dated=st.none() | YEARS,
)
VERIFICATIONS = st.sampled_from(Verification)


@st.composite
def answers(draw: st.DrawFn) -> Answer:
    edition = draw(EDITIONS)
    target = draw(TARGETS)
    accepted = target == OLD
    status = (
        NameStatus.ACCEPTED if accepted else draw(st.sampled_from([NameStatus.SYNONYM, NameStatus.OBJECTIVE_SYNONYM]))
    )
    kind = ActKind.TRANSFER if target.name.endswith(("magnus", "magna")) else ActKind.SYNONYMY
    acts = () if accepted or draw(st.booleans()) else (Act(kind, LABEL, target.name, str(draw(YEARS))),)
    match = draw(st.sampled_from([Match.SAME, Match.ENDING, Match.LETTERS]))
    statement = Statement(
        edition, LABEL, match, OLD, status, (target,), acts, draw(VERIFICATIONS), stale=draw(st.booleans())
    )
    return Answer(edition, LABEL, (statement,))


REPLIES = st.lists(answers() | st.just(failure(LABEL)), max_size=5)
QUESTIONS = st.builds(
    Question, name=st.just(LABEL), authorship=st.sampled_from(["", "Smith, 1900"]), label_date=st.none() | YEARS
)


def judged(question: Question, replies: list[Reply]) -> Verdict:
    return judge(question, replies, TRUST, TODAY)


@given(QUESTIONS, REPLIES, st.randoms(use_true_random=False))
def test_the_order_of_replies_never_changes_a_verdict(question: Question, replies: list[Reply], chance: object) -> None:
    shuffled = list(replies)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    assert judged(question, shuffled) == judged(question, replies)


@given(QUESTIONS, REPLIES, EDITIONS, VERIFICATIONS, st.booleans())
def test_an_agreeing_statement_never_makes_it_less_safe(
    question: Question, replies: list[Reply], edition: Edition, verification: Verification, stale: bool
) -> None:
    before = judged(question, replies)
    if before.proposed is None:
        return
    same = next(
        said
        for reply in replies
        if isinstance(reply, Answer)
        for said in reply.statements
        if before.proposed.name in [target.name for target in said.targets]
    )
    agreeing = same._replace(edition=edition, verification=verification, stale=stale)
    after = judged(question, [*replies, Answer(edition, LABEL, (agreeing,))])
    assert after.safe >= before.safe
    assert not before.safe or after.standing is before.standing


@given(QUESTIONS, REPLIES, st.sampled_from(["one", "two", "three", "four"]))
def test_a_dissent_never_makes_a_proposal_safer(question: Question, replies: list[Reply], upstream: str) -> None:
    before = judged(question, replies)
    if before.proposed is None:
        return
    edition = Edition("late", "late", upstream, None, PartialDate.parse("2026-06"))
    other = TaxonName("Eus magnus", "(Smith, 1900)")
    statement = Statement(edition, LABEL, Match.SAME, OLD, NameStatus.SYNONYM, (other,))
    after = judged(question, [*replies, Answer(edition, LABEL, (statement,))])
    if upstream == "four":
        assert (after.standing, after.safe, after.proposed) == (Standing.DISPUTED, False, None)
    else:  # the newest edition of that upstream: it may be the only vote left
        assert after.proposed in (None, other)


@given(QUESTIONS, REPLIES)
def test_a_taken_safe_proposal_is_current(question: Question, replies: list[Reply]) -> None:
    before = judged(question, replies)
    if not before.safe:
        return
    assert before.proposed is not None
    name = before.proposed
    again = Question(name.name, name.authorship, PartialDate.of(TODAY))
    now: list[Reply] = []
    for reply in replies:
        for said in reply.statements if isinstance(reply, Answer) else ():
            if said.targets[0].name.split()[0] == name.name.split()[0]:
                accepted = said._replace(asked=name.name, subject=said.targets[0], status=NameStatus.ACCEPTED, acts=())
                now.append(Answer(said.edition, name.name, (accepted,)))
    assert judged(again, now).standing in (Standing.CURRENT, Standing.RESPELLED)
    leading = [r for r in now if isinstance(r, Answer) and r.statements[0].targets[0].name == name.name]
    assert judged(again, list(leading)).standing is Standing.CURRENT


@given(QUESTIONS, REPLIES)
def test_a_recorded_misuse_is_never_safe(question: Question, replies: list[Reply]) -> None:
    noted = [
        reply._replace(misuses=(misuse(LABEL, ["Fus gus"], cleared="2010"),)) if isinstance(reply, Answer) else reply
        for reply in replies
    ]
    found = judged(question, noted)
    heard = any(isinstance(reply, Answer) for reply in replies)
    assert not (found.safe and heard)


@given(QUESTIONS, REPLIES)
def test_a_verdict_holds_together(question: Question, replies: list[Reply]) -> None:
    found = judged(question, replies)
    assert found.reasons
    assert not found.safe or found.standing in (Standing.MOVED, Standing.RESPELLED)
    assert not found.safe or (found.proposed is not None and not found.choices)
    assert {line.source for line in found.statements} == {reply.edition.source for reply in replies}
    assert found.digest == judged(question, list(reversed(replies))).digest
    if not replies or all(not isinstance(reply, Answer) for reply in replies):
        assert found.standing is Standing.UNASKED


@given(QUESTIONS, REPLIES)
def test_the_digest_does_not_depend_on_editions_and_days(question: Question, replies: list[Reply]) -> None:
    before = judged(question, replies)
    twice = judged(question, [*replies, *(reply for reply in replies if isinstance(reply, Answer))])
    assert twice.digest == before.digest


WORDS = st.text(max_size=25)
NAMES = st.builds(lambda genus, rest: f"{genus} {rest}", WORDS, WORDS) | WORDS


@given(NAMES, WORDS, NAMES, WORDS, st.sampled_from(NameStatus), st.sampled_from(Match), WORDS)
def test_no_text_a_source_or_a_label_may_hold_breaks_judgement(
    name: str, authorship: str, other: str, author: str, status: NameStatus, match: Match, qualifier: str
) -> None:
    edition = Edition("list", "list", "list")
    told = Statement(edition, name, match, TaxonName(name, author), status, (TaxonName(other, author),))
    question = Question(name, authorship, None, qualifier, locality=author, form=qualifier)
    assert judged(question, [Answer(edition, name, (told,))]).reasons
