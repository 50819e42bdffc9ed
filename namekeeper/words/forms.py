"""The form of a name that comes from elsewhere: what is no name is never taken for one, and never printed.

Articles are those of the International Code of Zoological Nomenclature, 4th edition (1999).
"""

from __future__ import annotations

import re

_L = "A-Za-z\u00c0-\u00d6\u00d8-\u00f6\u00f8-\u017f"  # Latin letters, also with the marks that Art. 27 forbids today
_EPITHET = rf"(?:\d{{1,2}}-?)?[{_L}]+(?:[-'’][{_L}]+)*"
#: One word for a genus or above, two for a species, three for a subspecies (Art. 4, 5); perhaps a subgenus (Art. 6.1).
_NAME = re.compile(rf"(?P<first>[{_L}]{{2,}}(?:-[{_L}]+)*)(?: \([{_L}-]+\))?(?P<epithets>(?: {_EPITHET}){{0,2}})")
_CONTROL = re.compile("[\x00-\x1f\x7f-\x9f\ud800-\udfff]")
#: Letters that are not seen, or turn a line round.
_UNSEEN = re.compile("[\u00ad\u061c\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffd]")
_BESIDE_NAMES = re.compile(f"[{_L}0-9 ×†?.,:;()'’/-]*")
_MARKUP = re.compile("[<>]|&#?[0-9A-Za-z]+;")


def canonical_of(text: str) -> str:
    """The name without a subgenus in brackets; "" if the text has not the form of a name (Art. 4, 5, 11.8, 11.9, 28).

    Capitals are part of the form: *POECILOTHERIA REGALIS* is no name as it stands.
    """
    found = _NAME.fullmatch(text)
    if found is None:
        return ""
    first, epithets = found["first"], found["epithets"]
    if not (first[0].isupper() and first[1:].islower() and epithets == epithets.lower()):
        return ""
    return first + epithets if all(len(word) > 1 for word in epithets.split()) else ""


def is_plain_line(text: str) -> bool:
    """Whether a text, such as an authorship, is what it looks like: no markup and nothing that is not seen."""
    unseen = not text.isprintable() and (has_control(text) or _UNSEEN.search(text))
    return not unseen and _MARKUP.search(text) is None


def strange_signs(text: str) -> tuple[str, ...]:
    """What makes a text no plain line, each once: markup as it stands, what is not seen by its code."""
    found = [*_MARKUP.findall(text), *_CONTROL.findall(text), *_UNSEEN.findall(text)]
    return tuple(dict.fromkeys(sign if sign.isprintable() else f"U+{ord(sign):04X}" for sign in found))


def is_latin(text: str) -> bool:
    """Whether a text has no letters but Latin ones, and no signs but those that stand beside names."""
    return is_plain_line(text) and _BESIDE_NAMES.fullmatch(text) is not None


def has_control(text: str) -> bool:
    """Whether signs that steer a screen or a printer, or halves of characters, stand in the text."""
    return not text.isprintable() and _CONTROL.search(text) is not None
