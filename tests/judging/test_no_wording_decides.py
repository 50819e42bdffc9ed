"""Nothing below the faces decides by the wording of a sentence, and every code is said by some verdict."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from namekeeper.evidence.statements import CommonName, FailureKind, GenusRecord, Match, NameStatus, Successor
from namekeeper.evidence.verdicts import GroundCode, Reason, ReasonCode, Verdict
from namekeeper.judging.question import Question
from tests.judging.build import answer, day, edition, failure, misuse, says, taxon, verdict
from tests.judging.scenario import heard, label, split, sunk, valid
from tests.judging.scenarios import SCENARIOS
from tests.judging.test_judging_scenarios import EXTRA

PACKAGE = Path(__file__).parent.parent.parent / "namekeeper"
BELOW = ("reading", "evidence", "judging", "tasks")  # the note of a name in ``words`` is a part of it, no sentence
#: Attributes that hold sentences for people, of our own values and of what sources say.
PROSE = frozenset({"why", "says", "note", "fault", "remark", "what", "remedy", "message", "statement"})
MADE_OF_CODES = ("Reason", "Ground", "Note")
SEARCHES = frozenset(
    {"startswith", "endswith", "find", "index", "count", "split", "partition", "rpartition", "removeprefix",
     "removesuffix", "replace", "casefold", "lower"}
)  # fmt: skip


def prose_in(node: ast.AST) -> bool:
    """Whether an expression reads a sentence, straight or folded: ``said.says``, ``plain_key(said.says)``."""
    return any(isinstance(part, ast.Attribute) and part.attr in PROSE for part in ast.walk(node))


def decisions_on_wording(tree: ast.AST) -> Iterator[int]:
    """Lines that compare a sentence with another text, look into it or match it with a pattern."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare):
            sides = (node.left, *node.comparators)
            told = any(isinstance(op, ast.In | ast.NotIn | ast.Eq | ast.NotEq) for op in node.ops)
            if told and any(isinstance(side, ast.Attribute | ast.Call) and prose_in(side) for side in sides):
                yield node.lineno
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            searched = node.func.attr in SEARCHES and prose_in(node.func.value)
            matched = node.func.attr in ("match", "search", "fullmatch") and any(map(prose_in, node.args))
            if searched or matched:
                yield node.lineno


def modules() -> list[Path]:
    return sorted(path for package in BELOW for path in (PACKAGE / package).rglob("*.py"))


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_no_module_below_the_faces_decides_by_wording(path: Path) -> None:
    assert list(decisions_on_wording(ast.parse(path.read_text(encoding="utf-8")))) == []


