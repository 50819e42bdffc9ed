"""World Spider Catalog, after its page of data resources and CatalogueOfLife/coldp-generator@af4dd5b.

There ``wsc/Generator.java`` reads the replies. ``validTaxon`` stands within ``taxon``. A species that was moved keeps
its identifier and has no entry for its old name. 403 is how it refuses; pages of updates end without ``next``.
"""

from __future__ import annotations

from typing import Any

from tests.services.faithful.catalogue import Usage, usages
from tests.services.local_server import Asked, Canned

_PAGE = 2
_SPIDERS = (("order", "Araneae"), ("family", "Theraphosidae"), ("genus", "Aphonopelma"))
# The identifier by which our adapter tries the service, whose reply is on record; the valid name is invented.
_PROBED = {
    f"urn:lsid:nmbe.ch:spidersp:{number:06d}": Usage(f"X{number}", name, author, "species", "X1724", _SPIDERS)
    for number, name, author in (
        (1720, "Aphonopelma cryptethum", "Chamberlin, 1940"),
        (1724, "Aphonopelma exemplare", "Author, 1900"),
    )
}
#: What the catalogue says that it changed, whatever the day.
CHANGED: list[str] = []


def answer(asked: Asked) -> Canned:
    """What the server says; 404 for paths that our adapters do not ask."""
    if not asked.query.get("apiKey"):
        return Canned(status=403)
    if asked.path.endswith("/api/updates"):
        return Canned.json(updates(CHANGED, int(asked.query.get("page", "1"))))
    end = asked.path.rpartition("/")[2]
    if end in _PROBED:
        return Canned.json(entry(_PROBED[end]))
    found = next((one for one in usages().values() if one.is_spider and one.lsid == end), None)
    return Canned(status=404) if found is None or found.rank == "genus" else Canned.json(entry(found))


def entry(usage: Usage) -> dict[str, Any]:
    """A species as the catalogue's API prints it."""
    genus, *rest = usage.name.split()
    line = dict(usage.line)
    taxon: dict[str, Any] = {
        "species": rest[0], "subspecies": rest[1] if len(rest) > 1 else "", "author": usage.authorship,
        "taxonRank": usage.rank, "status": "VALID" if usage.in_force else "SYNONYM", "genus": genus,
        "genusObject": {"genus": genus, "author": "", "genLsid": "urn:lsid:nmbe.ch:spidergen:00000"},
        "family": line.get("family", ""), "familyObject": {"family": "", "author": "", "famLsid": ""},
        "distribution": "", "lsid": usage.lsid, "referenceObject": {"reference": "", "doi": "", "pageDescription": ""},
    }  # fmt: skip
    if not usage.in_force:
        taxon["validTaxon"] = {"_href": f"https://wsc.nmbe.ch/api/lsid/{_lsid_of_valid(usage)}"}
    return {"taxon": taxon}


def _lsid_of_valid(usage: Usage) -> str:
    return f"urn:lsid:nmbe.ch:spidersp:{int(usage.accepted[1:]):06d}"


def updates(changed: list[str], page: int) -> dict[str, Any]:
    """A page of identifiers."""
    address = "https://wsc.nmbe.ch/api/updates?page="
    links = {"self": f"{address}{page}"}
    if page * _PAGE < len(changed):
        links |= {"next": f"{address}{page + 1}", "last": f"{address}{-(-len(changed) // _PAGE)}"}
    return {"updates": changed[(page - 1) * _PAGE : page * _PAGE], "_links": links}
