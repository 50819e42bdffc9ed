"""What a keeper may set for labels in ``collection.yaml``, under ``labels`` and ``printer``."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from namekeeper.labels.pages import Correction
from namekeeper.labels.sheet_list import DEFAULT_SHEET, sheet_from
from namekeeper.labels.sheets import StickerSheet
from namekeeper.words.errors import InputError, Place
from namekeeper.words.terms import LabelOrder

PLACE = Place("collection.yaml")
_KEYS = {"sheet", "template", "order", "qr", "cautions", "was", "language", "copies", "printer", "sheets"}
_PRINTER_KEYS = {"offset", "scale"}
_DIGITS = 9
_DECIMAL = re.compile(rf"[+-]?\d{{0,{_DIGITS}}}(?:\.\d{{0,{_DIGITS}}})?(?:/\d{{1,{_DIGITS}}})?", re.ASCII)


@dataclass(frozen=True, slots=True)
class LabelSettings:
    """Defaults of a collection. ``square`` is ``auto``, ``no`` or a pattern with ``{id}``."""

    sheet: str = DEFAULT_SHEET
    template: str = "enclosure"
    order: LabelOrder = LabelOrder.ID
    square: str = "auto"
    cautions: bool = True
    former: bool = True
    language: str = "en"
    copies: int = 1
    printer: str = ""
    printers: Mapping[str, Correction] = field(default_factory=dict)
    sheets: Mapping[str, StickerSheet] = field(default_factory=dict)

    def correction(self, name: str | None, sheet: StickerSheet) -> Correction:
        """Of the printer asked for, else of the usual one, else none.

        A printer without a name is the one for sheets of paper; rolls go through another.

        :raises InputError: for a printer nobody described.
        """
        wanted = name or self.printer
        if not wanted:
            return Correction() if sheet.is_roll else self.printers.get("", Correction())
        if wanted not in self.printers:
            known = ", ".join(name for name in self.printers if name) or "none"
            what = f"there is no printer '{wanted}'"
            raise InputError(what, remedy=f"describe it under printer: (known: {known})", place=PLACE)
        return self.printers[wanted]


def label_settings(raw: Mapping[str, object]) -> LabelSettings:
    """The settings from the text of the keys.

    :raises InputError: naming the key that cannot be read.
    """
    labels = _mapping(raw.get("labels", {}), "labels")
    _known(labels, _KEYS, "labels")
    texts = {name: str(labels[name]) for name in ("sheet", "template", "language", "printer") if name in labels}
    sheets = _mapping(labels.get("sheets", {}), "labels: sheets")
    return LabelSettings(
        **texts,
        order=LabelOrder(_one_of(str(labels.get("order", LabelOrder.ID)), tuple(LabelOrder), "labels: order")),
        square=str(labels.get("qr", "auto")),
        cautions=_yes(labels.get("cautions", "yes"), "labels: cautions"),
        former=_yes(labels.get("was", "yes"), "labels: was"),
        copies=_whole(labels.get("copies", "1"), "labels: copies"),
        printers=_printers(_mapping(raw.get("printer", {}), "printer")),
        sheets={str(key): sheet_from(str(key), fields, PLACE) for key, fields in sheets.items()},
    )


def _one_of(text: str, words: tuple[str, ...], what: str) -> str:
    if text in words:
        return text
    message = f"{what} is one of {', '.join(words)}, not '{text}'"
    raise InputError(message, remedy="correct it", place=PLACE)


def _printers(fields: Mapping[str, object]) -> dict[str, Correction]:
    """One printer without a name (its numbers stand directly under ``printer``), or several by name."""
    if not set(fields) - _PRINTER_KEYS:
        return {"": _correction(fields, "printer")} if fields else {}
    named = ((str(name), f"printer: {name}", value) for name, value in fields.items())
    return {name: _correction(_mapping(value, what), what) for name, what, value in named}


def _correction(fields: Mapping[str, object], what: str) -> Correction:
    _known(fields, _PRINTER_KEYS, what)
    offset = _two(fields.get("offset", ["0", "0"]), f"{what}: offset", -20, 20)
    scale = _two(fields.get("scale", ["1", "1"]), f"{what}: scale", 0.9, 1.1)
    return Correction(*offset, *scale)


def _two(value: object, what: str, low: float, high: float) -> tuple[Fraction, Fraction]:
    try:
        # Without an exponent, and short: 1e999999999 is a number that no memory holds.
        numbers = (
            [Fraction(text) for text in map(str, value) if _DECIMAL.fullmatch(text)] if isinstance(value, list) else []
        )
    except (ValueError, ZeroDivisionError):
        numbers = []
    if len(numbers) != 2 or not all(low <= number <= high for number in numbers):
        message = f"{what} should be two numbers from {low} to {high}, such as [0.4, -1.2]"
        raise InputError(message, remedy="print the test page, it tells the numbers", place=PLACE)
    return numbers[0], numbers[1]


def _mapping(value: object, what: str) -> Mapping[str, object]:
    if isinstance(value, Mapping):
        return value
    message = f"{what} should be keys with values"
    raise InputError(message, remedy="see DEVELOPERS.md or the sample collection", place=PLACE)


def _known(fields: Mapping[str, object], allowed: set[str], what: str) -> None:
    if unknown := sorted(set(map(str, fields)) - allowed):
        message = f"{what} has an unknown key '{unknown[0]}'"
        raise InputError(message, remedy=f"keys are {', '.join(sorted(allowed))}", place=PLACE)


def _yes(value: object, what: str) -> bool:
    return _one_of(str(value).casefold(), ("yes", "no", "true", "false", "on", "off"), what) in ("yes", "true", "on")


def _whole(value: object, what: str) -> int:
    text = str(value)
    if text.isascii() and text.isdigit() and len(text) <= _DIGITS and 1 <= int(text) <= 1000:
        return int(text)
    message = f"{what} should be a whole number from 1 to 1000, not '{value}'"
    raise InputError(message, remedy="correct it", place=PLACE)
