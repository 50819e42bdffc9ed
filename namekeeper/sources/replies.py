"""A reply of a service as a value, and the marks by which the service knows it again. No network."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from email.utils import parsedate_to_datetime

# RFC 9110, 8.8.3; what does not look so is not sent back, since some could break a request.
_TAG = re.compile(r'(?:W/)?"[\x21\x23-\x7e]{0,200}"')
_LONGEST_DATE = 40


@dataclass(frozen=True, slots=True)
class Marks:
    """The validators of a reply (RFC 9110, 8.8): sent back, they let a service say "not changed" and no more."""

    etag: str = ""
    last_modified: str = ""

    @classmethod
    def among(cls, headers: Mapping[str, object]) -> Marks:
        """Those in the headers of a reply that are well formed."""
        etag, date = (str(headers.get(name, "")).strip() for name in ("ETag", "Last-Modified"))
        return cls(etag if _TAG.fullmatch(etag) else "", date if _is_date(date) else "")

    def headers(self) -> dict[str, str]:
        """As a reply carries them."""
        return _present({"ETag": self.etag, "Last-Modified": self.last_modified})

    def conditions(self) -> dict[str, str]:
        """As a question carries them (RFC 9110, 13.1)."""
        return _present({"If-None-Match": self.etag, "If-Modified-Since": self.last_modified})


#: Of a reply that a service does not know again.
NO_MARKS = Marks()


@dataclass(frozen=True, slots=True)
class WebReply:
    """The JSON document of a reply; ``unchanged`` if the service says that the one with these marks still holds."""

    document: object
    marks: Marks = NO_MARKS
    unchanged: bool = False


@dataclass(frozen=True, slots=True)
class Held:
    """A kept answer and when it last came from the service or was confirmed by it (aware, UTC)."""

    document: object
    retrieved: datetime
    marks: Marks = NO_MARKS


def _present(headers: Mapping[str, str]) -> dict[str, str]:
    return {name: value for name, value in headers.items() if value}


def _is_date(text: str) -> bool:
    try:
        parsedate_to_datetime(text)
    except (ValueError, TypeError, IndexError):
        return False
    return text.isascii() and text.isprintable() and len(text) <= _LONGEST_DATE
