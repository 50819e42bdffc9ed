"""Which column of a keeper's table is what: guessed from the header, shown, and overridden by the keeper."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from namekeeper.words.errors import InputError, Place

#: Fields as the command names them, with header words (folded) that mean them; terms of Darwin Core and ColDP first.
HEADERS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "id": ("taxonid", "id", "speciesid", "usageid", "nameid", "key"),
        "name": ("scientificname", "canonicalname", "name", "taxon", "speciesname", "fullname", "binomial"),
        "authorship": ("scientificnameauthorship", "authorship", "authority", "authoryear"),
        "status": ("taxonomicstatus", "status", "taxonstatus"),
        "accepted_id": ("acceptednameusageid", "acceptedid", "acceptedtaxonid", "validid"),
        "accepted_name": ("acceptednameusage", "acceptedname", "validname", "acceptedscientificname"),
        "parent_id": ("parentnameusageid", "parentid"),
        "rank": ("taxonrank", "rank"),
        "common": ("vernacularname", "commonname", "common", "trivialname", "commonnames"),
        "language": ("language", "lang"),
        "range": ("distribution", "range", "locality", "countries", "country"),
        "original_genus": ("originalgenus", "basionymgenus"),
        "remarks": ("taxonremarks", "remarks", "notes", "note"),
        "family": ("family",),
        "order": ("order",),
        "class": ("class",),
        "kingdom": ("kingdom",),
        "genus": ("genericname", "genus"),
        "epithet": ("specificepithet", "epithet", "species"),
        "infraspecific": ("infraspecificepithet", "subspecies"),
        "author": ("author", "authors"),
        "year": ("year", "namepublishedinyear"),
        "brackets": ("parentheses", "brackets"),
    }
)


def guess(header: Sequence[str], chosen: Mapping[str, str], file: str) -> dict[str, int]:
    """Column (from 0) of each field that the table has; ``chosen`` are headers the keeper named.

    :raises InputError: for a field or header that does not exist, or a table without names.
    """
    folded = [_folded(cell) for cell in header]
    places: dict[str, int] = {}
    for field, wanted in chosen.items():
        places[field] = _chosen(field, wanted, header, folded, file)
    for field, words in HEADERS.items():
        if field not in places:
            found = next((folded.index(word) for word in words if word in folded), None)
            if found is not None and found not in places.values():
                places[field] = found
    if "name" not in places and not {"genus", "epithet"} <= places.keys():
        raise InputError(
            f"no column of names among: {', '.join(header)}",  # noqa: EM102
            remedy="name it: --column name=HEADER",
            place=Place(file, 1),
        )
    return places


def _chosen(field: str, wanted: str, header: Sequence[str], folded: Sequence[str], file: str) -> int:
    if field not in HEADERS:
        near = difflib.get_close_matches(field, HEADERS, n=1)
        message = f"there is no field '{field}'"
        raise InputError(message, remedy=f"did you mean '{near[0]}'?" if near else f"fields: {', '.join(HEADERS)}")
    if wanted in header:
        return header.index(wanted)
    if _folded(wanted) in folded:
        return folded.index(_folded(wanted))
    message = f"there is no column '{wanted}'"
    raise InputError(message, remedy=f"columns: {', '.join(header)}", place=Place(file, 1))


def _folded(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.rpartition(":")[2].casefold())
