"""Names in their usual form, read where the name-parsing library cannot be had (it has no wheel for every machine).

The same fields as the library gives, of fewer forms: genus, subgenus, epithets, authors and year. What is of any other
form is no name here, never a wrong one; ``tests/words/test_plain_reader.py`` measures what is lost by it.
"""

from __future__ import annotations

import re
from typing import Any

_PARTICLE = r"(?:d[aeiou]|del|delle|della|den|der|des|dos|du|la|le|los|van|ven|von|zu|zum|zur)"
# What stands beside names in lower case and is no epithet.
_NO_EPITHET = rf"(?:{_PARTICLE}|aff|cf|nr|spp?|ssp|var|non|nec|nom|auctt?|sensu|incertae|sedis|recorded)(?![a-z-])"
_WORD = rf"(?!{_NO_EPITHET})[a-zà-öø-ÿ]{{2,}}(?:-[a-zà-öø-ÿ]+)*"
_SURNAME = r"(?:[dOL]['’])?(?=[\w'’-]*[a-zß-ÿĀ-ž]|[A-ZÀ-Þ]{3})[A-ZÀ-ÖØ-ÞĀ-ž][\w'’-]+(?:-[A-Z]\.)?"
_INITIALS = r"(?:[A-ZÀ-ÖØ-Þ]\w?\.[ -]?)*"
_AUTHOR = rf"(?:{_INITIALS}(?:{_PARTICLE} )*{_SURNAME}(?: (?:{_PARTICLE} )*{_SURNAME}){{0,2}}(?: et al\.)?)"
_AUTHORS = rf"{_AUTHOR}(?:(?:, | & | et | and ){_AUTHOR})*"
_AUTHORSHIP = rf"(?P<open>\()?(?P<authors>{_AUTHORS}),? (?P<year>(?:1[789]|20)\d\d)(?(open)\))"
_NAME = re.compile(
    rf"(?P<extinct>†\s?)?(?P<genus>[A-ZÀ-Þ][a-zà-ÿ]+(?:-[a-z]+)*\.?|[A-Z]\.)(?: \((?P<subgenus>[A-Za-z][a-z]+)\))?"
    rf"(?: (?P<qualifier>cf|aff|nr)\.)?(?: (?P<species>{_WORD}))?"
    rf"(?: (?:(?:subsp|ssp|var|f)\. )?(?P<infraspecific>{_WORD}))?(?: {_AUTHORSHIP})?"
)


def read_plainly(text: str) -> dict[str, Any] | None:
    """The fields of a name of a usual form; None for any other."""
    found = _NAME.fullmatch(text)
    if found is None or (found["qualifier"] and not found["species"]):
        return None
    part = "infraspecificEpithet" if found["infraspecific"] else "specificEpithet"
    authorship = {"authors": _authors(found["authors"] or ""), "year": found["year"] or ""}
    return {
        "rank": {"infraspecificEpithet": "SUBSPECIES"}.get(part, "SPECIES" if found["species"] else "GENUS"),
        "genus" if found["species"] else "uninomial": found["genus"],
        "infragenericEpithet": found["subgenus"],
        "specificEpithet": found["species"],
        "infraspecificEpithet": found["infraspecific"],
        "epithetQualifier": {"SPECIFIC": f"{found['qualifier']}."} if found["qualifier"] else {},
        "extinct": bool(found["extinct"]),
        "basionymAuthorship" if found["open"] else "combinationAuthorship": authorship,
    }


def _authors(text: str) -> list[str]:
    """As the library writes them: no blank behind initials, no name in capitals."""
    parts = [part for part in re.split(r", | & | et (?!al)| and | (?=et al\.)", text) if part]
    named = [part.title() if part.isupper() else part for part in parts]
    return [re.sub(r"(?<=\.) (?=[A-ZÀ-Þ])", "", part) for part in named]
