"""The closed words of files and JSON as a keeper reads them; words of our own, so there is no source but the sets."""

from __future__ import annotations

from dataclasses import replace

import pytest

from namekeeper.evidence.statements import TaxonName
from namekeeper.evidence.verdicts import Choice, Reason, ReasonCode, Verdict
from namekeeper.faces.telling.notes import ANSWERS, FOUND
from namekeeper.faces.telling.standings import MEANING, STATES, TO_DO, beside, done, state, tally
from namekeeper.records.specimen import Decision, NameEntry, Specimen
from namekeeper.tasks.check import Finding
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NOWHERE
from namekeeper.words.terms import AnswerKind, EntryStanding, How, Standing

S, R = Standing, ReasonCode
ONE, TWO = (Choice(name, "", ()) for name in ("Aus bus", "Aus cus"))


def verdict(standing: Standing, *choices: Choice, why: ReasonCode | None = None, to: str = "") -> Verdict:
    reasons = (Reason(why),) if why else ()
    return Verdict(standing, "D00", TaxonName(to) if to else None, False, choices, (), reasons, (), "digest")


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (verdict(S.CURRENT), "Name in force"),
        (verdict(S.CURRENT, ONE, TWO), "Name in force, but sold for others too"),
        (verdict(S.MOVED, to="Cus bus"), "Moved to another genus"),
        (verdict(S.MOVED, to="Aus bus bus"), "Now a subspecies"),
        (verdict(S.MOVED, why=R.COMPUTED, to="Cus bus"), "Genus moved, new name only worked out"),
        (verdict(S.RESPELLED), "Spelt otherwise now"),
        (verdict(S.MERGED), "Now part of another species"),
        (verdict(S.RENAMED), "Has a new name, the old one was taken"),
        (verdict(S.DIVIDED, ONE, TWO), "Split: one of 2 species"),
        (verdict(S.DIVIDED), "Split into several species"),
        (verdict(S.MISAPPLIED, ONE, TWO), "One of 2 species"),
        (verdict(S.MISAPPLIED, ONE), "Sold under another's name"),
        (verdict(S.DOUBTFUL), "Cannot be tied to a species"),
        (verdict(S.OPEN), "Known to the genus only"),
        (verdict(S.OPEN, why=R.GENUS_MOVED, to="Cus"), "Known to the genus only, which moved"),
        (verdict(S.OPEN, why=R.UNAVAILABLE), "Not a published name"),
        (verdict(S.DISPUTED, ONE, TWO), "Sources disagree"),
        (verdict(S.DISPUTED, ONE, TWO, why=R.CONTRADICTION), "One list gives it several meanings"),
        (verdict(S.UNNAMED, ONE), "No name yet"),
        (verdict(S.UNKNOWN), "Not in the list of this group"),
        (verdict(S.UNKNOWN, why=R.NO_LONGER_LISTED), "No longer in the newest edition"),
        (verdict(S.UNASKED), "Not in the lists asked so far"),
        (verdict(S.UNASKED, why=R.ABBREVIATED), "Genus is shortened on the label"),
        (replace(verdict(S.UNASKED), failed=("gbif",)), "Nobody could be asked"),
    ],
)  # fmt: skip
def test_what_is_known_of_a_name_in_a_few_words(found: Verdict, words: str) -> None:
    assert state(found, "Aus bus") == words


def test_a_subspecies_that_became_a_species() -> None:
    assert state(verdict(S.MOVED, to="Aus cus"), "Aus bus cus") == "Now a species of its own"


def test_every_closed_word_has_words_of_its_own() -> None:
    assert set(STATES) == set(MEANING) == set(TO_DO) == set(Standing)
    assert set(FOUND) == set(How)
    assert set(ANSWERS) == set(AnswerKind)
    assert [word for word in EntryStanding if done(word) == word] == []
    assert [word for word in ("kept", "postponed", "unprinted", "new", "gone") if done(word) == word] == []
    assert len({*STATES.values()}) == len(Standing)


def test_a_word_that_a_keeper_wrote_stays() -> None:
    assert done("my own word") == "my own word"
    assert done("moved") == "moved to another genus or rank"
    assert done("moved", "Aus bus", "Cus bus") == "moved to another genus"
    assert done("moved", "Aus bus cus", "Aus cus") == "now a species of its own"


def test_counts() -> None:
    assert tally({"current": 12, "moved": 3, "unnamed": 1}) == "12 in force, 3 moved, 1 without a name"


@pytest.mark.parametrize(
    ("named", "kind", "words"),
    [
        (True, "kept", ["You kept this name on 2024-05-03", "Label to print"]),
        (False, "kept", ["You left it without a name on 2024-05-03", "Label to print"]),
        (True, "postponed", ["You decide later", "Label to print"]),
        (True, "undone", ["Label to print"]),
    ],
)
def test_what_stands_beside_it(*, named: bool, kind: str, words: list[str]) -> None:
    decision = Decision(kind, PartialDate.parse("2024-05-03"), "Aus bus", "digest")
    entry = NameEntry("Aus bus") if named else None
    specimen = Specimen("A1", NOWHERE, decisions=(decision,))
    finding = Finding(specimen, entry, "Aus bus", None, verdict(S.MERGED))
    assert list(beside(finding, stale=True)) == words
