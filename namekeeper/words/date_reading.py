"""Dates as keepers write them: read where there is one reading, refused where there are two."""

from __future__ import annotations

import re
from types import MappingProxyType

from namekeeper.words.dates import DayOrder, PartialDate

# The first three or four letters tell the months apart in English, German, French, Spanish, Italian, Dutch, Portuguese
# and Polish.
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
_ISO = re.compile(r"(\d{4})([-/.])(\d{1,2})(?:\2(\d{1,2}))?(?:[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z?)?", re.ASCII)
_DAY_MONTH_YEAR = re.compile(r"(\d{1,2})\s*([./-])\s*(\d{1,2})\s*\2\s*(\d{4})", re.ASCII)
_MONTH_YEAR = re.compile(r"(\d{1,2})[./-](\d{4})", re.ASCII)
_WORDS = re.compile(
    r"(?:(\d{1,2})(?:\.|st|nd|rd|th|er|º)?\s*(?:de\s+)?[-/]?)?\s*([^\W\d_]{3,})\.?,?[-/\s]*(?:de\s+)?(\d{4})"
)
_WORD_FIRST = re.compile(r"([^\W\d_]{3,})\.?\s*(\d{1,2})(?:st|nd|rd|th)?,\s*(\d{4})")
_TWO_DIGIT_YEAR = re.compile(r"\d{1,2}[./-]\d{1,2}[./-]\d{2}", re.ASCII)

_Parts = tuple[str, str | None, str | None]  # year, month, day


class AmbiguousDateError(ValueError):
    """The text is a date with two readings; the keeper has to say which."""


def read_date(text: str, order: DayOrder | None = None) -> PartialDate:
    """The date a text means; dots put the day first (common practice where dates are written with dots).

    :raises AmbiguousDateError: if day and month cannot be told apart and ``order`` is None.
    :raises ValueError: if it is no date, with the reason; the text is quoted as it was written.
    """
    year, month, day = _parts(text.strip(), order)
    iso = "-".join([year, *(part.zfill(2) for part in (month, day) if part)])
    try:
        return PartialDate.parse(iso)
    except ValueError:
        message = f"'{text.strip()}' is no day of the calendar"
        raise ValueError(message) from None


def _parts(clean: str, order: DayOrder | None) -> _Parts:
    if re.fullmatch(r"\d{4}", clean, re.ASCII):
        return clean, None, None
    if found := _ISO.fullmatch(clean):
        return found[1], found[3], found[4]
    if found := _DAY_MONTH_YEAR.fullmatch(clean):
        return _numbers(found, order)
    if found := _MONTH_YEAR.fullmatch(clean):
        return found[2], found[1], None
    if found := _WORDS.fullmatch(clean):
        return found[3], _month(found[2], clean), found[1]
    if found := _WORD_FIRST.fullmatch(clean):
        return found[3], _month(found[1], clean), found[2]
    if _TWO_DIGIT_YEAR.fullmatch(clean):
        message = f"'{clean}': a year of two digits"
        raise ValueError(message)
    message = f"'{clean}' is no date that can be read, such as 2019, 3/2019, 12.03.2023 or 2023-03-12"
    raise ValueError(message)


def _numbers(found: re.Match[str], order: DayOrder | None) -> _Parts:
    first, sign, second, year = found.groups()
    if sign == "." or int(first) > 12 or first == second or not (int(first) and int(second)):
        return year, second, first
    if int(second) > 12:
        return year, first, second
    if order is None:
        one, other = (f"{year}-{month.zfill(2)}-{day.zfill(2)}" for month, day in ((second, first), (first, second)))
        message = f"'{found[0]}' may be {one} or {other}"
        raise AmbiguousDateError(message)
    return (year, second, first) if order is DayOrder.DAY_FIRST else (year, first, second)


def _month(word: str, text: str) -> str:
    folded = word.casefold()
    for length in (4, 3):
        number = _MONTHS.get(folded[:length])
        if number is not None:
            return str(number)
    message = f"'{text}': '{word}' is no month"
    raise ValueError(message)
