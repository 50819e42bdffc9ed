"""Rules for sex and number (males.females.unsexed), and the stage of life."""

from __future__ import annotations

import re

from namekeeper.reading.amounts import numbers_before
from namekeeper.reading.draft import Draft, TagWord
from namekeeper.reading.lexicon import Kind, Phrase, phrases
from namekeeper.reading.vocabulary import ABBREVIATIONS

# 0.1 or 1.0.3; with commas or, where a zero or 1/1 shows that no fraction is meant, slashes
NOTATION = re.compile(
    r"(?<![\w.,/])(\d{1,3})([.,/])(\d{1,3})(?:\2(\d{1,4}))?(?![^\W]|[.,/]\d|[\"'%])(?! ?(?:cm|mm|inch|€|£|zł|Kč|EUR))"
)
#: Behind these words stands the animal that the seller looks for
_WANTED = re.compile(r"\b(?:looking for|wanted|seeks?|suche|cherche|busco|zoek|szukam|hledám|cerco) $", re.I)
TIMES = re.compile(r"(?<![\w.,/])(?:(\d{1,3}) ?[x×X]|[x×X] ?(\d{1,3}))(?![\w.,/])")


def read_notation(draft: Draft) -> tuple[int, int, int] | None:
    """The zoo notation ``1.0.3`` as three counts; dates and prices that look alike are left alone."""
    for found in NOTATION.finditer(draft.open_text):
        counts = tuple(int(number or 0) for number in (found[1], found[3], found[4]))
        if _is_date_or_price(found, counts) or sum(counts) == 0:
            continue
        draft.claim("sex", found.start(), found.end())
        return counts[0], counts[1], counts[2]
    return None


def _is_date_or_price(found: re.Match[str], counts: tuple[int, ...]) -> bool:
    if any(number and len(number) > 1 and number.startswith("0") for number in (found[1], found[3], found[4])):
        return True
    first, second, third = counts
    if found[2] == "/":
        return 0 not in counts[: 3 if found[4] else 2] and (first, second) != (1, 1)
    if found[4]:
        return third > 999 or (first >= 1 and 1 <= second <= 12 and third >= 15)
    return (second >= 20 and first > 0) or (
        first > 4 and second <= 12 and found.string[found.end() : found.end() + 1] == "."
    )


def read_sex_and_stage(draft: Draft, counted: tuple[int, int, int] | None) -> tuple[str, str]:
    """``males.females.unsexed`` and the stage, from words, signs and abbreviations; the notation wins over words."""
    words = draft.words()
    found = list(phrases(words, draft.text, frozenset({Kind.SEX, Kind.STAGE, Kind.DOUBT, Kind.GROUP})))
    taken = {i for phrase in found for i in range(phrase.first, phrase.last)}
    tally = _Tally()
    for phrase in found:
        if not _WANTED.search(draft.text[max(0, words[phrase.first].start - 20) : words[phrase.first].start]):
            tally.add_phrase(draft, words, phrase)
    for i, word in enumerate(words):
        if i not in taken and word.text in ABBREVIATIONS and not _is_initial(draft, word):
            tally.add_abbreviation(draft, word)
    if counted is None and not any(tally.settled()):
        _read_times(draft, tally)
    counts = counted or tally.settled()
    return ".".join(map(str, counts)) if any(counts) else "", tally.stage


class _Tally:
    """What sex and stage words have said so far."""

    def __init__(self) -> None:
        self.counts = [0, 0, 0]
        self.pairs = 0
        self.doubted = False
        self.stage = ""

    def settled(self) -> tuple[int, int, int]:
        """A doubtful sex ("poss. female") counts as unsexed."""
        males, females, unsexed = self.counts
        males, females = max(males, self.pairs), max(females, self.pairs)  # "male and female, pair" are two animals
        return (0, 0, males + females + unsexed) if self.doubted else (males, females, unsexed)

    def add_phrase(self, draft: Draft, words: list[TagWord], phrase: Phrase) -> None:
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        if phrase.kind is Kind.DOUBT:
            behind = words[phrase.last] if phrase.last < len(words) else None
            if behind and behind.start - end <= 3 and _names_sex(behind):
                self.doubted = True
                draft.claim("sex", start, end)
        elif phrase.kind is Kind.STAGE:
            number, start = next(numbers_before(draft, start), (0, start))
            self.stage = self.stage or phrase.value
            if number and not any(self.counts):
                self.counts[2] += number
                draft.claim("sex", start, words[phrase.first].start)
            draft.claim("stage", words[phrase.first].start, end)
        elif phrase.kind is Kind.GROUP:
            self._add_group(draft, phrase, start, end)
        else:
            self._add_sex(draft, phrase, start, end)

    def add_abbreviation(self, draft: Draft, word: TagWord) -> None:
        sex, stage = ABBREVIATIONS[word.text]
        if sex:
            self._add_sex(draft, Phrase(Kind.SEX, sex, 0, 0), word.start, word.end)
        if stage:
            self.stage = self.stage or stage
            if not sex:
                draft.claim("stage", word.start, word.end)

    def _add_group(self, draft: Draft, phrase: Phrase, start: int, end: int) -> None:
        if phrase.value == "trio":
            self.counts[2] += 3
        if phrase.value != "group":
            draft.claim("sex", start, end)

    def _add_sex(self, draft: Draft, phrase: Phrase, start: int, end: int) -> None:
        number, begin = next(numbers_before(draft, start), (1, start))
        signs = len(re.findall("[♀♂⚥]", draft.text[start:end]))
        number *= max(signs, 1)
        if phrase.value == "pair":
            self.pairs += number
        else:
            self.counts[("male", "female", "unsexed").index(phrase.value.split(" ")[0])] += number
        if draft.text[end : end + 1] == "?" or draft.text[end : end + 2] == " ?":
            self.doubted = True
            end = draft.text.index("?", end) + 1
        draft.claim("sex", begin, end)


def _names_sex(word: TagWord) -> bool:
    return word.text in ABBREVIATIONS or any(
        phrase.kind is Kind.SEX for phrase in phrases([word], word.text, frozenset({Kind.SEX}))
    )


def _is_initial(draft: Draft, word: TagWord) -> bool:
    """Whether a lone M or F is part of something else: "M. balfouri", "F1"."""
    behind = draft.text[word.end : word.end + 1]
    if behind == "." and not re.match(r"\. ?[^\W\d_]", draft.text[word.end :]):
        return False
    return len(word.text) == 1 and (
        behind.isdigit() or behind in ("'", ".") or draft.text[word.start - 1 : word.start] == "'"
    )


def _read_times(draft: Draft, tally: _Tally) -> None:
    found = TIMES.search(draft.open_text)
    if found:
        tally.counts[2] += int(found[1] or found[2])
        draft.claim("sex", found.start(), found.end())
        return
    words = draft.words()
    for phrase in phrases(words, draft.text, frozenset({Kind.COUNT})):
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        for number, begin in numbers_before(draft, start):
            tally.counts[2] += number
            draft.claim("sex", begin, end)
            return