@pytest.mark.parametrize(
    "line",
    [
        "key in plain_key(said.says)", 'c.note and "trade form" in c.note', "self.why.endswith(CANNOT)",
        'left.why == "x"', "re.search(X, found.why)", '"a" not in reason.fault.lower()',
    ],
)  # fmt: skip
def test_the_check_above_finds_what_it_looks_for(line: str) -> None:
    assert list(decisions_on_wording(ast.parse(line))) != []


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_reasons_are_made_of_codes(path: Path) -> None:
    """A reason, a ground or a note is never built with a sentence in place of its code or among its words."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in MADE_OF_CODES:
            literal = [part for part in ast.walk(node) if isinstance(part, ast.JoinedStr)]
            texts = [part for part in ast.walk(node) if isinstance(part, ast.Constant) and isinstance(part.value, str)]
            assert (literal, texts) == ([], []), node.lineno


WHOLE = GenusRecord("Aus", "Ausidae", "feminine", accepted=False, moved_to=("Cus",), moved_whole=True)
AUS, CUS = "Aus bus (Smith, 1900)", "Cus bus (Smith, 1900)"
MOVED = sunk(AUS, CUS, "transfer", "2010")
OTHER = edition("gbif", "2026")


def more() -> Iterator[Verdict]:
    """Verdicts for what no published act above shows; all names invented."""
    yield verdict(Question("Aus", trade_form="Red", genus_records=(WHOLE._replace(moved_whole=False),)))
    yield verdict(Question("Aus", genus_records=(WHOLE._replace(moved_whole=False),)))
    sunk_genus = says("Aus", "Aus", "Dus", by=OTHER)
    yield verdict(
        Question("Aus", qualifier="sp.", genus_records=(WHOLE._replace(moved_whole=False),)), answer(sunk_genus)
    )
    yield verdict(
        label("Aus bus Smith, 1900", None),
        heard(valid("Aus bus Smith, 1900"), divisions=[split("Aus bus", ["Aus bus", "Aus cus"], "2001")]),
    )
    yield verdict("A. bus")
    yield verdict("Aus bus", answer(says("Aus bus", "Aus bus", fault="a circle")))
    printed = says("Aus bus", "Aus bus", taxon("Cus bus (Smith, 1900)", "Cus"), by=OTHER)
    yield verdict("Aus bus", answer(printed))
    marks = says("Aus m\u00fclleri", "Aus mulleri", "Aus mulleri", status=NameStatus.ACCEPTED)
    yield verdict("Aus m\u00fclleri", answer(marks))
    letters = says("Aus litoralis", "Aus littoralis Smith, 1900", "Aus littoralis Smith, 1900",
                   status=NameStatus.ACCEPTED, match=Match.LETTERS)  # fmt: skip
    yield verdict("Aus litoralis", answer(letters))
    doubt = says("Aus bus", AUS, status=NameStatus.DOUBTFUL, by=OTHER)
    yield verdict(AUS, answer(MOVED), answer(doubt), written="2015")
    yield verdict(label(AUS, "2012"), heard(MOVED, misuses=[misuse("Aus bus", ["Aus cus"], cleared="2005")]))
    yield verdict(
        label(AUS, "1990"), heard(MOVED, misuses=[misuse("Aus bus", ["Aus cus"], cleared="2000", start="1995")])
    )
    yield verdict(
        AUS, answer(MOVED), answer(says("Cus bus", CUS, status=NameStatus.DOUBTFUL, by=OTHER)), written="2015"
    )
    yield verdict(AUS, answer(MOVED), answer(says("Cus bus", CUS, "Dus bus (Smith, 1900)", by=OTHER)), written="2015")
    hint = says("Aus bas", "Aus bus", "Aus bus", match=Match.SIMILAR)
    yield verdict(Question("Aus bas", genus_records=(WHOLE,)),
                  answer(by=edition("all", complete="Animalia"), asked="Aus bas")._replace(hints=(hint,)))  # fmt: skip
    yield verdict("Aus bus", failure("Aus bus", FailureKind.OFFLINE))
    older, newer = edition("cat", "2020"), edition("cat", "2024")
    had = says("Aus bus", "Aus bus", "Aus bus", status=NameStatus.ACCEPTED, by=older)
    followed = tuple(Successor(taxon("Cus bus"), older, newer, by_key) for by_key in (True, False))
    yield verdict(Question("Aus bus", successors=followed), answer(had), answer(by=newer, asked="Aus bus"))
    whole = edition("all", "2025", complete="Animalia")
    yield verdict("Aus bus", answer(had), answer(by=whole, asked="Aus bus"))
    yield verdict(AUS, answer(MOVED._replace(as_of="2015", revised="2020")), written="2015")
    known = CommonName("Red bus", "en", taxon("Aus bus"), "common", older)
    yield verdict(Question("Red bus", common=(known,)), answer(asked="Red bus"))
    yield verdict(Question("Aus bus", label_date=day("2014"), parents=("Aus bus", "Aus cus")))


def codes_in(reasons: tuple[Reason, ...]) -> Iterator[ReasonCode]:
    for reason in reasons:
        yield reason.code
        yield from codes_in((reason.about,)) if isinstance(reason.about, Reason) else ()


def test_every_code_is_said_by_some_verdict() -> None:
    found = [*(scenario.judge() for scenario in (*SCENARIOS, *EXTRA)), *more()]
    assert set(ReasonCode) - {code for one in found for code in codes_in(one.reasons)} == {ReasonCode.TAG_ONLY}
    grounds = {ground.code for one in found for choice in one.choices for ground in choice.grounds}
    # for a tag that nothing was settled of, and for a form described in another genus: see tests of the check
    assert set(GroundCode) - grounds == {GroundCode.CLUE, GroundCode.FOLLOWS_GENUS}
