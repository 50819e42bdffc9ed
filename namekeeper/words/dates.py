"""Dates as keepers know them: a day, a month or only a year."""

from __future__ import annotations

import re
from datetime import date
from enum import StrEnum, unique
from typing import NamedTuple

_SHAPE = re.compile(r"(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?", re.ASCII)


@unique
class DayOrder(StrEnum):
    """What the keeper says of dates like 3/5/2014."""

    DAY_FIRST = "day-first"
    MONTH_FIRST = "month-first"


class PartialDate(NamedTuple):
    """An ISO 8601 date of day, month or year precision; it sorts by the earliest day it can mean."""

    earliest: date
    latest: date
    text: str  # says nothing more: two dates of the same days are written alike

    @classmethod
    def parse(cls, text: str) -> PartialDate:
        """Read ``2014``, ``2014-05`` or ``2014-05-03``.

        :raises ValueError: for any other text or a day that does not exist.
        """
        found = _SHAPE.fullmatch(text.strip())
        if found is None:
            message = f"'{text}' is not a date like 2014, 2014-05 or 2014-05-03"
            raise ValueError(message)
        year, month, day = (int(part) if part else None for part in found.groups())
        try:
            first = date(year or 0, 1 if month is None else month, 1 if day is None else day)
        except ValueError:
            message = f"'{text}' is no day of the calendar"
            raise ValueError(message) from None
        if day is not None:
            return cls(first, first, text.strip())
        import calendar

        last_month = month or 12
        last = date(first.year, last_month, calendar.monthrange(first.year, last_month)[1])
        return cls(first, last, text.strip())

    @classmethod
    def of(cls, day: date) -> PartialDate:
        return cls(day, day, day.isoformat())

    def __str__(self) -> str:
        return self.text
