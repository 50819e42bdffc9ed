"""What one label says, before it is known how much of it fits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from namekeeper.labels.text import Variant
from namekeeper.words.errors import Place


@dataclass(frozen=True, slots=True)
class LabelContent:
    """Fields of one label; each has variants from the fullest to the smallest, an absent field has none.

    ``printed_name`` is what is recorded as standing on the enclosure once the label is printed.
    """

    specimen: str
    place: Place
    printed_name: str
    fields: Mapping[str, tuple[Variant, ...]]
    square: str = ""  # payload of the QR code
    square_wanted: bool = False  # asked for by the keeper: then it is refused rather than left out
