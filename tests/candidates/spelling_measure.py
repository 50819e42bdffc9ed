"""Precision and recall of the first answer for misspelt names, by class of error."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.candidates import MAY_BE_REAL
from namekeeper.evidence.interfaces import NameList
from namekeeper.tasks.lookup import look_up
from namekeeper.words.spelling import ending_key, letter_key, plain_key
from namekeeper.words.terms import AnswerKind
from tests.candidates.misspellings import CLASSES, misspelt


@dataclass
class Tally:
    """Counts for one class of error."""

    asked: int = 0
    answered: int = 0  # any candidate of species rank
    right_first: int = 0
    right_shown: int = 0
    one: int = 0
    wrong_one: list[str] = field(default_factory=list)
    missed: list[str] = field(default_factory=list)

    @property
    def recall(self) -> float:
        return self.right_first / self.asked if self.asked else 1.0

    @property
    def precision(self) -> float:
        return self.right_first / self.answered if self.answered else 1.0


def targets_of(name: str, lists: Sequence[NameList]) -> frozenset[str]:
    """Keys of the names in force that the lists give for a correctly written name."""
    found = [s for origin in lists for s in origin.named(name) if s.match.value == "same"]
    return frozenset(plain_key(t.name) for s in found for t in s.targets or (s.subject,))


def measure(
    names: Sequence[str], lists: Sequence[NameList], errors: int, per_class: int, seed: int
) -> dict[str, Tally]:
    """``per_class`` misspellings of every class; none that is itself a listed name by the contract."""
    rng = random.Random(seed)
    tallies: dict[str, Tally] = {}
    for kind in CLASSES:
        tally = tallies[kind] = Tally()
        cases: list[tuple[str, str]] = []
        tries = 0
        while len(cases) < per_class and tries < per_class * 20:
            tries += 1
            name = rng.choice(names)
            wrong = misspelt(name, kind, errors, rng)
            if wrong and not _is_another(wrong, name, lists):
                cases.append((name, wrong))
        for (name, wrong), looked in zip(cases, look_up((w for _, w in cases), lists), strict=True):
            count(
                tally,
                name,
                wrong,
                targets_of(name, lists),
                looked.lookup.answer,
                [c.key for c in looked.lookup.candidates if c.is_species],
            )
    return tallies


def _is_another(wrong: str, name: str, lists: Sequence[NameList]) -> bool:
    """Whether the misspelling is, by the contract, a listed name that is another one.

    By the letters of Article 58 only where the name that was meant is not matched too: Cyriocosmus "parresi", meant
    for C. paredesi, is C. paresi.
    """
    spoken = [s for origin in lists for s in origin.named(wrong) if s.match.speaks]
    exact = [s for s in spoken if s.match.value == "same"]
    named = exact or [s for s in spoken if s.match.value == "ending"]
    others = [plain_key(s.subject.name) != plain_key(name) for s in named or spoken]
    return any(others) if named else bool(others) and all(others)


def count(tally: Tally, name: str, wrong: str, right: frozenset[str], answer: AnswerKind, keys: Iterable[str]) -> None:
    shown = list(keys)
    tally.asked += 1
    tally.answered += bool(shown)
    tally.right_first += bool(shown) and shown[0] in right
    tally.right_shown += bool(right & set(shown))
    tally.one += answer is AnswerKind.ONE
    if not shown or shown[0] not in right:
        tally.missed.append(f"{wrong} <- {name}: {answer.value} {shown[:3]}")
    if answer is AnswerKind.ONE and shown[0] not in right:
        tally.wrong_one.append(f"{wrong} <- {name}: {shown[0]}")


def total(tallies: dict[str, Tally]) -> Tally:
    """All classes together."""
    whole = Tally()
    for tally in tallies.values():
        whole.asked += tally.asked
        whole.answered += tally.answered
        whole.right_first += tally.right_first
        whole.right_shown += tally.right_shown
        whole.one += tally.one
        whole.wrong_one += tally.wrong_one
        whole.missed += tally.missed
    return whole


def _one_by_article_58(written: str, listed: str) -> bool:
    """Whether the Code's letter classes alone make the two one name, with the genus as written (contract 1, row 3)."""
    same_genus = written.split(maxsplit=1)[0] == listed.split(maxsplit=1)[0]
    return same_genus and ending_key(written) != ending_key(listed) and letter_key(written) == letter_key(listed)


def answers(names: Iterable[str], lists: Sequence[NameList]) -> tuple[Counter[str], list[str]]:
    """How names that no list has are answered, and guesses that do not say that the name may be real.

    A name that is another one by the rows of contract section 1 (*Bombus coreanus* beside *B. koreanus*: c and k,
    Art. 58) is not wrong but "one by the Code": both spellings are real, and no rule of spelling can tell them apart.
    """
    found: Counter[str] = Counter()
    silent = []
    for looked in look_up(names, lists):
        answer = looked.lookup.answer
        by_the_code = answer is AnswerKind.ONE and _one_by_article_58(looked.tag, looked.lookup.candidates[0].name)
        found["one by the Code" if by_the_code else answer.value] += 1
        found["with a species"] += any(c.is_species for c in looked.lookup.candidates)
        if looked.lookup.answer is AnswerKind.GUESS and not all(
            MAY_BE_REAL in c.notes for c in looked.lookup.candidates if c.is_species
        ):
            silent.append(looked.tag)
    return found, silent
