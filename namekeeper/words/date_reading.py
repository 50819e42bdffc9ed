"""Dates as keepers write them: read where there is one reading, refused where there are two."""

from __future__ import annotations

import re
from types import MappingProxyType

from namekeeper.words.dates import DayOrder, PartialDate

# The first letters tell the months apart in English, German, French, Spanish, Italian, Dutch, Portuguese and Polish.
_MONTHS = MappingProxyType(
    {
        start: number
        for number, starts in enumerate(
            (
                "jan jän gen ene sty",
                "feb fév fev lut",
                "mar mär maa mrt",
                "apr avr abr kwi",
                "may mai mei mag maj",
                "jun jui giu cze",
                "jul juil lug lip",
                "aug aoû aou ago sie",
                "sep set wrz",
                "oct okt ott out paź paz",
                "nov lis",
                "dec dez déc dic gru",
            ),
            1,
        )
        for start in starts.split()
    }
)
_ISO = re.compile(
    r"(\d{4})([-/.])(\d{1,2})(?:\2(\d{1,2}))?(?:[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?"
    r"(?:Z|[+-]\d{2}:?\d{2})?)?",
    re.ASCII,
)
_DAY_MONTH_YEAR = re.compile(r"(\d{1,2})\s*([./-])\s*(\d{1,2})\s*\2\s*(\d{4})", re.ASCII)
_MONTH_YEAR = re.compile(r"(\d{1,2})[./-](\d{4})", re.ASCII)
_WORDS = re.compile(
    r"(?:(\d{1,2})(?:\.|st|nd|rd|th|er|º)?\s*(?:de\s+)?[-/]?)?\s*([^\W\d_]{3,})\.?,?[-/\s]*(?:de\s+)?(\d{4})"
)
_WORD_FIRST = re.compile(r"([^\W\d_]{3,})\.?\s*(\d{1,2})(?:st|nd|rd|th)?,\s*(\d{4})")
_INTERVAL = re.compile(r"(\d{4}-[\d:TZ.-]+|\d{4})/(\d{4}-[\d:TZ.-]+|\d{4})", re.ASCII)  # ISO 8601
_TWO_DIGIT_YEAR = re.compile(r"\d{1,2}[./-]\d{1,2}[./-]\d{2}", re.ASCII)


class AmbiguousDateError(ValueError):
    """The text is a date with two readings; the keeper has to say which."""


def read_date(text: str, order: DayOrder | None = None) -> PartialDate:
    """The date a text means; dots put the day first (common practice where dates are written with dots).

    :raises AmbiguousDateError: if day and month cannot be told apart and ``order`` is None.
    :raises ValueError: if it is no date, with the reason; the text is quoted as it was written.
    """
    clean = text.strip()
    if found := _INTERVAL.fullmatch(clean):
        return _period(read_date(found[1]), read_date(found[2]), text)
    if re.fullmatch(r"\d{4}", clean, re.ASCII):
        return _built(clean, clean)
    if found := _ISO.fullmatch(clean):
        return _built(clean, found[1], found[3], found[4])
    if found := _DAY_MONTH_YEAR.fullmatch(clean):
        return _numbers(found, order)
    if found := _MONTH_YEAR.fullmatch(clean):
        return _built(clean, found[2], found[1])
    if found := _WORDS.fullmatch(clean):
        return _built(clean, found[3], _month(found[2], text), found[1])
    if found := _WORD_FIRST.fullmatch(clean):
        return _built(clean, found[3], _month(found[1], text), found[2])
    if _TWO_DIGIT_YEAR.fullmatch(clean):
        message = f"'{text}': a year of two digits"
        raise ValueError(message)
    message = f"'{clean}' is no date that can be read, such as 2019, 3/2019, 12.03.2023 or 2023-03-12"
    raise ValueError(message)


def _period(first: PartialDate, last: PartialDate, text: str) -> PartialDate:
    """The day, month or year that holds both ends of an interval."""
    begins, ends = first.earliest, last.latest
    if begins == ends:
        return PartialDate.of(begins)
    if begins > ends or begins.year != ends.year:
        message = f"'{text}' is no period within one year"
        raise ValueError(message)
    return PartialDate.parse(f"{begins:%Y-%m}" if begins.month == ends.month else f"{begins:%Y}")


def _numbers(found: re.Match[str], order: DayOrder | None) -> PartialDate:
    first, sign, second, year = found.groups()
    if sign == "." or int(first) > 12 or first == second or not (int(first) and int(second)):
        return _built(found[0], year, second, first)
    if int(second) > 12:
        return _built(found[0], year, first, second)
    if order is None:
        one, other = (f"{year}-{month.zfill(2)}-{day.zfill(2)}" for month, day in ((second, first), (first, second)))
        message = f"'{found[0]}' may be {one} or {other}"
        raise AmbiguousDateError(message)
    return (
        _built(found[0], year, second, first) if order is DayOrder.DAY_FIRST else _built(found[0], year, first, second)
    )


def _month(word: str, text: str) -> str:
    folded = word.casefold()
    for length in (4, 3):
        number = _MONTHS.get(folded[:length])
        if number is not None:
            return str(number)
    message = f"'{text}': '{word}' is no month"
    raise ValueError(message)


def _built(written: str, year: str, month: str | None = None, day: str | None = None) -> PartialDate:
    parts = [year] + [part.zfill(2) for part in (month, day) if part]
    try:
        return PartialDate.parse("-".join(parts))
    except ValueError:
        message = f"'{written}' is no day of the calendar"
        raise ValueError(message) from None
