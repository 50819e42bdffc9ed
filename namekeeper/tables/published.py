"""What of a collection may leave it in an archive that is published, and under whose name."""

from __future__ import annotations

from collections.abc import Collection as Several
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType
from typing import NamedTuple

from namekeeper.reading.tag import read_tag
from namekeeper.records.specimen import Specimen

#: Fields that leave only by the keeper's word: who sold the animal and for how much, where it stands, notes, permits.
PRIVATE = ("from", "place", "note", "price", "papers")


class LowestName(NamedTuple):
    """The lowest name that is known of an animal, and its rank."""

    name: str
    rank: str


class Licence(NamedTuple):
    """A licence by its SPDX identifier, its title and address."""

    identifier: str
    title: str
    url: str


#: The licences under which GBIF takes data (gbif.org/terms), by SPDX identifier (spdx.org/licenses).
LICENCES: Mapping[str, Licence] = MappingProxyType(
    {
        one.identifier.casefold(): one
        for one in (
            Licence(
                "CC0-1.0",
                "Creative Commons Zero 1.0 Universal",
                "https://creativecommons.org/publicdomain/zero/1.0/legalcode",
            ),
            Licence(
                "CC-BY-4.0",
                "Creative Commons Attribution 4.0 International",
                "https://creativecommons.org/licenses/by/4.0/legalcode",
            ),
            Licence(
                "CC-BY-NC-4.0",
                "Creative Commons Attribution Non Commercial 4.0 International",
                "https://creativecommons.org/licenses/by-nc/4.0/legalcode",
            ),
        )
    }
)
#: No animal here is known to be less than that.
_ANIMAL = LowestName("Animalia", "kingdom")


@dataclass(frozen=True, slots=True)
class Publication:
    """How a collection is published.

    :param shared: of :data:`PRIVATE`, what the keeper lets go.
    :param ids: identifiers that are unique beyond the collection, by specimen.
    :param known: for animals whose label has no name yet, the lowest name that their tag leaves no doubt of.
    """

    today: date
    licence: str = ""
    rights_holder: str = ""
    shared: frozenset[str] = frozenset()
    ids: Mapping[str, str] = field(default_factory=dict)
    known: Mapping[str, LowestName] = field(default_factory=dict)

    def id_of(self, specimen: str) -> str:
        """The published identifier of a specimen."""
        return self.ids.get(specimen, specimen)

    def known_of(self, specimen: str) -> LowestName:
        """What is known of an animal without a name."""
        return self.known.get(specimen, _ANIMAL)


def shareable(specimen: Specimen, shared: Several[str], parents: Several[str]) -> Specimen:
    """The specimen without what is not shared; animals of the collection (``parents``) are no sellers and stay."""
    hidden = [key for key in PRIVATE if key not in shared]
    changes: dict[str, object] = {}
    if "from" in hidden:
        changes["origin"] = tuple(origin for origin in specimen.origin if origin in parents)
    if "place" in hidden:
        changes["stands_at"] = ""
    if "price" in hidden:
        changes |= {"price": "", "tag": _without_price(specimen.tag)}
    if "papers" in hidden:
        changes["papers"] = ()
    if "note" in hidden:
        changes |= {
            "note": "",
            "names": tuple(entry._replace(note="") for entry in specimen.names),
            "decisions": tuple(decision._replace(note="") for decision in specimen.decisions),
        }
    return replace(specimen, **changes)  # type: ignore[arg-type]


def _without_price(tag: str) -> str:
    """The seller's text word for word but for the price."""
    text = tag
    for span in sorted(read_tag(tag).spans, key=lambda span: -span.start):
        if span.field == "price":
            text = f"{text[: span.start].rstrip()} {text[span.end :].lstrip()}".strip()
    return text
