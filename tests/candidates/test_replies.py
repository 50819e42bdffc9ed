"""Services are asked only for names that no list has; what they say of the very name is a candidate, hints never."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.candidates import Lookup
from namekeeper.evidence.statements import (
    Answer,
    CommonName,
    Edition,
    Failure,
    FailureKind,
    Match,
    NameStatus,
    Reply,
    Statement,
    TaxonName,
)
from namekeeper.tasks.lookup import look_up
from namekeeper.words.terms import AnswerKind, How
from tests.candidates.fake_list import FakeList

LIST = FakeList.of("Aurata minor", "Aurata grandis")
SERVICE = Edition("service", "Service", "service")


def said(name: str, match: Match = Match.SAME, target: str = "", kingdom: str = "Animalia") -> Answer:
    subject = TaxonName(name, kingdom=kingdom)
    end = TaxonName(target, kingdom=kingdom) if target else subject
    status = NameStatus.SYNONYM if target else NameStatus.ACCEPTED
    statement = Statement(SERVICE, name, match, subject, status, (end,))
    speaks = match.speaks
    return Answer(SERVICE, name, (statement,) if speaks else (), () if speaks else (statement,))


@dataclass
class Service:
    """Answers from a table and remembers what it was asked."""

    replies: Mapping[str, Reply]
    asked: list[str] = field(default_factory=list)

    def __call__(self, names: Sequence[str]) -> Mapping[str, Sequence[Reply]]:
        self.asked += names
        return {name: (self.replies[name],) if name in self.replies else () for name in names}


def answer(tag: str, *replies: Answer | Failure) -> tuple[Lookup, list[str]]:
    service = Service({reply.asked: reply for reply in replies})
    (looked,) = look_up([tag], [LIST], ask_names=service)
    return looked.lookup, service.asked


def test_what_the_lists_have_is_not_asked() -> None:
    for tag in ("Aurata minor", "A. minor 0.1", "Aurata sp.", "Aurata", "red knee", "0.1"):
        assert answer(tag)[1] == [], tag


def test_a_name_that_only_a_service_has_is_found_with_its_source() -> None:
    lookup, asked = answer("Ursus maritimus 0.1", said("Ursus maritimus"))
    assert asked == ["Ursus maritimus"]
    assert lookup.answer is AnswerKind.ONE
    assert [(c.name, c.how, c.sources) for c in lookup.candidates] == [("Ursus maritimus", How.ACCEPTED, ("service",))]
    moved, _ = answer("Ursus maritimus", said("Ursus maritimus", target="Thalarctos maritimus"))
    assert [(c.name, c.how) for c in moved.candidates] == [("Thalarctos maritimus", How.FORMER)]


def test_a_real_name_that_a_service_has_is_no_longer_a_guess() -> None:
    guess, asked = answer("Aurata grandos")
    assert (guess.answer, asked) == (AnswerKind.GUESS, ["Aurata grandos"])
    real, _ = answer("Aurata grandos", said("Aurata grandos"))
    assert [c.name for c in real.candidates] == ["Aurata grandos"]


def test_hints_plants_and_failures_are_no_candidates() -> None:
    offline = Failure(SERVICE, "Ursus maritimus", FailureKind.OFFLINE, "offline")
    for reply in (said("Ursus maritimus", Match.SIMILAR), said("Ursus maritimus", kingdom="Plantae"), offline):
        lookup, _ = answer("Ursus maritimus", reply)
        assert (lookup.answer, lookup.candidates) == (AnswerKind.UNASKED, ())


def test_common_names_of_a_service_are_candidates_and_never_one() -> None:
    found = CommonName("polar dragon", "en", TaxonName("Ursus maritimus"), "common", SERVICE)
    (looked,) = look_up(["polar dragon 5cm"], [LIST], ask_common=lambda words: [found])
    assert looked.lookup.answer is not AnswerKind.ONE
    assert [c.name for c in looked.lookup.candidates] == ["Ursus maritimus"]
