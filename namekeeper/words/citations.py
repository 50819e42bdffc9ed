"""Citations of papers, shortened for sentences and small print; data always keep them whole."""

from __future__ import annotations

import re

_TO_YEAR = re.compile(r"(?P<authors>[^;()]*?),? \(?(?P<year>(?:1[789]|20)\d\d[a-z]?)\b\)?")
_INITIALS = re.compile(r",(?: ?\b[A-ZÀ-Þ]\w{0,2}\.-?)+(?=[ ,&]|$)")


def short_citation(citation: str) -> str:
    """Authors without initials, and the year; a citation without authors and year in front stays as it is.

    >>> short_citation("Mendoza, J. & Francke, O. F. (2020). Systematic revision of Mexican Brachypelma. Zool. J.")
    'Mendoza & Francke 2020'
    """
    found = _TO_YEAR.match(citation)
    if found is None or not found["authors"]:
        return citation
    return f"{_INITIALS.sub('', found['authors'])} {found['year']}"
