"""The name in a row of a keeper's table: put together from its columns, its doubt kept, and read as an entry."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from namekeeper.records.specimen import NameEntry
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError
from namekeeper.words.name_parts import NOTHING, NameParts, whole_authorship, whole_name
from namekeeper.words.parsing import parse_typed_name

#: Signs of doubt that go before an epithet (Darwin Core: identificationQualifier); any other word of doubt is "?".
_SIGNS = re.compile(r"(?<!\w)(cf|aff|nr|near|prox|sp|spp|ssp|gr|agg|s\.? ?l|s\.? ?str)(?!\w)\.?", re.IGNORECASE)
_AS_SIGN = {"near": "nr.", **{sign: f"{sign}." for sign in ("prox", "cf", "aff", "nr", "sp", "spp")}}
_FORM = re.compile(r"""["“„']([^"“”„']{2,60})["”“']\s*$""")


def written_name(cells: Mapping[str, str]) -> str:
    """The name as the row gives it, whole or in parts; empty if it gives none."""
    return whole_name(cells.get("name", ""), _parts(cells))


def named_entry(written: str, cells: Mapping[str, str], since: PartialDate | None, today: date) -> NameEntry:
    """The entry of a name as written in a table.

    :raises InputError: if it is no name, or not only a name.
    """
    name = parse_typed_name(written)
    unread = _words(written) - _words(str(name))
    lone = written.islower() and written.isalpha()
    if unread or lone:
        what = f"'{written}' is more than a name: '{' '.join(sorted(unread)) or written}' is no part of one"
        raise InputError(what)
    told = cells.get("qualifier", "").strip()
    form = _FORM.search(told)
    qualifier, doubt = _doubt("" if told.casefold() in NOTHING else told[: form.start() if form else None].strip())
    authorship = (
        str(name.authorship) if name.authorship else whole_authorship(cells.get("authorship", ""), _parts(cells))
    )
    notes = (f"as written in the table: {written}" if str(name) != written else "", doubt)
    return NameEntry(
        name.canonical,
        authorship,
        since,
        PartialDate.of(today),
        decided_by=cells.get("decided_by", "").strip(),
        qualifier=name.qualifier or qualifier,
        trade_form=name.trade_form or (form[1] if form else ""),
        note="; ".join(filter(None, notes)),
    )


def _doubt(text: str) -> tuple[str, str]:
    """The sign for what a column says of doubt, and its words where they say more than the sign."""
    if not text:
        return "", ""
    found = _SIGNS.search(text)
    sign = _AS_SIGN.get(found[1].casefold(), "?") if found else "?"
    more = text.casefold().strip(" .") != sign.strip(" .")
    return sign, f"identification: {text}" if more else ""


def _parts(cells: Mapping[str, str]) -> NameParts:
    return NameParts(**{part: cells[part] for part in NameParts._fields if part in cells})


def _words(text: str) -> set[str]:
    return set(re.findall(r"\w+", text.casefold()))
