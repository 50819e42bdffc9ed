"""What one result of ChecklistBank's name search holds, as a row of a list."""

from __future__ import annotations

import html
import re
from collections.abc import Mapping
from typing import Any

from namekeeper.files.lenient_json import list_in, mapping_in, text_in
from namekeeper.sources.lists.folding import folded, status_of
from namekeeper.sources.lists.incoming import UsageRow

_TAG = re.compile(r"<[^<>]{0,200}>")


def id_of(result: Mapping[str, Any]) -> str:
    """The catalogue's identifier of the name, "" if there is none."""
    return text_in(result, "id") or text_in(mapping_in(result.get("usage")), "id")


def usage_row(line: int, result: Mapping[str, Any]) -> UsageRow:
    """The name as a row of a list."""
    usage = mapping_in(result.get("usage"))
    name = mapping_in(usage.get("name"))
    status = text_in(usage, "status")
    above = {
        text_in(mapping_in(taxon), "rank"): text_in(mapping_in(taxon), "name")
        for taxon in list_in(result.get("classification"))
    }
    parent = text_in(usage, "parentId") or text_in(mapping_in(usage.get("accepted")), "id")
    known = status_of(status)
    sunk = known is not None and known.value not in ("accepted", "unavailable")
    return UsageRow(
        line=line, key=id_of(result), name=text_in(name, "scientificName"),
        authorship=text_in(name, "authorship"), rank=text_in(name, "rank"), status=status,
        accepted_key=parent if sunk else "", parent_key="" if sunk else parent, family=above.get("family", ""),
        order=above.get("order", ""), class_=above.get("class", ""), kingdom=above.get("kingdom", ""),
        code=text_in(name, "code"), name_status=text_in(name, "nomStatus"), remarks=text_in(usage, "remarks"),
        link=text_in(usage, "link"),
    )  # fmt: skip


def is_named(result: Mapping[str, Any], taxon: str) -> bool:
    """Whether it is that very name."""
    return folded(text_in(mapping_in(mapping_in(result.get("usage")).get("name")), "scientificName")) == folded(taxon)


def is_animal(result: Mapping[str, Any]) -> bool:
    """Whether the catalogue places it among the animals, or does not place it."""
    names = [text_in(mapping_in(taxon), "name") for taxon in list_in(result.get("classification"))]
    return "Animalia" in names or not names


def plain_text(citation: str) -> str:
    """A citation without the HTML in which the catalogue sends it; its plain form is not sent (``Dataset.java``)."""
    return " ".join(html.unescape(_TAG.sub("", citation)).split())
