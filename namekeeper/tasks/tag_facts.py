"""What a tag says of the animal beside its name, put into the fields of its file where these are still empty."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from namekeeper.evidence.interfaces import NameList
from namekeeper.reading.reading import Reading
from namekeeper.records.specimen import Sex, Specimen
from namekeeper.tasks.lookup import look_up


class ReadOff(NamedTuple):
    """What was read from a tag: ``taken`` by key of the file, ``left`` by what it is and with no key of its own."""

    taken: Mapping[str, str]
    left: Mapping[str, str]


NOTHING_READ = ReadOff({}, {})


def read_tags_of(specimens: Sequence[Specimen], lists: Sequence[NameList]) -> tuple[tuple[Specimen, ReadOff], ...]:
    """Each specimen with its empty fields filled from its tag; equal tags are read once."""
    tags = dict.fromkeys(specimen.tag for specimen in specimens if specimen.tag.strip())
    readings = {looked.tag: looked.reading for looked in look_up(tags, lists, guarded=True)}
    return tuple(
        _filled(specimen, readings[specimen.tag]) if specimen.tag in readings else (specimen, NOTHING_READ)
        for specimen in specimens
    )


def _filled(specimen: Specimen, reading: Reading) -> tuple[Specimen, ReadOff]:
    said = {
        "sex": reading.sex,
        "stage": " ".join(filter(None, (reading.stage, reading.instar))),
        "locality": reading.locality,
        "size": _written(reading, "size"),
        "price": reading.price if any(map(str.isdigit, reading.price)) else "",  # "sold" is no price
        "from": reading.seller,
    }
    filled_in = {"from": specimen.origin, **{key: getattr(specimen, key) for key in said if key != "from"}}
    taken = {key: text for key, text in said.items() if text and not filled_in[key]}
    filled = replace(
        specimen,
        sex=Sex.parse(taken["sex"]) if "sex" in taken else specimen.sex,
        stage=taken.get("stage", specimen.stage),
        locality=taken.get("locality", specimen.locality),
        size=taken.get("size", specimen.size),
        price=taken.get("price", specimen.price),
        origin=(taken["from"],) if "from" in taken else specimen.origin,
    )
    left = {"trade form": reading.trade_form, "source": reading.source_mark}
    return filled, ReadOff(taken, {what: text for what, text in left.items() if text})


def _written(reading: Reading, field: str) -> str:
    """The words of the tag for a field, as they stand there."""
    return " ".join(_parts(reading, field))


def _parts(reading: Reading, field: str) -> Iterable[str]:
    return (reading.tag[span.start : span.end].strip() for span in reading.spans if span.field == field)
