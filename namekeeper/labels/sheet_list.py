"""Sheets as they are written down: a line of ``sheets.yaml`` or of a keeper's settings, read and checked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

import yaml

from namekeeper.labels.sheets import SAFE_EDGE, StickerSheet
from namekeeper.labels.yaml_texts import texts_of
from namekeeper.words.errors import FileError, InputError, Place

MM_PER_INCH = Fraction(254, 10)  # exact since the international yard of 1959
DEFAULT_SHEET = "a4-3x8-70x37"
PAPERS = {"a4": (Fraction(210), Fraction(297)), "letter": (Fraction(2159, 10), Fraction(2794, 10))}

_LENGTH = re.compile(r"(?:(\d+(?:\.\d+)?)(?:\s+(\d+)/(\d+))?|(\d+)/(\d+))\s*(in|mm)?", re.ASCII)
_GRID = re.compile(r"(\d{1,3})\s*x\s*(\d{1,3})", re.ASCII)
_ROLL = re.compile(r"roll-(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)", re.ASCII)
_KEY = re.compile(r"[a-z0-9][a-z0-9.-]{0,59}", re.ASCII)
_FIELDS = {"paper", "grid", "label", "first", "pitch", "marks", "edge"}


def length(text: object) -> Fraction:
    """``70``, ``99.1``, ``5/32 in`` or ``4 3/16 in`` in mm, exact.

    :raises ValueError: for anything else.
    """
    found = _LENGTH.fullmatch(str(text).strip())
    if found is None:
        message = f"'{text}' is no length such as 70, 99.1 or 4 3/16 in"
        raise ValueError(message)
    whole, top, bottom, alone_top, alone_bottom, unit = found.groups()
    divisor = bottom or alone_bottom
    if divisor is not None and int(divisor) == 0:
        message = f"'{text}' divides by nought"
        raise ValueError(message)
    value = Fraction(whole or 0)
    if divisor is not None:
        value += Fraction(int(top or alone_top), int(divisor))
    return value * MM_PER_INCH if unit == "in" else value


def sheet_from(key: str, fields: object, place: Place) -> StickerSheet:
    """A sheet from the fields of its YAML entry.

    :raises InputError: naming the key and what is wrong with it.
    """
    remedy = "see label_templates/sheets.yaml for how a sheet is written"
    if not isinstance(fields, Mapping):
        what = f"sheet '{key}' has no fields"
        raise InputError(what, remedy=remedy, place=place)
    unknown = sorted(str(name) for name in set(fields) - _FIELDS)
    if unknown:
        what = f"sheet '{key}' has an unknown field '{unknown[0]}'"
        raise InputError(what, remedy=f"fields are {', '.join(sorted(_FIELDS))}", place=place)
    try:
        if not _KEY.fullmatch(key):
            message = "a key has only small letters, digits, points and hyphens"
            raise ValueError(message)
        sheet = _measured(key, fields)
    except ValueError as fault:
        what = f"sheet '{key}': {fault}"
        raise InputError(what, remedy=remedy, place=place) from None
    if faults := sheet.faults():
        what = f"sheet '{key}' does not fit its paper: {faults[0]}"
        raise InputError(what, remedy="measure the sheet again", place=place)
    return sheet


def _measured(key: str, fields: Mapping[str, object]) -> StickerSheet:
    missing = [name for name in ("paper", "grid", "label", "first") if name not in fields]
    if missing:
        message = f"'{missing[0]}' is missing"
        raise ValueError(message)
    grid = _GRID.fullmatch(str(fields["grid"]).strip())
    if grid is None:
        message = f"'{fields['grid']}' is no grid such as 3x8"
        raise ValueError(message)
    paper = fields["paper"]
    width, height = _pair(fields["label"])
    left, top = _pair(fields["first"])
    pitch_x, pitch_y = _pair(fields["pitch"]) if "pitch" in fields else (width, height)
    marks = str(fields.get("marks", "no")).strip().casefold()
    if marks not in ("yes", "no", "true", "false"):
        message = f"marks is yes or no, not '{marks}'"
        raise ValueError(message)
    return StickerSheet(
        key=key,
        paper=PAPERS[paper] if isinstance(paper, str) and paper in PAPERS else _pair(paper),
        columns=int(grid[1]),
        rows=int(grid[2]),
        width=width,
        height=height,
        left=left,
        top=top,
        pitch_x=pitch_x,
        pitch_y=pitch_y,
        marks=marks in ("yes", "true"),
        edge=length(fields["edge"]) if "edge" in fields else SAFE_EDGE,
    )


def _pair(value: object) -> tuple[Fraction, Fraction]:
    if not isinstance(value, list) or len(value) != 2:
        message = f"'{value}' should be two lengths such as [70, 37]"
        raise ValueError(message)
    return length(value[0]), length(value[1])


def shipped_sheets(folder: Path) -> dict[str, StickerSheet]:
    """The sheets of ``sheets.yaml`` in the folder of shipped templates, in file order.

    :raises FileError: if the file cannot be read.
    """
    path = folder / "sheets.yaml"
    try:
        entries = texts_of(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, yaml.YAMLError) as fault:
        what = f"the list of sheets cannot be read: {fault}"
        raise FileError(what, remedy="install namekeeper again", place=Place(str(path))) from None
    if not isinstance(entries, Mapping):
        raise FileError("the list of sheets is empty", remedy="install namekeeper again", place=Place(str(path)))
    return {key: sheet_from(key, fields, Place(str(path))) for key, fields in entries.items()}


def choose_sheet(key: str, sheets: Mapping[str, StickerSheet]) -> StickerSheet:
    """The sheet of that key; ``roll-WIDTHxHEIGHT`` needs no entry.

    :raises InputError: for an unknown key, with the keys that look alike.
    """
    if key in sheets:
        return sheets[key]
    roll = _ROLL.fullmatch(key)
    if roll is not None:
        size = [roll[1], roll[2]]
        fields = {"paper": size, "grid": "1x1", "label": size, "first": ["0", "0"], "edge": "1.5"}
        return sheet_from(key, fields, Place())
    from rapidfuzz import process

    near = [str(found[0]) for found in process.extract(key, list(sheets), limit=3)]
    what = f"there is no sheet '{key}'"
    raise InputError(what, remedy=f"did you mean {', '.join(near)}? labels --sheets lists all")
